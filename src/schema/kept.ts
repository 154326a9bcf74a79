/** records/as-printed/*.yaml: what one paper showed. The program writes them; nobody has to keep them. */
import { z } from 'zod'
import { count } from './fields.ts'

const text = () => z.string()

export const keptSheet = z.strictObject({
  sheet: text(),
  revision: count({ min: 1, max: 9999 }),
  language: text(),
  number: text(),
  section: text(),
  title: text(),
  shows: text(),
  inputs: text().optional(),
  values: z.array(z.strictObject({ name: text(), shown: text(), unit: text(), label: text() })).optional(),
  lines: z
    .array(z.union([text(), z.strictObject({ caution: text() }), z.strictObject({ contact: text() })]))
    .optional(),
  drawings: z.array(z.strictObject({ label: text(), hash: text() })).optional(),
})

/** The maker's files at that time: by path, the name of the copy that is kept of each. */
export const keptInputs = z.strictObject({
  files: z.array(z.strictObject({ file: text(), kept: text() })),
})

export type KeptSheet = z.output<typeof keptSheet>
