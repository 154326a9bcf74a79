/** A block that would boil: no weights, and on its page what would be enough, which then is. */
import { describe, expect, test } from 'vitest'
import { BATCH, type Binder, composeEdited, sheetOf, withoutCutters } from '../sites/edited-demo.ts'
import { linesOf } from './rows.ts'

const poured = (temperature: string): Promise<Binder> =>
  composeEdited(
    withoutCutters({
      'recipes/hearth.yaml': [['pour-temperature: 105 F', `pour-temperature: ${temperature}`]],
    }),
  )

describe('by hand: the stop page of a block that would boil', () => {
  test('says how cool is cool enough and where that is written, and poured like that the batch is weighed out', async () => {
    const stopped = sheetOf(await poured('135 F'), BATCH)
    expect(stopped.stopped?.map(({ code }) => code)).toEqual(['block-boils'])
    expect([...stopped.values.keys()].filter((name) => /mass|weight/.test(name))).toEqual([])
    const lines = linesOf(stopped.blocks.remedies)
    expect(lines.join('\n')).toContain('recipes/hearth.yaml, “pour-temperature”')
    const enough = lines.find((line) => line.startsWith('This lifts the stop'))
    const [, warmest] = /poured no warmer than (\d+) °F/.exec(enough ?? '') ?? []
    expect(enough).toMatch(/where it is 135 °F \(57 °C\) now/)
    // above the middle, which is below 212 °F
    const [, middle, hottest] =
      /comes to (\d+) °F .* by the middle of the estimate, and to (\d+) °F .* at its hottest/.exec(
        enough ?? '',
      ) ?? []
    expect(Number(middle)).toBeLessThanOrEqual(212)
    expect(Number(hottest)).toBeGreaterThan(212)
    expect(lines.join('\n')).toContain('above boiling: it may still foam over')
    expect(Number(warmest)).toBeGreaterThan(105)
    expect(Number(warmest)).toBeLessThan(135)
    expect(sheetOf(await poured(`${warmest} F`), BATCH).stopped).toBeUndefined()
    // found to a quarter of a kelvin, with half of one for rounding: three degrees Fahrenheit more boil again
    expect(sheetOf(await poured(`${Number(warmest) + 3} F`), BATCH).stopped).toHaveLength(1)
  }, 60_000)
})
