/** Where the bars of a batch are, as far as somebody counted them. */
import type { Made } from '../schema/made.ts'
import { type BarBalance, balanceBars } from '../supply/reconcile.ts'

/** Bars that left the shop; undefined where nobody wrote it down. */
export const barsGone = (made: Made | undefined): number | undefined =>
  made?.went?.reduce((sum, { bars }) => sum + bars, 0)

/** @param planned bars of the batch, where what was cut is held against them */
export const barBalance = (made: Made | undefined, planned?: number): BarBalance =>
  balanceBars({
    planned,
    cut: made?.bars?.cut,
    tests: made?.bars?.tests,
    rejected: made?.bars?.rejected,
    wrapped: made?.wrapped?.bars,
    went: barsGone(made),
  })
