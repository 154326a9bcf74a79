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
    name: words({ max: 80 }).describe('What sheets call it.'),
    fats: mapOf(share({ min: '0.1 %', max: '100 %' })).describe(
      'Shares of the blend, each by the name of its fat; they make 100 %.',
    ),
    lot: words({ max: 60 }).optional().describe('What is written on its tub.'),
    made: date().optional().describe('The day on which it was blended.'),
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
    name: words({ max: 80 }).describe('What sheets call it.'),
    kind: oneOf(['NaOH', 'KOH']).describe(
      'Which alkali it is: NaOH for bars, KOH for soft soap, or for a part of the lye.',
    ),
    purity: purity().describe('Share of pure alkali, from the drum or the certificate.'),
    'purity-range': z
      .strictObject({
        from: purity().describe('Lower end of the range.'),
        to: purity().describe('Upper end of the range.'),
      })
      .superRefine(inOrder)
      .optional()
      .describe(
        'Between which limits the purity of its lots lies; the purity is taken as it stands where it is left out.',
      ),
    damp: share({ min: '0 %', max: '20 %' })
      .optional()
      .describe(
        'Share of its weight that it may have drawn from the air since it was opened; none where it is left out.',
      ),
    lot: words({ max: 60 }).optional().describe('What is written on its drum.'),
  })
  .superRefine((entry, context) => withinRange(entry.purity, entry['purity-range'], 'purity', context))

const strength = () => share({ min: '10 %', max: '60 %' })

const stockLye = z
  .strictObject({
    name: words({ max: 80 }).describe('What sheets call it.'),
    kind: oneOf(['NaOH', 'KOH']).describe('Which alkali is in it.'),
    strength: strength().describe('Share of pure alkali in the solution, as titrated or as its label says.'),
    'strength-range': z
      .strictObject({
        from: strength().describe('Lower end of the range.'),
        to: strength().describe('Upper end of the range.'),
      })
      .superRefine(inOrder)
      .optional()
      .describe('Between which limits the strength lies; it is taken as it stands where this is left out.'),
    lot: words({ max: 60 }).optional().describe('What is written on its can.'),
    made: date().optional().describe('The day on which it was made.'),
  })
  .superRefine((entry, context) => withinRange(entry.strength, entry['strength-range'], 'strength', context))

/** A size that a board is sold in. */
const sheet = z.strictObject({
  length: quantity('length', { min: '50 mm', max: '6 m' }).describe('Along the grain of its face.'),
  width: quantity('length', { min: '50 mm', max: '6 m' }).describe('Across the grain of its face.'),
  price: money()
    .optional()
    .describe('Of one board of this size; without it the quote leaves a line to write on.'),
})

