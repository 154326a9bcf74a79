/** How the bar cutter is put together, in the order in which it is done. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { type Channel, isChannel, isHole } from '../../geometry/part.ts'
import type { Fill } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { boardOff, INSPECTION } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Step } from '../model.ts'
import { clampRoom } from './wire-steps.ts'

/** m; what coats that are wiped off again may add to a face, and how far the undersides of a lap may be apart (common practice) */
const COAT = 0.00005
const LAP_STEP = 0.0002
/** m; of the backing board, for the block and the shortest lath; and above the blade, for hands (common practice) */
const BLOCK_AND_LATH = 0.1
const HANDS_ABOVE = 0.1

const STEPS = [
  'measure', 'cut', 'dado', 'gauge', 'grooves', 'slots', 'laps', 'holes', 'dry', 'stand', 'fence', 'frame', 'seal', 'pins', 'catch',
  'hinge', 'lay', 'rests', 'pegs',
] as const // biome-ignore format: a list
type BuildStep = (typeof STEPS)[number]
const WITH_REASON: readonly BuildStep[] = [
  'measure',
  'dado',
  'gauge',
  'grooves',
  'slots',
  'laps',
  'holes',
  'stand',
  'pins',
  'catch',
  'lay',
  'rests',
  'pegs',
]

