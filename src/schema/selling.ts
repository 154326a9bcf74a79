/** "selling" in shop.yaml: where and as what bars are sold, what has been done for it, and the labels that are printed. */
import { z } from 'zod'
import { count, date, mark, oneOf, quantity, report, words, yesOrNo } from './fields.ts'

/** What a region may ask for before a sale; some belongs to the shop, some to each recipe. */
export const GATES = [
  'safety-assessment', 'product-information-file', 'notification', 'responsible-person', 'good-manufacturing-practice',
  'durability', 'precautions', 'language', 'soap-of-alkali-salts', 'sold-only-as-soap', 'maker-name-and-place',
  'domestic-contact',
] as const // biome-ignore format: one line reads better

export type GateKey = (typeof GATES)[number]

const entry = z.strictObject({
  text: words({ max: 160 }).describe('A name, a number, where it is filed; or what the label has to say.'),
  date: date().optional().describe('The day on which it was entered or done.'),
})

const GATE_WORDS: Readonly<Record<GateKey, string>> = {
  'safety-assessment': 'The safety assessment: who wrote it, and where it is filed.',
  'product-information-file': 'The product information file: where it is kept.',
  notification: 'The notification to the authority: its number.',
  'responsible-person': 'Name and address of the responsible person, as the label prints them.',
  'good-manufacturing-practice': 'Good manufacturing practice: where it is written down.',
  durability: 'How long it keeps, as the label prints it.',
  precautions: 'What a user has to be careful with, as the label prints it.',
  language: 'The language of the country in which bars are sold: who has looked at the label.',
  'soap-of-alkali-salts': 'Soap is most of it, and soap is what cleans: who has looked at it.',
  'sold-only-as-soap': 'It is labelled, sold and spoken of as soap alone: who has looked at it.',
  'maker-name-and-place': 'Name and place of the maker, as the label prints them.',
  'domestic-contact': 'A contact within the country, as the label prints it.',
}

/** What has been entered, by its gate. */
export const entered = () =>
  z.strictObject(
    Object.fromEntries(GATES.map((gate) => [gate, entry.optional().describe(GATE_WORDS[gate])])) as Record<
      GateKey,
      z.ZodOptional<typeof entry>
    >,
  )

/** A line of words on a label. */
export const labelWords = () =>
  z
    .array(words({ max: 90 }))
    .min(1)
    .max(4)

const side = () => quantity('length', { min: '10 mm', max: '400 mm' })
const between = () => quantity('length', { min: '0 mm', max: '300 mm' })
const paper = () => quantity('length', { min: '50 mm', max: '500 mm' })

/** Labels on a page, wherever the maker of the paper puts them. */
const labelGrid = z.strictObject({
  'page-width': paper()
    .optional()
    .describe("Of the paper that labels are printed on; the binder's paper where it is left out."),
  'page-height': paper()
    .optional()
    .describe("Of the paper that labels are printed on; the binder's paper where it is left out."),
  columns: count({ min: 1, max: 40 }).describe('Labels side by side on a page.'),
  rows: count({ min: 1, max: 60 }).describe('Labels one below the other on a page.'),
  width: side().describe('Of one label.'),
  height: side().describe('Of one label.'),
  left: between().describe('From the left edge of the paper to the first label.'),
  top: between().describe('From the upper edge of the paper to the first label.'),
  'gap-across': between().optional().describe('Between two labels side by side; none where it is left out.'),
  'gap-down': between()
    .optional()
    .describe('Between two labels one below the other; none where it is left out.'),
  'cut-marks': yesOrNo()
    .optional()
    .describe('No for paper that is cut into labels already; yes where it is left out.'),
})

