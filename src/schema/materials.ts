/** materials/*.yaml: fats, alkalis and boards; one file may hold any of them. */
import { z } from 'zod'
import { fat } from './fats.ts'
import { name, oneOf, quantity, share, words } from './fields.ts'
import { mapOf } from './shapes.ts'

const purity = () => share({ min: '50 %', max: '100 %' })

const alkali = z.strictObject({
  name: words({ max: 80 }),
  kind: oneOf(['NaOH']),
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

export const materialsFile = z.strictObject({
  fats: mapOf(fat).optional(),
  alkalis: mapOf(alkali).optional(),
  panels: mapOf(panel).optional(),
})

export type AlkaliEntry = z.output<typeof alkali>
export type PanelEntry = z.output<typeof panel>
export type MaterialsFile = z.output<typeof materialsFile>
