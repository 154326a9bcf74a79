/** Every kind of file of a balm maker's folder. */
import { z } from 'zod'
import { count, date, name, quantity, report, share, words } from '../../../src/schema/fields.ts'
import { COMMON_KINDS, type FileKinds } from '../../../src/schema/file-kind.ts'
import { binderSettings } from '../../../src/schema/settings.ts'
import { inOrder, mapOf } from '../../../src/schema/shapes.ts'

const fullTo = () => share({ min: '20 %', max: '100 %' })

const scale = z.strictObject({
  name: words({ max: 40 }),
  division: quantity('mass', { min: '0.01 g', max: '10 g' }),
  least: quantity('mass', { min: '0.1 g', max: '1 kg' }),
  capacity: quantity('mass', { min: '50 g', max: '60 kg' }),
})

const shopFile = z.strictObject({
  ...binderSettings,
  room: z.strictObject({ 'usual-temperature': quantity('temperature', { min: '5 C', max: '40 C' }) }),
  heating: z.strictObject({
    'melt-above': quantity('temperatureDifference', { min: '1 C', max: '20 C' }),
    'pour-above': quantity('temperatureDifference', { min: '0 C', max: '20 C' }),
    hottest: quantity('temperature', { min: '50 C', max: '95 C' }),
    'lids-after': quantity('duration', { min: '30 min', max: '2 days' }),
  }),
  scales: mapOf(scale),
  cup: quantity('mass', { min: '1 g', max: '5 kg' }).describe('The dry cup that everything is weighed in.'),
  vessels: mapOf(
    z.strictObject({
      name: words({ max: 40 }),
      volume: quantity('volume', { min: '100 ml', max: '50 l' }),
      'full-to': fullTo(),
    }),
  ),
  contacts: z
    .array(z.strictObject({ who: words({ max: 40 }), reach: words({ max: 80 }) }))
    .min(1)
    .max(8),
})

const material = z.strictObject({
  name: words({ max: 60 }),
  density: z
    .strictObject({
      from: quantity('density', { min: '600 kg/m3', max: '1400 kg/m3' }),
      to: quantity('density', { min: '600 kg/m3', max: '1400 kg/m3' }),
      at: quantity('temperature', { min: '0 C', max: '110 C' }),
      source: name(),
    })
    .superRefine(inOrder)
    .describe('Of the melted material.'),
  melting: z
    .strictObject({
      from: quantity('temperature', { min: '0 C', max: '110 C' }),
      to: quantity('temperature', { min: '0 C', max: '110 C' }),
      source: name(),
    })
    .superRefine(inOrder)
    .optional(),
  'flash-point': z
    .strictObject({ at: quantity('temperature', { min: '60 C', max: '400 C' }), source: name() })
    .optional(),
  allergen: words({ max: 80 }).optional().describe('Whom it may harm, and by what.'),
})

/** Shares are typed with few digits: 33.3 + 33.3 + 33.4 is meant to be 100. */
const SHARE_TOLERANCE = 0.0005

const recipeFile = z.strictObject({
  title: words({ max: 60 }),
  parts: mapOf(share({ min: '0.1 %', max: '100 %' })).superRefine((parts, context) => {
    const sum = Object.values(parts).reduce((total, part) => total + part, 0)
    if (Math.abs(sum - 1) <= SHARE_TOLERANCE) return
    report(context, {
      code: 'shares-not-100',
      message: `The parts make ${Math.round(sum * 10_000) / 100} %, not 100 %`,
      advice: 'Change them so that they make 100 %.',
      at: 'key',
    })
  }),
})

const tinFile = z.strictObject({
  title: words({ max: 60 }),
  volume: quantity('volume', { min: '2 ml', max: '2 l' }),
  'full-to': fullTo(),
})

const batchFile = z.strictObject({
  recipe: name(),
  tin: name(),
  tins: count({ min: 1, max: 2000 }),
  date: date(),
  vessel: name(),
  loss: share({ min: '0 %', max: '20 %' }),
})

export const BALM_KINDS = {
  shop: { name: 'shop', place: { file: 'shop.yaml' }, schema: shopFile },
  sources: COMMON_KINDS.sources,
  materials: {
    name: 'materials',
    place: { folder: 'materials' },
    schema: z.strictObject({ materials: mapOf(material) }),
  },
  recipe: { name: 'recipe', place: { folder: 'recipes' }, schema: recipeFile },
  tin: { name: 'tin', place: { folder: 'tins' }, schema: tinFile },
  batch: { name: 'batch', place: { folder: 'batches' }, schema: batchFile },
  printed: COMMON_KINDS.printed,
} as const satisfies FileKinds

export type BalmShop = z.output<typeof shopFile>
export type Material = z.output<typeof material>
export type BalmRecipe = z.output<typeof recipeFile>
export type Tin = z.output<typeof tinFile>
export type BalmBatch = z.output<typeof batchFile>
