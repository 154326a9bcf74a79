/** The shipped library of fats as calculators want it. */
import { readFileSync } from 'node:fs'
import { load } from 'js-yaml'
import type { Composition, CompositionRanges } from '../../src/chemistry/composition.ts'
import type { FattyAcidName } from '../../src/chemistry/fatty-acids.ts'

interface Limits {
  readonly from?: number
  readonly to?: number
}

export interface PrintedFat {
  readonly kind: 'triglyceride' | 'wax' | 'fatty-acid'
  readonly 'saponification-value': { readonly from: number; readonly to: number }
  readonly 'iodine-value': Limits
  readonly 'fatty-acids'?: { readonly percent: Readonly<Record<FattyAcidName, readonly [number, number]>> }
  readonly 'measured-composition'?: { readonly percent: Readonly<Record<FattyAcidName, number>> }
}

const file = new URL('../../content/materials/fats.yaml', import.meta.url)

export const fats = Object.entries(
  (load(readFileSync(file, 'utf8')) as { fats: Readonly<Record<string, PrintedFat>> }).fats,
)

export const rangesOf = (fat: PrintedFat): CompositionRanges =>
  Object.fromEntries(
    Object.entries(fat['fatty-acids']?.percent ?? {}).map(([name, [low, high]]) => [
      name,
      { low: low / 100, high: high / 100 },
    ]),
  )

export const measuredOf = (fat: PrintedFat): Composition =>
  Object.fromEntries(
    Object.entries(fat['measured-composition']?.percent ?? {}).map(([name, share]) => [name, share / 100]),
  )
