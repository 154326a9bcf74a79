/**
 * Full-size paper templates of a part: its worked face at 1:1 in tiles, each page with a check scale both ways.
 */
import type { Part } from '../../geometry/part.ts'
import { moved, moveMark } from '../mark-bounds.ts'
import { sheetSvg } from '../svg.ts'
import { textRuns, textWidth } from '../text-width.ts'
import {
  type Drawing,
  type DrawnDimension,
  drawingStyle,
  type LengthFormatter,
  type Mark,
  type Point,
} from '../types.ts'
import { type TemplateShape, templateShapes } from './template-features.ts'
import { type TileGrid, tileGrid } from './template-grid.ts'
import { capitals, lineHeight, plain, SMALL, textAt, wrapped } from './template-lettering.ts'
import { matchMarks, type Seam } from './template-marks.ts'
import { type DrawnTile, drawTile, label } from './template-tile.ts'

/** Every word on the templates, from the text catalogue. */
export interface TemplateWords {
  readonly tile: (of: { readonly part: string; readonly tile: string; readonly count: number }) => string
  /** what the page shows, for readers who cannot see it */
  readonly label: (of: { readonly part: string; readonly tiles: readonly string[] }) => string
  /** part and face that lies up */
  readonly face: (part: string) => string
  readonly datum: string
  readonly towards: string
  /** beside the cut line: which tile goes under this one */
  readonly over: (tile: string) => string
  /** on the overlap that goes under that tile */
  readonly under: (tile: string) => string
  /** at a cut line with no tile beyond */
  readonly free: string
  /** what to do with the check scales */
  readonly check: string
  readonly turned: string
  readonly handed: string
  /** how many pieces the template serves */
  readonly pieces: (count: number) => string
  /** before and after the depth or diameter of a kind of feature */
  readonly feature: (kind: TemplateShape['kind']) => readonly [string, string]
  /** before and after the length of a check scale */
  readonly scale: readonly [string, string]
}

export interface TemplateOptions {
  /** room for one page of tiles [mm] */
  readonly room: { readonly width: number; readonly height: number }
  readonly format: LengthFormatter
  /** length of the check scales [m] */
  readonly checkScale: number
  /** divisions that the check scales show */
  readonly divisions: number
  readonly words: TemplateWords
}

/** One page: tiles side by side above the check scale and its words. */
export interface TemplatePage extends Drawing {
  readonly tiles: readonly PlacedTile[]
  /** all on the page, from its lower left corner, y up [mm] */
  readonly marks: readonly Mark[]
}

export interface PlacedTile extends DrawnTile {
  /** its lower left corner [mm] */
  readonly at: Point
}

export interface PartTemplate {
  readonly part: Part
  readonly grid: TileGrid
  readonly seams: readonly Seam[]
  readonly pages: readonly TemplatePage[]
}

const GAP = 6 // mm between tiles that share a page
const WIDE_GAP = 25 // mm, at most
const EDGE = 1 // mm round everything, for the width of lines
const SCALE_STRIP = 11 // mm at the right, for the upright check scale and its lettering
const TICK = 3 // mm
const BESIDE_SCALE = 5 // mm

/**
 * Templates of a part.
 *
 * Formula: paper mm = m x 1000; tiles side by side on a page where there is room. Validity: parts with holes or with
 * channels in the worked face; of any other there is none.
 * @param part from its datum corner [m]
 * @param options room [mm], words, check scale [m]
 * @returns pages with their tiles, or undefined
 * @source common practice
 */
export function partTemplate(part: Part, options: TemplateOptions): PartTemplate | undefined {
  const shapes = templateShapes(part)
  if (shapes.length === 0) return undefined
  const first = laidOut(part, shapes, options, 0)
  const crowded = Math.max(...first.pages.map(({ tiles }) => unlabelled(tiles).length))
  // What finds no room beside its feature is said once at the foot, which takes its room from the tiles.
  return crowded === 0 ? first : laidOut(part, shapes, options, crowded)
}

