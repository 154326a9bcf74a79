/** A fat's published figures as the calculators want them. */
import { fatDensity } from '../chemistry/density.ts'
import { saponificationValue } from '../chemistry/saponification-value.ts'
import type { FatEntry } from '../schema/fats.ts'

export const usedSaponificationValue = (fat: FatEntry) =>
  saponificationValue({
    kind: fat.kind,
    published: { low: fat['saponification-value'].from / 1000, high: fat['saponification-value'].to / 1000 },
    unsaponifiable: fat.unsaponifiable
      ? { low: (fat.unsaponifiable.from ?? 0) / 1000, high: (fat.unsaponifiable.to ?? 0) / 1000 }
      : undefined,
  })

export const pourDensity = (fat: FatEntry, temperature: number): number =>
  fatDensity(
    {
      low: fat.density.from,
      high: fat.density.to,
      temperature: fat.density.at,
      waterTemperature: fat.density['against-water-at'],
      solid: fat.density.state === 'solid',
    },
    temperature,
  ).nominal

export const sourcesOf = (fat: FatEntry): string[] => [fat['saponification-value'].source, fat.density.source]
