import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { OpenBrowser } from '../../../src/print/browser-page.ts'
import type { PrintedBinder } from '../../../src/print/job.ts'
import { printWith } from '../../../src/print/print-binder.ts'
import { kitchenSink } from './kitchen-sink.ts'
import { paintedExtents, readStructure, type StructureRead } from './read-back.ts'
import { startBrowser } from './shared-browser.ts'

let opened: OpenBrowser
let binder: PrintedBinder
let structure: StructureRead
beforeAll(async () => {
  opened = await startBrowser()
  binder = await printWith(opened, kitchenSink())
  structure = await readStructure(binder.pdf)
})
afterAll(() => opened?.end())

const FULL_SIZE_PAGE = 11
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')

describe('by hand: lengths on paper', () => {
  it('prints 150 mm across and 100 mm down as long as they are', async () => {
    const extents = await paintedExtents(binder.pdf, FULL_SIZE_PAGE)
    const off = (way: 'width' | 'height', wanted: number) =>
      Math.min(...extents.map((extent) => Math.abs(extent[way] - wanted)))
    // 0.1 mm is what the binder promises; the drawing itself holds to a fiftieth of that
    expect(off('width', 150)).toBeLessThan(0.02)
    expect(off('height', 100)).toBeLessThan(0.02)
    // the same look finds no length that is not there
    expect(off('width', 140)).toBeGreaterThan(1)
  })
})

describe('by hand: what the finished file says of itself', () => {
  it('carries title, author and both dates from the content', () => {
    expect(structure.info).toMatchObject({
      Title: 'Demo binder',
      Author: 'Demo shop',
      Creator: 'Kettle & Kerf',
      Producer: 'Kettle & Kerf',
      CreationDate: 'D:20270314000000Z',
      ModDate: 'D:20270314000000Z',
      Language: 'en',
    })
  })

  it('asks for the title in the window and for no scaling', () => {
    expect(structure.viewerPreferences).toMatchObject({
      DisplayDocTitle: true,
      PrintScaling: 'None',
      Duplex: 'DuplexFlipLongEdge',
    })
  })

  it('keeps the structure for screen readers', () => {
    expect(structure.isTagged).toBe(true)
    for (const role of ['H1', 'Table', 'TH', 'TD', 'Figure']) expect(structure.roles).toContain(role)
  })

  it('gives a mixed number as plain characters when copied', () => {
    const copied = structure.texts[2]?.join('')
    expect(copied).toContain('A mixed number: 2 1/4 in.')
  })

  it('cuts a title that is too long for its foot line and leaves its words apart', () => {
    const last = structure.texts.at(-1)?.join('|')
    expect(last).toMatch(/Demo shop · The last sheet, with a title( much)+…/)
    expect(last).toContain('rev 3 · 2027-03-14')
  })
})

describe('by hand: names that are no plain letters', () => {
  it('finds sheets and parts whose ids have accents, dots and digits first', async () => {
    const job = kitchenSink()
    const rename = (text: string) =>
      text.replaceAll('batch-two-pages', '2-hêtre.1').replaceAll('weighing', 'pèse 100%')
    const renamed = JSON.parse(rename(JSON.stringify(job))) as typeof job
    const printed = await printWith(opened, renamed)
    const { outline } = await readStructure(printed.pdf)
    expect(outline[2]).toMatchObject({ page: 5, children: [{ page: 5 }, { page: 6 }] })
    expect(printed.sheets[2]).toMatchObject({ firstPage: 5, pages: 2 })
  })
})

describe('by hand: the same content gives the same bytes', () => {
  it('prints twice alike in one browser and in another', async () => {
    const again = await printWith(opened, kitchenSink())
    const other = await startBrowser()
    const elsewhere = await printWith(other, kitchenSink()).finally(() => other.end())
    expect(hashOf(again.pdf)).toBe(hashOf(binder.pdf))
    expect(hashOf(elsewhere.pdf)).toBe(hashOf(binder.pdf))
  })

  it('prints another content otherwise', async () => {
    const changed = await printWith(opened, kitchenSink({ extra: '<p>One word more.</p>' }))
    expect(hashOf(changed.pdf)).not.toBe(hashOf(binder.pdf))
  })
})
