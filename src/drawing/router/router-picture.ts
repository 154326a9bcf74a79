/** What opens when a router file is read: its layers in black and white, each with a letter, a key to them below. */
import type { RouterFile, RouterLayer, RouterPoint, RouterShape } from '../../router/router-file.ts'
import { slanted } from '../box-marks.ts'
import { lettering } from '../lettering.ts'
import { arrow } from '../linear-dimension.ts'
import { figureSvg } from '../svg.ts'
import { capitalHeight, drawingStyle, type Mark, type Point, type Rect } from '../types.ts'

export interface RouterPictureWords {
  /** of the whole, for those who do not see it */
  readonly label: string
  /** above each file */
  readonly titles: readonly string[]
}

export interface RouterPicture {
  readonly svg: string
  readonly widthMm: number
  readonly heightMm: number
  readonly marks: readonly Mark[]
  /** layers in the order of their letters, file by file */
  readonly keys: readonly (readonly { readonly letter: string; readonly layer: string }[])[]
}

/** mm, capitals of 2.5 mm (ISO 3098, from memory): a key beside the lists, which say the same in larger letters */
const TEXT = 2.5 / capitalHeight
/** mm; left of the part for the axes; above it for leaders; from line to line of the key */
const AXES = 14
const LEADERS = 9
const KEY_LINE = 4.6
/** mm; from a letter to the next, and room for one */
const APART = 6
const GAP = 5
/** mm; no part is drawn higher */
const MOST_HIGH = 60
/** mm; nor longer: both files of a part stand on one page with what explains them */
const MOST_LONG = 135

/**
 * Draws files one below the other at one scale.
 *
 * Formula: scale = room / length, or what keeps the height; letters stand in a row above the part, each over its own
 * shape as nearly as the others let it. Validity: files of one part.
 * @param files  of a part [mm]
 * @param width  of the picture [mm]
 * @param words  of the picture
 * @returns svg, size [mm], and which letter stands for which layer
 * @source common practice
 */
export function routerPicture(
  files: readonly RouterFile[],
  width: number,
  words: RouterPictureWords,
): RouterPicture {
  const [first] = files
  if (!first) throw new Error('No file to draw.')
  const scale = Math.min(Math.min(width - AXES - 2, MOST_LONG) / first.length, MOST_HIGH / first.width)
  const blocks = files.map((file, index) => fileBlock(file, scale, words.titles[index] ?? '', width))
  const height = blocks.reduce((sum, block) => sum + block.height, (blocks.length - 1) * GAP)
  let top = height
  const marks = blocks.flatMap((block) => {
    const placed = block.marks({ x: 0, y: top - block.height })
    top -= block.height + GAP
    return placed
  })
  return {
    svg: figureSvg({ name: 'router', label: words.label, width, height, view: 'files', marks }),
    widthMm: width,
    heightMm: height,
    marks,
    keys: blocks.map(({ key }) => key),
  }
}

interface FileBlock {
  readonly height: number
  readonly key: readonly { readonly letter: string; readonly layer: string }[]
  /** @param low its lower left corner */
  readonly marks: (low: Point) => readonly Mark[]
}

const fileBlock = (file: RouterFile, scale: number, title: string, width: number): FileBlock => {
  const key = file.layers.map(({ name }, index) => ({ letter: String.fromCharCode(65 + index), layer: name }))
  const lines = Math.ceil(key.length / 2)
  const foot = lines * KEY_LINE + AXES * 0.6
  const drawn = file.width * scale
  const height = foot + drawn + LEADERS + TEXT * 2.2
  return {
    height,
    key,
    marks: (low) => {
      const corner = { x: low.x + AXES, y: low.y + foot }
      const to = ({ x, y }: RouterPoint): Point => ({ x: corner.x + x * scale, y: corner.y + y * scale })
      const row = corner.y + drawn + LEADERS - TEXT
      return [
        text(title, { x: low.x, y: low.y + height - TEXT }, 'view-title'),
        ...file.layers.flatMap((layer) => layerMarks(layer, to, scale)),
        ...letters(file, to, row, width),
        ...axes(corner),
        datum(file, to),
        ...key.flatMap(({ letter, layer }, index) => {
          const at = {
            x: low.x + AXES + (index >= lines ? (width - AXES) / 2 : 0),
            y: low.y + (lines - 1 - (index % lines)) * KEY_LINE + 1.5,
          }
          return [text(letter, at, 'note-text'), name(layer, { x: at.x + APART, y: at.y })]
        }),
      ]
    },
  }
}

/** Left-aligned words. */
const text = (words: string, { x, y }: Point, kind: 'view-title' | 'note-text'): Mark => {
  const mark = lettering({
    class: kind,
    runs: [{ kind: 'plain', text: words }],
    at: { x: 0, y },
    turned: false,
    size: TEXT,
  })
  return lettering({ ...mark, at: { x: x + mark.box.width / 2, y } })
}

/** The name of a layer is the file's, not the catalogue's. */
const name = (layer: string, at: Point): Mark =>
  ({ ...(text(layer, at, 'note-text') as object), value: true }) as Mark

const layerMarks = (
  { work, shapes }: RouterLayer,
  to: (point: RouterPoint) => Point,
  scale: number,
): readonly Mark[] =>
  shapes.flatMap((shape): Mark[] => {
    const isDone = work === 'done-outline' || work === 'done-hole'
    if (shape.kind === 'line') return [{ kind: 'line', class: 'phantom', a: to(shape.from), b: to(shape.to) }]
    if (shape.kind === 'circle')
      return [
        {
          kind: 'circle',
          class: work === 'recess' ? 'visible' : 'dimension',
          centre: to(shape.centre),
          radius: Math.max(LEAST_RADIUS, shape.radius * scale),
        },
      ]
    const points = shape.points.map(to)
    if (work === 'outline' || isDone)
      return [{ kind: 'outline', class: isDone ? 'hidden' : 'visible', points, closed: true }]
    return [
      ...slanted(boxOf(points), HATCH, work === 'groove' ? -1 : 1),
      { kind: 'outline', class: 'dimension', points, closed: true },
    ]
  })

