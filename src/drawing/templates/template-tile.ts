/**
 * One tile of a full-size template: part of a face at 1:1, with all that is needed to lay it down and join it.
 */
import { crosses, overlaps } from '../lettering.ts'
import { arrow } from '../linear-dimension.ts'
import { boundsOf, grown, markBox } from '../mark-bounds.ts'
import { hatch } from '../section.ts'
import { textRuns } from '../text-width.ts'
import {
  type DrawnDimension,
  drawingStyle,
  type LengthFormatter,
  type LineClass,
  type Mark,
  type Point,
  type Rect,
  type TextMark,
  type TextRun,
} from '../types.ts'
import type { TemplateShape } from './template-features.ts'
import { type GridTile, holdsRect, OVERLAP, paperSize } from './template-grid.ts'
import {
  freePlace,
  freeText,
  isFree,
  type Lettering,
  lineHeight,
  plain,
  type Taken,
  textAt,
  wrapped,
} from './template-lettering.ts'
import { MATCH_ARM, MATCH_DIAMOND, MATCH_LETTER, type Seam } from './template-marks.ts'
import type { TemplateWords } from './template-tiles.ts'

export interface TileRequest {
  readonly partKey: string
  /** of the whole face [mm] */
  readonly face: { readonly length: number; readonly width: number }
  readonly tile: GridTile
  readonly turned: boolean
  /** how many tiles the part has */
  readonly count: number
  readonly shapes: readonly TemplateShape[]
  readonly seams: readonly Seam[]
  readonly words: TemplateWords
  readonly format: LengthFormatter
}

/** A tile with its lower left corner at the origin, y up [mm]. */
export interface DrawnTile {
  readonly tile: GridTile
  readonly width: number
  readonly height: number
  readonly marks: readonly Mark[]
  readonly dimensions: readonly Omit<DrawnDimension, 'locates'>[]
  /** shapes whose words stand on the tile, and those that found no room for them */
  readonly labelled: readonly TemplateShape[]
  readonly unlabelled: readonly TemplateShape[]
}

const DATUM = 7 // mm, legs of the filled triangle in the datum corner
const POINTER = 11 // mm, arrow towards the datum corner
const POINTER_WORDS = 24 // mm, so that they break into two lines
const AROUND_LETTER = 2.5 // mm
const HATCH = 5 // mm between hatch lines: waste is seen, and ink is saved
const SAME = 0.001 // mm

/**
 * Converts places of the part to the tile's paper.
 *
 * Formula: shifted by the tile's corner; a turned part lies a quarter turn anticlockwise. Validity: any tile.
 * @param tile with its part of the face [mm]
 * @param turned as the whole part
 * @returns function from part [mm] to tile [mm]
 * @source common practice
 */
export const tilePlace =
  ({ rect }: GridTile, turned: boolean) =>
  ({ x, y }: Point): Point =>
    turned ? { x: rect.y + rect.height - y, y: x - rect.x } : { x: x - rect.x, y: y - rect.y }

/**
 * Draws a tile.
 *
 * Formula: part lines clipped to the tile; lettering where it touches nothing. Validity: any tile; words that find
 * no room are reported and not drawn.
 * @param request tile, shapes and seams [mm], words
 * @returns marks on paper [mm]
 * @source common practice
 */
