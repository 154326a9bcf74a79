/** Recipes that do not suit a tall block: what a loaf forgives, fifteen kilograms do not. */
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { fattyAcidRanges } from './fat-figures.ts'
import type { Formula } from './formula.ts'
import { knownMakeUp } from './known-make-up.ts'

/** kg of batter from which on a block keeps its heat for a day (estimate) */
const TALL_BLOCK = 5
/** Below this share of saturated acids a block stays soft for days [–] (common practice: all-olive has about 0.17) */
const SOFT = 0.25
/** Share of the fats' make-up that must be known to say so [–] */
const KNOWN = 0.9
/** Of the fats: salt that makes a block too hard to cut within hours, sugars that make it too hot (common practice) */
const SALT = 0.1
const SUGAR = 0.01

/**
 * @param batterMass all of the batter [kg]
 * @returns remarks; none for a small block
 */
export const suitability = (content: Content, formula: Formula, batterMass: number): Finding[] => {
  if (batterMass < TALL_BLOCK) return []
  const findings: Finding[] = []
  const makeUp = knownMakeUp(
    formula.fats.map(({ share, entry, value }) => ({
      kind: entry.kind,
      mass: share,
      saponificationValue: value.nominal,
      acids: fattyAcidRanges(entry),
    })),
  )
  const saturated = makeUp.groups.find(({ key }) => key === 'saturated')?.share.middle ?? 0
  if (makeUp.covered >= KNOWN && saturated < SOFT)
    findings.push({
      code: 'block-soft-for-days',
      severity: 'warn',
      values: { share: saturated, limit: SOFT },
    })
  const amount = (behaves: 'hardens' | 'heats'): number =>
    formula.additions.reduce(
      (sum, { material, mass }) =>
        sum + (content.additives.get(material)?.value.behaves === behaves ? mass : 0),
      0,
    )
  const salt = amount('hardens')
  const liquid = formula.liquid && content.liquids.get(formula.liquid.key)?.value.behaves
  if (salt >= SALT || liquid === 'hardens')
    findings.push({ code: 'block-hard-in-hours', severity: 'hold', values: {} })
  if (amount('heats') >= SUGAR || liquid === 'heats')
    findings.push({ code: 'block-heats-itself', severity: 'warn', values: {} })
  return findings
}
