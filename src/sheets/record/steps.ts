/** Where on the batch sheet a reading is written: nobody writes it twice. */
import { inlineList } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Sheet } from '../model.ts'

/** Number of the first step with a line for a reading; undefined where the sheet asks for none. */
export const stepWith = ({ blocks }: Sheet, reading: string): number | undefined => {
  for (const block of Object.values(blocks)) {
    if (block.kind !== 'steps') continue
    const at = block.items.findIndex(({ blanks }) => blanks?.some((line) => line.reading === reading))
    if (at >= 0) return block.first + at
  }
  return undefined
}

/** The sheet with the step, as a reference; undefined where there is no such step. */
export const placeOfReading = ({ say, show }: Frame, sheet: Sheet, reading: string): Inline | undefined => {
  const step = stepWith(sheet, reading)
  return step === undefined
    ? undefined
    : say('record.at-step', { sheet: linkOf(sheet), step: show.count(`step.${reading}`, step) })
}

/** Several of them on the one sheet. */
export const stepsWith = ({ say, show }: Frame, sheet: Sheet, readings: readonly string[]): Inline => {
  const steps = readings.flatMap((reading): Inline[] => {
    const step = stepWith(sheet, reading)
    return step === undefined
      ? []
      : [{ text: '[[step]]', fill: { step: show.count(`step.${reading}`, step) } }]
  })
  const [first] = steps
  if (!first) return say('record.at-no-step', { sheet: linkOf(sheet) })
  if (steps.length === 1) return say('record.at-step', { sheet: linkOf(sheet), step: first })
  return say('record.at-steps', { sheet: linkOf(sheet), steps: inlineList(say, steps) })
}

const linkOf = ({ number, anchor }: Sheet): Inline => ({
  text: '[[sheet]]',
  fill: { sheet: number },
  to: anchor,
})
