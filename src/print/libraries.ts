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
  pdf ??= require('@cantoo/pdf-lib') as PdfLibrary
  return pdf
}

/** The library that drives the browser. */
export function browserDriver(): BrowserDriver {
  driver ??= require('puppeteer') as BrowserDriver
  return driver
}
