/** materials/*.yaml: fats, alkalis, boards, packs; one file may hold any of them. */
import { z } from 'zod'
import { acidShares, fat } from './fats.ts'
import {
  count,
  date,
  mark,
  money,
  name,
  oneOf,
  plainNumber,
  quantity,
  report,
  share,
  words,
  yesOrNo,
} from './fields.ts'
import { inOrder, mapOf } from './shapes.ts'
import { pack, packaging, supplier } from './supply.ts'

const purity = () => share({ min: '50 %', max: '100 %' })

const premix = z
  .strictObject({
    name: words({ max: 80 }),
    fats: mapOf(share({ min: '0.1 %', max: '100 %' })).describe('Shares of the blend; they make 100 %.'),
    lot: words({ max: 60 }).optional(),
    made: date().optional(),
  })
  .superRefine(({ fats }, context) => {
    const sum = Object.values(fats).reduce((total, part) => total + part, 0)
    if (Math.abs(sum - 1) <= 0.0005) return
    report(context, {
      code: 'shares-not-100',
      message: `The fats make ${Math.round(sum * 10_000) / 100} %, not 100 %`,
      advice: 'Write what went into the blend, so that its shares make 100 %.',
      path: ['fats'],
      at: 'key',
    })
  })

/** A value that lies outside the limits that stand beside it is one typing mistake or two: which, only the maker knows. */
const withinRange = (
  value: number,
  range: { readonly from: number; readonly to: number } | undefined,
  key: string,
  context: z.RefinementCtx,
): void => {
  if (!range || range.from > range.to || (value >= range.from && value <= range.to)) return
  report(context, {
    code: 'range-misses-value',
    message: `The ${key} does not lie in the range that is given for it`,
    advice: `Correct the ${key} or its range: the range holds every value that the lot may have.`,
    path: [`${key}-range`],
    at: 'key',
  })
}

const alkali = z
  .strictObject({
    name: words({ max: 80 }),
    kind: oneOf(['NaOH', 'KOH']),
    purity: purity().describe('Share of pure alkali, from the drum or the certificate.'),
    'purity-range': z.strictObject({ from: purity(), to: purity() }).superRefine(inOrder).optional(),
    damp: share({ min: '0 %', max: '20 %' })
      .optional()
      .describe('Share of its weight that it may have drawn from the air since it was opened.'),
    lot: words({ max: 60 }).optional(),
  })
  .superRefine((entry, context) => withinRange(entry.purity, entry['purity-range'], 'purity', context))

const strength = () => share({ min: '10 %', max: '60 %' })

const stockLye = z
  .strictObject({
    name: words({ max: 80 }),
    kind: oneOf(['NaOH', 'KOH']),
    strength: strength().describe('Share of pure alkali in the solution, as titrated or as its label says.'),
    'strength-range': z.strictObject({ from: strength(), to: strength() }).superRefine(inOrder).optional(),
    lot: words({ max: 60 }).optional(),
    made: date().optional(),
  })
  .superRefine((entry, context) => withinRange(entry.strength, entry['strength-range'], 'strength', context))

/** A size that a board is sold in. */
const sheet = z.strictObject({
  length: quantity('length', { min: '50 mm', max: '6 m' }).describe('Along the grain of its face.'),
  width: quantity('length', { min: '50 mm', max: '6 m' }),
  price: money().optional(),
})

const panel = z.strictObject({
  name: words({ max: 80 }),
  thickness: quantity('length', { min: '0.05 mm', max: '100 mm' }).describe(
    'Measured, not the name of the board.',
  ),
  density: quantity('density', { min: '200 kg/m3', max: '1500 kg/m3' }),
  source: name().optional(),
  grain: oneOf(['length', 'width', 'none']).optional(),
  sheets: z
    .array(sheet)
    .min(1)
    .max(12)
    .optional()
    .describe('Sizes that it is sold in; without them a panel that is enough is asked for.'),
})

