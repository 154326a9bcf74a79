/** Trouble: every sign that a maker asks for is there, whole, found from the index, and said alike on the batch sheet. */
import { beforeAll, describe, expect, it } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Block, Case, Sheet, Table } from '../../src/sheets/model.ts'
import { codeLinks, SYMPTOMS } from '../../src/sheets/trouble/symptoms.ts'
import { BATCH, type Binder, composeEdited, STATES, sheetOf } from '../sites/edited-demo.ts'

/** What the binder was asked for, in the words of the asking, and the entry that answers it. */
const ASKED = {
  'false trace': 'false-trace',
  'batter gone thick at once': 'thick-at-once',
  'rising or overflowing': 'rising',
  'cracked top': 'cracked-top',
  'lye pockets or weeping': 'lye-pockets',
  'soft centre': 'soft-centre',
  'ring of partial gel': 'gel-ring',
  'translucent veins': 'clear-veins',
  'white bloom': 'white-bloom',
  'air pockets': 'air-pockets',
  'orange spots later': 'orange-spots',
  'warped bars': 'warped',
  'drag marks': 'drag-marks',
  'crooked cut': 'crooked-cut',
  'crumbling late cut': 'crumbling',
  'snapped wire': 'snapped-wire',
  'bars under weight': 'under-weight',
} as const

let binder: Binder
let trouble: Sheet
let cases: readonly Case[]
beforeAll(async () => {
  binder = await composeEdited(STATES.go)
  trouble = sheetOf(binder, 'trouble')
  cases = Object.values(trouble.blocks).flatMap((block: Block) => (block.kind === 'cases' ? block.items : []))
})

const entry = (key: string): Case => {
  const found = cases.find(({ anchor }) => anchor === `trouble--${key}`)
  if (!found) throw new Error(`No entry ${key}.`)
  return found
}

describe('by hand: trouble', () => {
  it.each(Object.entries(ASKED))('has an entry for: %s', (_asked, key) => {
    expect(entry(key).now.length).toBeGreaterThan(1)
  })

  it('says of each what is seen, why, what to do, whether the bars are safe, and what to change', () => {
    expect(cases).toHaveLength(SYMPTOMS.reduce((sum, { symptoms }) => sum + symptoms.length, 0))
    for (const { code, now, see, cause, safe, next, verdict } of cases) {
      for (const words of [see, cause, safe, next])
        expect(inlineWords(words).length, code).toBeGreaterThan(15)
      for (const step of now) expect(inlineWords(step), code).toMatch(/[.!]$/)
      expect(['Yes', 'Held', 'No'], code).toContain(inlineWords(verdict))
    }
  })

  it('leads from the index to every entry once, in their order', () => {
    const index = Object.values(trouble.blocks).find((block) => block.kind === 'index')
    const listed = index?.kind === 'index' ? index.groups.flatMap(({ items }) => items) : []
    expect(listed.map(({ anchor }) => anchor)).toEqual(cases.map(({ anchor }) => anchor))
    expect(new Set(cases.map(({ code }) => code)).size).toBe(cases.length)
  })

  it('tells signs that look alike from each other, both ways', () => {
    const names = (key: string): string[] =>
      Object.entries(codeLinks)
        .filter(
          ([, link]) => typeof link === 'object' && 'fill' in link && mentions(entry(key), link.fill.code),
        )
        .map(([other]) => other)
    for (const [one, other] of [
      ['false-trace', 'thick-at-once'],
      ['cracked-top', 'crumbling'],
      ['gel-ring', 'clear-veins'],
      ['lye-pockets', 'air-pockets'],
      ['lye-pockets', 'sweat'],
    ] as const) {
      expect(names(one), one).toContain(other)
      expect(names(other), other).toContain(one)
    }
  })

  it('puts the person first, then lye, then wires, and begins with what cannot wait', () => {
    expect(cases[0]?.anchor).toBe('trouble--on-somebody')
    expect(inlineWords(entry('on-somebody').now[0] as never)).toContain('running water at once')
    expect(inlineWords(entry('snapped-wire').now[0] as never)).toContain('Hands off')
  })

  it('never calls bars safe that were touched by loose lye', () => {
    const no = cases.filter(({ verdict }) => inlineWords(verdict) === 'No').map(({ anchor }) => anchor)
    for (const key of ['lye-pockets', 'splits', 'test-fails']) expect(no).toContain(`trouble--${key}`)
  })
})

const mentions = ({ see, now, safe }: Case, code: unknown): boolean =>
  [see, ...now, safe].some((words) => new RegExp(`\\b${String(code)}\\b`).test(inlineWords(words)))

describe('by hand: trouble on the batch sheet', () => {
  it('is said in the words of the trouble sheet, step by step, and leads there', () => {
    const table = sheetOf(binder, BATCH).blocks.trouble as Table
    expect(table.rows.length).toBeGreaterThan(5)
    for (const [sign, now] of table.rows) {
      const signWords = sign?.kind === 'words' ? inlineWords(sign.words) : ''
      const said = now?.kind === 'words' ? inlineWords(now.words) : ''
      const whole = cases.find((one) => inlineWords(one.sign) === signWords)
      expect(whole, signWords).toBeDefined()
      const steps = (whole?.now ?? []).map(inlineWords)
      // elsewhere an entry is named with its sheet
      const rest = steps.reduce(
        (left, step) => left.replace(step.replace(/\b([A-E]\d)\b/g, '11.1, $1'), ''),
        said,
      )
      expect(rest.trim(), signWords).toBe(`All of it: 11.1, ${whole?.code}.`)
    }
  })
})

describe('by hand: numbers of batches beside it', () => {
  it('has no row and no number of a batch that is stopped', async () => {
    const stopped = sheetOf(await composeEdited(STATES['superfat under the floor']), 'trouble')
    expect(stopped.blocks.numbers).toMatchObject({ items: [] })
    expect([...stopped.values.keys()].filter((name) => name.startsWith('trouble.'))).toEqual([])
  })

  it('has the hours of the batch sheet', () => {
    const batch = sheetOf(binder, BATCH)
    const key = BATCH.replace('batch/', '')
    for (const [mine, its] of [
      ['strip', 'block.strip'],
      ['cut', 'block.cut'],
      ['latest', 'block.latest'],
    ])
      expect(trouble.values.get(`trouble.${key}.${mine}`)?.shown).toBe(batch.values.get(its as string)?.shown)
  })
})
