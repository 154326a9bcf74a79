import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PAPER_SIZES, type PrintJob } from '../../src/print/job.ts'
import { contentSize, pageBox } from '../../src/print/page-layout.ts'
import { cssName, cssString, pageRulesCss, sheetAloneCss } from '../../src/print/page-rules.ts'

const SEED = 20270314

const job = (mirroredMargins: boolean, pageOf = 'Sheet 4 · page {x} of {y}') =>
  ({
    paper: PAPER_SIZES.Letter,
    margins: { inner: 25, outer: 12, top: 12, bottom: 16 },
    duplex: { rightHandStarts: true, mirroredMargins },
    pageNumberWords: '{n}',
    sheets: [
      {
        id: 'batch/oat',
        anchor: 'batch-oat',
        title: 'Oat',
        foot: { inner: 'Demo shop', middle: 'rev 1', pageOf },
        orientation: 'portrait',
        bookmarks: [],
      },
    ],
  }) satisfies Partial<PrintJob>

describe('by hand: where the margins lie', () => {
  it('binds an upright sheet at its left edge, on its back at its right edge', () => {
    const upright = { orientation: 'portrait' } as const
    expect(pageBox(job(true), upright, 'right')).toMatchObject({ left: 25, right: 12, top: 12 })
    expect(pageBox(job(true), upright, 'left')).toMatchObject({ left: 12, right: 25, top: 12 })
    expect(pageBox(job(false), upright, 'left')).toMatchObject({ left: 25, right: 12 })
  })

  it('binds a landscape sheet at its top edge, on its back at its bottom edge, foot line away from it', () => {
    const lying = { orientation: 'landscape' } as const
    expect(pageBox(job(true), lying, 'right')).toMatchObject({
      width: 279.4,
      height: 215.9,
      top: 25,
      bottom: 16,
      footEdge: 'bottom',
    })
    expect(pageBox(job(true), lying, 'left')).toMatchObject({
      top: 16,
      bottom: 25,
      footEdge: 'top',
    })
    expect(pageBox(job(false), lying, 'left')).toMatchObject({ top: 25, footEdge: 'bottom' })
  })

  it('gives a full-size sheet more room, but keeps its binding margin', () => {
    // 215.9 − 25 − 6; 279.4 − 6 − 12
    expect(contentSize(job(true), { orientation: 'portrait', bleedFree: true })).toEqual({
      width: 184.9,
      height: 261.4,
    })
  })

  it('leaves a page on paper of its own to what is printed on it: no margins, no foot line', () => {
    const own = { width: 210, height: 148 }
    for (const side of ['left', 'right'] as const)
      expect(pageBox(job(true), { orientation: 'portrait', wholePage: own }, side)).toMatchObject({
        ...own,
        top: 0,
        right: 0,
        bottom: 0,
        left: 0,
      })
    const { sheets } = job(true)
    const css = pageRulesCss({ ...job(true), sheets: sheets.map((sheet) => ({ ...sheet, wholePage: own })) })
    expect(css).toContain('size: 210mm 148mm')
    expect(css).toContain('margin: 0')
    expect(css).not.toContain('Demo shop')
  })

  it('has a content box of one size on both sides, whatever the margins', () => {
    const margin = fc.integer({ min: 5, max: 40 })
    const margins = fc.record({ inner: margin, outer: margin, top: margin, bottom: margin })
    fc.assert(
      fc.property(
        margins,
        fc.constantFrom('portrait' as const, 'landscape' as const),
        fc.boolean(),
        fc.boolean(),
        (given, orientation, bleedFree, mirroredMargins) => {
          const settings = { ...job(mirroredMargins), margins: given }
          const sheet = { orientation, bleedFree }
          const [right, left] = [pageBox(settings, sheet, 'right'), pageBox(settings, sheet, 'left')]
          expect(left.left + left.right).toBe(right.left + right.right)
          expect(left.top + left.bottom).toBe(right.top + right.bottom)
        },
      ),
      { seed: SEED },
    )
  })
})

describe('by hand: rules of the pages', () => {
  it('writes page x of y with the counter of the sheet and the given total', () => {
    const css = pageRulesCss(job(true), [7])
    expect(css).toContain('"Sheet 4 · page " counter(sheet-1) " of " "7" "  ·  " counter(page)')
    expect(css).toContain('counter(page) "  ·  " "Sheet 4 · page " counter(sheet-1) " of " "7"')
    expect(css).toContain('@page sheet-1:left { margin: 12mm 25mm 16mm 12mm;')
    expect(css).toContain('#batch-oat { page: sheet-1; --sheet-width: 178.9mm; --sheet-height: 251.4mm }')
  })

  it('has no sides when margins are not mirrored', () => {
    expect(pageRulesCss(job(false), [7])).not.toMatch(/:left|:right/)
  })

  it('keeps what the maker typed inside its string', () => {
    expect(cssString('a "b" \\ c\n</style>')).toBe('"a \\22 b\\22  \\5c  c\\a \\3c /style\\3e "')
    const css = pageRulesCss(job(true, 'x"; } body { display: none } {x}'), [1])
    expect(css).not.toContain('x"; }')
  })

  it('escapes ids that are no plain names', () => {
    expect(cssName('batch-2027-03-14')).toBe('batch-2027-03-14')
    expect(cssName('2027-oat')).toBe('\\32 027-oat')
    expect(cssName('a.b c')).toBe('a\\2e b\\20 c')
    expect(cssName('hêtre')).toBe('h\\ea tre')
  })
})

describe('by hand: a sheet without the rest of its binder', () => {
  it('has its own rules to the letter, its page count, and begins to count where it stands in the binder', () => {
    const lines = sheetAloneCss(job(true), 0, 7, 57).split('\n')
    const whole = pageRulesCss(job(true), [7]).split('\n')
    expect(lines.at(-1)).toBe('@page sheet-1:first { counter-set: page 57 }')
    expect(lines.length).toBeGreaterThan(3)
    for (const line of lines.slice(0, -1)) expect(whole).toContain(line)
    expect(() => sheetAloneCss(job(true), 1, 7, 57)).toThrow(RangeError)
  })
})
