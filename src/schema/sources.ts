/** sources.yaml: the bibliography that every figure points into. */
import { z } from 'zod'
import { oneOf, words } from './fields.ts'
import { mapOf } from './shapes.ts'

export const EVIDENCE = ['read', 'recalled', 'computed', 'common-practice'] as const

const source = z.strictObject({
  title: words({ max: 300 }),
  where: words({ max: 300 }).optional(),
  evidence: oneOf(EVIDENCE),
})

export const sourcesFile = z.strictObject({ sources: mapOf(source) })

export type SourceEntry = z.output<typeof source>
