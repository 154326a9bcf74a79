/** Like wires of a cutter, strung, tuned and loaded: what a sheet says of them, for either material. */
import { type Finding, isStopped } from '../findings.ts'
import { keptByInput } from '../kept-or-made.ts'
import { loadWire } from '../wires/loaded-wire.ts'
import {
  cuttingLoadHeld,
  type LinkMargin,
  type TensionRange,
  tunedWithin,
  usualTension,
  type WireHold,
  type WireLink,
  wireMargins,
  workingTension,
} from '../wires/margin.ts'
import { breakthrough } from '../wires/over-travel.ts'
import { type Note, noteOf, pitchOfTension, type Stiffening, stiffening } from '../wires/pitch.ts'
import {
  bestTuning,
  type RailBow,
  railBow,
  type TuningOrder,
  tuningOrder,
  type WireSet,
} from '../wires/rail.ts'
import type { Rail } from '../wires/rail-section.ts'
import { type WireFigures, type WireMaterial, wireFigures } from '../wires/strength.ts'
import { nearestSizes, type WireSize } from '../wires/wire-to-buy.ts'
import { CUT_TIMES, type CutTime, type CuttingLoads } from './cutting-loads.ts'

export const MATERIALS = ['music-wire', 'stainless-302'] as const satisfies readonly WireMaterial[]

export type WireGroupKey = 'grid-short' | 'grid-long' | 'bar'

/** Like wires before anything is known of their tension: sizes of their frame alone. */
export interface WirePlan {
  readonly key: WireGroupKey
  readonly count: number
  /** from pin to pin, of the soap in between, and of neighbours [m]; 0 where there are none */
  readonly length: number
  readonly soapWidth: number
  readonly spacing: number
  readonly diameter: number
  /** that the maker strings, and the tension that he tunes to, where he says it [N] */
  readonly material: WireMaterial
  readonly stated: number | undefined
  readonly hold: WireHold
  /** two like ones, and where the wires pull them from one joint on [m] */
  readonly rail: Rail
  readonly places: readonly number[]
  /** of both rails at a wire, for each newton more in all of them, on joints that turn [m/N] */
  readonly endGive: number
}

/** A wire while it cuts. */
export interface LoadedState {
  /** of soap on each metre [N/m] */
  readonly load: number
  /** at the pins, were they to stand still: at most [N] */
  readonly tension: number
  /** of the middle above the ends, with rails that give as far as they may: at most [m] */
  readonly lag: number
  /** height above the ends along the wire, from pin to pin [m] */
  readonly shape: readonly { readonly fromMiddle: number; readonly above: number }[]
}

/** Points of a wire that a drawing joins with straight lines. */
const SHAPE_POINTS = 41

export interface TuningPlan {
  readonly order: TuningOrder
  /** wires in the order in which they are tuned, counted from 0 along the rail */
  readonly wires: readonly number[]
  /** undefined when they never come right, or the rails are too limber to try */
  readonly passes: number | undefined
  /** farthest from the target after each pass [share] */
  readonly worst: readonly number[]
}

/** The wires of a group made of one material. */
export interface WireChoice {
  readonly material: WireMaterial
  /** as tuned [N]; of the option what its own strength asks for, within its range where one is */
  readonly tension: number
  readonly figures: WireFigures
  /** that is sold, next to the diameter */
  readonly size: WireSize
  /** of a tuned wire [Hz], and the note that a tuner shows */
  readonly pitch: number
  readonly note: Note
  readonly stiffening: Stiffening
  readonly loaded: Readonly<Record<CutTime, LoadedState>>
  /** at the usual load, weakest link first */
  readonly margins: readonly LinkMargin[]
  /** the most that soap may resist [N/m], and what gives way then */
  readonly held: { readonly load: number; readonly link: WireLink }
  readonly range: TensionRange
  /** of the ends below the soap when it parts at the latest, at the usual load [m] */
  readonly breakthrough: number
  readonly bow: { readonly pinned: RailBow; readonly fixed: RailBow }
  readonly tuning: TuningPlan
  readonly findings: readonly Finding[]
}

export interface WireGroup {
  readonly key: WireGroupKey
  readonly cutter: 'grid-cutter' | 'bar-cutter'
  readonly count: number
  /** [m] */
  readonly length: number
  readonly soapWidth: number
  readonly spacing: number
  readonly diameter: number
  /** [N] */
  readonly tension: number
  readonly tensionFrom: 'stated' | 'derived'
  readonly hold: WireHold
  /** that grooves and gap allow [m] */
  readonly lagAllowed: number
  readonly material: WireMaterial
  /** of the material that is strung, and of the other one */
  readonly chosen: WireChoice
  readonly option: WireChoice
  /** of the one that is strung, each with the name of its wire */
  readonly findings: readonly Finding[]
}

/** Names of the wires in findings, among those of parts. */
const NAMES = { 'grid-short': 'wire-short', 'grid-long': 'wire-long', bar: 'cutter-wire' } as const

/**
 * Tension that a group is tuned to.
 *
 *     as stated, else as `usualTension` has it
 *
 * @param plan of the group
 * @returns tension [N]
 * @source common practice
 */
export const tensionOf = ({ stated, material, diameter, hold }: WirePlan): number =>
  stated ?? usualTension({ material, diameter }, hold.peg)

