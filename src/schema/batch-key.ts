/** The part of a batch code that a maker chooses. */
import type { z } from 'zod'
import { mark, report } from './fields.ts'

/** Neither I nor O, 0 nor 1: nobody takes one of the others for one of them. */
const KEY = /^[2-9A-HJ-NP-Z]{1,6}$/i

/** One to six figures and letters that cannot be mistaken; gives capitals. */
export const batchKey = (): z.ZodType<string, string> =>
  mark({ max: 40 })
    .superRefine((text, context) => {
      if (KEY.test(text)) return
      report(context, {
        code: 'not-a-batch-key',
        message: `"${text}" cannot be part of a batch code`,
        advice:
          'Use one to six figures and letters without 0, 1, I and O, which are taken for one another, for example HE.',
      })
    })
    .transform((text) => text.toUpperCase())
    .meta({ 'x-example': 'HE', 'x-form': 'batch-key', pattern: KEY.source })
