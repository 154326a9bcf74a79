/** How hard the frame is pushed through the block, who can do it, and how a trial tells before the frame is built. */
import type { Finding } from '../findings.ts'
import { studentQuantile } from '../numerics/student-t.ts'
import { CUTTING_LOAD } from './cutting-load.ts'

/** m/s2, standard gravity, exact by definition */
export const GRAVITY = 9.80665

/** Like wires of one layer: how many, and the soap that each lies in [m]. */
export interface WireLayer {
  readonly count: number
  readonly soapWidth: number
}

/**
 * Length of all wires that lies in soap at once.
 *
 *     Σ count · width
 *
 * @param layers of the frame [m]
 * @returns length [m]
 * @source common practice
 */
export const wireInSoap = (layers: readonly WireLayer[]): number =>
  layers.reduce((sum, { count, soapWidth }) => sum + count * soapWidth, 0)

/** Who pushes. */
export interface Person {
  /** kg, and m tall */
  readonly mass: number
  readonly height: number
}

/** A light person: what the light one can push, others can (estimate). */
export const LIGHT_PERSON: Person = { mass: 60, height: 1.65 }

/**
 * Height of the hands as a share of a person's, with the share of the weight that both hands press straight down there.
 * Wrist of the hanging arm, elbow and shoulder at 0.485, 0.63 and 0.818 (from memory); the shares are estimates: arms
 * straight the weight leans on them, at the shoulder only muscles push.
 */
const PRESS = [
  [0.485, 0.5],
  [0.63, 0.35],
  [0.818, 0.15],
] as const

/**
 * What a person presses down with both hands for the half minute of a cut.
 *
 *     F = share(height of the hands / own height) · m g, the share on straight lines between wrist, elbow and shoulder
 *
 * Below the wrist the share stays: it takes a stoop to get there. Above the shoulder it does, too, which is more than
 * anybody manages well.
 *
 * @param person     mass [kg], height [m], both > 0
 * @param handHeight above the floor [m], ≥ 0
 * @returns force [N]
 * @source drillis-contini, common practice
 */
export function personPress(person: Person, handHeight: number): number {
  const level = handHeight / person.height
  let share: number = PRESS[0][1]
  for (const [index, [at, press]] of PRESS.entries()) {
    const next = PRESS[index + 1]
    if (level >= at) share = press
    if (next && level > at && level < next[0])
      share = press + ((next[1] - press) * (level - at)) / (next[0] - at)
  }
  return share * person.mass * GRAVITY
}

/** m; by which bent knees lower the hands while the back stays upright (estimate) */
export const BENT_KNEES = 0.2

/**
 * Heights of a stand on which people push with an upright back.
 *
 *     highest = elbow − hands at the start;   lowest = wrist of the hanging arm − hands at the end − what bent knees give
 *
 * @param hands  above the stand at the start and at the end [m]
 * @param person height [m]
 * @returns heights above the floor [m]
 * @source drillis-contini, common practice
 */
export const standRange = (
  hands: { readonly start: number; readonly end: number },
  { height }: Person = LIGHT_PERSON,
): { readonly low: number; readonly high: number } => ({
  low: PRESS[0][0] * height - hands.end - BENT_KNEES,
  high: PRESS[1][0] * height - hands.start,
})

export type PushBy = 'one-person' | 'two-people' | 'two-stages' | 'lever-or-screws'

export interface PushPlan {
  /** of wire in soap at once [m] */
  readonly wireLength: number
  /** that the soap resists with [N], and that is left after the frame's weight [N] */
  readonly resistance: number
  readonly push: number
  /** of the layer with most wire in soap, alone, after the frame's weight [N] */
  readonly stagePush: number
  /** that one person presses where the hands are worst placed [N] */
  readonly onePerson: number
  readonly by: PushBy
  readonly findings: readonly Finding[]
}

/**
 * Push for all wires together and who it takes.
 *
 *     F = q Σ L − m g
 *     one person: F ≤ P;   two: F ≤ 2 P;   two stages: each layer alone ≤ 2 P;   else a lever or screws
 *
 * The push depends on the length of wire in soap, not on how deep it is. Hands start highest, and there P is least.
 * Two stages: the wires of one layer are strung for the first push, those of the other for the second.
 *
 * @param cut layers of the frame [m], load [N/m], mass of the frame [kg], hands at the start above the floor [m], person
 * @returns forces [N] and who it takes
 * @source kamyab1998, drillis-contini, common practice
 */