export function drawTile(request: TileRequest): DrawnTile {
  const { tile, turned, shapes, seams, words, face } = request
  const { rect } = tile
  const toPaper = tilePlace(tile, turned)
  const size = paperSize(rect, turned)
  const line = (kind: LineClass, a: Point, b: Point): Mark => ({
    kind: 'line',
    class: kind,
    a: toPaper(a),
    b: toPaper(b),
  })
  const paperRect = ({ x, y, width, height }: Rect): Rect => {
    const corners = [toPaper({ x, y }), toPaper({ x: x + width, y: y + height })]
    return boundsOf(corners.map((corner) => ({ ...corner, width: 0, height: 0 })))
  }
  const drawn = shapes.filter(({ extent }) => overlaps(extent, rect))
  // A hole that the tile's edge cuts is whole on the neighbour. One that is whole nowhere keeps its cross, for its
  // middle is what is pricked.
  const hasMiddle = ({ extent }: TemplateShape) => isInside(centreOf(extent), rect)
  const shown = drawn.filter((shape) => !shape.circle || holdsRect(rect, shape.extent) || hasMiddle(shape))
  const features: Mark[] = shown.flatMap(({ lines, circle }): Mark[] => [
    ...lines.flatMap((one) => {
      const cut = clipped(one.a, one.b, rect)
      return cut ? [line(one.class, cut.a, cut.b)] : []
    }),
    ...(circle && holdsCircle(rect, circle)
      ? [
          {
            kind: 'circle' as const,
            class: 'dimension' as const,
            centre: toPaper(circle.centre),
            radius: circle.radius,
          },
        ]
      : []),
  ])
  const own = seams.filter(({ near, far }) => near === tile || far === tile)
  const borders = SIDES.map((side) => bordered(side, { tile, face, seams: own, words }))
  const outline = borders.map(({ kind, a, b }): Mark => line(kind === 'edge' ? 'visible' : 'phantom', a, b))
  const letters: TextMark[] = []
  const matches = own.flatMap((seam) =>
    seam.marks.flatMap(({ letter, at }) => {
      const away = seam.near === tile ? -MATCH_LETTER : MATCH_LETTER
      const spot = seam.across === 'length' ? { x: at.x + away, y: at.y } : { x: at.x, y: at.y + away }
      letters.push(textAt({ runs: plain(letter), size: 3.6 }, toPaper(spot), false))
      return matchMark(toPaper(at))
    }),
  )
  const hasDatum = rect.x < SAME && rect.y < SAME
  const datum: Mark[] = hasDatum
    ? [
        {
          kind: 'arrow',
          points: [
            { x: 0, y: 0 },
            { x: DATUM, y: 0 },
            { x: 0, y: DATUM },
          ].map(toPaper),
        },
      ]
    : []
  const marks: Mark[] = [...features, ...outline, ...matches, ...letters, ...datum]
  const taken: { boxes: Rect[]; lines: { a: Point; b: Point }[] } = {
    lines: [...features, ...outline].flatMap((mark) => (mark.kind === 'line' ? [mark] : [])),
    boxes: [
      ...shown.flatMap(({ circle, extent }) => (circle ? [paperRect(extent)] : [])),
      ...matches.map(markBox),
      // A letter beside other words would be read as one of them.
      ...letters.map(({ box }) => grown(box, AROUND_LETTER)),
      ...datum.map(markBox),
    ],
  }
  const add = (text: TextMark): void => {
    marks.push(text)
    taken.boxes.push(text.box)
  }
  const within = paperRect(visiblePart(tile, own))
  const channels = shown.flatMap(({ runs, extent }) => (runs ? [paperRect(inside(extent, rect))] : []))
  // Words that do not name a channel stay out of it.
  const offChannels: Taken = {
    lines: taken.lines,
    get boxes() {
      return [...taken.boxes, ...channels]
    },
  }
  const dimensions: Omit<DrawnDimension, 'locates'>[] = []
  const labelled: TemplateShape[] = []
  const unlabelled: TemplateShape[] = []

  if (hasDatum) {
    const text = freeText({ runs: plain(words.datum) }, toPaper({ x: 16, y: 8 }), within, offChannels, 60)
    if (text) add(text)
  }
  const seen = new Set<string>()
  for (const shape of shown) {
    // Alike holes side by side say the same thing; one note a tile is enough. Each channel has its own.
    const alike = shape.circle ? `${shape.kind} ${shape.size.metres.toFixed(6)}` : shape.name
    if (seen.has(alike)) continue
    const { runs, value } = label(request, shape)
    const text = shape.circle
      ? freeText(
          { runs },
          toPaper({ x: shape.circle.centre.x, y: shape.circle.centre.y + 9 }),
          within,
          offChannels,
          40,
        )
      : channelText({ runs }, paperRect(inside(shape.extent, rect)), within, taken)
    if (!text) {
      unlabelled.push(shape)
      continue
    }
    seen.add(alike)
    labelled.push(shape)
    add(text)
    dimensions.push({ ...value, box: text.box })
  }
  for (const { kind, a, b, strip, words: told } of borders) {
    if (kind === 'edge') continue
    const own = paperRect(strip)
    const words = { runs: plain(told) }
    const beside = freeText(words, centreOf(own), own, taken)
    const text = beside ?? freeText(words, centreOf(own), within, offChannels)
    if (!text) continue
    add(text)
    // Words that stand off their line point at it: the line of a groove may be nearer.
    if (!beside) pointTo(text.box, toPaper(a), toPaper(b))
  }
  const middle = { x: within.x + within.width / 2, y: within.y + within.height / 2 }
  const nameWords = words.tile({ part: request.partKey, tile: tile.name, count: request.count })
  const titles: Lettering[] = [
    { runs: plain(nameWords), size: 4, bold: true },
    { runs: plain(nameWords), bold: true },
    { runs: plain(tile.name), size: 4, bold: true },
  ]
  for (const title of titles) {
    const text = freeText(title, middle, within, offChannels)
    if (!text) continue
    add(text)
    break
  }
  if (!hasDatum) pointToDatum()
  const waste = shown.filter(({ runs, extent }) => runs && Math.min(extent.width, extent.height) >= 5)
  marks.push(
    ...waste.flatMap(({ extent }) =>
      hatch(
        withoutBoxes(paperRect(inside(extent, rect)), [
          ...marks.flatMap((mark) => (mark.kind === 'text' ? [mark.box] : [])),
          ...matches.map(markBox),
        ]),
        HATCH,
        1,
      ).map(({ a, b }): Mark => ({ kind: 'line', class: 'hatch', a, b })),
    ),
  )
  return { tile, ...size, marks, dimensions, labelled, unlabelled }

  /** An arrow from words to the line that they speak of. */
  function pointTo(box: Rect, a: Point, b: Point): void {
    const clear = ALONG.map((share) => towards(box, a, b, share)).find(
      (one) => !taken.boxes.some((other) => crosses(one.from, one.to, other)),
    )
    if (!clear) return
    const { from, to } = clear
    marks.push(
      { kind: 'line', class: 'dimension', a: from, b: to },
      arrow(to, from, { ...drawingStyle, arrowLength: 3, arrowWidth: 1.6 }),
    )
    taken.lines.push({ a: from, b: to })
  }

  /** An arrow that points to the datum corner, wherever that lies, with its words underneath. */
  function pointToDatum(): void {
    const corner = toPaper({ x: 0, y: 0 })
    const lines = wrapped(words.towards, POINTER_WORDS).map((text) =>
      textAt({ runs: plain(text) }, { x: 0, y: 0 }, false),
    )
    const width = Math.max(POINTER, ...lines.map(({ box }) => box.width))
    const height = POINTER + lines.length * lineHeight()
    const near = {
      x: Math.max(0, Math.min(size.width, corner.x)),
      y: Math.max(0, Math.min(size.height, corner.y)),
    }
    const roomy = { width: width + 3, height: height + 3 }
    const place =
      freePlace(roomy, near, within, offChannels) ?? freePlace({ width, height }, near, within, offChannels)
    if (!place) return
    const middle = { x: place.x, y: place.y + (height - POINTER) / 2 }
    const far = Math.hypot(corner.x - middle.x, corner.y - middle.y)
    const way = { x: (corner.x - middle.x) / far, y: (corner.y - middle.y) / far }
    const at = (along: number): Point => ({ x: middle.x + way.x * along, y: middle.y + way.y * along })
    const shaft = { a: at(-POINTER / 2), b: at(POINTER / 2 - 2) }
    marks.push(
      { kind: 'line', class: 'dimension', ...shaft },
      arrow(at(POINTER / 2), at(-POINTER / 2), { ...drawingStyle, arrowLength: 4, arrowWidth: 2.4 }),
    )
    taken.boxes.push({
      x: middle.x - POINTER / 2,
      y: middle.y - POINTER / 2,
      width: POINTER,
      height: POINTER,
    })
    for (const [index, text] of lines.entries())
      add(
        textAt(
          { runs: text.runs },
          { x: place.x, y: place.y + height / 2 - POINTER - (index + 0.5) * lineHeight() },
          false,
        ),
      )
  }
}

