/** The wires of a bar cutter as strings between rails, and what its handles ask for. */
import { weights } from '../fixtures/bar-cutter/balance.ts'
import { barCutterSizes } from '../fixtures/bar-cutter/sizes.ts'
import type { BarAsBuilt, BarCutter, BarCutterInput, BarCutterSizes } from '../fixtures/bar-cutter/types.ts'
import { wireLayout } from '../fixtures/bar-cutter/wires.ts'
import { TWISTED_EYE } from '../wires/margin.ts'
import { GRAVITY, type LeverPush, leverPush } from '../wires/push.ts'
import { pinGive } from '../wires/rail.ts'
import { boardSection } from '../wires/rail-section.ts'
import type { WireMaterial } from '../wires/strength.ts'
import { CUT_TIMES, type CutTime, type CuttingLoads } from './cutting-loads.ts'
import { loadedState, type WireGroup, type WirePlan, wireGroup } from './wire-groups.ts'

export interface BarStringing {
  readonly material: WireMaterial
  /** as stated [N] */
  readonly tension: number | undefined
}

/** The cutter is designed from this, all but the lag of its wires. */
export type BarFrame = Omit<BarCutterInput, 'wire'> & { readonly wire: Omit<BarCutterInput['wire'], 'lag'> }

/**
 * The wires of the cutter, and the lag that it is designed for.
 *
 *     length = front pins − back pins;   rails bent in their plane between the arms, the more limber one twice
 *
 * Wires that lag more lie deeper, and the front rail then clears the fence by a little more: the length grows by less than
 * a quarter of that. Reckoned once for wires as deep as usual and once for their lag it is right to a millionth. What the
 * hinge holds of the back rail is not counted: it has as much play as the rail bows.
 * A pair whose ends both have pegs has no eye; a wire that is tied hangs on a twisted one under its rail.
 *
 * @param frame     block, boards, pegs, pins [m, N]
 * @param stringing material, tension [N]
 * @param loads     of soap [N/m]
 * @returns plan, and lag at the usual load [m]; no plan where there are no wires
 * @throws RangeError as `loadWire`
 * @source irvine-cables, common practice
 */
export function barPlan(
  frame: BarFrame,
  stringing: BarStringing,
  { at }: CuttingLoads,
): { readonly plan?: WirePlan; readonly lag: number } {
  if (frame.block.cutsAcrossHeight.length === 0) return { lag: 0 }
  const planFor = (lag: number): WirePlan => {
    const input: BarCutterInput = { ...frame, wire: { ...frame.wire, lag } }
    return planOf(input, barCutterSizes(input), stringing)
  }
  const lagOf = (plan: WirePlan): number => loadedState(plan, plan.material, at.usual).lag
  const plan = planFor(lagOf(planFor(0)))
  return { plan, lag: lagOf(plan) }
}

function planOf(input: BarCutterInput, sizes: BarCutterSizes, { material, tension }: BarStringing): WirePlan {
  const cuts = input.block.cutsAcrossHeight
  const { armWidth, frontRailWidth, backRailWidth } = input.frame
  const [from, to] = [sizes.frame.x[0] + armWidth, sizes.frame.x[1] - armWidth]
  const { strings, front, back } = wireLayout(input, sizes)
  const tied = strings.some(({ kind }) => kind === 'single') || front.anchors.length + back.anchors.length > 0
  const rail = {
    length: to - from,
    sections: [
      boardSection({ width: input.panels.frame.thickness, depth: Math.min(frontRailWidth, backRailWidth) }),
    ],
  }
  const places = cuts.map((cut) => cut - from)
  return {
    key: 'bar',
    count: cuts.length,
    length: sizes.frame.frontPins - sizes.frame.backPins,
    soapWidth: sizes.loaf.width,
    spacing: Math.max(0, ...cuts.slice(1).map((cut, index) => cut - (cuts[index] ?? 0))),
    diameter: input.wire.diameter,
    material,
    stated: tension,
    hold: {
      peg: input.peg.rating,
      anchor: tied ? TWISTED_EYE.low : 1,
      bendRadius:
        Math.min(input.pin.diameter, input.peg.post.diameter, ...(tied ? [input.anchor.diameter] : [])) / 2,
    },
    rail,
    places,
    endGive: pinGive({ rail, places }, 'pinned'),
  }
}

