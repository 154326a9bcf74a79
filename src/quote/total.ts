/** The sum of a quote: of whole minor units, and of what has no price yet the names. */
import type { Span } from './work.ts'

/** One line: what it costs at its low and at its high end, in the smallest coin; nothing where it is not priced. */
export interface QuoteLine {
  readonly key: string
  readonly cost: Span | undefined
}

export interface QuoteTotal extends Span {
  /** keys of the lines that it is without */
  readonly without: readonly string[]
}

/**
 * Sum of all lines that are priced.
 *
 * Formula: low ends and high ends each added. Validity: whole minor units, so that nothing is rounded here.
 * @param lines of the quote
 * @returns both ends, and what they are without
 * @source common practice
 */
export function totalOf(lines: readonly QuoteLine[]): QuoteTotal {
  const priced = lines.flatMap(({ cost }) => cost ?? [])
  return {
    low: priced.reduce((sum, { low }) => sum + low, 0),
    high: priced.reduce((sum, { high }) => sum + high, 0),
    without: lines.filter(({ cost }) => cost === undefined).map(({ key }) => key),
  }
}
