/** Works that a label of a region is written by. */
import type { Region } from '../../labelling/regions.ts'

const US = [
  'cfr-21-701-20', 'cfr-21-701-3', 'cfr-21-701-13', 'cfr-16-500', 'cfr-16-500-21', 'nist-handbook-44', 'nist-handbook-133',
] as const // biome-ignore format: one line reads better
const EUROPE = ['ec-1223-2009', 'eu-2023-1545', 'directive-76-211', 'directive-76-211-figures'] as const

const BY_REGION: Readonly<Record<Region, readonly string[]>> = {
  US: [...US, 'mocra-2022'],
  EU: EUROPE,
  UK: [...EUROPE, 'uk-si-2019-696'],
  CA: ['canada-cosmetic-regulations'],
}

export const labelSources = (region: Region): readonly string[] => [
  ...BY_REGION[region],
  'inci-names',
  'iso-7064',
]
