/** The small binder with labels: its shop sells, and what a test adds to its files. */
import type { BoundLabel } from '../../src/binder/bind-labels.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { bindAndCompose, contentOf, editedFiles } from './small-binder.ts'

export interface LabelCase {
  /** after "region:" in shop.yaml, with all that follows it under "selling" */
  readonly selling?: string
  readonly recipe?: string
  readonly batch?: string
  readonly materials?: string
  /** whole files */
  readonly more?: Readonly<Record<string, string>>
}

/** A label large enough for all that any region wants, on A4. */
export const GRID =
  '  labels: { columns: 2, rows: 3, width: 90 mm, height: 80 mm, left: 12 mm, top: 20 mm, gap-across: 4 mm, gap-down: 6 mm }\n'

/** What the United States ask for. */
export const US_SOAP = `US
  entered:
    soap-of-alkali-salts: { text: read }
    sold-only-as-soap: { text: read }
    maker-name-and-place: { text: 'Alder Yard, Ford' }
${GRID}`

/** What the Union asks for. */
export const UNION = `EU
  best-before: 52 weeks
  entered:
    safety-assessment: { text: report }
    product-information-file: { text: shelf }
    notification: { text: portal, date: 2027-01-12 }
    responsible-person: { text: 'Alder Yard, Ford' }
    good-manufacturing-practice: { text: records }
    precautions: { text: Rinse eyes at once. }
    language: { text: English }
${GRID}`

/** Weights as they are typed. */
export const wrapped = (weights: readonly number[], bars = ''): string =>
  `made:\n  used: [{ lot: O-1, amount: 1 kg }]\n${bars}  wrapped: { date: 2027-03-20, weights: [${weights.map((grams) => `${grams} g`).join(', ')}] }\n`

export const labelsOf = (
  of: LabelCase,
): { readonly labels: readonly BoundLabel[]; readonly sheets: readonly Sheet[] } => {
  const files = editedFiles()
  const add = (file: string, text: string | undefined): void => {
    if (text !== undefined) files.set(file, `${files.get(file)}\n${text}`)
  }
  add('shop.yaml', `selling:\n  region: ${of.selling ?? US_SOAP}`)
  add('recipes/plain.yaml', of.recipe ?? 'code: PL\n')
  add('batches/2027-02-01-plain.yaml', of.batch)
  if (of.materials !== undefined) files.set('materials/more.yaml', of.materials)
  for (const [file, text] of Object.entries(of.more ?? {})) files.set(file, text)
  const { binder, sheets } = bindAndCompose(contentOf(files))
  return { labels: binder.labels, sheets }
}

export const labelOf = (of: LabelCase): BoundLabel => {
  const [label] = labelsOf(of).labels
  if (!label) throw new Error('No label.')
  return label
}
