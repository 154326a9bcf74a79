/**
 * Loads the two big libraries of this folder when they are first needed.
 *
 * Both come in two packings. The one taken here starts in 0.1 s each; the other is compiled anew by the TypeScript
 * runner at every start, which takes four times as long.
 */
import { createRequire } from 'node:module'

type PdfLibrary = typeof import('@cantoo/pdf-lib')
type BrowserDriver = typeof import('puppeteer')

const require = createRequire(import.meta.url)
let pdf: PdfLibrary | undefined
let driver: BrowserDriver | undefined

/** The library that reads and writes PDF objects. */
export function pdfLibrary(): PdfLibrary {
  if (!pdf) {
    pdf = require('@cantoo/pdf-lib') as PdfLibrary
    Object.assign(pdf.PDFCrossRefStream.prototype, { appendEntry })
  }
  return pdf
}

interface Entry {
  readonly ref: { readonly objectNumber: number }
}

/**
 * Puts an entry where it belongs in a list that rises by the numbers of its objects.
 *
 * In place of the library's own, which looks from the beginning for what nearly always belongs at the end: a binder
 * has thirty thousand objects and more, and to save it took longer than to print it.
 */
export function appendEntry(this: { readonly entries: Entry[] }, entry: Entry): void {
  const { entries } = this
  let at = entries.length
  while (at > 0 && (entries[at - 1] as Entry).ref.objectNumber > entry.ref.objectNumber) at -= 1
  entries.splice(at, 0, entry)
}

/** The library that drives the browser. */
export function browserDriver(): BrowserDriver {
  driver ??= require('puppeteer') as BrowserDriver
  return driver
}
