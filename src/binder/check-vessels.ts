/** Every vessel of a batch against what it is to hold: how full, how hot, of what it is made, what stands under it. */
import { checkVessel, type Duty } from '../batch/pots.ts'
import type { Finding } from '../findings.ts'
import type { LyePlan } from './plan-lye.ts'
import { asVessel, BEADS_DENSITY, type Vessel, type VesselRole, type Vessels } from './shop-tools.ts'
import type { WeighedOut } from './weigh-out.ts'

export interface VesselUse {
  readonly role: VesselRole
  readonly vessel: Vessel
  /** most that goes in at once [m3] */
  readonly contents: number
  /** hottest that they get [K] */
  readonly peak: number
  /** what it may be filled to for this [m3] */
  readonly workingVolume: number
  /** that they may reach in it: its rating, its material and the shop's limit together [K] */
  readonly allowed: number | undefined
  /** that the tub under it must hold; 0 where none is asked for [m3] */
  readonly trayNeeded: number
  readonly findings: readonly Finding[]
}

/** m3 and K */
export interface VesselLoads {
  readonly lye: { readonly volume: number; readonly peak: number; readonly shopLimit: number }
  /** of one kettle; the fats are melted in it before lye is near */
  readonly mixing: { readonly volume: number; readonly peak: number; readonly melting: number }
  readonly pouring: { readonly volume: number; readonly peak: number }
  /** largest draw of oils, and of alkali, cold */
  readonly weighing: { readonly volume: number; readonly peak: number }
  readonly alkali: { readonly volume: number; readonly peak: number }
}

export const checkVessels = (vessels: Vessels, loads: VesselLoads): VesselUse[] => {
  const use = (
    role: VesselRole,
    duty: Duty,
    contents: number,
    peak: number,
    more: { readonly shopLimit?: number; readonly trayVolume?: number } = {},
  ): VesselUse => {
    const vessel = vessels[role]
    const check = checkVessel({ vessel: asVessel(vessel), duty, contents, peakTemperature: peak, ...more })
    return {
      role,
      vessel,
      contents,
      peak,
      workingVolume: check.workingVolume,
      allowed: check.temperatureAllowed,
      trayNeeded: check.trayNeeded,
      findings: check.findings,
    }
  }
  const { lye, mixing, pouring, weighing, alkali } = loads
  const { tray } = vessels.lye
  const kettle = use('mixing', 'batter', mixing.volume, mixing.peak)
  // Fats are melted in it without lye: what its maker allows counts then, not what lye allows.
  const melting = use('mixing', 'oil', 0, mixing.melting)
  return [
    use('weighing', 'oil', weighing.volume, weighing.peak),
    use('alkali', 'jug', alkali.volume, alkali.peak),
    use('lye', 'lye', lye.volume, lye.peak, {
      shopLimit: lye.shopLimit,
      ...(tray === undefined ? {} : { trayVolume: tray }),
    }),
    { ...kettle, findings: [...kettle.findings, ...melting.findings] },
    use('pouring', 'jug', pouring.volume, pouring.peak),
  ]
}

/** kg/m3; the lightest fats (common practice) */
const OIL_DENSITY = 890

const largestDraw = (
  weighings: readonly { readonly plan: { readonly draws: readonly { readonly target: number }[] } }[],
): number => Math.max(0, ...weighings.flatMap(({ plan }) => plan.draws.map(({ target }) => target)))

/** Of the alkali that stands in its cup at once, as beads or as stock lye [m3]. */
const largestPortion = ({ alkalis }: Pick<WeighedOut, 'alkalis'>, { portions }: LyePlan): number =>
  portions.length > 0
    ? Math.max(0, ...portions.flatMap(({ masses }) => masses)) / BEADS_DENSITY
    : largestDraw(alkalis) / STOCK_DENSITY

/** kg/m3; half-and-half stock lye (laliberte2009) */
const STOCK_DENSITY = 1500

/** Most that stands in the vessels that things are weighed in, as cold as the room. */
export const weighingLoads = (
  weighed: Pick<WeighedOut, 'oils' | 'alkalis'>,
  lye: LyePlan,
  room: number,
): Pick<VesselLoads, 'weighing' | 'alkali'> => ({
  weighing: { volume: largestDraw(weighed.oils) / OIL_DENSITY, peak: room },
  alkali: { volume: largestPortion(weighed, lye), peak: room },
})