/** One shape of each kind and size whose words stand nowhere on the page. */
function unlabelled(tiles: readonly DrawnTile[]): readonly TemplateShape[] {
  const said = new Set(tiles.flatMap(({ labelled }) => labelled.map(alike)))
  const left = tiles.flatMap((tile) => tile.unlabelled).filter((shape) => !said.has(alike(shape)))
  return [...new Map(left.map((shape) => [alike(shape), shape])).values()]
}

const alike = ({ kind, size }: TemplateShape): string => `${kind} ${size.metres.toFixed(6)}`

function laidOut(
  part: Part,
  shapes: readonly TemplateShape[],
  options: TemplateOptions,
  extraLines: number,
): PartTemplate {
  const { words, room, format } = options
  const scale = options.checkScale * 1000
  const notes = [
    words.check,
    ...(part.count > 1 ? [words.pieces(part.count)] : []),
    ...(part.handed ? [words.handed] : []),
    words.turned,
  ]
  const noteRoom = room.width - 2 * EDGE - scale - BESIDE_SCALE
  const foot = footHeight(notes, noteRoom, extraLines)
  const tileRoom = {
    width: room.width - 2 * EDGE - SCALE_STRIP,
    height: room.height - 2 * EDGE - foot,
  }
  const face = { length: part.length * 1000, width: part.width * 1000, shapes }
  const grid = tileGrid(
    face,
    () => tileRoom,
    (sizes) => packed(sizes, tileRoom.width).length,
  )
  const seams = matchMarks(grid, shapes)
  const tiles = grid.tiles.map((tile) =>
    drawTile({
      partKey: part.key,
      face,
      tile,
      turned: grid.turned,
      count: grid.tiles.length,
      shapes,
      seams,
      words,
      format,
    }),
  )
  const told = grid.turned ? notes : notes.slice(0, -1)
  const pages = packed(tiles, tileRoom.width).map((some, index) =>
    page({
      part,
      name: `${part.key}-${index + 1}`,
      tiles: some,
      foot,
      scale,
      noteRoom,
      notes: told,
      options,
    }),
  )
  return { part, grid, seams, pages }
}

/** Neighbours in order share a page as long as they fit beside each other. */
function packed<T extends { readonly width: number }>(tiles: readonly T[], room: number): readonly T[][] {
  const pages: T[][] = []
  for (const tile of tiles) {
    const last = pages.at(-1)
    const used = (last ?? []).reduce((sum, { width }) => sum + width + GAP, 0)
    if (last && used + tile.width <= room + 1e-6) last.push(tile)
    else pages.push([tile])
  }
  return pages
}

/** Scale with its lettering at the left, notes at the right. */
const SCALE_FOOT = 17
const footHeight = (notes: readonly string[], room: number, extra: number): number =>
  Math.max(SCALE_FOOT, (notes.flatMap((note) => wrapped(note, room)).length + extra) * lineHeight()) + 4

interface PageRequest {
  readonly part: Part
  readonly name: string
  readonly tiles: readonly DrawnTile[]
  readonly foot: number
  readonly scale: number
  readonly noteRoom: number
  readonly notes: readonly string[]
  readonly options: TemplateOptions
}