export interface BarPush {
  /** of the middle of the handles and of the middle of the soap from the hinge [m] */
  readonly handleArm: number
  readonly soapArm: number
  readonly at: Readonly<Record<CutTime, LeverPush>>
  /** the most that soap may resist before the weakest link has no more than its margin */
  readonly held: { readonly load: number; readonly plan: LeverPush }
  /** where hands stop: what the weakest link bears, or what tips the cutter from the ends of the handles [N] */
  readonly stop: { readonly push: number; readonly by: 'wires' | 'tips' }
}

export interface BarWires {
  readonly groups: readonly WireGroup[]
  readonly push?: BarPush
}

/**
 * The wires in the cutter that was designed for their lag.
 *
 *     lag allowed = depth of the closed wire − what it has to be through by
 *
 * @param plan   of `barPlan`
 * @param cutter designed for its lag
 * @param loads  of soap [N/m]
 * @returns group and push
 * @throws RangeError as `loadWire`
 * @source irvine-cables, kamyab1998, common practice
 */
export function barWires(plan: WirePlan | undefined, cutter: BarCutter, loads: CuttingLoads): BarWires {
  if (!plan) return { groups: [] }
  const group = wireGroup(plan, loads, Math.max(1e-6, cutter.wire.depth - cutter.input.limits.cutThrough))
  const { parts, rounds, plates, loaf, frame } = cutter
  const frameMoment =
    GRAVITY *
    weights(parts, rounds, plates, cutter.input.peg).swinging.reduce((sum, { mass, y }) => sum + mass * y, 0)
  const handle = frame.end - cutter.input.frame.handle / 2
  const pushAt = (load: number): LeverPush =>
    leverPush({ wires: plan.count, load, near: loaf.from, far: loaf.to, handle, frameMoment })
  const [fresh, usual, late] = CUT_TIMES.map((time) => pushAt(loads.at[time])) as [
    LeverPush,
    LeverPush,
    LeverPush,
  ]
  const held = group.chosen.held.load
  return {
    groups: [group],
    push: {
      handleArm: handle,
      soapArm: (loaf.from + loaf.to) / 2,
      at: { fresh, usual, late },
      held: { load: held, plan: pushAt(held) },
      stop: stopAt(pushAt(held).push, cutter.balance.tippingPressEnd),
    },
  }
}

/** The smaller one, and no less than nothing: a frame whose own weight is too much for its wires is not pushed at all. */
const stopAt = (wiresBear: number, tips: number): BarPush['stop'] => ({
  push: Math.max(0, Math.min(wiresBear, tips)),
  by: tips < wiresBear ? 'tips' : 'wires',
})

/**
 * The wires as they were measured.
 *
 *     places = as drawn + as much as each wire stands further from the end stop
 *
 * @param plan  of the wires as drawn [m]
 * @param cuts  that they are drawn at, from the end stop [m]
 * @param found on the finished cutter [m]
 * @returns plan [m]
 * @source common practice
 */
export const measuredPlan = (plan: WirePlan, cuts: readonly number[], found: BarAsBuilt): WirePlan => {
  const { rail } = plan
  const at = found.wires ?? cuts
  const places = plan.places.map((place, index) => place + (at[index] ?? 0) - (cuts[index] ?? 0))
  return {
    ...plan,
    length: found.speaking ?? plan.length,
    spacing: Math.max(0, ...at.slice(1).map((place, index) => place - (at[index] ?? 0))),
    places,
    endGive: pinGive({ rail, places }, 'pinned'),
  }
}

/**
 * The cutter with the wires that were measured; its wood is as drawn.
 *
 *     length cut = as drawn + as much as the speaking length is more, for each cut of a wire
 *
 * @param cutter as drawn
 * @param plan   of its wires as measured [m]
 * @returns the cutter [m]
 * @source common practice
 */
export const withBarWiresOf = (cutter: BarCutter, plan: WirePlan): BarCutter => {
  const strings = cutter.strings.map((string) => ({
    ...string,
    speaking: plan.length,
    length: string.length + string.wires.length * (plan.length - string.speaking),
  }))
  const longest = Math.max(0, ...strings.map(({ length }) => length))
  return {
    ...cutter,
    strings,
    hardware: cutter.hardware.map((item) =>
      item.key === 'music-wire' || item.key === 'stainless-wire' ? { ...item, length: longest } : item,
    ),
  }
}
