/** Temperatures that a maker logged in the core of his blocks, and what they say of the recipe. */
import { type CoreReading, calibrateLog } from '../batch/heat-calibration.ts'
import type { Finding } from '../findings.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { BoundBatch } from './bind-batch.ts'
import { blockRequest } from './plan-block-heat.ts'

/** What the log of one batch says, against the estimate. */
export interface HeatFit {
  /** of the batch */
  readonly key: string
  readonly date: string
  /** [–] */
  readonly rateFactor: number
  readonly heatFactor: number
}

export interface HeatLogs {
  /** those that could be used, by recipe */
  readonly fits: ReadonlyMap<string, readonly HeatFit[]>
  /** why the log of a batch could not, by the batch */
  readonly findings: ReadonlyMap<string, readonly Finding[]>
}

export const readingsOf = ({ file }: Pick<BoundBatch, 'file'>): readonly CoreReading[] =>
  (file.value['core-temperatures'] ?? []).map(({ after, reads }) => ({ time: after, temperature: reads }))

/**
 * Fits every logged batch with its own block: its mould, its fill, its pour.
 *
 * @param batches of all recipes; one that must not be made has no block
 * @returns fits by recipe, in the order of the batches, and what was found of the others
 */
export const heatLogs = (shop: ShopFile, batches: readonly BoundBatch[]): HeatLogs => {
  const fits = new Map<string, HeatFit[]>()
  const findings = new Map<string, readonly Finding[]>()
  for (const batch of batches) {
    const readings = readingsOf(batch)
    if (readings.length === 0 || batch.state === 'stop') continue
    const found = calibrateLog(blockRequest({ shop, weighed: batch, ...batch }), readings)
    if (found.findings.length > 0) findings.set(batch.key, found.findings)
    else if (found.rateFactor !== undefined)
      fits.set(batch.recipeKey, [
        ...(fits.get(batch.recipeKey) ?? []),
        { key: batch.key, date: batch.date, rateFactor: found.rateFactor, heatFactor: found.heatFactor },
      ])
  }
  return { fits, findings }
}