/** Where along its words an arrow starts, the first choice first. */
const ALONG = [0.5, 0.9, 0.1, 0.97, 0.03, 0.7, 0.3]

/** Straight from the edge of a box to a level or upright line that lies beside it. */
const towards = (
  box: Rect,
  a: Point,
  b: Point,
  share: number,
): { readonly from: Point; readonly to: Point } => {
  const middle = { x: box.x + share * box.width, y: box.y + share * box.height }
  if (Math.abs(a.x - b.x) < SAME)
    return {
      from: { x: a.x > middle.x ? box.x + box.width + 1 : box.x - 1, y: middle.y },
      to: { x: a.x, y: middle.y },
    }
  return {
    from: { x: middle.x, y: a.y > middle.y ? box.y + box.height + 1 : box.y - 1 },
    to: { x: middle.x, y: a.y },
  }
}

const isInside = ({ x, y }: Point, rect: Rect): boolean =>
  x > rect.x && y > rect.y && x < rect.x + rect.width && y < rect.y + rect.height

const holdsCircle = (
  rect: Rect,
  { centre, radius }: { readonly centre: Point; readonly radius: number },
): boolean =>
  holdsRect(rect, { x: centre.x - radius, y: centre.y - radius, width: 2 * radius, height: 2 * radius })

