/**
 * What is not understood from the parts alone: how a wire is held at its two ends, drawn in section.
 */
import type { GridCutter, GridWire, WireEnd } from '../../fixtures/grid-cutter/types.ts'
import { isHole, type Round } from '../../geometry/part.ts'
import { clippedCut, clippedSection, noteAt } from '../clipped-section.ts'
import type { DimensionRequest, LinearRequest } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import { gridScene } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

/** m; what is drawn of the inside of the frame, and above and below rail, shelf and peg */
const ROOM = 0.012

/**
 * The two ends of a wire that runs across the block.
 *
 * Formula: a section along the wire, past its rod and its hole. Validity: a cutter without such wires has no drawing.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns enlarged views with notes
 * @source common practice
 */
export function wireEnds(cutter: GridCutter, words: GridDrawingWords): Pick<SheetRequest, 'details'> {
  const wire =
    cutter.wires.find(({ runs, ends }) => runs === 'width' && ends.includes('peg')) ??
    cutter.wires.find(({ runs }) => runs === 'width')
  if (!wire) return { details: [] }
  const views = [0, 1].map((rail) => ({ rail: rail as 0 | 1, end: wire.ends[rail as 0 | 1] }))
  const pegFirst = [...views].sort((a, b) => Number(b.end === 'peg') - Number(a.end === 'peg'))
  return { details: pegFirst.map(({ rail, end }) => endView(cutter, words, wire, rail, end)) }
}

/** The hardware of one end of the wire: all rounds of its shelf that stand nearest to it. */
function hardwareOf(cutter: GridCutter, wire: GridWire, rail: 0 | 1): readonly Round[] {
  const sign = rail === 0 ? -1 : 1
  const near = (key: string): readonly Round[] => {
    const all = cutter.rounds.filter((round) => {
      const y = round.axis === 'y' ? round.from : round.axis === 'x' ? round.centre[0] : round.centre[1]
      const isBeyond = Math.sign(y) === sign && Math.abs(y) > cutter.outside.width / 2
      return round.key === key && round.axis !== 'x' && isBeyond
    })
    const away = ({ centre }: Round): number => Math.abs(centre[0] - wire.at)
    return [...all].sort((a, b) => away(a) - away(b)).slice(0, 1)
  }
  const rods = cutter.rounds.filter(
    ({ key, axis, centre }) => key === 'bridge-rod' && axis === 'x' && Math.sign(centre[0]) === sign,
  )
  const keys =
    wire.ends[rail] === 'peg'
      ? ['peg-post', 'peg-body', 'peg-shaft', 'peg-button']
      : [`anchor-${cutter.input.anchor.key}`, 'anchor-head']
  return [...rods, ...keys.flatMap(near)]
}

function endView(
  cutter: GridCutter,
  words: GridDrawingWords,
  wire: GridWire,
  rail: 0 | 1,
  end: WireEnd,
): ViewRequestOnPaper {
  const { outside, inside, input } = cutter
  const sign = rail === 0 ? -1 : 1
  const rounds = hardwareOf(cutter, wire, rail)
  const post = rounds.find(({ key }) => key === 'peg-post' || key === `anchor-${input.anchor.key}`)
  const out = post ? Math.abs(post.centre[1]) : outside.width / 2 + input.shelfDepth / 2
  const [near, far] = [inside.width / 2 - ROOM, outside.width / 2 + input.shelfDepth + reachOf(cutter, end)]
  const shelf = shelfOf(cutter, wire)
  const low = wire.height - (end === 'peg' ? ROOM : 1.5 * ROOM)
  const region: Rect = {
    x: sign < 0 ? -far : near,
    y: low,
    width: far - near,
    height: shelf.underside + input.panels.shelf.thickness + input.peg.body.height + 2 * ROOM - low,
  }
  const scene = gridScene(cutter, { hardware: false })
  // A screw is thicker than the hole that it is driven into.
  const hole = Math.max(holeSize(cutter, shelf.key, end), post?.diameter ?? 0)
  const section = clippedCut(scene, wire.at, region, [
    ...cutter.parts
      .filter(({ key }) => key.startsWith('cutter-side'))
      .map(({ key }) => ({ key, rect: wireHoleOf(cutter, wire, sign) })),
    ...cutter.parts
      .filter(({ key }) => key.startsWith('side-shelf'))
      .map(({ key }) => ({
        key,
        rect: { x: sign * out - hole / 2, y: region.y, width: hole, height: region.height },
      })),
  ])
  return clippedSection(section, {
    name: end,
    title: words.details[end] ?? '',
    slants: [
      ['cutter-side', 'cutter-side-2'],
      ['side-shelf', 'side-shelf-2'],
    ],
    lines: projectScene({
      scene: { boxes: [], edges: [], bores: [], rounds },
      viewpoint: 'right',
      showHidden: [],
    }),
    extras: [
      {
        kind: 'line',
        class: 'dimension',
        a: { x: sign * near, y: wire.height },
        b: { x: sign * out, y: wire.height },
      },
    ],
    dimensions: [
      ...notesOf(cutter, words, { wire, sign, out, end }),
      ...sizesOf(cutter, { wire, sign, out, end, shelf: shelf.underside }),
    ],
  })
}

