/** Building the frame, in the order of its steps. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { Fill } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/build-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Step } from '../model.ts'

const BUILDING = [
  'base', 'measure', 'cut', 'gauge', 'dado', 'shelf-dado', 'kerf', 'wire-holes', 'shelf-holes', 'dry', 'ends', 'shelves', 'stops',
  'round', 'seal', 'rods', 'pegs', 'anchors', 'stand', 'marks',
] as const // biome-ignore format: a list

type BuildingStep = (typeof BUILDING)[number]

/** m; a stop block that is short by more lets the frame tip in its grooves (common practice) */
const ROCK = 0.0005

const WITH_REASON: readonly BuildingStep[] = [
  'base', 'gauge', 'kerf', 'wire-holes', 'ends', 'stops', 'seal', 'anchors', 'stand',
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
      text: say(`grid.build.${key}`, fill[key] ?? {}),
      ...(WITH_REASON.includes(key) ? { why: say(`grid.build.${key}-why`) } : {}),
      ...(blanks[key] ? { blanks: blanks[key] } : {}),
    }),
  )
}

const blanksOf = (
  { say }: Frame,
  { cutter, panelNames }: BoundGridCutter,
): Partial<Record<BuildingStep, Step['blanks']>> => {
  const millimetres = say('blank.millimetres')
  const line = (key: string) => ({ label: say(`grid.build.${key}`), after: millimetres })
  return {
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
  { show }: Frame,
  { cutter }: BoundGridCutter,
  { mould, gauge }: FixtureNumbers,
): Partial<Record<BuildingStep, Fill>> => {
  const { input, inside, edgeAtEnd, parts, guide, layers } = cutter
  const { panels, dado, peg, anchor, wire } = input
  const millimetres = (name: string, length: number) => show.millimetres(name, length)
  const channel = (name: string) =>
    parts.flatMap(({ features }) => features).find((feature) => feature.name === name)
  const sizes = (name: string, values: string) => {
    const found = channel(name)
    const [size, depth] = found && 'depth' in found && 'size' in found ? [found.size, found.depth] : [0, 0]
    return { width: millimetres(`${values}.width`, size), depth: millimetres(`${values}.depth`, depth) }
  }
  const holes = parts.flatMap(({ features }) => features).filter(({ kind }) => kind === 'hole')
  const wireHole = holes.find(({ name }) => name.startsWith('wire-'))
  const screw = holes.find(({ name }) => name.startsWith('screw-'))
  return {
    ...(gauge === undefined ? {} : { gauge: { sheet: gauge } }),
    base: { sheet: mould },
    measure: {
      diameter: show.hundredths('wire.diameter', wire.diameter),
      bore: millimetres('peg.bore.exact', peg.bore),
      least: millimetres('peg.board.least', peg.board.least),
      most: millimetres('peg.board.most', peg.board.most),
      post: millimetres('peg.post', peg.post.diameter),
      wrap: millimetres('peg.wrap', peg.post.wrap),
    },
    dado: {
      width: millimetres('dado.width', panels.end.thickness + dado.fitAllowance),
      depth: millimetres('dado.depth', dado.depth),
      inside: show.exactLength('grid.inside.length', inside.length),
    },
    'shelf-dado': sizes('shelf-dado', 'shelf-dado'),
    kerf: sizes('rod-kerf', 'rod-kerf'),
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
    anchors: { reach: millimetres('anchor.reach', anchor.reach) },
    pegs: { count: show.count('pegs.count', cutter.rounds.filter(({ key }) => key === 'peg-body').length) },
    marks: { first: show.exactLength('marks.first', layers[0]?.plane ?? 0) },
  }
}