const centreOf = ({ x, y, width, height }: Rect): Point => ({ x: x + width / 2, y: y + height / 2 })

/** The words of a shape round its size. */
export function label(
  { partKey, tile, words, format }: Pick<TileRequest, 'partKey' | 'tile' | 'words' | 'format'>,
  { kind, size }: TemplateShape,
): { readonly runs: readonly TextRun[]; readonly value: { name: string; value: number; shown: string } } {
  const name = `${partKey}.${tile.name}.${size.name}`
  const { shown } = format(size.metres)
  const [before, after] = words.feature(kind)
  const around = (text: string) => (text === '' ? [] : plain(text))
  return {
    runs: [...around(before), ...textRuns(shown).map((run) => ({ ...run, name })), ...around(after)],
    value: { name, value: size.metres, shown },
  }
}

/** Along the channel: in it where it is wide enough, else beside it; from the middle outwards. */
function channelText(text: Lettering, strip: Rect, within: Rect, taken: Taken): TextMark | undefined {
  const upright = strip.height > strip.width
  const { box } = textAt(text, { x: 0, y: 0 }, upright)
  const [long, thick, deep] = upright
    ? [strip.height, strip.width, box.width]
    : [strip.width, strip.height, box.height]
  const beside = thick / 2 + deep / 2 + 1
  const offsets = thick >= deep + 2 ? [0, -beside, beside] : [-beside, beside]
  const middle = centreOf(strip)
  for (let along = 0; along < long / 2; along += 1)
    for (const way of along === 0 ? [1] : [1, -1])
      for (const offset of offsets) {
        const at = upright
          ? { x: middle.x + offset, y: middle.y + way * along }
          : { x: middle.x + way * along, y: middle.y - offset }
        const found = textAt(text, at, upright)
        if (isFree(found.box, within, taken)) return found
      }
  return undefined
}

/** A cross to lay on the other cross, in a diamond that the two halves complete. */
function matchMark({ x, y }: Point): readonly Mark[] {
  const at = (right: number, up: number): Point => ({ x: x + right, y: y + up })
  return [
    { kind: 'line', class: 'dimension', a: at(-MATCH_ARM, 0), b: at(MATCH_ARM, 0) },
    { kind: 'line', class: 'dimension', a: at(0, -MATCH_ARM), b: at(0, MATCH_ARM) },
    {
      kind: 'outline',
      class: 'dimension',
      closed: true,
      points: [at(-MATCH_DIAMOND, 0), at(0, MATCH_DIAMOND), at(MATCH_DIAMOND, 0), at(0, -MATCH_DIAMOND)],
    },
  ]
}

interface TileSide {
  readonly across: 'length' | 'width'
  readonly isFar: boolean
}

const SIDES: readonly TileSide[] = (['length', 'width'] as const).flatMap((across) =>
  [false, true].map((isFar) => ({ across, isFar })),
)

interface Border {
  /** the part's own edge, or where the paper is cut */
  readonly kind: 'edge' | 'cut'
  readonly a: Point
  readonly b: Point
  /** where its words may stand */
  readonly strip: Rect
  readonly words: string
}

