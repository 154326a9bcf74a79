/** Peaks, portions and cooling of lye worked out by integrators of other packages, from figures that stand here. */
import { createRequire } from 'node:module'
import fc from 'fast-check'
import * as math from 'mathjs'
import { describe, expect, test } from 'vitest'
import { coolingTime, temperatureAfter } from '../../src/chemistry/lye-cooling.ts'
import { equalPortions } from '../../src/chemistry/lye-portions.ts'
import { type LyeMixing, peakTemperature, sodiumHydroxideHeat } from '../../src/chemistry/solution-heat.ts'

type Slope = (x: number, y: readonly number[]) => number[]

// The package's own types are sources that do not pass this project's checks.
const { Solver } = createRequire(import.meta.url)('odex') as {
  Solver: new (
    n: number,
  ) => {
    absoluteTolerance: number
    relativeTolerance: number
    solve(slope: Slope, from: number, start: readonly number[], to: number): { y: number[] }
  }
}

// It has no type there.
const { solveODE } = math as unknown as {
  solveODE: (
    slope: Slope,
    span: readonly number[],
    start: readonly number[],
    options: { readonly tol: number },
  ) => { readonly y: readonly (readonly number[])[] }
}

/** y at the far end of dy/dx = slope(x, y). */
const integrate = (slope: (x: number, y: number) => number, from: number, start: number, to: number) => {
  if (from === to) return start
  const solver = new Solver(1)
  solver.absoluteTolerance = 1e-9
  solver.relativeTolerance = 1e-9
  return solver.solve((x, [y = 0]) => [slope(x, y)], from, [start], to).y[0] ?? Number.NaN
}

// Olsson, Jernqvist, Aly 1997: heat capacity at 25, 40, 60, 80 °C [kJ/(kg K)] from read coefficients; the same enthalpy
// at 25 °C pinned to Felder and Rousseau, Table B.11: heat that 1 kg of NaOH gives off [kJ], good to 0.4 kJ/mol
const ROWS: readonly {
  readonly share: number
  readonly capacity: readonly [number, number, number, number]
  readonly heat: number
}[] = [
  { share: 0.1, capacity: [3.865, 3.841, 3.826, 3.83], heat: 1072 },
  { share: 0.15, capacity: [3.765, 3.751, 3.743, 3.747], heat: 1068 },
  { share: 0.2, capacity: [3.698, 3.692, 3.69, 3.695], heat: 1051 },
  { share: 0.25, capacity: [3.65, 3.65, 3.651, 3.656], heat: 1015 },
  { share: 0.28, capacity: [3.624, 3.626, 3.628, 3.633], heat: 982 },
  { share: 0.3, capacity: [3.606, 3.608, 3.611, 3.614], heat: 956 },
  { share: 0.3333, capacity: [3.572, 3.573, 3.575, 3.577], heat: 904 },
  { share: 0.35, capacity: [3.551, 3.552, 3.552, 3.553], heat: 875 },
  { share: 0.38, capacity: [3.506, 3.505, 3.504, 3.503], heat: 817 },
  { share: 0.4, capacity: [3.471, 3.469, 3.466, 3.464], heat: 775 },
  { share: 0.45, capacity: [3.363, 3.357, 3.351, 3.344], heat: 667 },
  { share: 0.5, capacity: [3.232, 3.224, 3.214, 3.205], heat: 557 },
]
const rowOf = (share: number) => ROWS.find((row) => row.share === share)!
const TABLED = [25, 40, 60, 80]

/** kJ/(kg K) at t °C, straight between the columns and level beyond them. */
const capacityAt = (share: number, t: number): number => {
  const { capacity } = rowOf(share)
  const above = TABLED.findIndex((column) => t < column)
  if (above === 0) return capacity[0]
  if (above === -1) return capacity[3]
  const [from = 0, to = 0] = [TABLED[above - 1], TABLED[above]]
  const [low = 0, high = 0] = [capacity[above - 1], capacity[above]]
  return low + ((high - low) * (t - from)) / (to - from)
}

/** °C that lye of 25 °C comes to with so much heat [kJ], kg of it. */
const warmed = (share: number, mass: number, heat: number): number =>
  integrate((_, t) => 1 / (mass * capacityAt(share, t)), 0, 25, heat)
/** kJ that take lye from 25 °C to t. */
const warming = (share: number, mass: number, t: number): number =>
  integrate((at) => mass * capacityAt(share, at), 25, 0, t)

const kelvin = (celsius: number): number => celsius + 273.15
const mixing = (share: number, waterAt: number, alkaliAt = waterAt): LyeMixing => ({
  sodiumHydroxide: share,
  potassiumHydroxide: 0,
  impurities: 0,
  water: 1 - share,
  waterTemperature: kelvin(waterAt),
  alkaliTemperature: kelvin(alkaliAt),
})

