/** Reads where everything stands in a PDF: the page of every destination, and the size of every page. */
import type { PDFArray } from '@cantoo/pdf-lib'
import { pdfLibrary } from './libraries.ts'
import type { PassResult } from './page-numbers.ts'
import type { PDFDocument } from './pdf-objects.ts'

export interface PageSizePt {
  /** [pt] */
  readonly width: number
  /** [pt] */
  readonly height: number
}

/**
 * Reads on which page every named destination of a PDF lies.
 *
 * @returns pages counted from 1
 */
export function readPages(document: PDFDocument): PassResult {
  const pages = document.getPages()
  const pageOf = new Map(pages.map((page, index) => [page.ref, index + 1]))
  const anchors = new Map<string, number>()
  for (const [anchor, target] of namedDestinations(document)) {
    const page = pageOf.get(target.get(0) as never)
    if (page !== undefined) anchors.set(anchor, page)
  }
  return { anchors, pageCount: pages.length }
}

/** Size of every page, in order. [pt] */
export const pageSizes = (document: PDFDocument): PageSizePt[] =>
  document.getPages().map((page) => page.getSize())

/** The named destinations: page, kind and place on the page. */
export function namedDestinations(document: PDFDocument): Map<string, PDFArray> {
  const { PDFArray, PDFDict, PDFName } = pdfLibrary()
  const targets = new Map<string, PDFArray>()
  const list = document.catalog.lookupMaybe(PDFName.of('Dests'), PDFDict)
  for (const [name, value] of list?.entries() ?? []) {
    const found = document.context.lookup(value)
    const array = found instanceof PDFDict ? found.lookupMaybe(PDFName.of('D'), PDFArray) : found
    if (array instanceof PDFArray) targets.set(decoded(name.decodeText()), array)
  }
  return targets
}

/** The browser names a destination as the address has it: `h%C3%AAtre` for the id `hêtre`. */
function decoded(name: string): string {
  try {
    return decodeURIComponent(name)
  } catch {
    return name
  }
}