/** Kinds of hardware that fixtures ask for, each with what counts it. */
export const HARDWARE_KINDS = [
  'rod-stock', 'hex-nut', 'washer', 'peg', 'anchor-screw', 'anchor-pin', 'bridge-rod', 'wire-pin', 'music-wire',
  'stainless-wire', 'continuous-hinge', 'hook-and-eye', 'wood-screw', 'screw-eye', 'press-pin', 'press-bolt',
  'press-washer', 'press-nut', 'hand-bar', 'clamp', 'lumber', 'wood-glue', 'epoxy',
] as const // biome-ignore format: one line reads better

export type HardwareKind = (typeof HARDWARE_KINDS)[number]

/** What a pack costs, and what is in it: pieces, or the length or weight of one that pieces are cut from. */
const hardware = z.strictObject({
  name: words({ max: 80 }).optional().describe('As the shop that sells it calls it.'),
  price: money(),
  pack: count({ min: 1, max: 10_000 })
    .optional()
    .describe('Pieces for that price; one where it is left out.'),
  length: quantity('length', { min: '10 mm', max: '500 m' })
    .optional()
    .describe('Of each piece, for what is cut from a longer one: rod, wire, hinge, lumber.'),
  mass: quantity('mass', { min: '10 g', max: '50 kg' })
    .optional()
    .describe('Of each piece, for what is used by weight: epoxy.'),
})

/** What a certificate can say of a lot; at least one of these. */
const CERTIFIED = [
  'saponification-value', 'acid-value', 'iodine-value', 'density', 'unsaponifiable', 'fatty-acids',
] as const // biome-ignore format: one line reads better

/** An analysis leaves out what it could not name, and rounds [%]; common practice. */
const LEAST_FOUND = 90
const MOST_FOUND = 102

const certificate = z
  .strictObject({
    'saponification-value': plainNumber({ min: 1, max: 560 })
      .optional()
      .describe('mg KOH per g, as the certificate says.'),
    tolerance: plainNumber({ min: 0, max: 20 })
      .optional()
      .describe('How far the saponification value may be off, mg KOH per g; 1 where it is not given.'),
    'acid-value': plainNumber({ min: 0, max: 560 }).optional(),
    'iodine-value': plainNumber({ min: 0, max: 250 }).optional(),
    density: z
      .strictObject({
        value: plainNumber({ min: 0.7, max: 1.2 }).describe('Weight against the same volume of water.'),
        at: quantity('temperature', { min: '0 C', max: '120 C' }),
        'against-water-at': quantity('temperature', { min: '0 C', max: '40 C' }).optional(),
      })
      .optional(),
    unsaponifiable: plainNumber({ min: 0, max: 1000 }).optional().describe('g in 1 kg.'),
    'fatty-acids': acidShares().optional().describe('Percent of all fatty acids, as analysed.'),
    lot: words({ max: 60 }),
    date: date().optional(),
  })
  .superRefine((entry, context) => {
    const acids = Object.values(entry['fatty-acids'] ?? { all: 100 }).reduce((sum, one) => sum + one, 0)
    if (acids < LEAST_FOUND || acids > MOST_FOUND)
      report(context, {
        code: 'acids-not-100',
        message: `The fatty acids of this certificate make ${Math.round(acids * 100) / 100} %`,
        advice: 'Copy all of them, so that they make about 100 %: small ones may be missing, not large ones.',
        path: ['fatty-acids'],
        at: 'key',
      })
    if (CERTIFIED.some((key) => entry[key] !== undefined)) return
    report(context, {
      code: 'none-of-several',
      message: 'This certificate says nothing about its lot',
      advice: `Add at least one of ${CERTIFIED.map((key) => `"${key}"`).join(', ')}, or take it out.`,
    })
  })

export const ACIDS = ['citric-acid', 'citric-acid-monohydrate', 'lactic-acid', 'acetic-acid'] as const

