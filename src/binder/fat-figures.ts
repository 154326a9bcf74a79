/** A fat's published figures as the calculators want them. */

import {
  type CompositionRanges,
  middleComposition,
  saponificationValueOfFreeAcids,
  saponificationValueOfTriglyceride,
} from '../chemistry/composition.ts'
import { fatDensity } from '../chemistry/density.ts'
import { type SaponificationValue, saponificationValue } from '../chemistry/saponification-value.ts'
import type { FatEntry } from '../schema/fats.ts'
import type { CertificateEntry } from '../schema/materials.ts'

/**
 * The saponification value in use: the lot's certificate, else the one that the published make-up gives where it falls
 * into the published range, else the middle of that range. Without a certificate its limits are those of the range:
 * a make-up of the whole trade says as little of one lot as a range does.
 */
export const usedSaponificationValue = (
  fat: FatEntry,
  certificate: CertificateEntry | undefined,
): SaponificationValue => {
  const unsaponifiable = {
    low: (fat.unsaponifiable?.from ?? 0) / 1000,
    high: (fat.unsaponifiable?.to ?? 0) / 1000,
  }
  const published = {
    low: fat['saponification-value'].from / 1000,
    high: fat['saponification-value'].to / 1000,
  }
  const value = saponificationValue({
    kind: fat.kind,
    published,
    unsaponifiable,
    certificate: certificate && {
      value: certificate['saponification-value'] / 1000,
      ...(certificate.tolerance === undefined ? {} : { tolerance: certificate.tolerance / 1000 }),
    },
  })
  const ranges = fattyAcidRanges(fat)
  if (certificate || !ranges || fat.kind === 'wax') return value
  const middle = middleComposition(ranges)
  const computed =
    fat.kind === 'fatty-acid'
      ? saponificationValueOfFreeAcids(middle)
      : saponificationValueOfTriglyceride(middle, (unsaponifiable.low + unsaponifiable.high) / 2)
  if (computed < published.low || computed > published.high) return value
  return { ...value, nominal: computed, basis: 'composition' }
}

/** Published limits of each fatty acid [–]; nothing where none are published. */
export const fattyAcidRanges = (fat: FatEntry): CompositionRanges | undefined => {
  const percent = fat['fatty-acids']?.percent
  if (!percent || Object.values(percent).every(([, high]) => high === 0)) return undefined
  return Object.fromEntries(
    Object.entries(percent).map(([acid, [low, high]]) => [acid, { low: low / 100, high: high / 100 }]),
  )
}

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
