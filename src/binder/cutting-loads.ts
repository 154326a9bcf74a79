/** What soap holds a wire back with: as the maker states it, as a trial found it, or estimates. */
import type { Finding } from '../findings.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import { CUTTING_LOAD } from '../wires/cutting-load.ts'
import { type TrialResult, trialCuttingLoad } from '../wires/push.ts'

/** A block cut early, as usual and late. */
export type CutTime = keyof typeof CUTTING_LOAD

export const CUT_TIMES = ['fresh', 'usual', 'late'] as const satisfies readonly CutTime[]

export interface CuttingLoads {
  /** [N/m] */
  readonly at: Readonly<Record<CutTime, number>>
  readonly from: 'estimate' | 'stated' | 'trial'
  /** of a trial: the usual load with its interval [N/m] */
  readonly trial?: TrialResult
  readonly findings: readonly Finding[]
}

/**
 * Loads that a fixture's wires are reckoned for.
 *
 *     a trial gives the usual one; a block is neither fresher nor later than that where estimates say so
 *
 * @param file of the fixture
 * @returns loads [N/m], and what there is to say of the trial
 * @source kamyab1998, common practice
 */
export function cuttingLoads(file: FixtureFile): CuttingLoads {
  const stated = file['cutting-load']
  if (stated) return { at: stated, from: 'stated', findings: [] }
  const given = file['cutting-trial']
  if (!given) return { at: CUTTING_LOAD, from: 'estimate', findings: [] }
  const { readings, wires, width } = given
  const trial = trialCuttingLoad({ readings, frameMass: given['frame-mass'], wires, width })
  const usual = trial.load
  return {
    at: { fresh: Math.min(CUTTING_LOAD.fresh, usual), usual, late: Math.max(CUTTING_LOAD.late, usual) },
    from: 'trial',
    trial,
    findings: trial.findings,
  }
}
