/** Fats that were blended beforehand: one mass to draw in place of several. */
import type { Finding } from '../findings.ts'

export interface PremixedFat {
  readonly fat: string
  /** what the recipe takes of it [kg] */
  readonly mass: number
  /** of the blend, as the recipe wants it [–] */
  readonly share: number
}

export interface Premix {
  /** of the blend to draw [kg] */
  readonly mass: number
  /** in the order of the recipe; a key that the recipe does not have comes last, with a mass of 0 */
  readonly fats: readonly PremixedFat[]
  readonly findings: readonly Finding[]
}

/** A share may be this far off [–], common practice: what a blend of 20 kg is off by when one fat is off by 20 g. */
const SHARE_TOLERANCE = 0.001

/**
 * The one mass to draw of a blend, and whether the blend is that of the recipe.
 *
 *     m = Σ mᵢ;   shareᵢ = mᵢ / m;   stop: |own shareᵢ − shareᵢ| > 0.001 for any fat of the recipe's or of the blend's
 *
 * Shares that a blend states are taken as they are: what they leave of 1 is something that nobody has named. Only the
 * fat that is furthest off is reported, since no share is off alone. Masses ≥ 0; the same key twice counts together; a
 * blend of nothing has shares of 0.
 *
 * @param fats   all fats of the recipe [kg]
 * @param keys   of those that were blended beforehand
 * @param blend  the blend's own shares by key [–]; the recipe's where not given
 * @returns mass to draw [kg], shares in it [–], a stop where the blend is another one
 * @source common practice
 */
export function premix(
  fats: readonly { readonly key: string; readonly mass: number }[],
  keys: ReadonlySet<string>,
  blend?: ReadonlyMap<string, number>,
): Premix {
  const masses = new Map<string, number>()
  for (const { key, mass } of fats) if (keys.has(key)) masses.set(key, (masses.get(key) ?? 0) + mass)
  for (const key of keys) if (!masses.has(key)) masses.set(key, 0)
  const mass = [...masses.values()].reduce((sum, one) => sum + one, 0)
  const shareOf = (key: string): number => (mass === 0 ? 0 : (masses.get(key) ?? 0) / mass)
  return {
    mass,
    fats: [...masses].map(([fat, one]) => ({ fat, mass: one, share: shareOf(fat) })),
    findings: blend ? checkShares(new Set([...masses.keys(), ...blend.keys()]), shareOf, blend) : [],
  }
}

function checkShares(
  names: ReadonlySet<string>,
  wantedOf: (fat: string) => number,
  blend: ReadonlyMap<string, number>,
): readonly Finding[] {
  const [furthest] = [...names]
    .map((fat) => ({ fat, share: blend.get(fat) ?? 0, wanted: wantedOf(fat) }))
    .map((one) => ({ ...one, off: Math.abs(one.share - one.wanted) }))
    .sort((a, b) => b.off - a.off)
  // A hair is added so that a share that is off by just the tolerance is not reported for its last bit.
  if (!furthest || furthest.off <= SHARE_TOLERANCE + 1e-9) return []
  const { fat, share, wanted } = furthest
  return [
    { code: 'premix-not-of-this-recipe', severity: 'stop', values: { fat, share, wantedShare: wanted } },
  ]
}
