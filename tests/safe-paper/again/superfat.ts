/** Superfat of weights that are read off a sheet: as planned, at its worst, and the middle 95 % of what it may be. */

/** Moles of hydroxide that one weighing takes up or brings, between limits. */
export interface Amount {
  readonly mass: number
  /** mol/kg at its limits, and as planned */
  readonly low: number
  readonly high: number
  readonly planned: number
  readonly scale: string
  readonly draws: number
}

export interface ScaleError {
  readonly division: number
  readonly repeatability: number
  readonly span: number
}

export interface Weighings {
  readonly fats: readonly Amount[]
  readonly acids: readonly Amount[]
  readonly alkalis: readonly Amount[]
  readonly scales: Readonly<Record<string, ScaleError>>
}

const total = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0)

export const plannedSuperfat = ({ fats, acids, alkalis }: Weighings): number => {
  const of = (all: readonly Amount[]): number => total(all.map(({ mass, planned }) => mass * planned))
  return 1 - (of(alkalis) - of(acids)) / of(fats)
}

/** Half a step for each draw, twice the repeatability of their sum, and every scale wrong the worse way. */
export const worstSuperfat = ({ fats, acids, alkalis, scales }: Weighings): { low: number; high: number } => {
  const error = ({ scale, draws }: Amount): number => {
    const { division = 0, repeatability = 0 } = scales[scale] ?? {}
    return (draws * division) / 2 + 2 * repeatability * Math.sqrt(draws)
  }
  const used = [...new Set([...fats, ...acids, ...alkalis].map(({ scale }) => scale))]
  /** -1: all that lye meets too little, all lye too much */
  const at = (side: -1 | 1, signs: number): number => {
    const real = (one: Amount, way: number): number =>
      (one.mass + way * error(one)) *
      (1 + ((signs >> used.indexOf(one.scale)) & 1 ? 1 : -1) * (scales[one.scale]?.span ?? 0))
    const demand = total(fats.map((one) => real(one, side) * (side < 0 ? one.low : one.high)))
    const taken = total(acids.map((one) => real(one, side) * one.planned))
    const brought = total(alkalis.map((one) => real(one, -side) * (side < 0 ? one.high : one.low)))
    return 1 - (brought - taken) / demand
  }
  const corners = Array.from({ length: 2 ** used.length }, (_, signs) => signs)
  return {
    low: Math.min(...corners.map((signs) => at(-1, signs))),
    high: Math.max(...corners.map((signs) => at(1, signs))),
  }
}

/**
 * Share of what may be that lies below a superfat, without a single draw: what is in excess of it is a sum of flat and
 * normal errors, whose characteristic function is known; the series of the sign function does the rest (Gil-Pelaez).
 */
export const shareBelow = ({ fats, acids, alkalis, scales }: Weighings, superfat: number): number => {
  let mean = 0
  let variance = 0
  const flat: number[] = []
  const byScale = new Map<string, number>()
  // lye that is left over when this much of the fats was to be left alone
  const parts: readonly (readonly [readonly Amount[], number])[] = [
    [alkalis, 1],
    [acids, -1],
    [fats, -(1 - superfat)],
  ]
  for (const [all, sign] of parts)
    for (const one of all) {
      const { mass, low, high, scale, draws } = one
      const middle = (low + high) / 2
      const { division = 0, repeatability = 0 } = scales[scale] ?? {}
      mean += sign * mass * middle
      flat.push((mass * sign * (high - low)) / 2)
      byScale.set(scale, (byScale.get(scale) ?? 0) + sign * mass * middle)
      variance += draws * (division ** 2 / 12 + repeatability ** 2) * (sign * middle) ** 2
    }
  for (const [scale, amount] of byScale) flat.push((scales[scale]?.span ?? 0) * amount)
  const spread = total(flat.map(Math.abs)) + 7 * Math.sqrt(variance)
  if (Math.abs(mean) >= spread) return mean > 0 ? 1 : 0
  const half = spread + Math.abs(mean)
  let sign = 0
  for (let k = 1; k < 600; k += 2) {
    const t = (k * Math.PI) / half
    let size = Math.exp((-variance * t * t) / 2) / k
    if (size < 1e-9) break
    for (const width of flat) {
      const x = width * t
      if (Math.abs(x) > 1e-6) size *= Math.sin(x) / x
    }
    sign += size * Math.sin(mean * t)
  }
  return 0.5 + (2 / Math.PI) * sign
}

/** The superfat below which such a share of what may be lies, between two that are known to hold it. */
export const superfatAt = (
  weighings: Weighings,
  share: number,
  { low, high }: { low: number; high: number },
): number => {
  let [below, above] = [low - 1e-6, high + 1e-6]
  for (let step = 0; step < 18; step += 1) {
    const middle = (below + above) / 2
    if (shareBelow(weighings, middle) < share) below = middle
    else above = middle
  }
  return (below + above) / 2
}
