import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  coolingConstantFromReadings,
  coolingTime,
  estimatedCoolingConstant,
  temperatureAfter,
} from '../../src/chemistry/lye-cooling.ts'
import { celsius } from './lye-mixing.ts'

describe('by hand: cooling', () => {
  test('80 to 50 °C over a room of 20 °C in an hour: half the difference, so 35 °C an hour later', () => {
    const { constant } = coolingConstantFromReadings({
      first: celsius(80),
      second: celsius(50),
      timeBetween: 3600,
      room: celsius(20),
    })
    expect(constant).toBeCloseTo(Math.LN2 / 3600, 12)
    const further = { from: celsius(50), room: celsius(20), constant: constant! }
    expect(coolingTime({ ...further, to: celsius(35) }).time).toBeCloseTo(3600, 6)
    expect(temperatureAfter({ ...further, time: 3600 })).toBeCloseTo(celsius(35), 9)
  })

  test.each([
    ['warmer', 50, 60, 20, 60],
    ['same', 50, 50, 20, 60],
    ['at the room', 50, 20, 20, 60],
    ['no time between', 80, 50, 20, 0],
  ])('readings that say nothing: %s', (_, first, second, room, timeBetween) => {
    const found = coolingConstantFromReadings({
      first: celsius(first),
      second: celsius(second),
      room: celsius(room),
      timeBetween,
    })
    expect(found.constant).toBeUndefined()
    expect(found.findings).toMatchObject([{ code: 'cooling-readings-unusable' }])
  })

  test('there already: no time; under the room: never', () => {
    const pail = { room: celsius(20), constant: 1e-4 }
    expect(coolingTime({ ...pail, from: celsius(30), to: celsius(40) })).toEqual({ time: 0, findings: [] })
    const never = coolingTime({ ...pail, from: celsius(90), to: celsius(20) })
    expect(never.time).toBeUndefined()
    expect(never.findings).toMatchObject([{ code: 'lye-never-cools-to-goal' }])
  })

  test('U A / (m c): 10 · 0.144 / (4.4 · 3575)', () => {
    const found = estimatedCoolingConstant({
      mass: 4.4,
      heatCapacity: 3575,
      area: 0.144,
      surroundings: 'still-air',
    })
    expect(found.nominal).toBeCloseTo((10 * 0.144) / (4.4 * 3575), 12)
    expect(found.low).toBeLessThan(found.nominal)
    expect(found.high).toBeGreaterThan(found.nominal)
  })

  test('two stretches take as long as one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 100, noNaN: true }),
        fc.double({ min: 30, max: 55, noNaN: true }),
        fc.double({ min: 1e-5, max: 1e-3, noNaN: true }),
        (from, middle, constant) => {
          const time = (a: number, b: number) =>
            coolingTime({ from: celsius(a), to: celsius(b), room: celsius(20), constant }).time!
          const whole = time(from, 25)
          expect(Math.abs((time(from, middle) + time(middle, 25)) / whole - 1)).toBeLessThan(1e-9)
        },
      ),
      { seed: 1, numRuns: 100 },
    )
  })
})

describe('by hand: a size of the trade', () => {
  // 4.4 kg of a third lye is 3.2 L: 7 cm in a pail 24 cm wide; side, top and bottom are 0.144 m2.
  const pail = { mass: 4.4, heatCapacity: 3575, area: 0.144 } as const
  const hours = (surroundings: 'still-air' | 'water-bath') =>
    coolingTime({
      from: celsius(104),
      to: celsius(40),
      room: celsius(20),
      constant: estimatedCoolingConstant({ ...pail, surroundings }).nominal,
    }).time! / 3600

  test('still air: 4 to 5 hours to 40 °C', () => {
    expect(hours('still-air')).toBeGreaterThan(4)
    expect(hours('still-air')).toBeLessThan(5)
  })

  test('a water bath: little over an hour', () => expect(hours('water-bath')).toBeLessThan(1.2))
})