export const selling = z.strictObject({
  region: oneOf(['US', 'EU', 'UK', 'CA']).describe('Whose law the label is written for.'),
  'label-language': mark({ max: 20 })
    .optional()
    .describe(
      'Of what stands on the label. Where it is left out, English in the United States, Great Britain and Canada; in the European Union that of the binder.',
    ),
  'sold-as': oneOf(['soap', 'cosmetic'])
    .optional()
    .describe('In the United States; elsewhere all soap is a cosmetic. Soap where it is left out.'),
  identity: words({ max: 60 })
    .optional()
    .describe('What it is, in common words, such as "Bar soap"; the word for soap where it is left out.'),
  ingredients: oneOf(['as-put-in', 'as-finished'])
    .optional()
    .describe(
      'Which of both lists stands on the label: what went in (where it is left out), or what the bar is.',
    ),
  weight: oneOf(['least', 'average'])
    .optional()
    .describe('Every bar weighs what the label says (where it is left out), or bars do on the average.'),
  words: labelWords().optional().describe('What else every label says, a line each.'),
  'best-before': quantity('duration', { min: '4 weeks', max: '520 weeks' })
    .optional()
    .describe('After the pour; the label then says the month that is the last whole one before.'),
  face: z
    .strictObject({ width: side().describe('Of that side.'), height: side().describe('Of that side.') })
    .optional()
    .describe(
      'Side of the wrapped bar that faces a buyer; the largest face of the bar where it is left out.',
    ),
  entered: entered().optional().describe('What has been done for all bars of the shop.'),
  labels: labelGrid.optional().describe('The page of labels; none is printed where it is left out.'),
})

export type SellingFile = z.output<typeof selling>
export type LabelGrid = z.output<typeof labelGrid>

/** m (ISO 216; Letter of 8.5 by 11 in) */
const PAPER = {
  Letter: { width: 0.2159, height: 0.2794 },
  A4: { width: 0.21, height: 0.297 },
} as const

/** Sizes are typed to hundredths of a millimetre [m] */
const SLACK = 5e-6

interface ShopWithLabels {
  readonly paper: { readonly size: keyof typeof PAPER }
  readonly selling?: SellingFile | undefined
}

/** The paper that labels are printed on [m]. */
export const labelPaper = (shop: ShopWithLabels): { readonly width: number; readonly height: number } => {
  const own = PAPER[shop.paper.size]
  const grid = shop.selling?.labels
  return { width: grid?.['page-width'] ?? own.width, height: grid?.['page-height'] ?? own.height }
}

/** A grid that reaches past its paper is a slip of the pen: labels would be cut off. */
export const labelsOnPaper = (shop: ShopWithLabels, context: z.RefinementCtx): void => {
  const grid = shop.selling?.labels
  if (!grid) return
  const page = labelPaper(shop)
  const ways = [
    ['width', 'left', 'columns', 'gap-across'],
    ['height', 'top', 'rows', 'gap-down'],
  ] as const
  for (const [size, from, number, gap] of ways) {
    const reach = grid[from] + grid[number] * grid[size] + (grid[number] - 1) * (grid[gap] ?? 0)
    if (reach <= page[size] + SLACK) continue
    report(context, {
      code: 'labels-off-paper',
      message: `These labels reach ${millimetres(reach)} from the edge, and the paper is ${millimetres(page[size])} ${size === 'width' ? 'wide' : 'high'}`,
      advice: `Take fewer ${number}, smaller labels or gaps, or give the size of the paper with "page-${size}".`,
      path: ['selling', 'labels', number],
      at: 'value',
    })
  }
}

const millimetres = (length: number): string => `${Math.round(length * 1e5) / 100} mm`

/** Regions whose law asks for words in English. */
const IN_ENGLISH: readonly SellingFile['region'][] = ['US', 'UK', 'CA']

/**
 * The language that labels are in.
 * @param region   whose law they are written for
 * @param typed    what the shop says
 * @param binder   the language of the binder
 */
export const labelLanguage = (
  region: string | undefined,
  typed: string | undefined,
  binder: string,
): string => typed ?? (IN_ENGLISH.some((one) => one === region) ? 'en' : binder)
