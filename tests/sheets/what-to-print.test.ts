/** The table that says which sheets are printed for what: every sheet stands in it, and each use has those that it needs. */
import { beforeAll, describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import { whatToPrint } from '../../src/sheets/what-to-print.ts'
import { type Binder, composeEdited, sheetOf, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { plain, rowsOf } from './rows.ts'

let binder: Binder
/** Ids of the sheets of each row, by its words. */
let rows: Map<string, string[]>

/** `5.1 to 5.3, 6.1` as the ids of the sheets from one to the other, in the order of the binder. */
const idsOf = (text: string): string[] =>
  text.split(', ').flatMap((part) => {
    const [from, to] = part.split(' to ')
    const at = (number = from): number => binder.sheets.findIndex((sheet) => sheet.number === number)
    expect(at(), part).toBeGreaterThan(0)
    return binder.sheets.slice(at(), at(to) + 1).map(({ id }) => id)
  })

beforeAll(async () => {
  binder = await composeEdited(WHOLE_DEMO)
  rows = new Map(
    rowsOf(sheetOf(binder, 'contents').blocks.uses).map((row) => {
      const [what = '', sheets = ''] = row.map(plain)
      return [what, idsOf(sheets)]
    }),
  )
})

const row = (begins: string): string[] => {
  const found = [...rows].filter(([what]) => what.startsWith(begins))
  expect(found, begins).toHaveLength(1)
  return found[0]?.[1] ?? []
}

describe('by hand: what to print, of the demo', () => {
  test('no sheet is left out, and what is stopped stands where it is said to be', () => {
    const named = new Set([...rows.values()].flat())
    const wanted = binder.sheets.filter(({ id }) => !/^(cover|contents|front\/.*)$/.test(id))
    expect(wanted.map(({ id }) => id).filter((id) => !named.has(id))).toEqual([])
    expect(named.size).toBe(wanted.length)
  })

  test('a pour has its sheet, its five cards, its log, its label and its record', () => {
    const key = '2027-03-21-lather'
    expect(row('Pour of Lather bar, 21 March 2027')).toEqual([
      `batch/${key}`,
      ...['weigh', 'lye', 'blend', 'rack', 'wrap'].map((card) => `card/${card}/${key}`),
      `cure/${key}`,
      `label/${key}`,
      `record/${key}`,
    ])
    expect([...rows.keys()].filter((what) => what.startsWith('Pour of'))).toHaveLength(3)
  })

  test('a batch that is made is worked by no more: its log, labels and record are left', () => {
    const key = '2027-01-10-hearth'
    expect(row('Of batches that are made')).toEqual(
      ['cure', 'label', 'labels', 'record'].map((kind) => `${kind}/${key}`),
    )
    expect(row('To look up')).toContain(`batch/${key}`)
  })

  test('lye has its wall, a helper all cautions, a friend who builds the saw and no batch', () => {
    expect(row('On the wall where lye')).toEqual(['cautions/lye', 'cautions/emergency', 'cautions/spill'])
    expect(row('To teach')).toEqual([
      ...['lye', 'emergency', 'spill', 'lifting', 'wire', 'saw', 'scent'].map((one) => `cautions/${one}`),
      'training',
    ])
    const friend = row('For whoever builds')
    expect(friend.slice(0, 2)).toEqual(['cautions/wire', 'cautions/saw'])
    const fixture = 'five-by-three'
    expect(friend.slice(2)).toEqual([
      ...['fixture', 'grid-cutter', 'bar-cutter', 'wires', 'as-built', 'trial-frame'].map(
        (kind) => `${kind}/${fixture}`,
      ),
      'layout/first-set',
    ])
    expect(row('The same, with a router')).toEqual(['router/files'])
    expect(row('To agree on wood')).toEqual(['quote/first-set'])
  })

  test('a batch that is called like something else takes nothing of it', () => {
    const { say, show } = binder.frame
    const named = whatToPrint({ ...binder.frame, say, show }, binder.sheets, [
      { key: 'five-by-three', title: 'A', date: '2027-03-14', made: false },
      { key: 'lye', title: 'B', date: '2027-03-14', made: false },
    ])
    expect(rowsOf(named).filter(([what]) => what?.startsWith('Pour of'))).toEqual([])
  })

  test('of a batch that is stopped: its page, and its card in the place of five', () => {
    expect(row('What is stopped')).toEqual(['batch/2027-03-28-market', 'card/stop/2027-03-28-market'])
  })

  test('the contents name what is stopped or held', () => {
    const { contents } = sheetOf(binder, 'contents').blocks
    const marked = (contents?.kind === 'contents' ? contents.entries : []).flatMap(({ number, title }) => {
      const [, mark] = /\((stopped|its bars are held)/.exec(inlineWords(title)) ?? []
      return mark ? [`${number} ${mark}`] : []
    })
    expect(marked).toEqual(['4.3 its bars are held', '4.4 stopped', '4.5 its bars are held'])
  })

  test('each row has the first and the last sheet of what follows one another, for the pages', () => {
    const table = sheetOf(binder, 'contents').blocks.uses
    const pages = (table?.kind === 'table' ? table.rows : []).flatMap((cells) =>
      cells.flatMap((cell) => (cell.kind === 'pages' ? [cell.of] : [])),
    )
    expect(pages).toHaveLength(rows.size)
    const at = [...rows.keys()].findIndex((what) => what.startsWith('Pour of Lather'))
    const key = '2027-03-21-lather'
    expect(pages[at]).toEqual([
      { from: `batch-${key}`, to: `batch-${key}` },
      { from: `card-weigh-${key}`, to: `card-wrap-${key}` },
      ...['cure', 'label', 'record'].map((kind) => ({ from: `${kind}-${key}`, to: `${kind}-${key}` })),
    ])
  })
})
