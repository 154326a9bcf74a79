/** Spread of the superfat by random draws. */
import { normalSource, randomSource } from '../numerics/random.ts'
import { drawnInterval95, type Interval, type Range } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import { massDeviation, type SuperfatInput, scaleKeys, scaleOf, type Weighing } from './superfat-input.ts'

/** Draws of the Monte Carlo run: two runs then agree within about 0.0002 in superfat (computed). */
const DRAWS = 100_000

/** One weighed thing, flattened for the loop over draws: amount = mass · (low + u · width) · (1 + span). */
interface DrawnItem {
  readonly low: number
  readonly width: number
  readonly scale: number
}

/**
 * The 95 % interval of the superfat by Monte Carlo.
 *
 *     values and purities uniform between their limits, span uniform, weighings normal with their standard deviation
 *
 * A sum of several readings is close to normal however each of them errs. The same seed gives the same interval.
 *
 * @param input batch; `draws` and `seed` where they matter
 * @returns interval [–]
 * @source jcgm101
 */
export function drawSuperfats(input: SuperfatInput): Interval {
  const count = input.draws ?? DRAWS
  const random = randomSource(input.seed ?? 1)
  const normal = normalSource(random)
  const keys = scaleKeys(input)
  const spans = keys.map((key) => scaleOf(input, key).span)
  const item = (mass: number, weighing: Weighing, range: Range, molarMass: number): DrawnItem => ({
    low: (mass * range.low) / molarMass,
    width: (mass * (range.high - range.low)) / molarMass,
    scale: keys.indexOf(weighing.scale),
  })
  const { acids = [] } = input
  const fats = input.fats.map((fat) => item(fat.mass, fat.weighing, fat.saponificationValue, MOLAR_MASS.KOH))
  const alkalis = input.alkalis.map((alkali) =>
    item(alkali.mass, alkali.weighing, alkali.purity, MOLAR_MASS[alkali.alkali]),
  )
  const taken = acids.map(({ mass, hydroxidePerMass, weighing }) =>
    item(mass * hydroxidePerMass, weighing, { low: 1, high: 1 }, 1),
  )
  // Errors of weighing add up in moles: one normal number stands for all of a side.
  const error = (weighing: Weighing, molesPerMass: number): number =>
    massDeviation(input, weighing) * molesPerMass
  const middle = ({ low, high }: Range): number => (low + high) / 2
  const fatError = Math.hypot(
    ...input.fats.map((fat) => error(fat.weighing, middle(fat.saponificationValue) / MOLAR_MASS.KOH)),
  )
  const alkaliError = Math.hypot(
    ...input.alkalis.map((one) => error(one.weighing, middle(one.purity) / MOLAR_MASS[one.alkali])),
    ...acids.map((acid) => error(acid.weighing, acid.hydroxidePerMass)),
  )
  const factors = new Float64Array(keys.length)
  const total = (items: readonly DrawnItem[]): number => {
    let sum = 0
    for (const one of items) sum += (one.low + one.width * random()) * (factors[one.scale] ?? 1)
    return sum
  }
  const known = input.hydroxideForAcids ?? 0
  const drawn = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < factors.length; k++) factors[k] = 1 + (spans[k] ?? 0) * (2 * random() - 1)
    const demand = total(fats) + fatError * normal()
    const net = total(alkalis) - total(taken) - known + alkaliError * normal()
    drawn[i] = demand > 0 ? 1 - net / demand : 0
  }
  return drawnInterval95(drawn)
}
