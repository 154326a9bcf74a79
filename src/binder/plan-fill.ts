/** How much of a mould a batch fills: which way the maker asks, and what the shop has measured. */
import { measured } from '../batch/band.ts'
import { type Fill, type FillSetting, oilsForFillHeight, wholeSlicesForOils } from '../batch/fill.ts'
import { DEFAULT_FILL_ALLOWANCES, type FillAllowances } from '../batch/fill-allowances.ts'
import { type BarsOnHand, barsForOilOnHand } from '../batch/oil-on-hand.ts'
import type { BatchFile } from '../schema/batch.ts'
import type { ShopFile } from '../schema/shop.ts'

/** What the shop has measured of its fills takes the place of the trade's estimates. */
export const allowancesOf = ({ fill = {} }: ShopFile): FillAllowances => {
  const given = {
    potResidue: fill['left-in-kettle'],
    air: fill.air,
    setShrinkage: fill['sinks-while-setting'],
    rise: fill['rises-while-hot'],
    dish: fill.dish,
    ash: fill.ash,
  }
  const bands = Object.entries(given).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, measured(value)] as const],
  )
  return { ...DEFAULT_FILL_ALLOWANCES, ...Object.fromEntries(bands) }
}

/** Which of the three directions the batch asks for: full height, so much oil, or what is there of a fat. */
export const fillOf = (
  setting: FillSetting,
  batch: BatchFile,
): { readonly fill: Fill; readonly onHand: BarsOnHand | undefined } => {
  if (batch.oils !== undefined) return { fill: wholeSlicesForOils(setting, batch.oils), onHand: undefined }
  const onHand = batch['on-hand']
  if (!onHand) return { fill: oilsForFillHeight(setting), onHand: undefined }
  const bars = barsForOilOnHand(
    setting,
    Object.entries(onHand).map(([name, mass]) => ({ name, mass })),
  )
  // Not one slice: nothing is weighed, and the page says why.
  return { fill: bars.fill ?? { ...oilsForFillHeight(setting), findings: bars.findings }, onHand: bars }
}
