/** Any setting: the numbers that are told are those that differ when somebody edits the file and prints it again. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/what-if.ts'
import type { WhatIfData } from '../../src/what-if/as-data.ts'
import { runCommand } from '../commands/run-command.ts'
import { isSoak } from '../long.ts'
import { composedOf } from '../sites/composed-files.ts'
import { smallBinderFiles } from '../sites/small-binder.ts'

const here = mkdtempSync(join(tmpdir(), 'any-setting-'))
beforeAll(() =>
  cpSync(fileURLToPath(new URL('../diagnostics/base/', import.meta.url)), join(here, 'shop'), {
    recursive: true,
  }),
)
afterAll(() => rmSync(here, { recursive: true, force: true }))

/** What is asked, and the same as an edit of the text of a file. */
interface Asked {
  readonly args: readonly string[]
  readonly file: string
  readonly from: string
  readonly to: string
}

const set = (address: string, value: string): string[] => ['--set', `${address}=${value}`]
const BATCH = 'batch.2027-02-01-plain'

const asked: fc.Arbitrary<Asked> = fc.oneof(
  fc.integer({ min: 970, max: 999 }).map((part) => ({
    args: set('alkalis.beads.purity', `${part / 10} %`),
    file: 'materials/all.yaml',
    from: 'purity: 99 %',
    to: `purity: ${part / 10} %`,
  })),
  fc.integer({ min: 60, max: 80 }).map((olive) => ({
    args: [
      ...set('recipe.plain.fats.olive', `${olive} %`),
      ...set('recipe.plain.fats.coconut', `${100 - olive} %`),
    ],
    file: 'recipes/plain.yaml',
    from: 'olive: 70 %\n  coconut: 30 %',
    to: `olive: ${olive} %\n  coconut: ${100 - olive} %`,
  })),
  fc.integer({ min: 10, max: 45 }).map((oils) => ({
    args: [...set(`${BATCH}.oils`, `${oils / 10} kg`), '--leave-out', `${BATCH}.fill`],
    file: 'batches/2027-02-01-plain.yaml',
    from: 'fill: to the line',
    to: `oils: ${oils / 10} kg`,
  })),
  fc.constantFrom('0.1 g', '0.5 g', '2 g', '5 g').map((division) => ({
    args: set('shop.scales.fine', `{ capacity: 2 kg, division: ${division} }`),
    file: 'shop.yaml',
    from: 'scales:\n',
    to: `scales:\n  fine:\n    capacity: 2 kg\n    division: ${division}\n`,
  })),
  fc.integer({ min: 0, max: 9 }).map((superfat) => ({
    args: set('recipe.plain.superfat', `${superfat} %`),
    file: 'recipes/plain.yaml',
    from: 'superfat: 6 %',
    to: `superfat: ${superfat} %`,
  })),
  fc.integer({ min: 1, max: 27 }).map((day) => ({
    args: set(`${BATCH}.date`, `2027-03-${String(day).padStart(2, '0')}`),
    file: 'batches/2027-02-01-plain.yaml',
    from: 'date: 2027-02-01',
    to: `date: 2027-03-${String(day).padStart(2, '0')}`,
  })),
)

type Values = ReadonlyMap<string, ReadonlyMap<string, string>>

/** Of the paper: only a few sheets show its day in their text as well. */
const TITLE_BLOCK = new Set(['sheet.code', 'sheet.revision', 'edition'])

/** By sheet what each value shows, straight from the model. */
const valuesOf = async (files: ReadonlyMap<string, string>): Promise<Values> => {
  const { revised } = await composedOf(files)
  return new Map(
    revised.map(({ sheet }) => [
      sheet.id,
      new Map(
        [...sheet.values.values()].flatMap(({ name, shown }) =>
          TITLE_BLOCK.has(name) ? [] : [[name, shown]],
        ),
      ),
    ]),
  )
}

let before: Values
beforeAll(async () => {
  before = await valuesOf(smallBinderFiles())
})

const line = (...parts: readonly (string | null)[]): string => JSON.stringify(parts)
const NOTHING: ReadonlyMap<string, string> = new Map()

describe('by hand: what is told is what an edit does', () => {
  it('number by number, whatever is set', { timeout: isSoak ? 1_200_000 : 120_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(asked, async ({ args, file, from, to }) => {
        const files = smallBinderFiles()
        const text = files.get(file) ?? ''
        if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
        const after = await valuesOf(files.set(file, text.replace(from, to)))
        const ran = await runCommand(run, ['shop', '--json', ...args], here)
        expect([ran.code, ran.err]).toEqual([0, ''])
        const told = (JSON.parse(ran.out) as WhatIfData).numbers.filter(({ name }) => !TITLE_BLOCK.has(name))
        const wrong: string[] = []
        for (const sheet of new Set([...before.keys(), ...after.keys()])) {
          const [was, is] = [before.get(sheet) ?? NOTHING, after.get(sheet) ?? NOTHING]
          const own = told.filter((one) => one.sheet === sheet)
          const known = new Map(
            own.map(({ name, beforeShown, afterShown }) => [name, [beforeShown, afterShown]]),
          )
          if (known.size < own.length) wrong.push(`${sheet}: a name twice`)
          for (const name of new Set([...was.keys(), ...is.keys()])) {
            const [old, now] = [was.get(name) ?? null, is.get(name) ?? null]
            const said = known.get(name)
            if (old !== null && now !== null) {
              const right = old === now ? undefined : line(sheet, name, old, now)
              if ((said && line(sheet, name, ...said)) !== right)
                wrong.push(`${sheet} ${name}: ${said} – ${right}`)
            } else if (old === null) {
              // new, or known by another name before: then what it was called is no more
              const isRenamed = [...was].some(([one, shown]) => !is.has(one) && shown === (said?.[0] ?? now))
              if (said ? said[1] !== now || (said[0] !== null && !isRenamed) : !isRenamed)
                wrong.push(`${sheet} ${name}: ${said}, new ${now}`)
            } else if (!said && !own.some((one) => one.beforeShown === old && !was.has(one.name)))
              if (![...is].some(([one, shown]) => !was.has(one) && shown === old))
                wrong.push(`${sheet} ${name}: gone ${old}`)
          }
          for (const [name] of known)
            if (!was.has(name) && !is.has(name)) wrong.push(`${sheet} ${name}: nowhere`)
        }
        expect(wrong).toEqual([])
      }),
      { seed: 20_270_307, numRuns: isSoak ? 40 : 3 },
    )
  })
})
