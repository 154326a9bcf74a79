/** The rules of a region that a label is written by, each with its section. */
import { followsEurope, type Region } from './regions.ts'

/** What a rule is about; words are the sheet's. */
export type LabelRuleKey =
  | 'identity'
  | 'ingredients-exempt'
  | 'ingredients'
  | 'fragrance-allergens'
  | 'net-quantity'
  | 'both-units'
  | 'average-weight'
  | 'panel'
  | 'letter-height'
  | 'letter-height-figures'
  | 'clear-space'
  | 'batch-number'
  | 'not-known-here'

export interface LabelRule {
  readonly rule: LabelRuleKey
  /** section of the law; undefined: this program knows none */
  readonly section: string | undefined
  readonly evidence: 'read' | 'recalled'
}

const rule = (
  key: LabelRuleKey,
  section: string,
  evidence: LabelRule['evidence'] = 'recalled',
): LabelRule => ({
  rule: key,
  section,
  evidence,
})

const US_SOAP: readonly LabelRule[] = [
  rule('identity', '16 CFR 500.4'),
  rule('ingredients-exempt', '21 CFR 701.3'),
  rule('net-quantity', '16 CFR 500.6 to 500.25'),
  rule('both-units', '16 CFR 500.6 to 500.25, final rule of 1994', 'read'),
  rule('average-weight', 'NIST Handbook 133, Table 2-5'),
  rule('panel', '16 CFR 500.21(a)', 'read'),
  rule('letter-height', '16 CFR 500.21(b)'),
  rule('clear-space', '21 CFR 701.13, taken over'),
]

const US_COSMETIC: readonly LabelRule[] = [
  rule('identity', '21 CFR 701.11'),
  rule('ingredients', '21 CFR 701.3'),
  rule('net-quantity', '21 CFR 701.13'),
  rule('both-units', '16 CFR 500.6 to 500.25, final rule of 1994', 'read'),
  rule('average-weight', 'NIST Handbook 133, Table 2-5'),
  rule('panel', '16 CFR 500.21(a)', 'read'),
  rule('letter-height', '21 CFR 701.13(i)'),
  rule('clear-space', '21 CFR 701.13'),
]

const EUROPE: readonly LabelRule[] = [
  rule('identity', '1223/2009 Art. 19(1)(f)'),
  rule('ingredients', '1223/2009 Art. 19(1)(g)'),
  rule('fragrance-allergens', '1223/2009 Annex III, 2023/1545', 'read'),
  rule('net-quantity', '1223/2009 Art. 19(1)(b)'),
  rule('average-weight', '76/211/EEC Annex I 2.4', 'read'),
  rule('letter-height-figures', '76/211/EEC Annex I 3.1'),
  rule('batch-number', '1223/2009 Art. 19(1)(e)'),
]

const CANADA: readonly LabelRule[] = [{ rule: 'not-known-here', section: undefined, evidence: 'recalled' }]

/**
 * Rules of a region beside its gates.
 *
 *     by region; in the United States by what the bar is sold as
 *
 * Great Britain keeps the rules of the Union under the same numbers. Of Canada this program knows gates only.
 *
 * @param region whose label it is
 * @param status soap by law, or a cosmetic
 * @returns rules with their sections, and whether a section was read or is recalled
 * @source cfr-16-500, cfr-16-500-21, cfr-21-701-3, cfr-21-701-13, nist-handbook-133, ec-1223-2009, eu-2023-1545, directive-76-211, directive-76-211-figures, uk-si-2019-696
 */
export function labelRules(region: Region, status: 'soap' | 'cosmetic'): readonly LabelRule[] {
  if (followsEurope(region)) return EUROPE
  if (region === 'CA') return CANADA
  return status === 'soap' ? US_SOAP : US_COSMETIC
}
