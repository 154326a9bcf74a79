/** Where the bars of a batch are, as far as somebody counted them. */
import { type BarBalance, balanceBars } from '../supply/reconcile.ts'
import type { BoundBatch } from './bind-batch.ts'

export const barBalance = ({ fill, file }: BoundBatch): BarBalance => {
  const { bars, wrapped, went } = file.value.made ?? {}
  return balanceBars({
    planned: fill.bars,
    cut: bars?.cut,
    tests: bars?.tests,
    rejected: bars?.rejected,
    wrapped: wrapped?.bars,
    went: went?.reduce((sum, one) => sum + one.bars, 0),
  })
}
