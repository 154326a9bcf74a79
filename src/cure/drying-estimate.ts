/** What a bar will weigh before anybody has put one on the scale: an estimate with its range. */
import type { Finding } from '../findings.ts'
import { HALF, type LossBetween, shareLeft, type WeightOn } from './drying-forms.ts'

/** A bar as it leaves the cutter. */
export interface GreenBar {
  /** kg */
  readonly mass: number
  /** share of the batch that is water: lye water, water of the reaction with free acids, water of additions */
  readonly waterShare: number
  /** m, the thinnest way through the bar */
  readonly thickness: number
}

interface Guess {
  readonly low: number
  readonly nominal: number
  readonly high: number
}

export interface DryingDefaults {
  /** share of a cured bar that is still water */
  readonly endMoisture: Guess
  /** d until half of the loss has left a slab of the thickness below */
  readonly halfTime: Guess
  /** m */
  readonly thickness: number
}

/**
 * What is assumed until the maker has weighed. Nobody has published a drying curve of cold-process bars: the moistures
 * are those of milled and moulded soap, the half time is set so that four to six weeks take four fifths to nine tenths
 * of the loss from a bar of 25 mm, as the trade's habit of waiting so long suggests.
 */
export const DEFAULT_DRYING: DryingDefaults = {
  endMoisture: { low: 0.08, nominal: 0.12, high: 0.16 }, // read, soap-moisture, of milled soap: an estimate here
  halfTime: { low: 5, nominal: 10, high: 20 }, // estimate
  thickness: 0.025, // the bar that the half time is said for
}

export interface DryingEstimate {
  /** kg at the end, from the dampest to the driest end */
  readonly plateau: Guess
  /** d until half of the loss has left this bar */
  readonly halfTime: Guess
  readonly weightOn: WeightOn
  readonly lossBetween: LossBetween
  readonly findings: readonly Finding[]
}

/**
 * Weight of a bar against time from its water and its thickness alone.
 *
 *     end = m (1 − w) / (1 − w_end)        half time = default · (L / 25 mm)²
 *
 * The curve is that of a slab. The low edge takes the driest end and the shortest half time, the high edge the dampest
 * and the longest: a range, not a 95 % interval. Damp soap (w below the end's) is taken not to change. The loss between
 * two days is the most that the driest end gives with any of the three half times.
 *
 * @param bar      green mass [kg], water [–], thickness [m]
 * @param freeFrom d after the pour at which the bars stand free
 * @param defaults end moisture [–] and half time [d]
 * @returns weight [kg] on any day after the pour, and loss [kg] between two
 * @source crank, soap-moisture, common practice
 */
export function estimateDrying(
  bar: GreenBar,
  freeFrom: number,
  defaults: DryingDefaults = DEFAULT_DRYING,
): DryingEstimate {
  const { endMoisture, halfTime } = defaults
  const slower = (bar.thickness / defaults.thickness) ** 2
  const dry = bar.mass * (1 - bar.waterShare)
  const endAt = (moisture: number): number => Math.min(bar.mass, dry / (1 - moisture))
  const plateau = {
    low: endAt(endMoisture.low),
    nominal: endAt(endMoisture.nominal),
    high: endAt(endMoisture.high),
  }
  const times = {
    low: halfTime.low * slower,
    nominal: halfTime.nominal * slower,
    high: halfTime.high * slower,
  }
  const curve = (end: number, half: number) => (days: number) =>
    end + (bar.mass - end) * shareLeft('slab', HALF.slab / half, days - freeFrom)
  const low = curve(plateau.low, times.low)
  const middle = curve(plateau.nominal, times.nominal)
  const high = curve(plateau.high, times.high)

  const findings: readonly Finding[] = [
    {
      code: 'drying-estimated',
      severity: 'warn',
      values: { halfTimeLow: times.low, halfTimeHigh: times.high },
    },
  ]
  return {
    plateau,
    halfTime: times,
    weightOn: (days) => ({ low: low(days), middle: middle(days), high: high(days) }),
    lossBetween: (from, to) =>
      (bar.mass - plateau.low) *
      Math.max(
        ...[times.low, times.nominal, times.high].map((half) => {
          const left = (days: number): number => shareLeft('slab', HALF.slab / half, days - freeFrom)
          return left(from) - left(to)
        }),
      ),
    findings,
  }
}
