/** What a bar costs: what went into the batch with all that did not become a bar, its packaging, and the work. */
import {
  add,
  divide,
  fromNumber,
  isLess,
  multiply,
  type Rational,
  rational,
  roundHalfAway,
  subtract,
  toNumber,
} from '../units/rational.ts'

/** Bought at a price for so much, and used of it. */
export interface MaterialUsed {
  readonly name: string
  /** all that went into the batch, residue and spills too [kg or pieces] */
  readonly used: number
  /** in the smallest coin, for … */
  readonly price: number
  /** … so much [kg or pieces] */
  readonly priceFor: number
}

export interface BarCostInput {
  readonly materials: readonly MaterialUsed[]
  /** paper, band, label: pieces for each bar that is sold */
  readonly packaging: readonly MaterialUsed[]
  /** of the batch, undefined when work is not counted */
  readonly labour?: { readonly hours: number; readonly perHour: number } | undefined
  readonly bars: {
    readonly cut: number
    /** cut open, weighed for good, given to tests */
    readonly tests: number
    /** broken, off in shape or weight */
    readonly rejected: number
  }
  /** kg of the batter as it was mixed, and of what stayed in the pot and was trimmed off */
  readonly batter: { readonly mixed: number; readonly residue: number; readonly trim: number }
}

/** One part of a bar's cost. */
export interface CostLine {
  readonly kind: 'material' | 'packaging' | 'labour'
  readonly name: string
  /** of all bars sold, in the smallest coin; lines add up to the total */
  readonly batch: number
  /** of a sold bar, in the smallest coin; lines add up to the bar's cost */
  readonly bar: number
  /** of the cost, 0..1 */
  readonly share: number
}

/** Where the money for materials went. */
export interface LossLine {
  readonly kind: 'in-bars' | 'residue' | 'trim' | 'tests' | 'rejected'
  /** of a sold bar, in the smallest coin; lines add up to the materials of a bar */
  readonly bar: number
  /** of the cost of materials, 0..1 */
  readonly share: number
}

export interface BarCost {
  readonly sold: number
  /** in the smallest coin */
  readonly batch: number
  readonly bar: number
  /** a bar's cost before it is rounded, in the smallest coin */
  readonly exact: number
  /** what drives it first */
  readonly lines: readonly CostLine[]
  readonly losses: readonly LossLine[]
}

const NOTHING = rational(0n)
const whole = (count: number): Rational => rational(BigInt(count))
const total = (all: readonly Rational[]): Rational => all.reduce(add, NOTHING)

/**
 * Cost of each bar that is sold.
 *
 *     batch = Σ used · price / price for + hours · wage + packaging · sold;   bar = batch / sold
 *     residue, trim: share of the batter's mass;   tests, rejected: share of the bars in what is left
 *
 * All in exact fractions. Rounded once, at the end, halves away from 0: batch and bar each by itself; their lines are rounded down and
 * the coins that are missing go to those with the largest rest, so that every column adds up. Trim that is kept is counted as spent here
 * and costs nothing where it is used again. Validity: prices whole; residue + trim below what was mixed.
 * @param input materials, packaging, work and what became of the batter
 * @returns cost with its lines, undefined when no bar is sold
 * @source common practice
 */
