/** The gates that a printed binder must pass; each refuses in words for somebody who does not program. */
import { uncoveredCharacters } from './font-coverage.ts'
import { PrintGateError } from './gate-error.ts'
import type { PageInspection } from './in-page.ts'
import type { PrintJob, PrintSheet } from './job.ts'
import { readPageCommands, showsMissingGlyph } from './page-commands.ts'
import { pageBox } from './page-layout.ts'
import type { PagePlan, PassResult } from './page-numbers.ts'
import { nestedCommands, type PDFDocument, pageCommands, pdfFonts } from './pdf-objects.ts'
import type { PageSizePt } from './read-pdf.ts'

/** A length on paper may be off by this. [mm] */
const SCALE_LIMIT = 0.1
/** A4 comes as 594.96 × 841.92 pt; half a point is a sixth of a millimetre. [pt] (read) */
const SIZE_LIMIT = 0.5

/** @throws PrintGateError `request` when the document asked for anything outside itself */
export function checkRequests(requests: readonly string[]): void {
  const [first] = requests
  if (first === undefined) return
  const rest = requests.length > 1 ? ` and ${requests.length - 1} more` : ''
  throw new PrintGateError(
    'request',
    `The binder wants to fetch something from outside (${first.slice(0, 200)}${rest}). Nothing was fetched. Everything that is printed must lie in your own files.`,
  )
}

/** @throws PrintGateError `document`, `too-wide`, `too-tall`, `font` or `check-scale`, from the layout before printing */
export function checkInspection(job: PrintJob, found: PageInspection): void {
  const expected = job.sheets.map((sheet) => sheet.anchor)
  if (!found.hasRules) throw documentError('it has no place for the page rules')
  if (expected.length === 0) throw documentError('it has no sheets')
  const strange = found.anchors.findIndex((anchor, index) => anchor !== expected[index])
  if (strange >= 0 || found.anchors.length !== expected.length) {
    const title = job.sheets[strange >= 0 ? strange : found.anchors.length]?.title
    throw documentError(`its sheets are not the ones that were announced, from “${title}” on`)
  }
  const [missing] = found.missingAnchors
  if (missing !== undefined) {
    throw documentError(`something points to “${missing}”, which is not in it`)
  }
  const [font] = found.brokenFonts
  if (font !== undefined) {
    throw new PrintGateError('font', `The font ${font} could not be read. Install the program again.`)
  }
  const [foreign] = found.foreignFamilies
  if (foreign) {
    throw new PrintGateError(
      'font',
      `On the sheet “${titleOf(job, foreign.anchor)}” text asks for “${foreign.family}”, a font that the binder does not carry.`,
    )
  }
  const [offender] = found.offenders
  if (offender) {
    const sheet = titleOf(job, offender.anchor)
    const excess = offender.excess.toFixed(1)
    throw new PrintGateError(
      offender.kind,
      offender.kind === 'too-wide'
        ? `On the sheet “${sheet}” something is ${excess} mm too wide for the page: “${offender.words}”. It would shrink every page of the binder, and no drawing would have its true size. Shorten it, or let it stand on a landscape sheet.`
        : `On the sheet “${sheet}” something that must stay in one piece is ${excess} mm too tall for a page: “${offender.words}”. It would be cut in two. Shorten it or divide it.`,
    )
  }
  for (const scale of found.checkScales) {
    if (scale.across + scale.down > 0) continue
    throw new PrintGateError(
      'check-scale',
      `On the sheet “${titleOf(job, scale.anchor)}” the check scale says ${scale.millimetres} mm, but its longest line is ${scale.longest.toFixed(2)} mm.`,
    )
  }
}