/** The part's edge, the cut through the match marks, or the end of the paper. */
function bordered(
  { across, isFar }: TileSide,
  { tile, face, seams, words }: Pick<TileRequest, 'tile' | 'face' | 'seams' | 'words'>,
): Border {
  const { rect } = tile
  const [start, size, whole] =
    across === 'length' ? [rect.x, rect.width, face.length] : [rect.y, rect.height, face.width]
  const end = isFar ? start + size : start
  const seam = seams.find((one) => one.across === across && (isFar ? one.near === tile : one.far === tile))
  const isEdge = isFar ? end > whole - SAME : end < SAME
  // The nearer tile is cut along the match marks and laid on the farther one, which keeps its whole overlap.
  const at = seam && isFar ? seam.at : end
  const [a, b] =
    across === 'length'
      ? [
          { x: at, y: rect.y },
          { x: at, y: rect.y + rect.height },
        ]
      : [
          { x: rect.x, y: at },
          { x: rect.x + rect.width, y: at },
        ]
  const inner = isFar ? end - OVERLAP / 2 : end
  const strip =
    across === 'length'
      ? { x: inner, y: rect.y + 1, width: OVERLAP / 2, height: rect.height - 2 }
      : { x: rect.x + 1, y: inner, width: rect.width - 2, height: OVERLAP / 2 }
  const told = !seam ? words.free : isFar ? words.over(seam.far.name) : words.under(seam.near.name)
  return { kind: isEdge ? 'edge' : 'cut', a, b, strip, words: told }
}

/** What is still seen of a tile when it is cut and joined. */
function visiblePart({ rect }: GridTile, seams: readonly Seam[]): Rect {
  let { x, y, width, height } = rect
  for (const { near, across } of seams) {
    const isNear = near.rect === rect
    if (across === 'length') {
      if (!isNear) x += OVERLAP / 2
      width -= OVERLAP / 2
    } else {
      if (!isNear) y += OVERLAP / 2
      height -= OVERLAP / 2
    }
  }
  return { x: x + 1, y: y + 1, width: width - 2, height: height - 2 }
}

function inside(rect: Rect, within: Rect): Rect {
  const x = Math.max(rect.x, within.x)
  const y = Math.max(rect.y, within.y)
  return {
    x,
    y,
    width: Math.min(rect.x + rect.width, within.x + within.width) - x,
    height: Math.min(rect.y + rect.height, within.y + within.height) - y,
  }
}

/** The piece of an upright or level line that lies in a rectangle. */
function clipped(a: Point, b: Point, rect: Rect): { readonly a: Point; readonly b: Point } | undefined {
  const clamp = ({ x, y }: Point): Point => ({
    x: Math.max(rect.x, Math.min(rect.x + rect.width, x)),
    y: Math.max(rect.y, Math.min(rect.y + rect.height, y)),
  })
  const [from, to] = [clamp(a), clamp(b)]
  const isLevel = Math.abs(a.y - b.y) < SAME
  const moved = isLevel ? Math.abs(from.y - a.y) : Math.abs(from.x - a.x)
  return moved > SAME || Math.hypot(to.x - from.x, to.y - from.y) < SAME ? undefined : { a: from, b: to }
}

/** A rectangle in pieces that leave out the boxes in it. */
function withoutBoxes(rect: Rect, boxes: readonly Rect[]): readonly Rect[] {
  return boxes
    .filter((box) => overlaps(box, rect))
    .reduce<readonly Rect[]>(
      (pieces, box) =>
        pieces.flatMap((piece) => {
          if (!overlaps(piece, box)) return [piece]
          const [right, top] = [piece.x + piece.width, piece.y + piece.height]
          const [low, high] = [Math.max(piece.y, box.y - 1), Math.min(top, box.y + box.height + 1)]
          const [left, far] = [Math.max(piece.x, box.x - 1), Math.min(right, box.x + box.width + 1)]
          return [
            { x: piece.x, y: piece.y, width: piece.width, height: low - piece.y },
            { x: piece.x, y: high, width: piece.width, height: top - high },
            { x: piece.x, y: low, width: left - piece.x, height: high - low },
            { x: far, y: low, width: right - far, height: high - low },
          ].filter(({ width, height }) => width > SAME && height > SAME)
        }),
      [rect],
    )
}
