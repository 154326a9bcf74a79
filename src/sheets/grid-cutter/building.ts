/** Building the frame, in the order of its steps. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { windings } from '../../binder/judged-wires.ts'
import type { Fill } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { boardOff } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Step } from '../model.ts'
import { COAT } from '../mould/steps.ts'
import { GRAVITY } from '../shown.ts'
import { spareOf } from './inspection.ts'
import { levelMarks } from './proof.ts'

const BUILDING = [
  'base', 'measure', 'cut', 'gauge', 'wire-holes', 'dado', 'shelf-dado', 'kerf', 'shelf-holes', 'dry', 'ends', 'shelves', 'stops',
  'round', 'marks', 'stand', 'seal', 'rods', 'pegs', 'anchors',
] as const // biome-ignore format: a list

type BuildingStep = (typeof BUILDING)[number]

/** m; a stop block that is short by more lets the frame tip in its grooves (common practice) */
const ROCK = 0.0005

const WITH_REASON: readonly BuildingStep[] = [
  'base', 'gauge', 'kerf', 'wire-holes', 'ends', 'stops', 'seal', 'rods', 'anchors', 'stand', 'marks',
] // biome-ignore format: a list

export const buildingSteps = (frame: Frame, bound: BoundGridCutter, numbers: FixtureNumbers): Step[] => {
  const { say } = frame
  const fill = fillsOf(frame, bound, numbers)
  const blanks = blanksOf(frame, bound)
  const has = (key: string): boolean => bound.cutter.parts.some((part) => part.key === key)
  const needed = BUILDING.filter(
    (key) => (key !== 'gauge' || numbers.gauge !== undefined) && (key !== 'stand' || has('stand-board')),
  )
  return needed.map(
    (key): Step => ({
      text: say(buildingKey(key, bound, numbers), fill[key] ?? {}),
      ...(WITH_REASON.includes(key) ? { why: say(`grid.build.${key}-why`) } : {}),
      ...(blanks[key] ? { blanks: blanks[key] } : {}),
    }),
  )
}

/** What is told another way where there is a gauge, and of anchors without a head. */
const buildingKey = (
  key: BuildingStep,
  { cutter }: BoundGridCutter,
  { gauge }: Pick<FixtureNumbers, 'gauge'>,
): string => {
  if (key === 'wire-holes')
    return gauge === undefined ? 'grid.build.wire-holes' : 'grid.build.wire-holes-gauge'
  return key === 'anchors' && cutter.input.anchor.key === 'pin'
    ? 'grid.build.anchors-pin'
    : `grid.build.${key}`
}

/** m; for the small screw that keeps a peg's housing from turning (common practice) */
const PEG_PILOT = 0.0015
/** m; radius of a handle that is pressed with a flat hand (common practice) */
const HANDLE_RADIUS = 0.003

/** Whether wires are set by grooves that were measured, by the gauge, or by the drawing alone. */
const groovesKey = ({ input }: BoundGridCutter['cutter'], gauge: string | undefined): string => {
  const { groovesAcrossLength, groovesAcrossWidth } = input.mould.input.asBuilt
  if (groovesAcrossLength || groovesAcrossWidth) return 'grid.build.grooves-typed'
  return gauge === undefined ? 'grid.build.grooves-drawn-alone' : 'grid.build.grooves-drawn'
}

/** Which shelf, side or end goes where, as far as the two of a pair differ. */
const pairs = ({ say }: Frame, parts: BoundGridCutter['cutter']['parts']): Inline => {
  const differ = (kind: string): boolean => parts.some(({ key }) => key === `${kind}-2`)
  if (differ('side-shelf'))
    return say(differ('end-shelf') ? 'grid.build.pairs-both' : 'grid.build.pairs-side-shelf')
  return say(differ('end-shelf') ? 'grid.build.pairs-end-shelf' : 'grid.build.pairs-none')
}

const blanksOf = (
  { say }: Frame,
  { cutter, panelNames }: BoundGridCutter,
): Partial<Record<BuildingStep, Step['blanks']>> => {
  const millimetres = say('blank.millimetres')
  const line = (key: string) => ({ label: say(`grid.build.${key}`), after: millimetres })
  return {
    base: [line('base-length'), line('base-width')],
    measure: [
      ...[...new Set(cutter.parts.map(({ material }) => material))].map((material) => ({
        label: say('mould.assembly.thickness', { board: panelNames.get(material) ?? material }),
        after: millimetres,
      })),
      line('wire-blank'),
      line('peg-blank'),
    ],
    dry: [
      { label: say('mould.assembly.diagonal-1') },
      { label: say('mould.assembly.diagonal-2') },
      { label: say('mould.assembly.inside-length'), after: millimetres },
      { label: say('mould.assembly.inside-width'), after: millimetres },
    ],
    stops: ['A', 'B', 'C', 'D'].map((corner) => ({
      label: say('grid.build.corner', { corner }),
      after: millimetres,
    })),
  }
}

