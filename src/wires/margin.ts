/** What gives way first when a wire is loaded: the wire, its peg, its anchor or the edge that it is bent over. */
import type { Finding } from '../findings.ts'
import { risingRoot } from '../numerics/root.ts'
import { loadWire, type WireUnderLoad } from './loaded-wire.ts'
import { type Wire, wireFigures } from './strength.ts'

/** N that a peg holds without turning back: a light one of an instrument, a heavier one (common practice, from memory). */
export const PEG_RATING = { light: 100, heavy: 200 } as const

/**
 * Share of a wire's strength that an anchor keeps: twisted eyes lose a third to a half (common practice). The low end
 * counts until a maker has pulled one of his own to break.
 */
export const TWISTED_EYE = { low: 0.5, high: 0.65 } as const

/**
 * Bent over a pin as thick as this many diameters of wire to its middle, wire keeps most of its strength; over less, as at
 * the edge of a hole, it loses a third to a half (common practice; the numbers are estimates).
 */
const BEND = { radius: 3, overPin: 0.9, overEdge: 0.5 } as const

/**
 * Least margins [–]. Of the wire itself 1.5: it then stays below two thirds of its strength, where music wire is still
 * elastic (65 to 75 %, from memory) and keeps its note. A peg's rating has its margin in it.
 */
export const LEAST_MARGIN = { wire: 1.5, anchor: 1.25, edge: 1.25, peg: 1 } as const

export type WireLink = keyof typeof LEAST_MARGIN

/** What a wire hangs on. */
export interface WireHold {
  /** N that the peg holds */
  readonly peg: number
  /** share of the wire's strength that the anchor keeps [0..1] */
  readonly anchor: number
  /** radius of the pin that it is bent over at its sharpest turn [m], 0 for the edge of a hole */
  readonly bendRadius: number
}

export interface LinkMargin {
  readonly link: WireLink
  /** pull at which it gives way [N], that over the tension [–], and the least that is wanted [–] */
  readonly holds: number
  readonly margin: number
  readonly least: number
}

export interface WireMargins {
  /** the one that runs out first is the first: smallest margin beside the least that is wanted */
  readonly links: readonly LinkMargin[]
  readonly findings: readonly Finding[]
}

/**
 * Share of a wire's strength that is left where it is bent.
 *
 *     0.9 over a pin of at least three diameters of wire in radius, 0.5 over anything sharper
 *
 * Over any pin of a frame the outside of a wire yields: it would have to be a hundred diameters thick not to. Hard-drawn wire
 * bears that once; it does not bear it again and again.
 *
 * @param diameter   of the wire [m]
 * @param bendRadius of the pin [m], ≥ 0
 * @returns share [–]
 * @source common practice
 */
export const bendEfficiency = (diameter: number, bendRadius: number): number =>
  bendRadius >= BEND.radius * diameter * (1 - 1e-9) ? BEND.overPin : BEND.overEdge

/**
 * Margins of a wire and what it hangs on at the tension that it has under load.
 *
 *     margin = what the link holds / tension;   wire: S A, anchor and edge: a share of S A, peg: its rating
 *
 * Rubbing at the pins keeps some of the tension from peg and anchor; that is not counted.
 *
 * @param wire    material and diameter [m]
 * @param hold    peg [N], anchor [–], bend [m]
 * @param tension at the pins under load [N], > 0: not the tuned one, which is less
 * @returns margins, weakest first, and a stop for each that is less than wanted
 * @throws RangeError for a diameter outside of the tables
 * @source astm-a228, astm-a313, common practice
 */
export function wireMargins(wire: Wire, hold: WireHold, tension: number): WireMargins {
  const links = linksOf(wire, hold).map(({ link, holds }) => ({
    link,
    holds,
    margin: holds / tension,
    least: LEAST_MARGIN[link],
  }))
  links.sort((a, b) => a.margin / a.least - b.margin / b.least)
  const findings = links.flatMap((link) => (link.margin < link.least ? [gaveWay(link, tension)] : []))
  const needed = BEND.radius * wire.diameter
  if (hold.bendRadius < needed * (1 - 1e-9))
    findings.push({
      code: 'wire-bend-too-sharp',
      severity: 'warn',
      values: { radius: hold.bendRadius, needed, wire: wire.diameter },
    })
  return { links, findings }
}

const linksOf = (wire: Wire, hold: WireHold): { readonly link: WireLink; readonly holds: number }[] => {
  const { breakingLoad } = wireFigures(wire)
  return [
    { link: 'wire', holds: breakingLoad },
    { link: 'peg', holds: hold.peg },
    { link: 'anchor', holds: hold.anchor * breakingLoad },
    { link: 'edge', holds: bendEfficiency(wire.diameter, hold.bendRadius) * breakingLoad },
  ]
}

function gaveWay({ link, holds, least }: LinkMargin, tension: number): Finding {
  const values = { pullNeeded: tension, holds, pullAllowed: holds / least }
  if (link === 'wire') return { code: 'wire-breaks', severity: 'stop', values }
  if (link === 'peg') return { code: 'wire-peg-slips', severity: 'stop', values }
  if (link === 'anchor') return { code: 'wire-anchor-gives', severity: 'stop', values }
  return { code: 'wire-breaks-at-edge', severity: 'stop', values }
}

/** Most pull at the pins that every link bears with its margin, and the link that says so. */
const pullMost = (wire: Wire, hold: WireHold): { readonly pull: number; readonly link: WireLink } =>
  linksOf(wire, hold)
    .map(({ link, holds }) => ({ link, pull: holds / LEAST_MARGIN[link] }))
    .reduce((worst, one) => (one.pull < worst.pull ? one : worst))