/** @throws PrintGateError `page-scale` when content was shrunk, `check-scale` when a check scale is not as long as it says */
export function checkScales(
  job: PrintJob,
  plan: PagePlan,
  document: PDFDocument,
  found: PageInspection,
): void {
  const pages = document.getPages()
  const withScales = new Set(found.checkScales.map((scale) => scale.anchor))
  for (const [index, sheet] of job.sheets.entries()) {
    const { firstPage, pages: count } = plan.sheets[index] as PagePlan['sheets'][number]
    const read = pages
      .slice(firstPage - 1, firstPage - 1 + count)
      .map((page) =>
        readPageCommands(pageCommands(page), withScales.has(sheet.anchor), sheet.wholePage === undefined),
      )
    // a page of drawings alone has no such command; the browser shrinks all pages or none
    const placements = read.reduce((sum, page) => sum + page.placements, 0)
    if (placements > 0 && !read.some((page) => page.hasTrueScale)) {
      throw new PrintGateError(
        'page-scale',
        `The sheet “${sheet.title}” (page ${firstPage}) was not printed at its true size. Something on a sheet is too wide; no drawing in this binder could be trusted.`,
      )
    }
    const extents = read.flatMap((page) => page.extents)
    for (const scale of found.checkScales.filter((each) => each.anchor === sheet.anchor)) {
      for (const way of ['width', 'height'] as const) {
        const wanted = way === 'width' ? scale.across : scale.down
        const near = extents.filter((extent) => Math.abs(extent[way] - scale.millimetres) <= SCALE_LIMIT)
        if (near.length >= wanted) continue
        throw new PrintGateError(
          'check-scale',
          `On the sheet “${sheet.title}” (page ${firstPage}) the check scale of ${scale.millimetres} mm is not that long ${way === 'width' ? 'across' : 'down'} the printed page; the nearest line is ${nearest(extents, way, scale.millimetres)} mm.`,
        )
      }
    }
  }
}

/** @throws PrintGateError `font` when a font is foreign, not embedded, or made of drawings */
export function checkFonts(job: PrintJob, plan: PagePlan, document: PDFDocument): void {
  for (const font of pdfFonts(document)) {
    const known = job.fontFamilies.some((name) => font.name === name || font.name.startsWith(`${name}-`))
    if (known && font.embedded && font.kind === 'CIDFontType2') continue
    const where = placeOf(job, plan, font.page)
    if (font.kind === 'Type3') {
      throw new PrintGateError(
        'font',
        `${where}: letters would be printed as drawings, because a weight or a slant is asked for that the binder's fonts do not have${font.name ? ` (${font.name})` : ''}.`,
      )
    }
    if (!known) {
      throw new PrintGateError(
        'font',
        `${where}: ${uncoveredWords(job, plan, font.page)} would be printed in “${font.name}”, a font of this computer that the binder does not carry. Write it in other characters.`,
      )
    }
    throw new PrintGateError('font', `${where}: the font ${font.name} is not inside the PDF.`)
  }
}

/**
 * A character that our fonts lack is borrowed from this computer, whose font may bear the name of one of ours.
 * @throws PrintGateError `missing-character` when the text holds a character that no shipped font has
 */
export function checkCharacters(job: PrintJob, plan: PagePlan): void {
  if (
    uncoveredCharacters(job.html).length === 0 &&
    job.sheets.every((sheet) => uncoveredCharacters('', sheet).length === 0)
  )
    return
  for (const [index, sheet] of job.sheets.entries()) {
    if (uncoveredCharacters(job.html, sheet).length === 0) continue
    const page = plan.sheets[index]?.firstPage ?? 0
    throw new PrintGateError(
      'missing-character',
      `${placeOf(job, plan, page)}: ${uncoveredWords(job, plan, page)} is in none of the binder's fonts. Write it in other characters.`,
    )
  }
}

/** @throws PrintGateError `missing-character` when a character would be printed as an empty box */
export function checkMissingGlyphs(job: PrintJob, plan: PagePlan, document: PDFDocument): void {
  const page = document.getPages().findIndex((each) => showsMissingGlyph(pageCommands(each))) + 1
  if (page === 0 && !nestedCommands(document).some(showsMissingGlyph)) return
  throw new PrintGateError(
    'missing-character',
    `${placeOf(job, plan, page)}: ${uncoveredWords(job, plan, page)} would be printed as an empty box, because the binder's fonts do not have it. Write it in other characters.`,
  )
}

