/** locale.yaml of a language: how it writes numbers, dates and times. */
import { z } from 'zod'
import { type Locale, numbersMarkOf } from '../text/locale.ts'
import { report } from './fields.ts'

/** Spaces at either end count here. */
const mark = () => z.string().meta({ examples: ['","'] })

/** An order of things, each named once between braces. */
const form = (...named: readonly string[]) =>
  z
    .string()
    .meta({ examples: [`"${named.map((name) => `{${name}}`).join(' ')}"`] })
    .superRefine((text, context) => {
      const wrong = named.filter((name) => text.split(`{${name}}`).length !== 2)
      if (wrong.length > 0)
        report(context, {
          code: 'text-placeholder',
          message: `{${wrong[0]}} does not stand here once`,
          advice: `Write ${named.map((name) => `{${name}}`).join(', ')} in the order of the language, each once.`,
        })
    })

const namesOf = (count: number) => z.array(z.string()).min(count).max(count)

export const localeFile = z.strictObject({
  name: z.string().meta({ examples: ['English'] }),
  'decimal-mark': mark(),
  'group-mark': mark(),
  'fraction-gap': mark(),
  'unit-gap': mark(),
  'list-mark': mark(),
  date: form('day', 'month', 'year'),
  'short-date': form('weekday', 'day', 'month'),
  'narrow-date': form('day', 'month', 'year'),
  month: form('month', 'year'),
  moment: form('date', 'time'),
  halves: namesOf(2),
  noon: z.string(),
  midnight: z.string(),
  months: namesOf(12),
  'short-months': namesOf(12),
  'short-weekdays': namesOf(7),
  units: z.strictObject({ day: z.string(), days: z.string(), week: z.string(), weeks: z.string() }),
})

/** @param language the name of its folder */
export const localeOf = (language: string, file: z.output<typeof localeFile>): Locale => ({
  language,
  name: file.name,
  decimalMark: file['decimal-mark'],
  groupMark: file['group-mark'],
  fractionGap: file['fraction-gap'],
  unitGap: file['unit-gap'],
  listMark: file['list-mark'],
  numbersMark: numbersMarkOf(file['decimal-mark'], file['list-mark']),
  months: file.months,
  shortMonths: file['short-months'],
  shortWeekdays: file['short-weekdays'],
  dateForm: file.date,
  shortDateForm: file['short-date'],
  narrowDateForm: file['narrow-date'],
  monthForm: file.month,
  momentForm: file.moment,
  halves: [file.halves[0] ?? '', file.halves[1] ?? ''],
  noon: file.noon,
  midnight: file.midnight,
  units: file.units,
})
