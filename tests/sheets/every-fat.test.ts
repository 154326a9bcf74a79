/** Every fat of the library alone in a recipe and a batch: oils, hard fats, waxes, free acids. Poured at 70 °C nearly all of them would boil in the block. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { load } from 'js-yaml'
import { beforeAll, describe, expect, it } from 'vitest'
import { type Binder, composeEdited, demo, sheetOf } from '../sites/edited-demo.ts'

const { fats } = load(readFileSync(join(demo, 'materials/fats.yaml'), 'utf8')) as {
  fats: Record<string, { kind: string; 'saponification-value': { from: number; to: number } }>
}
const keys = Object.keys(fats)

const recipe = (fat: string): string => `title: ${fat.slice(0, 50)}
fats: { ${fat}: 100 % }
superfat: 12 %
alkali: soda-beads
lye-concentration: 30 %
pour-temperature: 45 C
tried: { where: loaf, oils: 700 g, minutes-to-thick: 60, behaviour: calm }
`
const batch = (fat: string): string =>
  `recipe: only-${fat}\nmould: five-by-three\ndate: 2027-05-01\noils: 5 kg\nlye: { water-temperature: 10 C, ice: 40 % }\n`

let binder: Binder

beforeAll(async () => {
  binder = await composeEdited(
    Object.fromEntries(
      keys.flatMap((fat) => [
        [`recipes/only-${fat}.yaml`, recipe(fat)],
        [`batches/2027-05-01-${fat}.yaml`, batch(fat)],
      ]),
    ),
  )
})

describe('by hand: each of the thirty-six by itself', () => {
  it('is all of them', () => expect(keys).toHaveLength(36))

  it.each(keys)('%s: numbers that are numbers, and alkali within its published limits', (fat) => {
    const sheets = [sheetOf(binder, `recipe/only-${fat}`), sheetOf(binder, `batch/2027-05-01-${fat}`)]
    for (const sheet of sheets)
      for (const { name, value, shown } of sheet.values.values()) {
        expect(shown, name).not.toMatch(/NaN|Infinity|undefined/)
        if (typeof value === 'number') expect(Number.isFinite(value), name).toBe(true)
      }
    const [, made] = sheets
    if (!made || made.stopped) return
    const number = (name: string): number => Number(made.values.get(name)?.value)
    // g of KOH for 1 kg, as soda of 98.5 % at 12 % superfat
    const soda = (value: number): number => (((value / 1000) * 39.997) / 56.105 / 0.985) * 0.88
    const { from, to } = fats[fat]?.['saponification-value'] ?? { from: 0, to: 0 }
    const each = number('naoh.mass') / number('oils.mass')
    expect(each).toBeGreaterThan(soda(from) - 2e-4)
    expect(each).toBeLessThan(soda(to) + 2e-4)
    expect(number('superfat.nominal')).toBeCloseTo(0.12, 2)
  })

  it('prints most of them', () => {
    const stopped = keys.filter((fat) => sheetOf(binder, `batch/2027-05-01-${fat}`).stopped)
    // the widest published ranges leave lye over even at 12 %: that is told, and nothing is printed
    expect(stopped.length).toBeLessThan(6)
  })
})