export function barCost({ materials, packaging, labour, bars, batter }: BarCostInput): BarCost | undefined {
  const sold = bars.cut - bars.tests - bars.rejected
  if (sold <= 0) return undefined
  const bought = ({ used, price, priceFor }: MaterialUsed): Rational =>
    divide(multiply(whole(price), fromNumber(used)), fromNumber(priceFor))
  const parts = oncePerName([
    ...materials.map((one): Part => ({ kind: 'material', name: one.name, cost: bought(one) })),
    ...packaging.map(
      (one): Part => ({ kind: 'packaging', name: one.name, cost: multiply(bought(one), whole(sold)) }),
    ),
    ...(labour
      ? [
          {
            kind: 'labour',
            name: 'labour',
            cost: multiply(fromNumber(labour.hours), whole(labour.perHour)),
          } satisfies Part,
        ]
      : []),
  ])
  const sum = total(parts.map(({ cost }) => cost))
  const perBar = (cost: Rational): Rational => divide(cost, whole(sold))
  const ofBatch = roundedTogether(parts.map(({ cost }) => cost))
  const ofBar = roundedTogether(parts.map(({ cost }) => perBar(cost)))
  const lines = parts
    .map(({ kind, name, cost }, index) => ({
      cost,
      line: { kind, name, batch: ofBatch[index] ?? 0, bar: ofBar[index] ?? 0, share: shareOf(cost, sum) },
    }))
    .sort((a, b) => (isLess(b.cost, a.cost) ? -1 : isLess(a.cost, b.cost) ? 1 : 0))
    .map(({ line }) => line)

  const inMaterials = total(parts.filter(({ kind }) => kind === 'material').map(({ cost }) => cost))
  const ways = lossShares(bars, batter)
  const lossBars = roundedTogether(ways.map(({ share }) => perBar(multiply(share, inMaterials))))
  return {
    sold,
    batch: Number(roundHalfAway(sum)),
    bar: Number(roundHalfAway(perBar(sum))),
    exact: toNumber(perBar(sum)),
    lines,
    losses: ways.map(({ kind, share }, index) => ({
      kind,
      bar: lossBars[index] ?? 0,
      share: toNumber(share),
    })),
  }
}

interface Part {
  readonly kind: CostLine['kind']
  readonly name: string
  readonly cost: Rational
}

/** Two lots of one material are one line. */
const oncePerName = (parts: readonly Part[]): Part[] => {
  const lines = new Map<string, Part>()
  for (const part of parts) {
    const key = `${part.kind} ${part.name}`
    lines.set(key, { ...part, cost: add(part.cost, lines.get(key)?.cost ?? NOTHING) })
  }
  return [...lines.values()]
}

const shareOf = (cost: Rational, sum: Rational): number => (sum.n === 0n ? 0 : toNumber(divide(cost, sum)))

/** Shares of the materials; they add up to 1. */
const lossShares = (
  { cut, tests, rejected }: BarCostInput['bars'],
  { mixed, residue, trim }: BarCostInput['batter'],
): { readonly kind: LossLine['kind']; readonly share: Rational }[] => {
  const ofMixed = (mass: number): Rational => divide(fromNumber(mass), fromNumber(mixed))
  const inCut = subtract(rational(1n), add(ofMixed(residue), ofMixed(trim)))
  const ofCut = (count: number): Rational => multiply(inCut, rational(BigInt(count), BigInt(cut)))
  return [
    { kind: 'in-bars', share: ofCut(cut - tests - rejected) },
    { kind: 'residue', share: ofMixed(residue) },
    { kind: 'trim', share: ofMixed(trim) },
    { kind: 'tests', share: ofCut(tests) },
    { kind: 'rejected', share: ofCut(rejected) },
  ]
}

/**
 * Whole coins of amounts that add up to the rounded sum.
 *
 * Formula: each rounded down; coins that are missing go to the largest rests, of equal ones to the first. Validity: 0 or more.
 * @param amounts exact, in the smallest coin
 * @returns whole amounts in the same order
 * @source largest-remainder
 */
export function roundedTogether(amounts: readonly Rational[]): number[] {
  const floors = amounts.map(({ n, d }) => n / d)
  const rests = amounts.map((amount, index) => subtract(amount, rational(floors[index] ?? 0n)))
  const missing = Number(roundHalfAway(total(amounts)) - floors.reduce((sum, one) => sum + one, 0n))
  const first = rests
    .map((rest, index) => ({ rest, index }))
    .sort((a, b) => (isLess(b.rest, a.rest) ? -1 : isLess(a.rest, b.rest) ? 1 : a.index - b.index))
    .slice(0, missing)
    .map(({ index }) => index)
  return floors.map((floor, index) => Number(floor) + (first.includes(index) ? 1 : 0))
}