function page({ part, name, tiles, foot, scale, noteRoom, notes, options }: PageRequest): TemplatePage {
  const { words, room, format } = options
  const width = room.width
  const tallest = Math.max(...tiles.map(({ height }) => height))
  const height = Math.max(tallest, scale) + foot + 2 * EDGE
  const bottom = height - EDGE - tallest
  // Tiles that touch look like one; whatever the page has to spare goes between them.
  const spare = width - 2 * EDGE - SCALE_STRIP - tiles.reduce((sum, tile) => sum + tile.width, 0)
  const between = Math.max(GAP, Math.min(WIDE_GAP, spare / Math.max(1, tiles.length - 1)))
  let right = EDGE
  const placed = tiles.map((tile): PlacedTile => {
    const at = { x: right, y: bottom }
    right += tile.width + between
    return { ...tile, at }
  })
  const shown = format(options.checkScale).shown
  const scaleName = (way: string) => `${name}.check-scale-${way}`
  const scaleText = (way: string) => ({
    runs: [
      ...plain(words.scale[0]),
      ...textRuns(shown).map((run) => ({ ...run, name: scaleName(way) })),
      ...(words.scale[1] === '' ? [] : plain(words.scale[1])),
    ],
  })
  const level = 2
  const upright = width - EDGE - 0.5
  const ticks = (place: (along: number, out: number) => Point): Mark[] => [
    { kind: 'line', class: 'dimension', a: place(0, 0), b: place(scale, 0) },
    ...Array.from({ length: options.divisions + 1 }, (_, index): Mark => {
      const along = (scale * index) / options.divisions
      const out = index % options.divisions === 0 ? TICK : TICK / 2
      return { kind: 'line', class: 'dimension', a: place(along, 0), b: place(along, out) }
    }),
  ]
  const top = height - EDGE
  const acrossMarks = ticks((along, out) => ({ x: EDGE + along, y: level + out }))
  const downMarks = ticks((along, out) => ({ x: upright - out, y: top - along }))
  const acrossText = textAt(scaleText('across'), { x: EDGE + scale / 2, y: level + TICK + 2.4 }, false)
  const title = textAt(
    { runs: plain(words.face(part.key)), size: 4, bold: true },
    { x: 0, y: foot - 6 },
    false,
  )
  const faceText = moveMark(title, { x: EDGE - title.box.x, y: 0 })
  const downText = textAt(scaleText('down'), { x: upright - TICK - 2.4, y: top - scale / 2 }, true)
  const crowded = unlabelled(tiles).map((shape) =>
    label({ partKey: name, tile: tiles[0]!.tile, words, format }, shape),
  )
  const lines = [
    ...notes.flatMap((note) => wrapped(note, noteRoom)).map(plain),
    ...crowded.map(({ runs }) => runs),
  ]
  const noteLeft = EDGE + scale + BESIDE_SCALE
  const noteMarks = lines.map((runs, index) =>
    textAt(
      { runs },
      {
        x: noteLeft + textWidth(runs, SMALL) / 2,
        y: foot - 3 - capitals() / 2 - index * lineHeight(),
      },
      false,
    ),
  )
  const tileMarks = placed.map(({ marks, at }) => marks.map((mark) => moveMark(mark, at)))
  const view = (key: string, marks: readonly Mark[]) => ({
    view: {
      name: key,
      marks,
      dimensions: [],
      outline: { x: 0, y: 0, width, height },
      extent: { x: 0, y: 0, width, height },
    },
    at: { x: 0, y: 0 },
  })
  const values: Omit<DrawnDimension, 'locates'>[] = [
    ...placed.flatMap(({ dimensions, at }) => dimensions.map((one) => ({ ...one, box: moved(one.box, at) }))),
    ...crowded.map(({ value }, index) => ({
      ...value,
      box: noteMarks[noteMarks.length - crowded.length + index]!.box,
    })),
    ...(['across', 'down'] as const).map((way) => ({
      name: scaleName(way),
      value: options.checkScale,
      shown,
      box: (way === 'across' ? acrossText : downText).box,
    })),
  ]
  const named = words.label({ part: part.key, tiles: tiles.map(({ tile }) => tile.name) })
  return {
    name,
    widthMm: width,
    heightMm: height,
    scale: { paper: 1, model: 1 },
    dimensions: values.map((one) => ({
      ...one,
      locates: [],
      box: { ...one.box, y: height - one.box.y - one.box.height },
    })),
    tiles: placed,
    marks: [...tileMarks.flat(), ...acrossMarks, ...downMarks, acrossText, downText, faceText, ...noteMarks],
    label: named,
    ...sheetSvg({
      name,
      label: named,
      width,
      height,
      style: drawingStyle,
      dimensions: [],
      // Each scale is a path of its own: the printer measures it as a whole.
      checkScaleMm: scale,
      views: [
        ...placed.map(({ tile }, index) => view(tile.name, tileMarks[index]!)),
        view('check-scale-across', [...acrossMarks, acrossText]),
        view('check-scale-down', [...downMarks, downText]),
      ],
      foot: [faceText, ...noteMarks],
    }),
  }
}