/** @throws PrintGateError `contents` when pages of the finished file differ from what its contents say */
export function checkContents(job: PrintJob, plan: PagePlan, read: PassResult): void {
  for (const [anchor, page] of Object.entries(plan.anchors)) {
    const now = read.anchors.get(anchor)
    if (now === page) continue
    throw new PrintGateError(
      'contents',
      `The contents say page ${page} for “${titleOf(job, anchor)}”, but it stands on page ${now ?? 'none'}. Page numbers changed between the two passes.`,
    )
  }
  if (read.pageCount !== plan.pageCount) {
    throw new PrintGateError(
      'contents',
      `The binder has ${read.pageCount} pages where ${plan.pageCount} were planned. Page numbers changed between the two passes.`,
    )
  }
}

/** @throws PrintGateError `page-size` when a page is not the paper that was asked for */
export function checkPageSizes(job: PrintJob, plan: PagePlan, sizes: readonly PageSizePt[]): void {
  const points = 72 / 25.4
  sizes.forEach((size, index) => {
    const sheet = sheetOnPage(job, plan, index + 1)
    if (!sheet) return
    const { orientation } = sheet
    // the blank back of a page on other paper is one of the binder's own
    const box = pageBox(job, isBlank(plan, index + 1) ? { orientation } : sheet, 'right')
    const [width, height] = [box.width * points, box.height * points]
    if (Math.abs(size.width - width) <= SIZE_LIMIT && Math.abs(size.height - height) <= SIZE_LIMIT) {
      return
    }
    const shown = `${(size.width / points).toFixed(1)} × ${(size.height / points).toFixed(1)} mm`
    throw new PrintGateError(
      'page-size',
      `${placeOf(job, plan, index + 1)}: the page is ${shown}, not ${job.paper.name} ${sheet.orientation}.`,
    )
  })
}

const documentError = (words: string) =>
  new PrintGateError('document', `The document to print is not complete: ${words}.`)

/** The sheet on a page; a blank page belongs to the leaf before it. */
function sheetOnPage(job: PrintJob, plan: PagePlan, page: number): PrintSheet | undefined {
  return job.sheets[plan.sheets.findLastIndex((sheet) => sheet.firstPage <= page)]
}

const isBlank = ({ sheets }: PagePlan, page: number): boolean =>
  !sheets.some(({ firstPage, pages }) => page >= firstPage && page < firstPage + pages)

const placeOf = (job: PrintJob, plan: PagePlan, page: number): string => {
  const sheet = page > 0 ? sheetOnPage(job, plan, page) : undefined
  return sheet ? `On the sheet “${sheet.title}” (page ${page})` : 'On some page'
}

function titleOf(job: PrintJob, anchor: string): string {
  for (const sheet of job.sheets) {
    if (sheet.anchor === anchor) return sheet.title
    const part = sheet.bookmarks.find((bookmark) => bookmark.anchor === anchor)
    if (part) return `${sheet.title}, ${part.title}`
  }
  return anchor
}

/** Names the characters of a sheet that our fonts lack, if they can be found. */
function uncoveredWords(job: PrintJob, plan: PagePlan, page: number): string {
  const sheet = page > 0 ? sheetOnPage(job, plan, page) : undefined
  const characters = uncoveredCharacters(job.html, sheet)
  if (characters.length === 0) return 'some of the text'
  const shown = characters.slice(0, 5).map((character) => {
    const code = character.codePointAt(0) ?? 0
    return `“${character}” (U+${code.toString(16).toUpperCase().padStart(4, '0')})`
  })
  return `the character ${shown.join(', ')}`
}

function nearest(
  extents: readonly { readonly width: number; readonly height: number }[],
  way: 'width' | 'height',
  wanted: number,
): string {
  const sorted = extents
    .map((extent) => extent[way])
    .toSorted((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))
  return sorted[0]?.toFixed(2) ?? 'no'
}
