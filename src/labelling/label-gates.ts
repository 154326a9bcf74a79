/** What a region asks for before a bar may be sold, and which of it has been entered. */
import type { Finding } from '../findings.ts'
import { claimsIn } from './claim-words.ts'
import type { Region } from './regions.ts'

/** Keys that a maker enters under; words are the sheet's. */
export type Gate =
  | 'safety-assessment'
  | 'product-information-file'
  | 'notification'
  | 'responsible-person'
  | 'good-manufacturing-practice'
  | 'durability'
  | 'precautions'
  | 'language'
  | 'soap-of-alkali-salts'
  | 'sold-only-as-soap'
  | 'maker-name-and-place'
  | 'domestic-contact'

export interface GateRule {
  readonly gate: Gate
  /** section of the law */
  readonly section: string
  /** how the section is known */
  readonly evidence: 'read' | 'recalled'
  /** a notification may be due after the first sale: it stays a task, and holds nothing back */
  readonly due: 'before-sale' | 'after-first-sale'
}

const before = (gate: Gate, section: string, evidence: 'read' | 'recalled' = 'recalled'): GateRule => ({
  gate,
  section,
  evidence,
  due: 'before-sale',
})

/** Soap of every kind is a cosmetic there. */
const EUROPE: readonly GateRule[] = [
  before('responsible-person', '1223/2009 Art. 4, 19(1)(a)'),
  before('good-manufacturing-practice', '1223/2009 Art. 8'),
  before('safety-assessment', '1223/2009 Art. 10'),
  before('product-information-file', '1223/2009 Art. 11'),
  before('notification', '1223/2009 Art. 13'),
  before('durability', '1223/2009 Art. 19(1)(c)'),
  before('precautions', '1223/2009 Art. 19(1)(d)'),
  before('language', '1223/2009 Art. 19(5)'),
]

/** Great Britain has its own persons and its own notification, under the same numbers. */
const BRITAIN: readonly GateRule[] = EUROPE.filter(({ gate }) => gate !== 'language').map((rule) => ({
  ...rule,
  section: `${rule.section}, as S.I. 2019/696 Sch. 34 has it`,
}))

const US_SOAP: readonly GateRule[] = [
  before('soap-of-alkali-salts', '21 CFR 701.20(a)(1)', 'read'),
  before('sold-only-as-soap', '21 CFR 701.20(a)(2)', 'read'),
  before('maker-name-and-place', '16 CFR 500.5'),
]

const US_COSMETIC: readonly GateRule[] = [
  before('maker-name-and-place', '21 CFR 701.12'),
  before('domestic-contact', 'MoCRA 2022'),
  before('safety-assessment', 'MoCRA 2022'),
]

const CANADA: readonly GateRule[] = [
  before('language', 'Cosmetic Regulations s. 18'),
  before('precautions', 'Cosmetic Regulations s. 24'),
  {
    gate: 'notification',
    section: 'Cosmetic Regulations s. 30',
    evidence: 'recalled',
    due: 'after-first-sale',
  },
]

export interface Entry {
  /** a name, a number, where it is filed */
  readonly text: string
  /** 2027-03-14 */
  readonly date?: string
}

export interface GateInput {
  readonly region: Region
  /** in the United States: as what it is sold; elsewhere all soap is a cosmetic */
  readonly soldAs: 'soap' | 'cosmetic'
  readonly entered: Readonly<Partial<Record<Gate, Entry>>>
  /** all words that go on the label, or onto a page that sells the bar */
  readonly wording: readonly string[]
}

export interface GateState extends GateRule {
  readonly entry: Entry | undefined
  readonly open: boolean
}

export interface Gates {
  readonly gates: readonly GateState[]
  /** no gate before the sale is open */
  readonly mayBeSold: boolean
  /** soap by law, or a cosmetic, as sold and where it is sold */
  readonly status: 'soap' | 'cosmetic'
  readonly findings: readonly Finding[]
}

/**
 * Gates of a region.
 *
 *     open = nothing entered;   may be sold = no gate open that comes before the sale
 *
 * What is entered is not judged: whether an assessment is right, only its assessor knows. Words that make a claim are
 * looked for in English and Spanish alone. Soap that makes one is a cosmetic in the United States and needs what those need.
 *
 * @param input region, what the bar is sold as, what has been entered, words of label and shop
 * @returns gates with their sections, whether the bar may be sold, findings
 * @source cfr-21-701-20, ec-1223-2009, uk-si-2019-696, mocra-2022, canada-cosmetic-regulations
 */
export function labelGates(input: GateInput): Gates {
  const { region, entered } = input
  const status = region === 'US' ? input.soldAs : 'cosmetic'
  const gates = gatesOf(region, status).map((rule): GateState => {
    const entry = Object.hasOwn(entered, rule.gate) ? entered[rule.gate] : undefined
    return { ...rule, entry, open: entry === undefined || entry.text.trim() === '' }
  })
  const open = gates.filter((one) => one.open)
  const findings: Finding[] = open.map(({ gate, section, due }) =>
    due === 'before-sale'
      ? { code: 'label-gate-open', severity: 'hold', values: { gate, section, region } }
      : { code: 'label-task-open', severity: 'warn', values: { gate, section, region } },
  )
  for (const { word, makes } of input.wording.flatMap(claimsIn)) {
    if (makes === 'drug')
      findings.push({ code: 'claim-makes-drug', severity: 'warn', values: { word, region } })
    else if (status === 'soap')
      findings.push({ code: 'claim-makes-cosmetic', severity: 'warn', values: { word, region } })
  }
  const mayBeSold = open.every(({ due }) => due !== 'before-sale')
  return { gates, mayBeSold, status, findings }
}

function gatesOf(region: Region, status: 'soap' | 'cosmetic'): readonly GateRule[] {
  if (region === 'EU') return EUROPE
  if (region === 'UK') return BRITAIN
  if (region === 'CA') return CANADA
  return status === 'soap' ? US_SOAP : US_COSMETIC
}
