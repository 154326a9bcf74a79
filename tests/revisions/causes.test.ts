/** Why a number is another one: by hand with small functions in place of a binder, and with the demo's own sheets. */
import { describe, expect, it } from 'vitest'
import { composeFiles } from '../../src/commands/compose.ts'
import { findCauses, type ShownNow } from '../../src/revisions/causes.ts'
import { compareInputs, type InputNode, type Inputs } from '../../src/revisions/input-changes.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { filesOf, inputsOf, inputsReadIn } from '../../src/schema/inputs.ts'
import { type FolderFile, readFolder } from '../../src/schema/read-folder.ts'
import { BATCH, editedDemo, withoutCutters } from '../sites/edited-demo.ts'

type Numbers = Record<string, number | undefined>

/** A binder of one sheet whose values are made of the numbers of one file. */
const causesOf = async (
  before: Numbers,
  now: Numbers,
  show: (numbers: Numbers) => Record<string, number> | undefined,
  most?: number,
): Promise<Record<string, string[]>> => {
  const asInputs = (numbers: Numbers): Inputs =>
    new Map([['f', Object.fromEntries(Object.entries(numbers).map(([name, n]) => [name, String(n)]))]])
  const composed = (inputs: Inputs): ShownNow | undefined => {
    const data = Object.entries(inputs.get('f') as Record<string, string>)
    const shown = show(Object.fromEntries(data.map(([name, n]) => [name, Number(n)])))
    return shown && new Map([['s', new Map(Object.entries(shown).map(([name, n]) => [name, String(n)]))]])
  }
  const shownNow = composed(asInputs(now)) as ShownNow
  const names = [...(shownNow.get('s')?.keys() ?? [])]
  const causes = await findCauses(
    compareInputs(asInputs(before), asInputs(now)),
    new Map([['s', names]]),
    shownNow,
    async (inputs) => composed(inputs),
    most,
  )
  return Object.fromEntries(
    names.map((name) => [name, causes.of('s', name).map(({ path }) => path.join('.'))]),
  )
}

describe('by hand: causes', () => {
  it('are the changes without which a value would be as it was', async () => {
    const found = await causesOf({ a: 1, b: 1, c: 1 }, { a: 2, b: 2, c: 2 }, ({ a = 0, b = 0 }) => ({
      sum: a + b,
      single: a,
      fixed: 7,
    }))
    expect(found).toEqual({ sum: ['a', 'b'], single: ['a'], fixed: [] })
  })

  it('are followed from change to change where none alone brings the value back', async () => {
    // the larger of two: either of them alone leaves it at 2
    const found = await causesOf({ a: 1, b: 1 }, { a: 2, b: 2 }, ({ a = 0, b = 0 }) => ({
      larger: Math.max(a, b),
    }))
    expect(found).toEqual({ larger: ['b'] })
  })

  it('are put back together where one alone gives no binder', async () => {
    // a new material "m" that "used" names: without either there is nothing to compose
    const found = await causesOf({ used: 0, x: 1 }, { used: 1, m: 5, x: 1 }, ({ used, m }) =>
      used === 1 && m === undefined
        ? undefined
        : used === 0 && m !== undefined
          ? undefined
          : { mass: m ?? 3 },
    )
    expect(found).toEqual({ mass: ['used', 'm'] })
  })

  it('are told of both where none alone does anything, and of shares that only go together', async () => {
    const both = await causesOf({ a: 1, b: 1 }, { a: 2, b: 2 }, ({ a = 0, b = 0 }) =>
      a + b === 3 ? undefined : { half: a / 2 },
    )
    expect(both).toEqual({ half: ['a', 'b'] })
  })

  it('are told of a group where no more may be composed', async () => {
    const many = (value: number): Numbers =>
      Object.fromEntries(Array.from({ length: 100 }, (_, index) => [`n${index}`, value]))
    const first = ({ n0 = 0 }: Numbers) => ({ first: n0 })
    expect((await causesOf(many(1), many(2), first)).first).toEqual(['n0'])
    // the half that does it, and half of that
    expect((await causesOf(many(1), many(2), first, 2)).first).toHaveLength(25)
  })

  it('are found among 200 changes, two of which matter, without composing 200 times', async () => {
    const many = (value: number): Numbers =>
      Object.fromEntries(Array.from({ length: 200 }, (_, index) => [`n${index}`, value]))
    // Halves of 200: 100, 50, 25, 13, 7, 4, each a single trial, for what one half does not do the other does; then
    // at most 4 single ones. Twice 6 + 4, and one more for each of the halvings that part the two, at most 6.
    for (const [one, other] of [
      [3, 190],
      [0, 1],
      [98, 101],
      [150, 199],
      [57, 58],
    ] as const) {
      let trials = 0
      const found = await causesOf(many(1), many(2), (numbers) => {
        trials += 1
        return { sum: (numbers[`n${one}`] ?? 0) + (numbers[`n${other}`] ?? 0), fixed: 1 }
      })
      expect(found).toEqual({ sum: [`n${one}`, `n${other}`], fixed: [] })
      expect(trials - 1, `${one}, ${other}`).toBeLessThanOrEqual(26)
    }
  })

  it('ask nothing of a folder that is as it was', async () => {
    let trials = 0
    await causesOf({ a: 1 }, { a: 1 }, ({ a = 0 }) => {
      trials += 1
      return { a }
    })
    expect(trials).toBe(1)
  })
})

