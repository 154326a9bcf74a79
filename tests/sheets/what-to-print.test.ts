/** The table that says which sheets are printed for what: every sheet stands in it, and each use has those that it needs. */
import { beforeAll, describe, expect, test } from 'vitest'
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
  test('no sheet is left out, and none that is stopped stands there', () => {
    const named = new Set([...rows.values()].flat())
    const wanted = binder.sheets.filter(
      ({ id, stopped }) => !stopped && !/^(cover|contents|front\/.*)$/.test(id),
    )
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
    expect(friend[0]).toBe('cautions/saw')
    expect(
      friend
        .slice(1)
        .every((id) => /^(fixture|.*-cutter|wires|as-built|.*-frame|router|layout|quote)\//.test(id)),
    ).toBe(true)
    expect(friend).toHaveLength(10)
  })

  test('a batch that is stopped has its card in the place of five', () => {
    expect(row('To hang up in place')).toEqual(['card/stop/2027-03-28-market'])
  })
})