/** A wire of a group with what does not vary. */
export const strungWire = ({ length, soapWidth, diameter, endGive }: WirePlan, material: WireMaterial) => ({
  length,
  soapWidth,
  axialStiffness: wireFigures({ material, diameter }).axialStiffness,
  endGive,
})

/**
 * The wires of a group under a load.
 *
 *     tension with pins that stand, lag with pins that give: each the most that it can be
 *
 * @param plan     of the group
 * @param material of the wire
 * @param load     of soap [N/m]
 * @param tension  at rest, as the plan has it unless given [N]
 * @returns tension [N], lag [m]
 * @throws RangeError as `loadWire`
 * @source irvine-cables
 */
export function loadedState(
  plan: WirePlan,
  material: WireMaterial,
  load: number,
  tension: number = tensionOf(plan),
): LoadedState {
  const wire = { ...strungWire(plan, material), restTension: tension, load }
  const { lag, lagAt } = loadWire(wire)
  return {
    load,
    tension: loadWire({ ...wire, endGive: 0 }).tension,
    lag,
    shape: Array.from({ length: SHAPE_POINTS }, (_, index) => {
      const fromMiddle = plan.length * (index / (SHAPE_POINTS - 1) - 0.5)
      return { fromMiddle, above: lagAt(fromMiddle) }
    }),
  }
}

/**
 * All that is said of a group.
 *
 *     margins, range and breakthrough at the usual load
 *
 * @param plan       of the group
 * @param loads      of soap [N/m]
 * @param lagAllowed by grooves and gap [m]
 * @returns the group, with what its chosen material finds
 * @throws RangeError as `loadWire` and `railGive`
 * @source irvine-cables, przemieniecki, common practice
 */
export function wireGroup(plan: WirePlan, loads: CuttingLoads, lagAllowed: number): WireGroup {
  const { key, count, length, soapWidth, spacing, diameter, hold, material } = plan
  const other = MATERIALS.find((one) => one !== material) ?? material
  const { at } = loads
  const chosen = choiceOf({ plan, material, at, lagAllowed })
  return {
    key,
    cutter: key === 'bar' ? 'bar-cutter' : 'grid-cutter',
    count,
    length,
    soapWidth,
    spacing,
    diameter,
    tension: tensionOf(plan),
    tensionFrom: plan.stated === undefined ? 'derived' : 'stated',
    hold,
    lagAllowed,
    material,
    chosen,
    option: choiceOf({ plan, material: other, at, lagAllowed }),
    findings: chosen.findings.map((finding) => ({
      ...finding,
      values: { one: NAMES[key], ...finding.values },
    })),
  }
}

const tuningPlan = (set: WireSet): TuningPlan => {
  const { order, wires, needed, passes } = bestTuning(set, 'pinned')
  return { order, wires, passes: needed, worst: passes.map(({ worst }) => worst) }
}

const untuned = (count: number): TuningPlan => ({
  order: 'along',
  wires: tuningOrder('along', count),
  passes: undefined,
  worst: [],
})

/** Of the other material, to whole newtons: a maker who states a tension states it for either. */
function optionTension(
  { stated, diameter, hold }: WirePlan,
  material: WireMaterial,
  range: TensionRange,
): number {
  if (stated !== undefined) return stated
  const usual = usualTension({ material, diameter }, hold.peg)
  if (range.findings.length > 0) return usual
  return Math.max(1, Math.min(Math.floor(range.high), Math.max(Math.ceil(range.low), usual)))
}

interface Choice extends Pick<CuttingLoads, 'at'> {
  readonly plan: WirePlan
  readonly material: WireMaterial
  readonly lagAllowed: number
}

/** Wires that are kept: of two materials in three groups, as drawn and as measured, of some fixtures. */
const MOST_KNOWN = 64

const choiceOf = keptByInput(MOST_KNOWN, ({ plan, material, at, lagAllowed }: Choice): WireChoice => {
  const { length, diameter, hold, rail, places } = plan
  const wire = { material, diameter }
  const figures = wireFigures(wire)
  const strung = strungWire(plan, material)
  const range = workingTension(strung, wire, hold, at.usual, lagAllowed)
  const tension = material === plan.material ? tensionOf(plan) : optionTension(plan, material, range)
  const string = { length, massPerLength: figures.massPerLength }
  const pitch = pitchOfTension(string, tension)
  const stiff = stiffening({ ...string, diameter, modulus: figures.modulus }, tension)
  const [fresh, usual, late] = CUT_TIMES.map((time) => loadedState(plan, material, at[time], tension)) as [
    LoadedState,
    LoadedState,
    LoadedState,
  ]
  const margins = wireMargins(wire, hold, usual.tension)
  const set = { rail, places, length, axialStiffness: strung.axialStiffness, tension }
  const bow = railBow(set)
  return {
    material,
    tension,
    figures,
    size: nearestSizes(wire).nearest,
    pitch,
    note: noteOf(pitch),
    stiffening: stiff,
    loaded: { fresh, usual, late },
    margins: margins.links,
    held: cuttingLoadHeld(strung, wire, hold, tension),
    range,
    breakthrough: breakthrough({ ...strung, restTension: tension, load: at.usual }),
    bow,
    // rails that are too limber are not worth going round
    tuning: isStopped(bow.findings) ? untuned(places.length) : tuningPlan(set),
    findings: [
      ...margins.findings,
      ...range.findings,
      ...tunedWithin(range, tension),
      ...bow.findings,
      ...stiff.findings,
    ],
  }
})
