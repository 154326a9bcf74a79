/** A fingerprint is another one if, and only if, somebody who holds the paper reads something else on it. */
import { beforeAll, describe, expect, it } from 'vitest'
import { fingerprintOf, shownSheet } from '../../src/papers/shown-sheet.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages } from '../../src/site/build-pages.ts'
import { frameWords, siteData } from '../../src/site/site-data.ts'
import { isSoak } from '../long.ts'
import { type Binder, composeEdited } from '../sites/edited-demo.ts'
import { readHtml } from '../sites/html.ts'
import { visibleText } from './visible.ts'

type Path = readonly (string | number)[]

/** Chosen out of a list of words, or not of the sheet itself. */
const NOT_TEXT = new Set(['kind', 'align', 'style', 'size', 'signal', 'orientation', 'anchor', 'id', 'key'])

/** Every text of a sheet's model, down to names and targets that nobody sees. */
const leaves = (node: unknown, path: Path = []): Path[] => {
  if (typeof node === 'string') return NOT_TEXT.has(String(path.at(-1))) ? [] : [path]
  if (Array.isArray(node)) return node.flatMap((one, at) => leaves(one, [...path, at]))
  if (typeof node !== 'object' || node === null || node instanceof Map) return []
  return Object.entries(node).flatMap(([key, one]) => leaves(one, [...path, key]))
}

/** What is changed at a leaf, by its own name. */
const changed = (key: string, text: string): string => {
  if (key === 'svg') return text.replace(/<\/svg>$/, '<text x="1" y="1">x</text></svg>')
  if (key === 'template') return `otherwise\n\n${text}`
  if (key === 'name') return `${text}.other`
  if (key === 'to' || key === 'file' || key === 'unit' || key === 'value') return `${text}x`
  if (key === 'evidence') return text === 'read' ? 'recalled' : 'read'
  return `${text} otherwise`
}

interface Named {
  readonly name: string
  readonly shown: string
}
const isValue = (node: unknown): node is Named =>
  typeof node === 'object' && node !== null && 'shown' in node && 'unit' in node

/** A copy with one leaf changed; a value of one name is one value wherever it stands. */
const mutant = (sheet: Sheet, path: Path): Sheet => {
  const at = path.reduce<unknown>((node, key) => (node as Record<string, unknown>)?.[key], sheet)
  const owner = path
    .slice(0, -1)
    .reduce<unknown>((node, key) => (node as Record<string, unknown>)?.[key], sheet)
  const key = String(path.at(-1))
  const everywhere = isValue(owner) ? owner.name : undefined
  const copy = (node: unknown, here: Path): unknown => {
    if (here.length === path.length && here.every((one, index) => one === path[index]))
      return changed(key, String(at))
    if (everywhere !== undefined && isValue(node) && node.name === everywhere)
      return { ...node, [key]: changed(key, String(at)) }
    if (Array.isArray(node)) return node.map((one, index) => copy(one, [...here, index]))
    if (node instanceof Map || typeof node !== 'object' || node === null) return node
    return Object.fromEntries(Object.entries(node).map(([name, one]) => [name, copy(one, [...here, name])]))
  }
  return copy(sheet, []) as Sheet
}

/** The same choice on every run, spread over the list. */
const some = <T>(list: readonly T[], count: number, from: number): T[] => {
  const step = Math.max(1, Math.floor(list.length / count))
  return list.filter((_one, index) => index % step === from % step).slice(0, count)
}

const EACH = isSoak ? 10 : 3

describe('by hand: what a fingerprint is taken of', () => {
  let binder: Binder
  let tried: readonly { readonly sheet: Sheet; readonly path: Path }[] = []
  let texts: readonly string[] = []
  let originals: ReadonlyMap<string, string> = new Map()

  beforeAll(async () => {
    binder = await composeEdited({})
    tried = binder.sheets.flatMap((sheet, from) =>
      some(leaves(sheet), EACH, from).map((path) => ({ sheet, path })),
    )
    const mutants = tried.map(({ sheet, path }, index) => ({ ...mutant(sheet, path), anchor: `m${index}` }))
    const all = [...binder.sheets, ...mutants]
    const pages = new Map(
      (await buildPages(siteData(binder.frame, all, '', 'en'))).map(({ path, content }) => [path, content]),
    )
    const textAt = (anchor: string): string => visibleText(readHtml(pages.get(`sheets/${anchor}.html`) ?? ''))
    originals = new Map(binder.sheets.map(({ id, anchor }) => [id, textAt(anchor)]))
    texts = mutants.map(({ anchor }) => textAt(anchor))
  })

  const fingerprint = (sheet: Sheet): string =>
    fingerprintOf(shownSheet(sheet, frameWords(binder.frame), 'en'))

  it('changes with every text that is read, and with nothing else', () => {
    const wrong: string[] = []
    let [read, unread] = [0, 0]
    for (const [index, { sheet, path }] of tried.entries()) {
      // the section of a card is not printed on it, and counts all the same: it says behind which tab a spare one lies
      const isFiled = sheet.kind === 'card' && path[0] === 'section'
      const isRead = isFiled || texts[index] !== originals.get(sheet.id)
      const isOther = fingerprint(mutant(sheet, path)) !== fingerprint(sheet)
      if (isRead) read += 1
      else unread += 1
      if (isRead !== isOther)
        wrong.push(
          `${sheet.id} ${path.join('.')}: ${isRead ? 'read' : 'not read'}, ${isOther ? 'another' : 'the same'}`,
        )
    }
    expect(wrong).toEqual([])
    expect(read).toBeGreaterThan(60)
    expect(unread).toBeGreaterThan(50)
  })

  it('is the same without revision, code and edition', () => {
    const other = binder.sheets.map((sheet) => ({
      ...sheet,
      revision: { text: '77', fill: {} },
      code: { name: 'sheet.code', value: 'x', unit: 'code', shown: 'x' },
      issued: { ...sheet.issued, name: 'another', shown: 'never' },
    }))
    expect(other.map(fingerprint)).toEqual(binder.sheets.map(fingerprint))
  })

  it('is another one in another language', () => {
    const [sheet] = binder.sheets
    const words = frameWords(binder.frame)
    const copy = { ...(sheet as Sheet) }
    expect(fingerprintOf(shownSheet(copy, words, 'es'))).not.toBe(fingerprint(sheet as Sheet))
  })
})