const reachOf = ({ input }: GridCutter, end: WireEnd): number =>
  end === 'peg' ? Math.max(0, input.peg.button.to - 0.012) + ROOM / 4 : ROOM / 2

/** The hole beside the wire that its rail has for it. */
function wireHoleOf({ inside, outside, parts }: GridCutter, wire: GridWire, sign: number): Rect {
  const hole = parts
    .flatMap(({ key, features }) => (key.startsWith('cutter-side') ? features.filter(isHole) : []))
    .find(({ name }) => name === `wire-${wire.key}`)
  const across = hole?.diameter ?? wire.diameter
  const [near, far] = [inside.width / 2, outside.width / 2]
  return { x: sign < 0 ? -far : near, y: wire.height - across / 2, width: far - near, height: across }
}

const shelfOf = (
  { parts, outside }: GridCutter,
  wire: GridWire,
): { readonly key: string; readonly underside: number } => {
  const shelf = parts.find(({ key }) => key === 'side-shelf')
  return { key: 'side-shelf', underside: shelf?.placements[0]?.origin.z ?? wire.height + outside.height / 4 }
}

function holeSize({ parts }: GridCutter, shelf: string, end: WireEnd): number {
  const hole = parts
    .filter(({ key }) => key.startsWith(shelf))
    .flatMap(({ features }) => features.filter(isHole))
    .find(({ name }) => name.startsWith(`${end}-`))
  return hole?.diameter ?? 0
}

interface End {
  readonly wire: GridWire
  readonly sign: number
  /** of the post from the middle [m] */
  readonly out: number
  readonly end: WireEnd
}

function notesOf(
  cutter: GridCutter,
  words: GridDrawingWords,
  { wire, sign, out, end }: End,
): readonly DimensionRequest[] {
  const { inside, outside, input } = cutter
  const note = (key: string, at: Point) => noteAt(`wire-end.${end}.${key}`, at, words.details[key] ?? '')
  const below = wire.height
  return [
    note('wire', { x: sign * (inside.width / 2 - ROOM / 2), y: below }),
    note('rod', { x: sign * (inside.width / 2 + 0.0016), y: below + 0.0025 }),
    ...(end === 'peg'
      ? [
          note('post', { x: sign * out, y: below + 0.002 }),
          note('button', {
            x: sign * (out + input.peg.button.to),
            y: wire.height + input.peg.post.wrap + 0.024,
          }),
        ]
      : [note('eye', { x: sign * out, y: below })]),
    note('rail', { x: sign * (inside.width / 2 + 0.005), y: below + 0.03 }),
    note('shelf', {
      x: sign * (outside.width / 2 + 0.007),
      y: below + input.peg.post.wrap + input.panels.shelf.thickness,
    }),
  ]
}

function sizesOf(
  { outside }: GridCutter,
  { wire, sign, out, end, shelf }: End & { readonly shelf: number },
): readonly LinearRequest[] {
  const rail = (sign * outside.width) / 2
  const name = (what: string) => `wire-end.${end}.${what}`
  return [
    {
      kind: 'linear',
      name: name('out'),
      side: 'below',
      from: { x: rail, y: wire.height },
      to: { x: sign * out, y: wire.height },
    },
    {
      kind: 'linear',
      name: name('below-shelf'),
      side: sign < 0 ? 'left' : 'right',
      from: { x: sign * out, y: wire.height },
      to: { x: sign * out, y: shelf },
      outside: 'before',
    },
  ]
}
