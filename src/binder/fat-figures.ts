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

/** In place of a key of sources.yaml: the figure stands in a certificate. */
export const CERTIFICATE = 'certificate'

/** A fat as it stands on the shelf: what the certificate of its lot says takes the place of what is published. */
export const fatOfLot = (fat: FatEntry, certificate: CertificateEntry | undefined): FatEntry => {
  if (!certificate) return fat
  const evidence = { source: CERTIFICATE, evidence: 'read' } as const
  const exactly = (value: number | undefined) =>
    value === undefined ? undefined : { from: value, to: value, ...evidence }
  const { density } = certificate
  const acids = certificate['fatty-acids']
  const sum = Object.values(acids ?? {}).reduce((total, one) => total + one, 0)
  const given = {
    'acid-value': exactly(certificate['acid-value']),
    'iodine-value': exactly(certificate['iodine-value']),
    unsaponifiable: exactly(certificate.unsaponifiable),
    density: density && {
      from: density.value,
      to: density.value,
      at: density.at,
      ...(density['against-water-at'] === undefined
        ? {}
        : { 'against-water-at': density['against-water-at'] }),
      ...evidence,
    },
    // An analysis leaves small acids out: what it names is brought to a hundred.
    'fatty-acids': acids && {
      percent: Object.fromEntries(
        Object.entries(acids).map(([acid, value]) => [acid, [(value / sum) * 100, (value / sum) * 100]]),
      ) as NonNullable<FatEntry['fatty-acids']>['percent'],
      ...evidence,
    },
  }
  const known = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined))
  return { ...fat, ...known }
}

/**
 * The saponification value in use: the lot's certificate, else what the analysis of the lot gives, else the one that the
 * published make-up gives where it falls into the published range, else the middle of that range. Without a certificate
 * its limits are those of the range: a make-up of the whole trade says as little of one lot as a range does.
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
  const certified = certificate?.['saponification-value']
  const acids = certificate?.['fatty-acids']
  const value = saponificationValue({
    kind: fat.kind,
    published,
    unsaponifiable: fat.unsaponifiable ? unsaponifiable : undefined,
    certificate:
      certified === undefined
        ? undefined
        : {
            value: certified / 1000,
            ...(certificate?.tolerance === undefined ? {} : { tolerance: certificate.tolerance / 1000 }),
          },
    lotComposition: acids,
  })
  const ranges = fattyAcidRanges(fat)
  if (value.basis !== 'middle-of-range' || !ranges || fat.kind === 'wax') return value
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
