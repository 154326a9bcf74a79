/** Works that a label of a region is written by. */
import type { Region } from '../../labelling/regions.ts'
import type { Place } from '../links.ts'

const US = [
  'cfr-21-701-20', 'cfr-21-701-3', 'cfr-21-701-13', 'cfr-16-500', 'cfr-16-500-21', 'nist-handbook-44', 'nist-handbook-133',
] as const // biome-ignore format: one line reads better
const EUROPE = ['ec-1223-2009', 'eu-2023-1545', 'directive-76-211', 'directive-76-211-figures'] as const

const BY_REGION: Readonly<Record<Region, readonly string[]>> = {
  US,
  EU: EUROPE,
  UK: [...EUROPE, 'uk-si-2019-696'],
  CA: ['canada-cosmetic-regulations'],
}

/** The sheet of rules, which every sheet of a label leads to. */
export const RULES_PLACE: Place = { id: 'label/rules', number: '9.1' }

export const labelSources = (region: Region, status: 'soap' | 'cosmetic'): readonly string[] => [
  ...BY_REGION[region],
  ...(region === 'US' && status === 'cosmetic' ? ['mocra-2022'] : []),
  'inci-names',
  'iso-7064',
]
