/** materials/*.yaml: fats, alkalis and boards; one file may hold any of them. */
import { z } from 'zod'
import { fat } from './fats.ts'
import { date, name, oneOf, plainNumber, quantity, share, words } from './fields.ts'
import { mapOf } from './shapes.ts'

const purity = () => share({ min: '50 %', max: '100 %' })

const alkali = z.strictObject({
  name: words({ max: 80 }),
  kind: oneOf(['NaOH', 'KOH']),
  purity: purity().describe('Share of pure alkali, from the drum or the certificate.'),
  'purity-range': z.strictObject({ from: purity(), to: purity() }).optional(),
  lot: words({ max: 60 }).optional(),
})

const panel = z.strictObject({
  name: words({ max: 80 }),
  thickness: quantity('length', { min: '2 mm', max: '100 mm' }).describe(
    'Measured, not the name of the board.',
  ),
  density: quantity('density', { min: '200 kg/m3', max: '1500 kg/m3' }),
  source: name().optional(),
  grain: oneOf(['length', 'width', 'none']).optional(),
})

const certificate = z.strictObject({
  'saponification-value': plainNumber({ min: 1, max: 560 }).describe(
    'mg KOH per g, as the certificate says.',
  ),
  tolerance: plainNumber({ min: 0, max: 20 }).optional(),
  lot: words({ max: 60 }),
  date: date().optional(),
})

const additive = z.strictObject({
  name: words({ max: 80 }),
  acid: oneOf(['citric-acid', 'citric-acid-monohydrate', 'lactic-acid', 'acetic-acid']).optional(),
  strength: share({ min: '1 %', max: '100 %' }).optional().describe('Share of the acid in what is weighed.'),
  density: quantity('density', { min: '300 kg/m3', max: '4000 kg/m3' }).optional(),
})

const fragrance = z.strictObject({
  name: words({ max: 80 }),
  limit: share({ min: '0.01 %', max: '100 %' }).describe("The supplier's limit in the finished bar."),
  'flash-point': quantity('temperature', { min: '0 C', max: '300 C' }).optional(),
  density: quantity('density', { min: '600 kg/m3', max: '1500 kg/m3' }).optional(),
  lot: words({ max: 60 }).optional(),
  tried: words({ max: 120 }).optional().describe('Where it was tried in a small batch, and what it did.'),
})

const liquid = z.strictObject({
  name: words({ max: 80 }),
  note: words({ max: 200 }).optional(),
})

export const materialsFile = z.strictObject({
  certificates: mapOf(certificate).optional(),
  additives: mapOf(additive).optional(),
  fragrances: mapOf(fragrance).optional(),
  liquids: mapOf(liquid).optional(),
  fats: mapOf(fat).optional(),
  alkalis: mapOf(alkali).optional(),
  panels: mapOf(panel).optional(),
})

export type AlkaliEntry = z.output<typeof alkali>
export type CertificateEntry = z.output<typeof certificate>
export type AdditiveEntry = z.output<typeof additive>
export type FragranceEntry = z.output<typeof fragrance>
export type LiquidEntry = z.output<typeof liquid>
export type PanelEntry = z.output<typeof panel>
export type MaterialsFile = z.output<typeof materialsFile>
