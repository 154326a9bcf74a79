/** What was reckoned and proved of a grid cutter before its sheet was printed, and why it has the sizes that it has. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { WireLayer } from '../../fixtures/grid-cutter/types.ts'
import { nothing, number } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Facts, Value } from '../model.ts'

/** Beside a wire in its groove when the frame stands as far to one side as base and frame let it: at least. */
const besideWires = ({ layers, input }: BoundGridCutter['cutter']): number =>
  Math.min(
    ...layers.map(
      ({ grooveWidth }) => (input.mould.input.base.grooveWidth - grooveWidth) / 2 + input.limits.wander,
    ),
  )

export const gridProof = ({ say, show }: Frame, { proof, cutter }: BoundGridCutter): Block => {
  if (!proof) return nothing
  const room = (name: string, length: number) => ({ room: show.millimetres(`proof.${name}`, length) })
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('mould.proof.heading'),
    items: [
      say('grid.proof.pairs', { pairs: show.count('proof.pairs', proof.pairs) }),
      say('grid.proof.contacts', { contacts: show.count('proof.contacts', proof.contacts) }),
      say('grid.proof.stroke', {
        ...room('blockClearance', proof.blockClearance),
        base: show.millimetres('proof.baseClearance', proof.baseClearance),
      }),
      say('grid.proof.grooves', {
        ...room('grooveClearance', proof.grooveClearance),
        aside: show.millimetres('groove.aside', besideWires(cutter)),
      }),
      say('grid.proof.layers', room('wireClearance', proof.wireClearance)),
      say('grid.proof.holes', room('holeClearance', proof.holeClearance)),
      say('grid.proof.buttons', room('buttonClearance', proof.buttonClearance)),
      say('grid.proof.sticks', room('stickClearance', proof.stickClearance)),
      say('grid.proof.edge'),
    ],
  }
}

/** Each choice of the geometry with its number and its reason. */
export const gridReasons = (frame: Frame, bound: BoundGridCutter): Facts => {
  const { say, show } = frame
  const { cutter } = bound
  const { input, guide, gap, layers } = cutter
  const { clearance, limits } = input
  const millimetres = (name: string, length: number) => show.millimetres(name, length)
  const fact = (key: string, value: Value, fill = {}) => ({
    label: say(`grid.why.${key}`),
    cell: number(value),
    note: say(`grid.why.${key}-note`, fill),
  })
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      fact('guide', show.exactLength('guide.depth', guide.depth), {
        share: show.percent('guide.ratio', guide.ratio, 0),
        least: show.percent('guide.least', limits.guide, 0),
      }),
      fact('clearance', millimetres('clearance', clearance), {
        bow: millimetres('clearance.bow', clearance - limits.clearance),
        reckoned: show.hundredths('clearance.reckoned', input.bow),
        kept: millimetres('clearance.kept', limits.clearance),
      }),
      fact('level', show.exactLength('level.marks', levelMarks(bound)), {
        told: millimetres('level.told', cutter.levelness.toldWedge),
        wedge: millimetres(
          'level.wedge',
          Math.max(cutter.levelness.wedge.length, cutter.levelness.wedge.width),
        ),
      }),
      fact('play', millimetres('play.length', guide.play.length), {
        width: millimetres('play.width', guide.play.width),
      }),
      ...layers.map((layer) => overTravel(frame, bound, layer)),
      ...(layers.length > 1
        ? [
            fact('gap', millimetres('gap', gap.is), {
              needed: millimetres('gap.needed', gap.needed),
              short: millimetres('lag.short', input.wire.lag.short),
              long: millimetres('lag.long', input.wire.lag.long),
            }),
          ]
        : []),
      ...groove(frame, bound),
      fact('reach', show.exactLength('reach', cutter.railAboveBase), {
        standing: show.exactLength('standing', standingOf(bound)),
      }),
      fact('knuckles', show.exactLength('knuckles', cutter.edgeAtEnd), {
        least: millimetres('knuckles.least', limits.knuckles),
      }),
    ],
  }
}

/** Difference of the marks at two corners that makes a loaf one millimetre out of parallel: the direction that counts. */
export const levelMarks = ({ cutter }: BoundGridCutter): number =>
  Math.min(cutter.levelness.marksPerWedge.length, cutter.levelness.marksPerWedge.width)

/** How far a loaf stands out above the frame at the end. */
export const standingOf = ({ cutter }: BoundGridCutter): number => {
  const { base, block } = cutter.input.mould
  return base.height + block.setHeight - cutter.hands.end
}

const overTravel = ({ say, show }: Frame, { cutter, wires }: BoundGridCutter, layer: WireLayer) => {
  const lag = cutter.input.wire.lag[layer.layer]
  const name = (what: string) => `overTravel.${layer.layer}.${what}`
  return {
    label: say(`grid.why.over-travel-${layer.layer}`),
    cell: number(show.millimetres(name('is'), layer.overTravel)),
    note: say('grid.why.over-travel-note', {
      load: show.perMetre('load.usual', loadOf(wires.groups, layer)),
      lag: show.millimetres(`lag.${layer.layer}`, lag),
      middle: show.millimetres(name('middle'), layer.overTravel - lag),
      groove: show.millimetres(name('groove'), layer.groove.is),
      needed: show.millimetres(name('needed'), layer.groove.needed),
    }),
  }
}

/** What soap is taken to hold a metre of these wires back with [N/m]. */
const loadOf = (groups: BoundGridCutter['wires']['groups'], { layer }: WireLayer): number =>
  groups.find(({ key }) => key === `grid-${layer}`)?.chosen.loaded.usual.load ?? 0

const groove = ({ say, show }: Frame, { cutter }: BoundGridCutter): Facts['items'] => {
  const widest = Math.max(0, ...cutter.layers.map(({ grooveWidth }) => grooveWidth))
  if (widest === 0) return []
  return [
    {
      label: say('grid.why.groove'),
      cell: number(show.millimetres('groove.is', cutter.input.mould.input.base.grooveWidth)),
      note: say('grid.why.groove-note', { needed: show.millimetres('groove.needed', widest) }),
    },
  ]
}

/** Whether each cut has a wire of its own, and why the short ones lead. */
export const wireChoices = ({ say }: Frame, { cutter }: BoundGridCutter): Block => ({
  kind: 'cautions',
  signal: 'notice',
  heading: say('grid.choices.heading'),
  items: [
    ...(cutter.layers.length > 1 ? [say('grid.choices.lead')] : []),
    say(cutter.input.wire.looped ? 'grid.choices.looped' : 'grid.choices.single'),
    say('grid.choices.rod'),
    say('grid.choices.pick'),
    say('grid.choices.shelf'),
  ],
})