const panel = z.strictObject({
  name: words({ max: 80 }).describe('What sheets call it.'),
  thickness: quantity('length', { min: '0.05 mm', max: '100 mm' }).describe(
    'As a calliper measures it, not the name of the board.',
  ),
  density: quantity('density', { min: '200 kg/m3', max: '1500 kg/m3' }).describe(
    'What a cubic metre of it weighs, for the weight of what is built.',
  ),
  source: name().optional().describe('Where its figures stand: a name among the sources.'),
  grain: oneOf(['length', 'width', 'none'])
    .optional()
    .describe(
      'Which way the grain of its face runs on the boards that are sold; none where a part may lie either way.',
    ),
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

/** What it is, and what it is for. */
const HARDWARE_WORDS: Readonly<Record<HardwareKind, string>> = {
  'rod-stock': 'Threaded rod, for the mould.',
  'hex-nut': 'Hexagon nuts on the rods.',
  washer: 'Wide washers under the nuts.',
  peg: 'Tuning pegs, for wires.',
  'anchor-screw': 'Screws that hold the other end of a wire.',
  'anchor-pin': 'Rod that anchor pins are cut from.',
  'bridge-rod': 'Thin round rod that wires run over.',
  'wire-pin': 'Pins of the bar cutter that wires run over.',
  'music-wire': 'Music wire, for cutting.',
  'stainless-wire': 'Stainless wire, for cutting.',
  'continuous-hinge': 'Continuous hinge, for the bar cutter.',
  'hook-and-eye': 'Hooks with their eyes.',
  'wood-screw': 'Wood screws.',
  'screw-eye': 'Screw eyes.',
  'press-pin': 'Rod for the pin of the lever press.',
  'press-bolt': 'Bolts of the lever press.',
  'press-washer': 'Washers of these bolts.',
  'press-nut': 'Nuts of these bolts.',
  'hand-bar': 'The bar that hands hold on the lever press.',
  clamp: 'Clamps.',
  lumber: 'Lumber, for the lever press.',
  'wood-glue': 'Wood glue.',
  epoxy: 'Epoxy, for the finish.',
}

/** What a pack costs, and what is in it: pieces, or the length or weight of one that pieces are cut from. */
const hardware = z.strictObject({
  name: words({ max: 80 }).optional().describe('As the shop that sells it calls it.'),
  price: money().describe('Of one pack.'),
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
      .describe('mg KOH for 1 g of the fat, as the certificate says. At least one figure must be there.'),
    tolerance: plainNumber({ min: 0, max: 20 })
      .optional()
      .describe(
        'How far the saponification value may be off, in mg KOH for 1 g; what is usual where it is left out.',
      ),
    'acid-value': plainNumber({ min: 0, max: 560 })
      .optional()
      .describe('mg KOH for 1 g that belong to free fatty acid.'),
    'iodine-value': plainNumber({ min: 0, max: 250 })
      .optional()
      .describe('g of iodine that 100 g of the fat take up.'),
    density: z
      .strictObject({
        value: plainNumber({ min: 0.7, max: 1.2 }).describe('Weight against the same volume of water.'),
        at: quantity('temperature', { min: '0 C', max: '120 C' }).describe(
          'Temperature of the fat as it was measured.',
        ),
        'against-water-at': quantity('temperature', { min: '0 C', max: '40 C' })
          .optional()
          .describe(
            'Temperature of the water that it was measured against; water as warm as a room where it is left out.',
          ),
      })
      .optional()
      .describe('Its density, as the certificate says.'),
    unsaponifiable: plainNumber({ min: 0, max: 1000 })
      .optional()
      .describe('g in 1 kg that never turn to soap.'),
    'fatty-acids': acidShares()
      .optional()
      .describe('Percent of all fatty acids, as analysed; together about 100.'),
    lot: words({ max: 60 }).describe('The lot that the certificate is of.'),
    date: date().optional().describe('The day on which the certificate was written.'),
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
  z.union([
    mark({ max: 120 }),
    z.strictObject({
      US: mark({ max: 120 }).describe('In the United States.'),
      EU: mark({ max: 120 }).describe('In all other regions.'),
    }),
  ])

const additive = z.strictObject({
  name: words({ max: 80 }).describe('What sheets call it.'),
  inci: labelName().optional().describe('What it is called on a label; an acid needs none.'),
  'label-as': oneOf(['plain', 'colour'])
    .optional()
    .describe('Colours stand last on a label; plain where it is left out.'),
  nano: yesOrNo()
    .optional()
    .describe('It is so fine that a label must say nano behind its name; no where it is left out.'),
  water: share({ min: '0 %', max: '100 %' })
    .optional()
    .describe('Share of it that is water and dries with the bar; none where it is left out.'),
  acid: oneOf(ACIDS)
    .optional()
    .describe('Which acid it is: it takes some of the alkali. Left out for what is no acid.'),
  strength: share({ min: '1 %', max: '100 %' })
    .optional()
    .describe('Share of the acid in what is weighed; all of it where it is left out.'),
  behaves: oneOf(['hardens', 'heats'])
    .optional()
    .describe(
      'Salt and the like hardens a block within hours; sugar, honey and milk heat it. Left out for all else.',
    ),
  density: quantity('density', { min: '300 kg/m3', max: '4000 kg/m3' })
    .optional()
    .describe(
      'What a cubic metre of it weighs, for the room that it takes; a usual density where it is left out.',
    ),
})

const fragrance = z.strictObject({
  name: words({ max: 80 }).describe('What sheets call it.'),
  inci: labelName().optional().describe('Where a label names it and does not say fragrance or parfum.'),
  declares: z
    .array(
      z.strictObject({
        substance: mark({ max: 80 }).describe('As the list of the law calls it.'),
        share: share({ min: '0.0001 %', max: '100 %' }).describe('Share of the scent that it is, at most.'),
        'added-2023': yesOrNo()
          .optional()
          .describe('One of those that Regulation (EU) 2023/1545 added; no where it is left out.'),
      }),
    )
    .max(100)
    .optional()
    .describe(
      "What its supplier's declaration names; an empty list where it names nothing. Where it is left out nobody has asked: labels are stopped where the law wants to know, and warned of elsewhere.",
    ),
  limit: share({ min: '0.01 %', max: '100 %' }).describe("The supplier's limit in the finished bar."),
  'flash-point': quantity('temperature', { min: '0 C', max: '300 C' })
    .optional()
    .describe('From its safety sheet; the batch sheet tells it where the scent goes in.'),
  density: quantity('density', { min: '600 kg/m3', max: '1500 kg/m3' })
    .optional()
    .describe(
      'What a cubic metre of it weighs, for the room that it takes; a usual density where it is left out.',
    ),
  lot: words({ max: 60 }).optional().describe('What is written on its bottle.'),
  tried: words({ max: 120 })
    .optional()
    .describe(
      'Where it was tried in a small batch, and what it did; a batch with a scent that was never tried is held.',
    ),
})

const liquid = z.strictObject({
  name: words({ max: 80 }).describe('What sheets call it.'),
  inci: labelName().optional().describe('What it is called on a label.'),
  water: share({ min: '0 %', max: '100 %' })
    .optional()
    .describe(
      'Share of it that is water and dries with the bar; labels of its bars are held where it is left out.',
    ),
  note: words({ max: 200 }).optional().describe('What is said of it on the batch sheet.'),
  behaves: oneOf(['hardens', 'heats'])
    .optional()
    .describe(
      'Salt water hardens a block within hours; milk, beer and the like heat it. Left out for all else.',
    ),
})

export const materialsFile = z
  .strictObject({
    certificates: mapOf(certificate)
      .optional()
      .describe('What suppliers certify of the lot on the shelf, each under the name of its fat.'),
    additives: mapOf(additive)
      .optional()
      .describe('Acids, colours and whatever else goes in, each under a name of your own.'),
    fragrances: mapOf(fragrance).optional().describe('Scents, each under a name of your own.'),
    liquids: mapOf(liquid)
      .optional()
      .describe('What a lye can be made with in place of water, each under a name of your own.'),
    fats: mapOf(fat).optional().describe('Fats, oils and waxes with what is published about each.'),
    alkalis: mapOf(alkali).optional().describe('What the lye is made of, each under a name of your own.'),
    'stock-lyes': mapOf(stockLye)
      .optional()
      .describe('Lyes that were made beforehand, each under a name of your own.'),
    premixes: mapOf(premix)
      .optional()
      .describe('Fats that were blended beforehand, each blend under a name of your own.'),
    panels: mapOf(panel)
      .optional()
      .describe('Boards and sheets that fixtures are made of, each under a name of your own.'),
    suppliers: mapOf(supplier).optional().describe('Who sells materials, each under a name of your own.'),
    packs: mapOf(pack)
      .optional()
      .describe('What is sold of a material; the shopping list chooses among them.'),
    packaging: mapOf(packaging)
      .optional()
      .describe('What bars are wrapped in, each under a name of your own.'),
    hardware: z
      .strictObject(
        Object.fromEntries(
          HARDWARE_KINDS.map((kind) => [kind, hardware.optional().describe(HARDWARE_WORDS[kind])]),
        ) as Record<HardwareKind, z.ZodOptional<typeof hardware>>,
      )
      .optional()
      .describe(
        'What hardware costs, by the kinds that the build sheets ask for. What is not here has a line to write on in the quote.',
      ),
  })
  .describe(
    'What soap and fixtures are made of, and who sells it. One file may hold any of these groups, and you may have as many files as you like: all of them are read as one.',
  )

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
