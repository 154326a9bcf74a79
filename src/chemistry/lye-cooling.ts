/** How long a pail of hot lye takes to cool. */
import type { Finding } from '../findings.ts'
import type { Band } from './solution-heat.ts'

export interface CoolingConstant {
  /** [1/s]; nothing where the readings cannot give one */
  readonly constant?: number
  readonly findings: readonly Finding[]
}

/**
 * Cooling constant from two readings of the same pail, by Newton's law.
 *
 *     k = ln((T₁ − T_room) / (T₂ − T_room)) / Δt
 *
 * Holds for one pail, one fill and one place. Readings that do not fall towards the room give a finding instead.
 *
 * @param readings first and second temperature [K], the time between them [s], room [K]
 * @returns constant [1/s], findings
 * @source common practice
 */
export function coolingConstantFromReadings(readings: {
  readonly first: number
  readonly second: number
  readonly timeBetween: number
  readonly room: number
}): CoolingConstant {
  const { first, second, timeBetween, room } = readings
  if (timeBetween <= 0 || first <= second || second <= room) {
    return {
      findings: [
        { code: 'cooling-readings-unusable', severity: 'warn', values: { first, second, room, timeBetween } },
      ],
    }
  }
  return { constant: Math.log((first - room) / (second - room)) / timeBetween, findings: [] }
}

export type Surroundings = 'still-air' | 'water-bath'

/**
 * Heat that passes from lye to its surroundings [W/(m2 K)], estimates. Still air: film of 5 to 10, from memory, and
 * radiation of about 4. Water bath: through 2 to 4 mm of polypropylene at 0.11 to 0.22 W/(m K), from memory, and two films.
 */
const LOSS: Readonly<Record<Surroundings, Band>> = {
  'still-air': { low: 7, nominal: 10, high: 14 },
  'water-bath': { low: 25, nominal: 45, high: 80 },
}

/**
 * Cooling constant of a pail that has not been measured yet.
 *
 *     k = U A / (m c)
 *
 * An estimate: two readings replace it.
 *
 * @param pail mass of lye [kg], its heat capacity [J/(kg K)], wetted area that loses heat [m2], where it stands
 * @returns constant with its band [1/s]
 * @source common practice
 */
export function estimatedCoolingConstant(pail: {
  readonly mass: number
  readonly heatCapacity: number
  readonly area: number
  readonly surroundings: Surroundings
}): Band {
  const scale = pail.area / (pail.mass * pail.heatCapacity)
  const loss = LOSS[pail.surroundings]
  return { low: loss.low * scale, nominal: loss.nominal * scale, high: loss.high * scale }
}

export interface CoolingTime {
  /** [s]; nothing where the pail never gets there */
  readonly time?: number
  readonly findings: readonly Finding[]
}

/**
 * Time for a pail to cool from one temperature to another, by Newton's law.
 *
 *     t = ln((T_from − T_room) / (T_to − T_room)) / k
 *
 * 0 when it is there already; a goal at or under the room is never reached and gives a finding.
 *
 * @param cooling from, to and room or bath [K], constant [1/s], > 0
 * @returns time [s], findings
 * @source common practice
 */
export function coolingTime(cooling: {
  readonly from: number
  readonly to: number
  readonly room: number
  readonly constant: number
}): CoolingTime {
  const { from, to, room, constant } = cooling
  if (from <= to) return { time: 0, findings: [] }
  if (to <= room || constant <= 0) {
    return {
      findings: [{ code: 'lye-never-cools-to-goal', severity: 'warn', values: { from, to, room } }],
    }
  }
  return { time: Math.log((from - room) / (to - room)) / constant, findings: [] }
}

/**
 * Temperature of a pail after a time, by Newton's law.
 *
 *     T = T_room + (T_from − T_room) e^(−k t)
 *
 * @param cooling from and room [K], constant [1/s], time [s]
 * @returns temperature [K]
 * @source common practice
 */
export const temperatureAfter = (cooling: {
  readonly from: number
  readonly room: number
  readonly constant: number
  readonly time: number
}): number => cooling.room + (cooling.from - cooling.room) * Math.exp(-cooling.constant * cooling.time)