/** A name on a label: one for all regions, or the American one and that of all others. */
const labelName = () =>
  z.union([mark({ max: 120 }), z.strictObject({ US: mark({ max: 120 }), EU: mark({ max: 120 }) })])

const additive = z.strictObject({
  name: words({ max: 80 }),
  inci: labelName().optional().describe('What it is called on a label; an acid needs none.'),
  'label-as': oneOf(['plain', 'colour']).optional().describe('Colours stand last on a label.'),
  nano: yesOrNo().optional(),
  water: share({ min: '0 %', max: '100 %' }).optional().describe('Of it, that dries with the bar.'),
  acid: oneOf(ACIDS).optional(),
  strength: share({ min: '1 %', max: '100 %' }).optional().describe('Share of the acid in what is weighed.'),
  behaves: oneOf(['hardens', 'heats'])
    .optional()
    .describe('Salt and the like hardens a block within hours; sugar, honey and milk heat it.'),
  density: quantity('density', { min: '300 kg/m3', max: '4000 kg/m3' }).optional(),
})

const fragrance = z.strictObject({
  name: words({ max: 80 }),
  inci: labelName().optional().describe('Where a label names it and does not say fragrance or parfum.'),
  declares: z
    .array(
      z.strictObject({
        substance: mark({ max: 80 }).describe('As the list of the law calls it.'),
        share: share({ min: '0.0001 %', max: '100 %' }).describe('Of the scent, at most.'),
        'added-2023': yesOrNo().optional().describe('One of those that Regulation (EU) 2023/1545 added.'),
      }),
    )
    .max(100)
    .optional()
    .describe("What its supplier's declaration names; an empty list where it names nothing."),
  limit: share({ min: '0.01 %', max: '100 %' }).describe("The supplier's limit in the finished bar."),
  'flash-point': quantity('temperature', { min: '0 C', max: '300 C' }).optional(),
  density: quantity('density', { min: '600 kg/m3', max: '1500 kg/m3' }).optional(),
  lot: words({ max: 60 }).optional(),
  tried: words({ max: 120 }).optional().describe('Where it was tried in a small batch, and what it did.'),
})

const liquid = z.strictObject({
  name: words({ max: 80 }),
  inci: labelName().optional().describe('What it is called on a label.'),
  water: share({ min: '0 %', max: '100 %' }).optional().describe('Of it, that dries with the bar.'),
  note: words({ max: 200 }).optional(),
  behaves: oneOf(['hardens', 'heats']).optional(),
})

export const materialsFile = z.strictObject({
  certificates: mapOf(certificate).optional(),
  additives: mapOf(additive).optional(),
  fragrances: mapOf(fragrance).optional(),
  liquids: mapOf(liquid).optional(),
  fats: mapOf(fat).optional(),
  alkalis: mapOf(alkali).optional(),
  'stock-lyes': mapOf(stockLye).optional(),
  premixes: mapOf(premix).optional(),
  panels: mapOf(panel).optional(),
  suppliers: mapOf(supplier).optional(),
  packs: mapOf(pack).optional().describe('What is sold of a material; the shopping list chooses among them.'),
  packaging: mapOf(packaging).optional(),
  hardware: z
    .strictObject(
      Object.fromEntries(HARDWARE_KINDS.map((kind) => [kind, hardware.optional()])) as Record<
        HardwareKind,
        z.ZodOptional<typeof hardware>
      >,
    )
    .optional(),
})

export type AlkaliEntry = z.output<typeof alkali>
export type PremixEntry = z.output<typeof premix>
export type StockLyeEntry = z.output<typeof stockLye>
export type CertificateEntry = z.output<typeof certificate>
export type AdditiveEntry = z.output<typeof additive>
export type FragranceEntry = z.output<typeof fragrance>
export type LiquidEntry = z.output<typeof liquid>
export type HardwareEntry = z.output<typeof hardware>
export type PanelEntry = z.output<typeof panel>
export type MaterialsFile = z.output<typeof materialsFile>
