/** Section 9: what labels are written by, then of each batch what its label says and why, and a page of labels. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { Frame } from '../frame.ts'
import type { Sheet } from '../model.ts'
import { labelPageSheet } from './label-page-sheet.ts'
import { labelSheet } from './label-sheet.ts'
import { setLabel } from './label-words.ts'
import { rulesSheet } from './rules-sheet.ts'

/** @returns nothing for a shop that does not say where it sells */
export const labelSheets = (frame: Frame, binder: BoundBinder): readonly Sheet[] => {
  const { labelRules } = binder
  if (!labelRules) return []
  const sheets: Sheet[] = [rulesSheet(frame, labelRules)]
  for (const label of binder.labels) {
    const set = label.grid ? setLabel(frame, label) : undefined
    const place = sheets.length + 1
    // a batch that waits for its test alone, and whose bars nobody has weighed, has nothing to print yet
    const stops = [...label.findings, ...(set?.findings ?? [])].filter(({ severity }) => severity === 'stop')
    const isEarly =
      label.net.from !== 'weighed' &&
      stops.length > 0 &&
      stops.every(({ code }) => code === 'label-batch-held')
    const page = isEarly ? undefined : set && labelPageSheet(frame, label, set, `9.${place + 1}`)
    sheets.push(labelSheet(frame, label, set, { number: `9.${place}`, page }))
    if (page) sheets.push(page)
  }
  return sheets
}