const fillsOf = (
  frame: Frame,
  bound: BoundGridCutter,
  { mould, gauge }: FixtureNumbers,
): Partial<Record<BuildingStep, Fill>> => {
  const { say, show } = frame
  const { cutter } = bound
  const { input, inside, edgeAtEnd, parts, guide, layers, marks, stand } = cutter
  const { panels, dado, peg, anchor, wire } = input
  const millimetres = (name: string, length: number) => show.millimetres(name, length)
  const channel = (name: string) =>
    parts.flatMap(({ features }) => features).find((feature) => feature.name === name)
  const sizes = (name: string, values: string) => {
    const found = channel(name)
    const [size, depth] = found && 'depth' in found && 'size' in found ? [found.size, found.depth] : [0, 0]
    return { width: millimetres(`${values}.width`, size), depth: millimetres(`${values}.depth`, depth) }
  }
  const { rod } = windings(cutter)
  const kerf = rod.diameter + 2 * rod.play
  const rowOf = (runs: 'width' | 'length') => layers.find((layer) => layer.runs === runs)?.plane ?? 0
  const holes = parts.flatMap(({ features }) => features).filter(({ kind }) => kind === 'hole')
  const wireHole = holes.find(({ name }) => name.startsWith('wire-'))
  const screw = holes.find(({ name }) => name.startsWith('screw-'))
  return {
    ...(gauge === undefined
      ? {}
      : {
          gauge: {
            sheet: gauge,
            rows: say(layers.length > 1 ? 'grid.build.rows' : 'grid.build.row', {
              sides: show.exactLength('row.sides', rowOf('width')),
              ends: show.exactLength('row.ends', rowOf('length')),
              row: show.exactLength('row.only', layers[0]?.plane ?? 0),
            }),
          },
        }),
    base: {
      sheet: mould,
      length: show.exactLength('base.length', input.mould.base.length),
      width: show.exactLength('base.width', input.mould.base.width),
      'more-length': millimetres('base.more.length', 2 * guide.play.length),
      'more-width': millimetres('base.more.width', 2 * guide.play.width),
      off: millimetres('base.off', spareOf(cutter)),
      grooves: say(groovesKey(cutter, gauge)),
    },
    seal: { coat: show.hundredths('seal.coat', COAT) },
    measure: {
      diameter: show.hundredths('wire.diameter', wire.diameter),
      bore: millimetres('peg.bore.exact', peg.bore),
      least: millimetres('peg.board.least', peg.board.least),
      most: millimetres('peg.board.most', peg.board.most),
      post: millimetres('peg.post', peg.post.diameter),
      'hole-least': millimetres('peg.hole.least', windings(cutter).hole.least),
      'hole-most': millimetres('peg.hole.most', windings(cutter).hole.most),
      nut: millimetres('peg.nut', windings(cutter).nut),
      fit: millimetres('dado.fit', dado.fitAllowance),
      ...boardOff(frame),
    },
    dado: {
      width: millimetres('dado.width', panels.end.thickness + dado.fitAllowance),
      depth: millimetres('dado.depth', dado.depth),
      inside: show.exactLength('grid.inside.length', inside.length),
    },
    'shelf-dado': sizes('shelf-dado', 'shelf-dado'),
    kerf: {
      ...sizes('rod-kerf', 'rod-kerf'),
      above: show.hundredths('rod-kerf.above', rod.above),
      wall: show.hundredths('rod-kerf.wall', rod.above - kerf / 2),
      share: show.percent('rod.covers', windings(cutter).covered, 0),
    },
    'wire-holes': {
      drill: show.size('wire.hole', wireHole && 'diameter' in wireHole ? wireHole.diameter : 0),
    },
    'shelf-holes': {
      bore: show.size('peg.bore', peg.bore),
      anchor: show.size('anchor.hole', anchor.hole),
    },
    dry: {
      length: show.exactLength('grid.inside.length', inside.length),
      width: show.exactLength('grid.inside.width', inside.width),
      diagonal: show.exactLength('grid.inside.diagonal', Math.hypot(inside.length, inside.width)),
      play: millimetres('play.length', guide.play.length),
    },
    ends: {
      screw: show.size('screw.hole', screw && 'diameter' in screw ? screw.diameter : 0),
    },
    stops: {
      edge: show.exactLength('knuckles', edgeAtEnd),
      rock: millimetres('stops.rock', ROCK),
    },
    shelves: { pairs: pairs(frame, parts) },
    round: { radius: millimetres('handle.radius', HANDLE_RADIUS) },
    anchors: { reach: millimetres('anchor.reach', anchor.reach) },
    stand: { room: millimetres('stand.cleat.play', stand.cleat.play) },
    pegs: {
      pilot: millimetres('peg.pilot', PEG_PILOT),
      hung: show.heavy('peg.hung', peg.rating / GRAVITY),
      count: show.count('pegs.count', cutter.rounds.filter(({ key }) => key === 'peg-body').length),
    },
    marks: {
      lines: show.count('marks.count', marks.length),
      tick: show.exactLength('level.marks', levelMarks(bound)),
    },
  }
}
