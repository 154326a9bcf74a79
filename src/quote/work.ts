/** Work that is counted on the parts of a fixture, and how long it takes: an estimate with two ends, never one number. */
import { isChamfer, isChannel, isFold, isHole, isNotch, isScribe, type Part } from '../geometry/part.ts'

/** What is counted, each with the time that one takes. */
export type WorkKind =
  /** drawings read, jigs and fences set, tidied up: once for each thing that is made */
  | 'set-up'
  | 'saw-cut'
  | 'channel-metre'
  | 'hole'
  | 'recess'
  | 'notch'
  /** broken, folded or scribed */
  | 'edge'
  /** measured, marked, sanded, labelled */
  | 'piece'
  /** glued and clamped */
  | 'joint'
  | 'screw'
  /** peg, pin, anchor, rod, bolt, hinge: cut to length and put in */
  | 'fitting'
  /** strung and tuned */
  | 'wire'
  /** m2 of one coat */
  | 'finish'

export type Work = Readonly<Record<WorkKind, number>>

/** Two ends of a time, or of what follows from it. */
export interface Span {
  readonly low: number
  readonly high: number
}

/** Time for one of each [s]. */
export type WorkTimes = Readonly<Record<WorkKind, Span>>

const minutes = (low: number, high: number): Span => ({ low: low * 60, high: high * 60 })

/**
 * Who works by hand with one saw, and who has done it before (common practice: estimates, until a clock says otherwise).
 */
export const USUAL_TIMES: WorkTimes = {
  'set-up': minutes(30, 60),
  'saw-cut': minutes(1.5, 3),
  'channel-metre': minutes(4, 10),
  hole: minutes(0.7, 1.5),
  recess: minutes(0.4, 1),
  notch: minutes(1, 3),
  edge: minutes(0.5, 1.5),
  piece: minutes(3, 6),
  joint: minutes(5, 12),
  screw: minutes(0.7, 1.5),
  fitting: minutes(2, 5),
  wire: minutes(6, 12),
  finish: minutes(8, 15),
}

/** What the parts themselves do not say. */
export interface WorkBeside {
  readonly joints: number
  readonly screws: number
  readonly fittings: number
  readonly wires: number
  /** m2 of faces, all coats */
  readonly coated: number
}

/**
 * Work on the parts of one thing, without the saw cuts that take boards apart.
 *
 * Formula: features counted on every copy; channels by their length along the part; a chamfer, a fold or a scribed line is
 * two edges, one or one. Validity: as drawn.
 * @param parts   of it [m]
 * @param beside  what is joined, screwed, fitted, strung and coated
 * @returns how often each is done [-, m, m2]
 * @source common practice
 */
export function workOn(parts: readonly Part[], beside: WorkBeside): Work {
  const over = (count: (part: Part) => number): number =>
    parts.reduce((sum, part) => sum + part.count * count(part), 0)
  const metres = ({ features, length, width }: Part): number =>
    features.filter(isChannel).reduce((sum, { runs }) => sum + (runs === 'length' ? length : width), 0)
  const edges = ({ features }: Part): number =>
    2 * features.filter(isChamfer).length + features.filter((one) => isFold(one) || isScribe(one)).length
  return {
    'set-up': 1,
    'saw-cut': 0,
    'channel-metre': over(metres),
    hole: over(({ features }) => features.filter(isHole).length),
    recess: over(({ features }) => features.filter((one) => isHole(one) && one.counterbore).length),
    notch: over(({ features }) => features.filter(isNotch).length),
    edge: over(edges),
    piece: over(() => 1),
    joint: beside.joints,
    screw: beside.screws,
    fitting: beside.fittings,
    wire: beside.wires,
    finish: beside.coated,
  }
}

/**
 * How long work takes.
 *
 *     low = sum of count · time of one at its low end;   high likewise
 *
 * Validity: as the times; the ends are those of a slow and of a quick day, not of what is likely.
 * @param work  how often each is done
 * @param times for one of each [s]
 * @returns both ends [s]
 * @source common practice
 */
export function timeOf(work: Work, times: WorkTimes): Span {
  const kinds = Object.keys(work) as WorkKind[]
  return {
    low: kinds.reduce((sum, kind) => sum + work[kind] * times[kind].low, 0),
    high: kinds.reduce((sum, kind) => sum + work[kind] * times[kind].high, 0),
  }
}

/** h; a time is said no finer, and above ten hours in whole ones: the estimate knows no more */
const FINE = 0.5
const COARSE = 1
const COARSE_FROM = 10
/** float noise that must not make another half hour of an exact one */
const NOISE = 1e-9

/**
 * Both ends as whole half hours.
 *
 * Formula: the low end down and the high end up to the next half hour, from ten hours on to the next hour; half an hour at
 * least. Validity: times from 0.
 * @param time both ends [s]
 * @returns both ends in half hours, whole numbers [0.5 h]
 * @source common practice
 */
export function halfHours({ low, high }: Span): Span {
  const stepped = (time: number, round: (steps: number) => number, noise: number): number => {
    const hours = time / 3600
    const step = hours >= COARSE_FROM ? COARSE : FINE
    return Math.max(1, (round(hours / step + noise) * step) / FINE)
  }
  return { low: stepped(low, Math.floor, NOISE), high: stepped(high, Math.ceil, -NOISE) }
}

/**
 * What work costs.
 *
 * Formula: half hours x rate / 2, rounded to a whole minor unit, halves up. Validity: whole minor units.
 * @param halves both ends [0.5 h]
 * @param rate   for an hour, in the smallest coin
 * @returns both ends, in the smallest coin
 * @source common practice
 */
export const costOf = ({ low, high }: Span, rate: number): Span => ({
  low: Math.round((low * rate) / 2),
  high: Math.round((high * rate) / 2),
})
