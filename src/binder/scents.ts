/** Scents against their suppliers' limits, in the bar as it is sold. */
import type { BatterPart } from '../batch/batter.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import type { Formula, FormulaAddition, FormulaColour } from './formula.ts'

/** Water that a bar has lost when it is sold, as a share of its batter; until bars are weighed (estimate: 10 %). */
const CURE_LOSS = 0.1
/** The most that bars of the trade lose (estimate: a weak lye, a dry room, months). */
const MOST_CURE_LOSS = 0.18

/** What this shop's bars lose from the pour until they are sold [–]: as the maker has found, or the estimate. */
export const cureLossOf = (content: Content): number => content.shop.value.cure?.['weight-loss'] ?? CURE_LOSS

/**
 * A supplier's limit counts what is in the bar as it is sold, which has lost water since the pour; a bar may be all of
 * one part of a batter that was divided for colours.
 */
export const scentShares = (
  content: Content,
  additions: readonly FormulaAddition[],
  colours: readonly FormulaColour[],
  parts: readonly BatterPart[],
): Formula['scents'] => {
  const sold = parts.reduce((sum, part) => sum + part.massPerOil, 0) * (1 - cureLossOf(content))
  const scents = new Map(
    additions.filter(({ role }) => role === 'fragrance').map(({ material, name }) => [material, name]),
  )
  return [...scents].map(([key, name]) => {
    const of = (colour: string | undefined): number =>
      additions.reduce((sum, one) => sum + (one.material === key && one.colour === colour ? one.mass : 0), 0)
    const most = Math.max(0, ...colours.map((part) => of(part.key) / part.share))
    return { key, name, share: (of(undefined) + most) / sold }
  })
}

export const scentFindings = (content: Content, scents: Formula['scents']): Finding[] => {
  const measured = content.shop.value.cure?.['weight-loss'] !== undefined
  return scents.flatMap(({ key, name, share }): Finding[] => {
    const { limit, tried } = limitsOf(content, key)
    // Until bars are weighed they may lose more than the estimate, and hold more of the scent.
    const atMost =
      (share * (1 - cureLossOf(content))) / (1 - (measured ? cureLossOf(content) : MOST_CURE_LOSS))
    return [
      ...(share > limit
        ? [{ code: 'fragrance-over-limit', severity: 'stop', values: { name, share, limit } } as const]
        : atMost > limit
          ? [
              {
                code: 'fragrance-near-limit',
                severity: 'warn',
                values: { name, share: atMost, limit },
              } as const,
            ]
          : []),
      ...(tried ? [] : [{ code: 'fragrance-untried', severity: 'hold', values: { name } } as const]),
    ]
  })
}

/** @throws Error for a scent that content lacks: a bug, since load.ts has looked it up */
const limitsOf = (content: Content, key: string) => {
  const found = content.fragrances.get(key)?.value
  if (!found) throw new Error(`No scent "${key}".`)
  return found
}