describe('published: Olsson 1997 with Felder and Rousseau, Table B.11, heat and heat capacity of sodium lye', () => {
  test.each(ROWS)('$share: heat of 1 kg of NaOH', ({ share, heat }) =>
    // half of the last digit; a third is 0.3333 there
    expect(Math.abs(sodiumHydroxideHeat(share).nominal / 1000 - heat)).toBeLessThan(0.51),
  )

  test.each(ROWS)('$share: peak from 25 °C by integrating dT/dQ', ({ share, heat }) => {
    const peak = warmed(share, 1, share * heat)
    // heat and heat capacity to their last digit: 0.1 K; level heat capacity above 80 °C: 0.1 K
    expect(Math.abs(peakTemperature(mixing(share, 25)).temperature.nominal - kelvin(peak))).toBeLessThan(0.2)
  })

  test.each(ROWS)('$share: the same by a second integrator', ({ share, heat }) => {
    const { y } = solveODE((_, [t = 0]) => [1 / capacityAt(share, t)], [0, share * heat], [25], {
      tol: 1e-6,
    })
    const peak = y.at(-1)?.[0] ?? Number.NaN
    expect(Math.abs(peakTemperature(mixing(share, 25)).temperature.nominal - kelvin(peak))).toBeLessThan(0.2)
  })
})

describe('by hand: an energy balance apart from the program, from figures above', () => {
  /** kJ for 1 kg: 2.0 kJ/mol more than the older basis, its doubt included; 2.0 / 0.039997 */
  const highest = (share: number): number => rowOf(share).heat + 50
  /** kJ/(kg K): water between 15 and 25 °C, solid alkali 59.5 J/(mol K) (both from memory) */
  const WATER = 4.18
  const SOLID = 1.488

  // 1 kg of water; two equal portions that end at shares of the table
  test.each([
    { half: 0.25, first: 0.2, second: 0.3333, waitFor: 45 },
    { half: 0.25, first: 0.2, second: 0.3333, waitFor: 30 },
    { half: 1 / 3, first: 0.25, second: 0.4, waitFor: 50 },
    { half: 1 / 9, first: 0.1, second: 2 / 11, waitFor: 35 },
  ])('two portions of $half kg, the second at $waitFor °C', ({ half, first, second, waitFor }) => {
    const whole: LyeMixing = {
      ...mixing(0, 20, 18),
      sodiumHydroxide: 2 * half,
      water: 1,
    }
    const [one, two] = equalPortions(whole, 2, kelvin(waitFor))
    const solidIn = half * SOLID * (18 - 25)
    const peak = warmed(first, 1 + half, WATER * (20 - 25) + solidIn + half * highest(first))
    // 0.2 K for the figures, and 2 % of the 5 K to 25 °C
    expect(Math.abs((one?.peak ?? 0) - kelvin(peak))).toBeLessThan(0.35)
    if (!ROWS.some(({ share }) => share === second)) return
    const heat = 2 * half * highest(second) - half * highest(first)
    const last = warmed(second, 1 + 2 * half, warming(first, 1 + half, waitFor) + solidIn + heat)
    expect(Math.abs((two?.peak ?? 0) - kelvin(last))).toBeLessThan(0.35)
  })

  test('ice for water: colder by the heat that melts it, 333.55 kJ/kg, and the warming to where the water was', () => {
    const share = 0.3333
    const ice = 0.2
    const { temperature } = peakTemperature({ ...mixing(share, 20), water: 1 - share - ice, ice })
    const heat =
      share * rowOf(share).heat +
      (1 - share - ice) * WATER * (20 - 25) +
      ice * (-333.55 - 25 * WATER) +
      share * SOLID * (20 - 25)
    expect(Math.abs(temperature.nominal - kelvin(warmed(share, 1, heat)))).toBeLessThan(0.4)
  })
})

describe('by hand: cooling, dT/dt = −k (T − room) by another integrator', () => {
  test('temperature after a time, and time to a temperature', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 40, max: 110, noNaN: true }),
        fc.double({ min: 5, max: 35, noNaN: true }),
        fc.double({ min: 2e-5, max: 5e-4, noNaN: true }),
        fc.double({ min: 60, max: 20_000, noNaN: true }),
        (from, room, constant, time) => {
          const after = integrate((_, t) => -constant * (t - room), 0, from, time)
          const pail = { from: kelvin(from), room: kelvin(room), constant }
          expect(Math.abs(temperatureAfter({ ...pail, time }) - kelvin(after))).toBeLessThan(1e-4)
          const back = coolingTime({ ...pail, to: kelvin(after) }).time
          // near the room a tiny step of temperature is a long time
          if (after - room > 1) expect(Math.abs((back ?? 0) / time - 1)).toBeLessThan(1e-4)
        },
      ),
      { seed: 17, numRuns: 150 },
    )
  })
})
