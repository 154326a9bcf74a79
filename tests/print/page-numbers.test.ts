import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { PrintSheet } from '../../src/print/job.ts'
import { planPages } from '../../src/print/page-numbers.ts'

const SEED = 20270314

const sheet = (anchor: string, orientation: PrintSheet['orientation'] = 'portrait'): PrintSheet => ({
  id: `kind/${anchor}`,
  anchor,
  title: anchor,
  foot: { inner: '', middle: '', pageOf: '' },
  orientation,
  bookmarks: [],
})
const settings = (rightHandStarts: boolean) => ({ rightHandStarts, mirroredMargins: true })

describe('by hand: pages of three sheets', () => {
  // one page, two pages, one page; an anchor on the second page of the second sheet
  const first = {
    anchors: new Map([
      ['a', 1],
      ['b', 2],
      ['inside', 3],
      ['c', 4],
    ]),
    pageCount: 4,
  }
  const sheets = [sheet('a', 'landscape'), sheet('b'), sheet('c')]

  it('puts a blank on the back of the first leaf, lying as that leaf does', () => {
    expect(planPages({ sheets, duplex: settings(true) }, first)).toEqual({
      sheets: [
        { id: 'kind/a', firstPage: 1, pages: 1 },
        { id: 'kind/b', firstPage: 3, pages: 2 },
        { id: 'kind/c', firstPage: 5, pages: 1 },
      ],
      blanks: [{ anchor: 'b', orientation: 'landscape' }],
      anchors: { a: 1, b: 3, inside: 4, c: 5 },
      pageCount: 5,
    })
  })

  it('moves nothing when sheets may start on any page', () => {
    const plan = planPages({ sheets, duplex: settings(false) }, first)
    expect(plan?.blanks).toEqual([])
    expect(plan?.anchors).toEqual({ a: 1, b: 2, inside: 3, c: 4 })
  })

  it('has no plan for sheets that share a page or do not begin on the first', () => {
    const shared = { ...first, anchors: new Map([...first.anchors, ['c', 2]]) }
    const late = { ...first, anchors: new Map([...first.anchors, ['a', 2]]) }
    expect(planPages({ sheets, duplex: settings(true) }, shared)).toBeUndefined()
    expect(planPages({ sheets, duplex: settings(true) }, late)).toBeUndefined()
  })
})

describe('by hand: any sheets', () => {
  it('start on odd pages, keep their length, and leave only blanks between them', () => {
    const lengths = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 40 })
    fc.assert(
      fc.property(lengths, (pages) => {
        const sheets = pages.map((_, index) => sheet(`s${index}`))
        let next = 1
        const anchors = new Map<string, number>()
        for (const [index, count] of pages.entries()) {
          anchors.set(`s${index}`, next)
          next += count
        }
        const plan = planPages({ sheets, duplex: settings(true) }, { anchors, pageCount: next - 1 })
        expect(plan).toBeDefined()
        let end = 0
        for (const [index, planned] of (plan?.sheets ?? []).entries()) {
          expect(planned.pages).toBe(pages[index])
          expect(planned.firstPage % 2).toBe(1)
          expect(planned.firstPage - end - 1).toBe(end % 2)
          end = planned.firstPage + planned.pages - 1
        }
        expect(plan?.pageCount).toBe(end)
      }),
      { seed: SEED },
    )
  })
})
