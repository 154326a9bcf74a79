/** Any edit of a maker's files: papers on which something reads otherwise are listed with both texts, and no others. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { papersIn, printedPapers } from '../../src/papers/papers.ts'
import { withEntry } from '../../src/papers/record-text.ts'
import { type Revised, shortFingerprint } from '../../src/papers/revisions.ts'
import { isSoak } from '../long.ts'
import { composedOf } from '../sites/composed-files.ts'
import { smallBinderFiles } from '../sites/small-binder.ts'

type Change = (files: Map<string, string>) => void

const PRINTED = 'records/printed.yaml'

const put =
  (file: string, from: string | RegExp, to: string): Change =>
  (files) => {
    const text = files.get(file) ?? ''
    const edited = text.replace(from, to)
    if (edited === text) throw new Error(`${file} has no "${from}"`)
    files.set(file, edited)
  }

const FILES = [...smallBinderFiles().keys()].filter((name) => name.endsWith('.yaml'))

/** Edits that change nothing that is read. */
const unseen: fc.Arbitrary<Change> = fc.oneof(
  fc.constantFrom(...FILES).map((file) => put(file, /^/, '# a remark\n\n')),
  fc.constantFrom(...FILES).map((file) => put(file, /$/, '\n\n# at the end\n')),
  fc.constant(
    put('shop.yaml', 'least-superfat: 2 %\n  hot-lift: 10 kg', 'hot-lift: 10 kg\n  least-superfat: 2 %'),
  ),
  fc.constant(put('recipes/plain.yaml', /^(superfat: .*\n)(alkali: .*\n)/m, '$2$1')),
  fc.constant(put('batches/2027-02-01-plain.yaml', /^(recipe: .*\n)(mould: .*\n)/m, '$2$1')),
  fc.constant(put('shop.yaml', 'who: Ambulance', 'who: { en: Ambulance, es: Ambulancia }')),
  fc.constant(put('shop.yaml', 'elbow-height: 100 cm', 'elbow-height: 1 m')),
)

/** Edits that may be seen, on some sheets; what stands there already is no edit. */
const seen: fc.Arbitrary<Change> = fc.oneof(
  fc
    .integer({ min: 970, max: 999 })
    .filter((part) => part !== 990)
    .map((part) => put('materials/all.yaml', 'purity: 99 %', `purity: ${part / 10} %`)),
  fc
    .integer({ min: 60, max: 80 })
    .filter((olive) => olive !== 70)
    .map(
      (olive): Change =>
        (files) => {
          put('recipes/plain.yaml', 'olive: 70 %', `olive: ${olive} %`)(files)
          put('recipes/plain.yaml', 'coconut: 30 %', `coconut: ${100 - olive} %`)(files)
        },
    ),
  fc
    .integer({ min: 60, max: 95 })
    .filter((hot) => hot !== 80)
    .map((hot) => put('shop.yaml', 'hottest-lye: 80 C', `hottest-lye: ${hot} C`)),
  fc
    .constantFrom('Ambulance', 'Poison centre', 'Neighbour')
    .map((who) => put('shop.yaml', 'reach: write it here', `reach: ${who} 2`)),
  fc.constantFrom('bench', 'shelf', 'old').map((scale) => put('shop.yaml', '  bench:', `  ${scale}-scale:`)),
)

/** Of each kind one at most: the second would look for what the first replaced. */
const edits = fc.record({
  unseen: fc.uniqueArray(unseen, { maxLength: 2, selector: String }),
  seen: fc.option(seen, { freq: 4 }),
})

/** What stands on a sheet for a program, found without what is tried here: values of the model by name. */
const valuesOf = ({ sheet }: Revised): ReadonlyMap<string, string> =>
  new Map(
    [...sheet.values]
      .filter(([name]) => name !== 'sheet.revision' && name !== 'sheet.code')
      .map(([name, { shown }]) => [name, shown]),
  )

describe('by hand: papers after any edit', () => {
  it('are listed with what was and what is if, and only if, something reads otherwise', async () => {
    const files = smallBinderFiles()
    const first = await composedOf(files)
    const entry = {
      date: '2027-01-05',
      how: 'laminated' as const,
      where: 'wall',
      sheets: first.revised.map(({ sheet, revision, code, fingerprint }) => ({
        sheet: sheet.id,
        revision,
        code: code.code,
        shows: shortFingerprint(fingerprint),
      })),
    }
    const record = withEntry(undefined, entry) as string
    const before = new Map(first.revised.map((one) => [one.sheet.id, one]))
    let [listed, right] = [0, 0]
    await fc.assert(
      fc.asyncProperty(edits, async (edit) => {
        const edited = new Map(files).set(PRINTED, record)
        for (const change of [...edit.unseen, ...(edit.seen ? [edit.seen] : [])]) change(edited)
        const { revised, content } = await composedOf(edited)
        const papers = papersIn(content.printed?.value)
        const { outOfDate } = printedPapers(papers, revised, ({ sheet }) => before.get(sheet)?.shown)
        const told = new Map(outOfDate.map((one) => [one.paper.sheet, one]))
        for (const one of revised) {
          const old = before.get(one.sheet.id)
          if (!old) continue
          const [was, is] = [valuesOf(old), valuesOf(one)]
          const changed = [...was].filter(([name, shown]) => is.has(name) && is.get(name) !== shown)
          const changes = told.get(one.sheet.id)?.changes
          for (const [name, shown] of changed)
            expect(changes?.values, `${one.sheet.id} ${name}`).toContainEqual(
              expect.objectContaining({ name, before: shown, now: is.get(name) }),
            )
          expect(one.recorded, one.sheet.id).toBe(!told.has(one.sheet.id))
          expect(one.revision, one.sheet.id).toBe(told.has(one.sheet.id) ? 2 : 1)
          if (told.has(one.sheet.id)) {
            listed += 1
            const { values = [], lines = [], drawings = [], ...rest } = changes ?? {}
            const all = values.length + lines.length + drawings.length + Object.keys(rest).length
            expect(all, one.sheet.id).toBeGreaterThan(0)
          } else right += 1
        }
        if (!edit.seen) expect(outOfDate.map(({ paper }) => paper.sheet)).toEqual([])
      }),
      { seed: 20_270_301, numRuns: isSoak ? 100 : 12 },
    )
    expect(listed).toBeGreaterThan(10)
    expect(right).toBeGreaterThan(10)
  }, 300_000)
})