/** Share of its strength and of its peg's rating to which a wire is tuned: the load brings it up by a third to a half (estimates). */
const USUAL_TUNING = { strength: 0.25, peg: 0.6, step: 5 } as const

/**
 * Tension to tune a wire to when nobody has said one.
 *
 *     T₀ = least of a quarter of its strength and 0.6 of its peg's rating, in whole steps of 5 N
 *
 * @param wire   material and diameter [m]
 * @param rating of its peg [N]
 * @returns tension at rest [N], at least 5
 * @throws RangeError for a diameter outside of the tables
 * @source common practice
 */
export function usualTension(wire: Wire, rating: number): number {
  const most = Math.min(USUAL_TUNING.strength * wireFigures(wire).breakingLoad, USUAL_TUNING.peg * rating)
  // a product like 0.6 · 200 may miss its step by a rounding
  return Math.max(1, Math.floor(most / USUAL_TUNING.step + 1e-9)) * USUAL_TUNING.step
}

/** A wire in its frame without what varies: tension and load. Its pins give when its lag is asked for, and stand when its pull is. */
export type StrungWire = Omit<WireUnderLoad, 'load' | 'restTension'>

/** N/m beyond which nobody cuts: five times the latest block. */
const LOAD_END = 2000
/** Share of its strength below which a wire still shows the coil that it came in and has no clear note (estimate). */
const STRAIGHT = 0.1

/**
 * Most that soap may resist before the weakest link has no more than its margin: what a maker compares his trial with.
 *
 *     q with T(q) = least of what the links hold / their margins, by bisection
 *
 * @param strung      length, soap [m], E A [N], give [m/N]
 * @param wire        material and diameter [m]
 * @param hold        peg [N], anchor [–], bend [m]
 * @param restTension tuned [N], > 0
 * @returns load [N/m], 0 when the wire is strung too tight already, and the link
 * @throws RangeError for a diameter outside of the tables, or soap wider than the wire is long
 * @source irvine-cables, astm-a228, astm-a313
 */
export function cuttingLoadHeld(
  strung: StrungWire,
  wire: Wire,
  hold: WireHold,
  restTension: number,
): { readonly load: number; readonly link: WireLink } {
  const { pull, link } = pullMost(wire, hold)
  const tension = (load: number): number => loadWire({ ...strung, endGive: 0, restTension, load }).tension
  return { load: risingRoot(tension, pull, { low: 0, high: LOAD_END, tolerance: 1e-6 }), link }
}

/**
 * Whether a wire is tuned within its range.
 *
 *     low ≤ T₀ ≤ high
 *
 * @param range   of `workingTension`; of one that nothing fits, nothing more is said
 * @param tension as tuned [N]
 * @returns a stop with both ends of the range when the tension lies outside
 * @source common practice
 */
export const tunedWithin = (range: TensionRange, tension: number): readonly Finding[] =>
  range.findings.length > 0 || (tension >= range.low * (1 - 1e-6) && tension <= range.high * (1 + 1e-6))
    ? []
    : [
        {
          code: 'wire-tuned-out-of-range',
          severity: 'stop',
          values: { tension, tensionLow: range.low, tensionHigh: range.high },
        },
      ]

export interface TensionRange {
  /** tuned tension that keeps the lag within its limit, and that the weakest link bears [N] */
  readonly low: number
  readonly high: number
  readonly limitedBy: WireLink
  readonly findings: readonly Finding[]
}

/**
 * Tensions to which a wire may be tuned for a load.
 *
 *     low: lag(T₀) = most lag, and a tenth of the strength at least;   high: T(T₀) = least of what the links hold / their margins
 *
 * A wire tuned lower lags more than its groove allows, or is not straight; tuned higher, something gives way in the soap. No tension between the
 * two is a stop: another wire, better pegs, deeper grooves or softer soap.
 *
 * @param strung length, soap [m], E A [N], give [m/N], which counts for the lag
 * @param wire   material and diameter [m]
 * @param hold   peg [N], anchor [–], bend [m]
 * @param load   of the soap [N/m], ≥ 0
 * @param lagMost of the middle above the ends [m], > 0
 * @returns tensions at rest [N], the link that sets the upper one
 * @throws RangeError for a diameter outside of the tables, or soap wider than the wire is long
 * @source irvine-cables, astm-a228, astm-a313
 */
export function workingTension(
  strung: StrungWire,
  wire: Wire,
  hold: WireHold,
  load: number,
  lagMost: number,
): TensionRange {
  const { pull, link } = pullMost(wire, hold)
  const straight = STRAIGHT * wireFigures(wire).breakingLoad
  const interval = { low: straight, high: Math.max(straight, pull), tolerance: 1e-6 }
  const lag = (restTension: number): number => loadWire({ ...strung, restTension, load }).lag
  const loaded = (restTension: number): number =>
    loadWire({ ...strung, endGive: 0, restTension, load }).tension
  const low = risingRoot((tension) => -lag(tension), -lagMost, interval)
  const high = risingRoot(loaded, pull, interval)
  // where the interval ends before the limit is met, its end is no answer
  const fits = lag(low) <= lagMost * (1 + 1e-6) && loaded(high) <= pull * (1 + 1e-6) && low <= high
  return {
    low,
    high,
    limitedBy: link,
    findings: fits
      ? []
      : [
          {
            code: 'wire-no-tension-fits',
            severity: 'stop',
            values: { tensionLow: low, tensionHigh: high, cuttingLoad: load, lagMost },
          },
        ],
  }
}