export function pushPlan(cut: {
  readonly layers: readonly WireLayer[]
  readonly load: number
  readonly frameMass: number
  readonly handHeight: number
  readonly person?: Person
}): PushPlan {
  const { layers, load, frameMass, handHeight } = cut
  const wireLength = wireInSoap(layers)
  const weight = frameMass * GRAVITY
  const resistance = load * wireLength
  const push = Math.max(0, resistance - weight)
  const longest = Math.max(0, ...layers.map((layer) => wireInSoap([layer])))
  const stagePush = Math.max(0, load * longest - weight)
  const onePerson = personPress(cut.person ?? LIGHT_PERSON, handHeight)
  const findings: Finding[] = []
  const two = 2 * onePerson
  let by: PushBy = 'one-person'
  if (resistance < weight)
    findings.push({
      code: 'frame-sinks-by-itself',
      severity: 'warn',
      values: { resistance, weight, cuttingLoad: load },
    })
  if (push > two && stagePush <= two) {
    by = 'two-stages'
    findings.push({
      code: 'push-wants-two-stages',
      severity: 'hold',
      values: { push, pushByTwo: two, stagePush, handHeight, cuttingLoad: load },
    })
  } else if (push > two) {
    by = 'lever-or-screws'
    findings.push({
      code: 'push-wants-lever',
      severity: 'hold',
      values: { push, pushByTwo: two, stagePush, handHeight, cuttingLoad: load },
    })
  } else if (push > onePerson) {
    by = 'two-people'
    findings.push({
      code: 'push-wants-two-people',
      severity: 'warn',
      values: { push, pushByOne: onePerson, pushByTwo: two, handHeight, cuttingLoad: load },
    })
  }
  return { wireLength, resistance, push, stagePush, onePerson, by, findings }
}

export interface LeverPush {
  /** that the soap resists with, where the wires are [N] */
  readonly resistance: number
  /** on the handles, with the frame's own weight taken off; both hands together [N] */
  readonly push: number
  /** of soap, and of the frame's weight, about the hinge [N m] */
  readonly soapMoment: number
  readonly frameMoment: number
  /** how much longer the handles' arm is than that of the soap [–] */
  readonly leverage: number
}

/**
 * Push at the handles of a hinged frame whose wires lie all in soap.
 *
 *     F arm = q n w (near + far)/2 − frame's moment
 *
 * Each bit of wire moves on a circle about the hinge, and soap holds it back square to its own arm: the sum of load times
 * arm over the width is load times the middle's arm. The frame is near level then (at most 20 degrees open: its weight helps
 * by 6 % less). What the hinge rubs with is left out.
 *
 * @param cut wires, load [N/m], near and far edge of the soap and the middle of the handles from the hinge [m], moment of
 *   the frame's weight about it [N m]
 * @returns forces [N], moments [N m]
 * @source kamyab1998, common practice
 */
export function leverPush(cut: {
  readonly wires: number
  readonly load: number
  readonly near: number
  readonly far: number
  readonly handle: number
  readonly frameMoment: number
}): LeverPush {
  const { wires, load, near, far, handle, frameMoment } = cut
  const resistance = load * wires * (far - near)
  const middle = (near + far) / 2
  const soapMoment = resistance * middle
  return {
    resistance,
    push: Math.max(0, soapMoment - frameMoment) / handle,
    soapMoment,
    frameMoment,
    leverage: handle / middle,
  }
}

export interface TrialResult {
  /** N/m, and the middle 95 % for it when there is more than one reading */
  readonly load: number
  readonly low: number
  readonly high: number
  readonly findings: readonly Finding[]
}

/** Half width of the interval that is still worth reckoning with [share] (estimate). */
const MOST_SCATTER = 0.25

/**
 * Cutting load from a trial frame: a few wires of the kind that is to be strung, pushed through a test block of the same
 * soap at the same age.
 *
 *     q = (R + m g)/(n w), R what the scale shows while the wires move;   ± t₀.₉₇₅ s/√k for k readings
 *
 * Pushed down by a spring scale, the frame's weight pushes, too. With the block standing on a scale the scale shows all
 * of it: then the mass is nought. What counts is the steady reading, not the jerk at the start; the block is twice as
 * wide as the space between its wires or more, or they push each other's soap.
 *
 * @param trial readings [N], one or more, mass of the frame [kg], wires, width of the block [m]
 * @returns load [N/m] with its interval
 * @throws RangeError without readings, wires or width
 * @source kamyab1998, common practice
 */
export function trialCuttingLoad(trial: {
  readonly readings: readonly number[]
  readonly frameMass: number
  readonly wires: number
  readonly width: number
}): TrialResult {
  const { readings, frameMass, wires, width } = trial
  const count = readings.length
  if (!(count > 0 && wires > 0 && width > 0))
    throw new RangeError('no trial without readings, wires and soap')
  const loads = readings.map((reading) => (reading + frameMass * GRAVITY) / (wires * width))
  const load = loads.reduce((sum, one) => sum + one, 0) / count
  const variance = loads.reduce((sum, one) => sum + (one - load) ** 2, 0) / Math.max(1, count - 1)
  const half = count > 1 ? studentQuantile(0.975, count - 1) * Math.sqrt(variance / count) : 0
  const findings: Finding[] = []
  if (load < CUTTING_LOAD.fresh || load > CUTTING_LOAD.late)
    findings.push({
      code: 'trial-load-out-of-range',
      severity: 'warn',
      values: { cuttingLoad: load, loadLow: CUTTING_LOAD.fresh, loadHigh: CUTTING_LOAD.late },
    })
  if (half > MOST_SCATTER * load)
    findings.push({
      code: 'trial-readings-scatter',
      severity: 'warn',
      values: { cuttingLoad: load, loadHalf: half, readings: count },
    })
  return { load, low: Math.max(0, load - half), high: load + half, findings }
}
