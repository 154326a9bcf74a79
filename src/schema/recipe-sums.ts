/** Shares as typed: whatever else is wrong with a recipe, fats that do not make 100 % are told in the same run. */
import type { Diagnostic } from '../diagnostics.ts'
import { parseQuantity } from '../units.ts'
import type { ReadFile } from './look-up.ts'
import { valueBelow } from './schema-walk.ts'

/** Shares are typed with few digits: 33.3 + 33.3 + 33.4 is meant to be 100. */
const SHARE_TOLERANCE = 0.0005

const percent = (share: number): string => String(Math.round(share * 10_000) / 100)

/** @param known what was found before: a fat with something wrong is missing from the sum, and says nothing of it */
export const sharesNotWhole = (
  recipes: readonly ReadFile[],
  known: readonly Diagnostic[],
): readonly Diagnostic[] =>
  recipes.flatMap(({ document }): Diagnostic[] => {
    const isBroken = known.some(
      ({ file, path, severity }) =>
        file === document.file && severity === 'error' && (path === '' || /^\/fats(\/|$)/.test(path)),
    )
    const fats = valueBelow(document.data, 'fats')
    if (isBroken || typeof fats !== 'object' || fats === null || Array.isArray(fats)) return []
    const parts = Object.values(fats).map((part) => parseQuantity(String(part), 'ratio'))
    if (parts.length === 0) return []
    const sum = parts.reduce((total, part) => total + (part.ok ? part.value : Number.NaN), 0)
    // what is no share at all was told already
    if (!Number.isFinite(sum) || Math.abs(sum - 1) <= SHARE_TOLERANCE) return []
    return [
      {
        severity: 'error',
        code: 'shares-not-100',
        file: document.file,
        path: '/fats',
        at: 'key',
        message: `The fats make ${percent(sum)} %, not 100 %`,
        advice:
          sum < 1
            ? `Add ${percent(1 - sum)} % to one of them, or share it out.`
            : `Take ${percent(sum - 1)} % off one of them, or share it out.`,
      },
    ]
  })
