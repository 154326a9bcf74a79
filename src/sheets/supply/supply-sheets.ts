/** Section 8: what to buy, what there is, what a bar costs, what went where. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { Frame } from '../frame.ts'
import type { Sheet } from '../model.ts'
import { costSheet } from './cost-sheet.ts'
import { shoppingSheet } from './shopping-sheet.ts'
import { stockSheet } from './stock-sheet.ts'
import { traceSheet } from './trace-sheet.ts'

export const supplySheets = (frame: Frame, binder: BoundBinder): readonly Sheet[] => {
  const { shopping, stock, costs } = binder
  return [
    ...(shopping ? [shoppingSheet(frame, binder, shopping)] : []),
    ...(stock.isKept ? [stockSheet(frame, binder)] : []),
    ...(costs.some(({ cost }) => cost !== undefined && cost.batch > 0) ? [costSheet(frame, binder)] : []),
    ...(stock.isKept || binder.trace.batches.length > 0 ? [traceSheet(frame, binder)] : []),
  ]
}
