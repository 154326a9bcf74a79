/** Sheets whose worth is their text: cautions beyond lye, training, trouble, release and records. */
import type { BoundBinder } from '../binder/bind.ts'
import { liftingSheet } from './cautions/lifting-sheet.ts'
import { sawSheet } from './cautions/saw-sheet.ts'
import { scentSheet } from './cautions/scent-sheet.ts'
import { spillSheet } from './cautions/spill-sheet.ts'
import { wireSheet } from './cautions/wire-sheet.ts'
import type { Fill } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Sheet } from './model.ts'
import { referencesTo } from './places.ts'
import { recordSheets } from './record-sheets.ts'
import { shopLimits } from './shop-limits.ts'
import { trainingSheet } from './training-sheet.ts'
import { releaseSheet } from './trouble/release-sheet.ts'
import { referencesElsewhere } from './trouble/symptoms.ts'
import { troubleSheet } from './trouble/trouble-sheet.ts'

const fillOf = (frame: Frame, { content }: BoundBinder, sheets: readonly Sheet[]): Fill => ({
  ...referencesTo(frame, sheets),
  ...referencesElsewhere,
  ...shopLimits(frame, content.shop.value),
})

/** Cautions after that of lye, in the order of their numbers. @param sheets that are there, for references */
export const hazardSheets = (
  frame: Frame,
  binder: BoundBinder,
  sheets: readonly Sheet[],
): readonly Sheet[] => {
  const fill = fillOf(frame, binder, sheets)
  return [
    spillSheet(frame, binder, fill),
    liftingSheet(frame, binder, fill),
    wireSheet(frame, binder, fill),
    sawSheet(frame),
    scentSheet(frame, binder, fill),
  ]
}

/** What is read and written in all of the shop's work. @param sheets that come before, for references */
export const workSheets = (frame: Frame, binder: BoundBinder, sheets: readonly Sheet[]): readonly Sheet[] => {
  const fill = fillOf(frame, binder, sheets)
  return [
    trainingSheet(frame, binder.content.shop.value, fill),
    troubleSheet(frame, binder, sheets),
    releaseSheet(frame, fill),
    ...recordSheets(frame, binder, fill),
  ]
}
