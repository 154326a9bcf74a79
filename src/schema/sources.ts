/** sources.yaml: the bibliography that every figure points into. */
import { z } from 'zod'
import { oneOf, words } from './fields.ts'
import { mapOf } from './shapes.ts'

export const EVIDENCE = ['read', 'recalled', 'computed', 'common-practice'] as const

const source = z.strictObject({
  title: words({ max: 300 }).describe('What was read: a book, a paper, a data sheet, with its edition.'),
  where: words({ max: 300 }).optional().describe('Where in it, or where it is found.'),
  evidence: oneOf(EVIDENCE).describe(
    'How it is known. read: seen in print. recalled: from memory, check it before you rely on it.',
  ),
})

export const sourcesFile = z
  .strictObject({
    sources: mapOf(source).describe('Every source, each under a name of your own that figures point to.'),
  })
  .describe(
    'The list of books, papers and certificates that figures come from. A figure names its source by the key here, and sheets list what they use.',
  )

export type SourceEntry = z.output<typeof source>
