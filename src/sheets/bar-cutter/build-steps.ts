/** How the bar cutter is put together, in the order in which it is done. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { isHole } from '../../geometry/part.ts'
import type { Fill } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/build-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Step } from '../model.ts'

/** m; what all coats together may add to a face, and how far the undersides of a lap may be apart (common practice) */
const COAT = 0.00005
const LAP_STEP = 0.0002

const STEPS = [
  'measure', 'cut', 'dado', 'gauge', 'grooves', 'laps', 'holes', 'dry', 'stand', 'fence', 'frame', 'seal', 'hinge', 'rests', 'catch',
  'pins', 'pegs',
] as const // biome-ignore format: a list
type BuildStep = (typeof STEPS)[number]
const WITH_REASON: readonly BuildStep[] = [
  'measure',
  'dado',
  'gauge',
  'grooves',
  'laps',
  'holes',
  'rests',
  'catch',
  'pegs',
]

/** @returns steps; what a cutter does not have is left out */
export const buildSteps = (
  { say, show }: Frame,
  { cutter, panelNames }: BoundBarCutter,
  { gauge }: FixtureNumbers,
): readonly Step[] => {
  const { input, base, frame, hinge, parts } = cutter
  const mm = show.millimetres
  const { panels } = input
  const board = (key: string) => panelNames.get(key) ?? key
  const materials = [...new Set(parts.map(({ material }) => material))]
  const dado = parts.flatMap(({ features }) => features.filter(({ kind }) => kind === 'dado'))[0]
  const dadoWidth = dado && 'size' in dado ? dado.size : panels.upright.thickness
  const recess = parts
    .flatMap(({ features }) => features.filter(isHole))
    .find(({ name, counterbore }) => counterbore && name.startsWith('peg-'))?.counterbore
  const blanks: Readonly<Partial<Record<BuildStep, Step['blanks']>>> = {
    measure: materials.map((material) => ({
      label: say('mould.assembly.thickness', { board: board(material) }),
      after: say('blank.millimetres'),
    })),
    frame: [{ label: say('mould.assembly.diagonal-1') }, { label: say('mould.assembly.diagonal-2') }],
  }
  const fill: Readonly<Partial<Record<BuildStep, Fill>>> = {
    dado: {
      width: mm('dado.width', dadoWidth),
      fit: mm('dado.fit', dadoWidth - panels.upright.thickness),
      depth: mm('dado.depth', base.dado),
    },
    gauge: {
      sheet: gauge ?? '',
      stop: show.exactLength('gauge.stop', -frame.x[0]),
      beside: mm('gauge.beside', (input.pin.diameter + input.wire.diameter) / 2),
    },
    grooves: {
      width: mm('groove.width', input.platform.grooveWidth),
      depth: mm('groove.depth', cutter.platform.grooveDepth),
      wires: show.count('wire.count', cutter.wires.length),
    },
    laps: { depth: mm('lap.depth', panels.frame.thickness / 2), step: mm('lap.step', LAP_STEP) },
    holes: {
      pin: mm('pin.diameter', input.pin.diameter),
      ...(recess ? { recess: mm('peg.recess-depth', recess.depth) } : {}),
    },
    stand: { post: mm('hinge.post-top', hinge.axis - input.hinge.gap / 2) },
    fence: { clearance: mm('frame.clearance', input.frame.clearance) },
    frame: { diagonal: show.exactLength('frame.diagonal', diagonal(cutter)) },
    seal: { coat: show.hundredths('seal.coat', COAT) },
    hinge: {
      length: show.exactLength('hinge.cut', frame.x[1] - frame.x[0]),
      free: mm('hinge.free', hinge.edge - input.hinge.knuckle / 2),
      screw: cutter.hingeScrews.screw,
      pilot: show.exactLength('hinge.pilot', cutter.hingeScrews.pilot.diameter),
      clearance: mm('frame.clearance', input.frame.clearance),
    },
    catch: { pilot: mm('catch.pilot', cutter.holdOpen.kind.pilot) },
    rests: { height: mm('frame.bottom', frame.bottom) },
    pins: { below: mm('pin.below', input.pin.below) },
  }
  return STEPS.filter((key) => key !== 'gauge' || gauge !== undefined).map((key): Step => {
    const text = key === 'holes' && !recess ? 'bar-cutter.build.holes-plain' : `bar-cutter.build.${key}`
    return {
      text: say(text, fill[key] ?? {}),
      ...(WITH_REASON.includes(key) ? { why: say(`bar-cutter.build.${key}-why`) } : {}),
      ...(key === 'hinge' ? { why: say(cutter.hingeScrews.note) } : {}),
      ...(blanks[key] ? { blanks: blanks[key] } : {}),
    }
  })
}

/** m; of the frame from its back edge to the front edge of the front rail, outer corner to outer corner */
const diagonal = ({ frame }: BoundBarCutter['cutter']): number =>
  Math.hypot(frame.x[1] - frame.x[0], frame.frontRail[1] - frame.backRail[0])
