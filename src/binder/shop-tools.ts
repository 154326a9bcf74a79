/** The shop's scales and vessels as the calculators want them. */
import type { Container, DrawPlan, Scale } from '../batch/draws.ts'
import { checkVessel, FULLNESS } from '../batch/pots.ts'
import { type AddedAcid, hydroxideOfAcid } from '../chemistry/alkali.ts'
import type { ScaleErrors, UncertainAcid } from '../chemistry/superfat-input.ts'
import type { ShopFile } from '../schema/shop.ts'

export type Vessel = ShopFile['vessels'][string] & { readonly key: string }

export interface Vessels {
  readonly weighing: Vessel
  readonly alkali: Vessel
  readonly lye: Vessel
  readonly mixing: Vessel
  readonly pouring: Vessel
}

export type VesselRole = keyof Vessels

/** The largest vessel of each use, or the uses for which the shop has none. */
export const pickVessels = (shop: ShopFile): Vessels | { readonly missing: string[] } => {
  const uses = ['weighing', 'alkali', 'lye', 'mixing', 'pouring'] as const
  const found = new Map<string, Vessel>()
  for (const [key, vessel] of Object.entries(shop.vessels)) {
    const before = found.get(vessel.use)
    if (!before || before.volume < vessel.volume) found.set(vessel.use, { ...vessel, key })
  }
  const missing = uses.filter((use) => !found.has(use))
  if (missing.length > 0) return { missing }
  return Object.fromEntries(uses.map((use) => [use, found.get(use)])) as unknown as Vessels
}

export const scalesOf = (shop: ShopFile): readonly [Scale, ...Scale[]] =>
  Object.entries(shop.scales).map(
    ([name, scale]): Scale => ({
      name,
      capacity: scale.capacity,
      division: scale.division,
      ...(scale['smallest-weighing'] === undefined ? {} : { minimumWeighing: scale['smallest-weighing'] }),
      ...(scale.repeatability === undefined ? {} : { repeatability: scale.repeatability }),
    }),
  ) as unknown as readonly [Scale, ...Scale[]]

/** Span error of a shop scale that nobody has stated: 0.1 %, an estimate; it cancels where one scale weighs all. */
const SPAN_ERROR = 0.001

/** How far each scale may be off, by its key. */
export const scaleErrorsOf = (shop: ShopFile): Record<string, ScaleErrors> =>
  Object.fromEntries(
    Object.entries(shop.scales).map(([key, scale]) => [
      key,
      {
        division: scale.division,
        repeatability: scale.repeatability ?? scale.division / 2,
        span: scale['span-error'] ?? SPAN_ERROR,
      },
    ]),
  )

/** kg/m3; beads lie loose, with about 40 % of air between them (estimate) */
export const BEADS_DENSITY = 1250

/** An acid as the superfat counts it: what it takes of the alkali, and how it is weighed. */
export const uncertainAcid = (key: string, acid: AddedAcid, plan: DrawPlan): UncertainAcid => ({
  key,
  mass: plan.sum,
  hydroxidePerMass: hydroxideOfAcid({ ...acid, mass: 1 }),
  weighing: { scale: plan.scale.name, draws: plan.draws.length },
})

/** Share of a weighing vessel that is filled (common practice: so that it can be carried without spilling). */
const WEIGHING_FULLNESS = 0.8

/** A vessel to weigh something of a density in [kg/m3]. */
export const containerFor = (
  vessel: Pick<Vessel, 'key' | 'empty-mass' | 'volume'>,
  density: number,
): Container => ({
  name: vessel.key,
  emptyMass: vessel['empty-mass'],
  workingMass: vessel.volume * WEIGHING_FULLNESS * density,
})

export const asVessel = (vessel: Vessel) => ({
  name: vessel.key,
  material: vessel.material,
  brimVolume: vessel.volume,
  ratedTemperature: vessel.rated,
  sealed: vessel['tight-lid'] ?? false,
})

/** The most that lye may reach in this pail: its rating, what its material bears, and the shop's own limit [K]. */
export const hottestLye = (shop: ShopFile, pail: Vessel): number =>
  checkVessel({
    vessel: asVessel(pail),
    duty: 'lye',
    contents: 0,
    peakTemperature: 0,
    shopLimit: shop.limits['hottest-lye'],
  }).temperatureAllowed ?? Math.min(shop.limits['hottest-lye'], pail.rated)

/** How fast the pail cools, when somebody has looked twice. */
export const readingsOf = ({ cooling, volume }: Vessel) =>
  cooling && {
    first: cooling.first,
    second: cooling.second,
    timeBetween: cooling.after,
    room: cooling.room,
    volume: cooling.filled ?? volume * FULLNESS.lye,
  }