/** @returns steps; what a cutter does not have is left out */
export const buildSteps = (
  frame: Frame,
  { cutter, panelNames }: BoundBarCutter,
  { gauge }: FixtureNumbers,
): readonly Step[] => {
  const { say, show } = frame
  const { input, base, frame: outer, hinge, parts, platform, fence } = cutter
  const mm = show.millimetres
  const { panels } = input
  const slotDepth = fence.height + platform.grooveDepth
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
    measure: boardOff(frame),
    cut: {
      gap: mm('hinge.gap', input.hinge.gap),
      least: mm('hinge.gap-least', cutter.fitting.hinge.least),
      most: mm('hinge.gap-most', cutter.fitting.hinge.most),
    },
    dado: {
      width: mm('dado.width', dadoWidth),
      fit: mm('dado.fit', dadoWidth - panels.upright.thickness),
      depth: mm('dado.depth', base.dado),
      ...bearingWalls(frame, parts),
    },
    gauge: {
      sheet: gauge ?? '',
      line: mm('gauge.line', -platform.x[0]),
      rails: mm('gauge.stop', -outer.x[0]),
      edge: mm('gauge.edge', input.pin.fromEdge),
      beside: mm('gauge.beside', cutter.winding.beside),
      'back-pins': say(`bar-cutter.build.back-pins-${backPins(cutter)}`),
    },
    grooves: {
      width: mm('groove.width', input.platform.grooveWidth),
      depth: mm('groove.depth', platform.grooveDepth),
      wires: show.count('wire.count', cutter.wires.length),
      long: show.exactLength('backing.length', backingLength(cutter)),
      high: show.exactLength('backing.height', slotDepth + HANDS_ABOVE),
    },
    slots: { depth: mm('slot.depth', slotDepth) },
    laps: { depth: mm('lap.depth', panels.frame.thickness / 2), step: mm('lap.step', LAP_STEP) },
    holes: {
      pin: mm('pin.diameter', input.pin.diameter),
      ...(recess ? { recess: mm('peg.recess-depth', recess.depth) } : {}),
    },
    dry: { platform: mm('dry.platform', platform.top), off: mm('dry.off', INSPECTION.outline) },
    stand: {
      post: mm('hinge.post-top', hinge.axis - input.hinge.gap / 2),
      step: mm('brace.above', base.dado),
      side: mm('brace.middle', input.frame.armWidth / 2),
    },
    fence: { below: mm('groove.left', panels.platform.thickness - platform.grooveDepth) },
    frame: {
      diagonal: show.exactLength('frame.diagonal', diagonal(cutter)),
      screws: lapScrews(frame, cutter),
    },
    seal: { coat: show.hundredths('seal.coat', COAT) },
    hinge: {
      length: show.exactLength('hinge.cut', outer.x[1] - outer.x[0]),
      free: mm('hinge.free', hinge.edge - input.hinge.knuckle / 2),
      between: mm('hinge.between', input.hinge.gap - 2 * input.hinge.leaf.thickness),
      screw: cutter.hingeScrews.screw,
      pilot: show.exactLength('hinge.pilot', cutter.hingeScrews.pilot.diameter),
    },
    lay: {
      clearance: mm('frame.clearance', input.frame.clearance),
      depth: mm('hinge.pilot-depth', cutter.hingeScrews.pilot.depth),
      jaw: mm('clamp.jaw', clampRoom(cutter)),
      bit: show.exactLength('hinge.bit', hingeBit(cutter)),
    },
    catch: { pilot: mm('catch.pilot', cutter.holdOpen.kind.pilot) },
    rests: { height: mm('frame.bottom', outer.bottom) },
    pins: {
      below: mm('pin.below', input.pin.below),
      above: mm('pin.above', cutter.fitting.pinAbove),
    },
    pegs: {
      level: mm('peg.wires-below', input.frame.wireDrop - input.wire.diameter),
      run: mm('wire.drop', input.frame.wireDrop),
      anchors: cutter.rounds.some(({ key }) => key.startsWith('anchor-'))
        ? say(`bar-cutter.build.anchors${input.anchor.key === 'pin' ? '-pin' : ''}`, {
            out: mm('anchor.out', input.anchor.reach),
          })
        : '',
    },
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

/** Where the walls are that take the load, from the datum edges of their boards. */
const bearingWalls = ({ show }: Frame, parts: BoundBarCutter['cutter']['parts']): Fill => {
  const dado = (part: string, name: string): Channel | undefined =>
    parts
      .find(({ key }) => key === part)
      ?.features.filter(isChannel)
      .find((one) => one.name === name)
  const post = dado('cutter-base', 'hinge-post')
  return {
    back: show.millimetres('dado.back-stop', dado('cutter-base', 'back-stop')?.at ?? 0),
    front: show.millimetres('dado.hinge-post', (post?.at ?? 0) + (post?.size ?? 0)),
    stop: show.millimetres('dado.end-stop', dado('cutter-platform', 'end-stop')?.at ?? 0),
  }
}

/** m; the work slides along it from the first cut to the last, and block and lath stand before its end. */
const backingLength = ({ platform, wires }: BoundBarCutter['cutter']): number => {
  const [first = 0, last = first] = [wires[0]?.x, wires.at(-1)?.x]
  return platform.x[1] - platform.x[0] + last - first + BLOCK_AND_LATH
}

/** m; from the open rail's leaf to the front of the fence, square to the leaning rail, and into the wood. */
const hingeBit = ({ fence, input, hingeScrews }: BoundBarCutter['cutter']): number =>
  fence.y[1] / Math.sin(input.frame.openAngle) + hingeScrews.pilot.depth

/** Which lengths of wire turn round pins of the back rail. */
const backPins = ({ strings }: BoundBarCutter['cutter']): 'pairs' | 'single' | 'both' => {
  const kinds = new Set(strings.map(({ kind }) => kind))
  if (kinds.size === 2) return 'both'
  return kinds.has('pair') ? 'pairs' : 'single'
}

/** Screws of the laps, whose pilots must not come out below. */
const lapScrews = ({ say, show }: Frame, { screws, input }: BoundBarCutter['cutter']): Inline => {
  const laps = screws.joints.filter(({ into }) => into === 'cutter-arm')
  const [lap] = laps
  if (!lap) return say('bar-cutter.build.lap-clamps')
  return say('bar-cutter.build.lap-screws', {
    count: show.count(
      'lap.screws',
      laps.reduce((sum, { count }) => sum + count, 0),
    ),
    screw: lap.screw,
    length: show.size('lap.screw-length', lap.length),
    deep: show.millimetres('lap.pilot-depth', Math.min(...laps.map(({ pilot }) => pilot.depth))),
    wood: show.millimetres('lap.depth', input.panels.frame.thickness / 2),
  })
}

/** m; of the frame from its back edge to the front edge of the front rail, outer corner to outer corner */
const diagonal = ({ frame }: BoundBarCutter['cutter']): number =>
  Math.hypot(frame.x[1] - frame.x[0], frame.frontRail[1] - frame.backRail[0])
