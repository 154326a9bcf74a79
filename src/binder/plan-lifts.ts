/** What is lifted on the day, how heavy it is, and by how many. */
import { assessLift, type LiftAssessment } from '../batch/lifting.ts'

export type LoadKey = 'kettle-of-oils' | 'pail-of-lye' | 'jug-of-batter'

export interface Load {
  readonly key: LoadKey
  /** vessel and what is in it [kg] */
  readonly mass: number
  readonly lift: LiftAssessment
  /** what one person may lift of it here, never more than the shop's limit [kg] */
  readonly alone: number
  readonly people: 1 | 2 | undefined
}

/** kg and m */
export interface LiftRequest {
  readonly kettle: { readonly mass: number; readonly height: number; readonly stands: number }
  readonly pail: { readonly mass: number }
  readonly jug: { readonly mass: number }
  /** rim of the mould above the floor */
  readonly rim: number
  readonly shopLimit: number
}

/** Hands on a vessel's handles, as a share of its height (estimate) */
const HANDLE_SHARE = 0.7
/** Ankles to hands: close to the body, and over a rim (estimates) */
const NEAR = 0.3
const OVER_RIM = 0.4
/** Height of the platform of a floor scale, and of the hands on a pail in its tub on the floor (estimates) */
const FLOOR_SCALE = 0.1
const PAIL_HANDS = 0.35

/** Everything that somebody lifts before the block is hard; what weighs more than these is never lifted. */
export const planLifts = (request: LiftRequest): Load[] => {
  const { kettle, pail, jug, shopLimit } = request
  const common = { coupling: 'fair', people: 2, shopLimit } as const
  const handles = HANDLE_SHARE * kettle.height
  const load = (key: LoadKey, mass: number, lift: Parameters<typeof assessLift>[0]): Load => {
    const assessed = assessLift(lift)
    const alone = Math.min(assessed.allowedAlone, shopLimit)
    const people = mass <= alone ? 1 : assessed.peopleNeeded === undefined ? undefined : 2
    return { key, mass, lift: assessed, alone, people }
  }
  return [
    load('kettle-of-oils', kettle.mass, {
      ...common,
      name: 'kettle',
      mass: kettle.mass,
      from: { horizontal: NEAR, vertical: FLOOR_SCALE + handles },
      to: { horizontal: NEAR, vertical: kettle.stands + handles },
      // neither hot nor caustic yet, but slippery: alone only up to the shop's limit
      hotOrCaustic: false,
    }),
    load('pail-of-lye', pail.mass, {
      ...common,
      name: 'pail',
      mass: pail.mass,
      from: { horizontal: NEAR, vertical: PAIL_HANDS },
      to: { horizontal: OVER_RIM, vertical: kettle.stands + kettle.height },
      hotOrCaustic: true,
    }),
    load('jug-of-batter', jug.mass, {
      ...common,
      name: 'jug',
      mass: jug.mass,
      from: { horizontal: NEAR, vertical: kettle.stands + kettle.height },
      to: { horizontal: OVER_RIM, vertical: request.rim },
      // one jug in half a minute or so, for some minutes
      liftsPerMinute: 3,
      hotOrCaustic: true,
    }),
  ]
}
