/** The PDF library behind one door: loading, reading the streams of pages, reading fonts. */
import { inflateSync } from 'node:zlib'
import type { PDFDict, PDFDocument, PDFObject, PDFPage, PDFRawStream } from '@cantoo/pdf-lib'
import { pdfLibrary } from './libraries.ts'

export type { PDFDocument } from '@cantoo/pdf-lib'

/** One font of a PDF. */
export interface PdfFont {
  /** without the letters that mark a subset */
  readonly name: string
  readonly kind: string
  readonly embedded: boolean
  /** first page that uses it, from 1; 0 when no page does by itself */
  readonly page: number
}

/** Loads a PDF for changing; dates and names stay as they are. */
export const loadPdf = (pdf: Uint8Array): Promise<PDFDocument> =>
  pdfLibrary().PDFDocument.load(pdf, {
    updateMetadata: false,
    parseSpeed: Number.POSITIVE_INFINITY,
  })

/** Text of a stream, unpacked. */
export function streamText(stream: PDFRawStream): string {
  const { PDFName } = pdfLibrary()
  const packed = stream.dict.get(PDFName.of('Filter')) !== undefined
  const bytes = stream.getContents()
  return Buffer.from(packed ? inflateSync(bytes) : bytes).toString('latin1')
}

/** The drawing commands of a page. */
export function pageCommands(page: PDFPage): string {
  const { PDFArray, PDFRawStream } = pdfLibrary()
  const contents = page.node.Contents()
  const parts = contents instanceof PDFArray ? contents.asArray() : contents ? [contents] : []
  return parts
    .map((part) => page.doc.context.lookup(part))
    .filter((part) => part instanceof PDFRawStream)
    .map(streamText)
    .join('\n')
}

/** Drawing commands that pages share or nest (drawings with opacity, patterns). */
export function nestedCommands(document: PDFDocument): string[] {
  const { PDFName, PDFRawStream } = pdfLibrary()
  const texts: string[] = []
  for (const [, object] of document.context.enumerateIndirectObjects()) {
    if (!(object instanceof PDFRawStream)) continue
    if (object.dict.get(PDFName.of('Subtype')) === PDFName.of('Form')) {
      texts.push(streamText(object))
    }
  }
  return texts
}

/** All fonts of a PDF, in the order of the file. */
export function pdfFonts(document: PDFDocument): PdfFont[] {
  const { PDFArray, PDFDict, PDFName } = pdfLibrary()
  const pageOf = new Map<PDFObject, number>()
  document.getPages().forEach((page, index) => {
    const fonts = page.node.Resources()?.lookupMaybe(PDFName.of('Font'), PDFDict)
    for (const font of fonts?.values() ?? []) {
      const dict = document.context.lookup(font)
      if (dict && !pageOf.has(dict)) pageOf.set(dict, index + 1)
    }
  })
  const fonts: PdfFont[] = []
  for (const [, object] of document.context.enumerateIndirectObjects()) {
    if (!(object instanceof PDFDict)) continue
    if (object.get(PDFName.of('Type')) !== PDFName.of('Font')) continue
    const kind = nameOf(object, 'Subtype')
    // parts of a composite font are looked at through it
    if (kind.startsWith('CIDFont')) continue
    const inner = object.lookupMaybe(PDFName.of('DescendantFonts'), PDFArray)?.lookupMaybe(0, PDFDict)
    const descriptor = (inner ?? object).lookupMaybe(PDFName.of('FontDescriptor'), PDFDict)
    fonts.push({
      name: nameOf(object, 'BaseFont').replace(/^[A-Z]{6}\+/, ''),
      kind: inner ? nameOf(inner, 'Subtype') : kind,
      embedded: descriptor?.get(PDFName.of('FontFile2')) !== undefined,
      page: pageOf.get(object) ?? 0,
    })
  }
  return fonts
}

function nameOf(dict: PDFDict, key: string): string {
  const { PDFName } = pdfLibrary()
  return dict.lookupMaybe(PDFName.of(key), PDFName)?.decodeText() ?? ''
}