const shownOf = async (inputs: Inputs): Promise<ShownNow | undefined> => {
  const { binder } = await composeFiles({ files: filesOf(inputs, 'shop'), diagnostics: [] }, 'shop')
  return (
    binder &&
    new Map(
      binder.sheets.map((sheet) => [
        sheet.id,
        new Map([...sheet.values].map(([name, { shown }]) => [name, shown])),
      ]),
    )
  )
}

/** Of one batch and its mould. */
const someFiles = async (): Promise<FolderFile[]> => {
  const { folder, remove } = editedDemo(withoutCutters({}))
  try {
    return (await readFolder(folder, 'shop', FILE_KINDS)).files
  } finally {
    remove()
  }
}

/** The same tree with one node replaced. */
const set = (node: InputNode, [name, ...rest]: readonly string[], value: InputNode): InputNode =>
  name === undefined
    ? value
    : {
        ...(node as Record<string, InputNode>),
        [name]: set((node as Record<string, InputNode>)[name], rest, value),
      }

describe('by hand: causes in the demo', () => {
  it('put what is weighed down to the purity, and what is paid to the price', {
    timeout: 120_000,
  }, async () => {
    const now = inputsOf(await someFiles())
    const alkalis = 'materials/alkalis.yaml'
    const shop = 'shop.yaml'
    const before = new Map(now)
      .set(alkalis, set(now.get(alkalis), ['alkalis', 'soda-beads', 'purity'], '97.5 %'))
      .set(shop, set(now.get(shop), ['labour', 'hourly-rate'], '15 USD'))
    const shownNow = (await shownOf(now)) as ShownNow
    const shownBefore = (await shownOf(before)) as ShownNow
    const changed = new Map(
      [...shownNow].map(([sheet, values]) => [
        sheet,
        [...values]
          .filter(([name, shown]) => shownBefore.get(sheet)?.get(name) !== shown)
          .map(([name]) => name),
      ]),
    )
    expect(changed.get(BATCH)).toContain('naoh.mass')
    const causes = await findCauses(compareInputs(before, now), changed, shownNow, shownOf)
    const told = (sheet: string, name: string): string[] =>
      causes.of(sheet, name).map(({ file, path }) => `${file} ${path.join('.')}`)
    expect(told(BATCH, 'naoh.mass')).toEqual(['materials/alkalis.yaml alkalis.soda-beads.purity'])
    const costs = (changed.get('supply/cost') ?? []).map((name) => told('supply/cost', name).join())
    expect(costs).toContain('shop.yaml labour.hourly-rate')
    // every changed number has a cause
    const without = [...changed].flatMap(([sheet, names]) =>
      names.filter((name) => told(sheet, name).length === 0).map((name) => `${sheet} ${name}`),
    )
    expect(without).toEqual([])
  })
})

describe('by hand: a folder as data', () => {
  it('has no other words by a translation, but for a binder or labels in that language', () => {
    const asFiles = (who: string, language: string): Inputs =>
      inputsOf([
        {
          file: 'shop/shop.yaml',
          below: 'shop.yaml',
          bytes: new TextEncoder().encode(
            `language: ${language}\ncontacts:\n  - who: ${who}\n    reach: "5"\n`,
          ),
        },
      ])
    const changed = (before: string, now: string, languages: [string, ...string[]]): string[] =>
      compareInputs(
        inputsReadIn(asFiles(before, 'en'), languages, FILE_KINDS),
        inputsReadIn(asFiles(now, 'es'), languages, FILE_KINDS),
      ).changes.map(({ path }) => path.join('.'))
    const both = '{ en: Neighbour, es: Vecino }'
    expect(changed('Neighbour', both, ['en'])).toEqual([])
    expect(changed('{ en: Neighbour, es: Otro }', both, ['en'])).toEqual([])
    expect(changed('{ en: Somebody, es: Vecino }', both, ['en'])).toEqual(['contacts.1.who'])
    expect(changed('Neighbour', both, ['es'])).toEqual(['contacts.1.who'])
    expect(changed('Neighbour', both, ['en', 'es'])).toEqual(['contacts.1.who'])
    expect(changed('Neighbour', 'Neighbour', ['es'])).toEqual([])
  })

  it('is the same binder when it is written out again', { timeout: 120_000 }, async () => {
    const files = await someFiles()
    const real = await composeFiles({ files, diagnostics: [] }, 'shop')
    const again = await composeFiles({ files: filesOf(inputsOf(files), 'shop'), diagnostics: [] }, 'shop')
    expect(again.diagnostics.map(({ code }) => code)).toEqual(real.diagnostics.map(({ code }) => code))
    const sheets = (composed: typeof real): string[] =>
      (composed.binder?.sheets ?? []).map((sheet) =>
        JSON.stringify([sheet.id, [...sheet.values], sheet.fill, sheet.blocks]).replace(/:\d+"/g, '"'),
      )
    expect(sheets(again)).toEqual(sheets(real))
    expect(sheets(real).length).toBeGreaterThan(30)
  })
})