/** mm; smaller circles are dots on paper, and strokes nearer to each other a grey */
const LEAST_RADIUS = 0.45
const HATCH = 1.6

const boxOf = (points: readonly Point[]): Rect => {
  const xs = points.map(({ x }) => x)
  const ys = points.map(({ y }) => y)
  const [x, y] = [Math.min(...xs), Math.min(...ys)]
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }
}

/** Letters in a row, those with the fewest shapes to point at first, each as far from the others as its shapes allow. */
const letters = (
  { layers }: RouterFile,
  to: (point: RouterPoint) => Point,
  row: number,
  width: number,
): readonly Mark[] => {
  const all = layers
    .map(({ shapes, work }, index) => ({
      letter: String.fromCharCode(65 + index),
      spots: shapes.flatMap((shape) => spotsOf(shape, work === 'outline' || work === 'done-outline').map(to)),
      // where an arrow would be taken to mean another layer
      others: layers.flatMap((other) =>
        other.name === layers[index]?.name
          ? []
          : other.shapes.flatMap((shape) => (shape.kind === 'circle' ? [to(shape.centre)] : [])),
      ),
    }))
    .sort((a, b) => a.spots.length - b.spots.length)
  const chosen: { letter: string; spot: Point }[] = []
  for (const { letter, spots, others } of all) {
    const free = (spot: Point): number =>
      Math.min(APART * 2, ...chosen.map((one) => Math.abs(one.spot.x - spot.x))) +
      spot.y * 1e-3 -
      (others.some(({ x, y }) => Math.abs(x - spot.x) < MISTAKEN && y > spot.y - MISTAKEN) ? APART : 0)
    const [spot] = [...spots].sort((a, b) => free(b) - free(a))
    if (spot) chosen.push({ letter, spot })
  }
  chosen.sort((a, b) => a.spot.x - b.spot.x)
  let last = Number.NEGATIVE_INFINITY
  const xs = chosen.map(({ spot }) => {
    last = Math.max(spot.x, last + APART)
    return last
  })
  // what was pushed out to the right comes back in
  let next = width - APART / 2
  for (let i = xs.length - 1; i >= 0; i--) {
    xs[i] = Math.min(xs[i] ?? next, next)
    next = (xs[i] ?? next) - APART
  }
  return chosen.flatMap(({ letter, spot }, index): Mark[] => {
    const x = xs[index] ?? spot.x
    const from = { x, y: row - 1 }
    return [
      lettering({
        class: 'note-text',
        runs: [{ kind: 'plain', text: letter }],
        at: { x, y: row },
        turned: false,
        size: TEXT,
      }),
      { kind: 'line', class: 'dimension', a: from, b: spot },
      arrow(spot, from, { ...drawingStyle, arrowLength: 2 }),
    ]
  })
}

/** mm; an arrow that ends or passes so near to a circle seems to mean it */
const MISTAKEN = 1.5

const SHARES = [0.08, 0.22, 0.36, 0.5, 0.64, 0.78, 0.92] as const

/** Where a leader may end [mm of the file]. */
const spotsOf = (shape: RouterShape, edge: boolean): readonly RouterPoint[] => {
  if (shape.kind === 'circle') return [{ x: shape.centre.x, y: shape.centre.y + shape.radius }]
  const points = shape.kind === 'line' ? [shape.from, shape.to] : shape.points
  const { x, y, width, height } = boxOf(points)
  if (edge) return SHARES.map((share) => ({ x: x + share * width, y: y + height }))
  return width > height
    ? SHARES.map((share) => ({ x: x + share * width, y: y + height / 2 }))
    : SHARES.flatMap((share) =>
        [0.2, 0.5, 0.8].map((across) => ({ x: x + across * width, y: y + share * height })),
      )
}

/** X and Y from the zero point. */
const axes = (corner: Point): readonly Mark[] => {
  const zero = { x: corner.x - 3, y: corner.y - 3 }
  const ends = { x: { x: zero.x + 9, y: zero.y }, y: { x: zero.x, y: zero.y + 9 } }
  const letter = (of: string, at: Point): Mark =>
    lettering({
      class: 'note-text',
      runs: [{ kind: 'plain', text: of }],
      at,
      turned: false,
      size: TEXT,
    })
  return [
    { kind: 'line', class: 'dimension', a: zero, b: ends.x },
    { kind: 'line', class: 'dimension', a: zero, b: ends.y },
    arrow(ends.x, zero, { ...drawingStyle, arrowLength: 2 }),
    arrow(ends.y, zero, { ...drawingStyle, arrowLength: 2 }),
    letter('X', { x: ends.x.x + 3, y: ends.x.y - 1.25 }),
    letter('Y', { x: ends.y.x - 2.6, y: ends.y.y - 2 }),
    { kind: 'circle', class: 'visible', centre: corner, radius: 1.2 },
  ]
}

/** A filled corner where the datum corner of the build sheets is. */
const datum = ({ face, length }: RouterFile, to: (point: RouterPoint) => Point): Mark => {
  const at = to({ x: face === 'upper' ? 0 : length, y: 0 })
  const inwards = face === 'upper' ? 1 : -1
  return {
    kind: 'arrow',
    points: [at, { x: at.x + inwards * CORNER, y: at.y }, { x: at.x, y: at.y + CORNER }],
  }
}

const CORNER = 4 // mm
