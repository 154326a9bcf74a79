/** Whether a batch can be blended, coloured and poured before it is too thick. */
import type { PourPlan } from '../batch/pour.ts'
import { type TimeBudget, timeBudget } from '../batch/time-budget.ts'
import type { RecipeFile } from '../schema/recipe.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { Formula } from './formula.ts'

/** Where the shop has not looked at the clock [s] (estimates) */
const PACE = { blend: 300, colour: 180, jug: 30 } as const
/** How much sooner and later than in the trial it may thicken [–] (estimate: a large batch is warmer and blended longer) */
const SOONER = 0.75
const LATER = 1.25

/** Minutes from lye in the fats to too thick, as tried, against those that blending and pouring take here. */
export const timeOf = (
  shop: ShopFile,
  tried: NonNullable<RecipeFile['tried']>,
  formula: Formula,
  pour: PourPlan,
): TimeBudget => {
  const pace = shop.pace ?? {}
  const toThick = tried['minutes-to-thick'] * 60
  const toTrace = tried['minutes-to-trace']
  const budget = timeBudget({
    timeToThick: { low: toThick * SOONER, nominal: toThick, high: toThick * LATER },
    // The clock of the trial has counted the rests of the blender.
    blending: toTrace === undefined ? (pace.blend ?? PACE.blend) : toTrace * 60,
    ...(toTrace !== undefined || pace['longest-run'] === undefined
      ? {}
      : { longestRun: pace['longest-run'] }),
    ...(pace.rest === undefined ? {} : { rest: pace.rest }),
    colouring: formula.colours.length * (pace.colour ?? PACE.colour),
    carrying: 0,
    jugs: pour.jug.count,
    timePerJug: pace.jug ?? PACE.jug,
  })
  // Estimates of the trade stop nobody's batch.
  return shop.pace
    ? budget
    : { ...budget, findings: budget.findings.map((finding) => ({ ...finding, severity: 'warn' }) as const) }
}
