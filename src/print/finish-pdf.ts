/** Finishes a printed PDF: bookmarks from known titles, dates from the content, our names, settings for the print dialog. */
import type { PDFArray, PDFContext, PDFDict, PDFRef } from '@cantoo/pdf-lib'
import type { PrintJob } from './job.ts'
import { pdfLibrary } from './libraries.ts'
import { type PDFDocument, streamText } from './pdf-objects.ts'
import { namedDestinations } from './read-pdf.ts'
import { renameStructure } from './structure-names.ts'

/** Name that stands in the PDF as its maker. */
const PROGRAM_NAME = 'Kettle & Kerf'

/**
 * Finishes a loaded PDF in place and saves it; the same input gives the same bytes.
 *
 * @param document tagged PDF of the second pass
 * @param job titles, dates, language, bookmarks
 * @returns the finished file
 */
export async function finishPdf(document: PDFDocument, job: PrintJob): Promise<Uint8Array> {
  const { Duplex, PrintScaling } = pdfLibrary()
  const issued = new Date(`${job.issued}T00:00:00Z`)
  document.setTitle(job.title, { showInWindowTitleBar: true })
  document.setAuthor(job.author)
  document.setCreator(PROGRAM_NAME)
  document.setProducer(PROGRAM_NAME)
  document.setCreationDate(issued)
  document.setModificationDate(issued)
  document.setLanguage(job.language)

  const preferences = document.catalog.getOrCreateViewerPreferences()
  preferences.setDisplayDocTitle(true)
  // a template that the print dialog shrinks is worse than none
  preferences.setPrintScaling(PrintScaling.None)
  preferences.setDuplex(job.duplex.mirroredMargins ? Duplex.DuplexFlipLongEdge : Duplex.Simplex)

  writeBookmarks(document, job)
  plainSlashes(document)
  renameStructure(document)
  return document.save({
    useObjectStreams: true,
    addDefaultPage: false,
    updateFieldAppearances: false,
    objectsPerTick: Number.POSITIVE_INFINITY,
  })
}

interface Bookmark {
  readonly title: string
  readonly anchor: string
  readonly children: readonly Bookmark[]
}

/** Two levels: the sheets, and in each the parts that it names. The browser's own list has every heading, spaces lost. */
function writeBookmarks(document: PDFDocument, job: PrintJob): void {
  const { PDFHexString, PDFName, PDFNumber } = pdfLibrary()
  const { context, catalog } = document
  const targets = namedDestinations(document)
  const tree: Bookmark[] = job.sheets.map((sheet) => ({
    title: sheet.title,
    anchor: sheet.anchor,
    children: sheet.bookmarks.map((bookmark) => ({ ...bookmark, children: [] })),
  }))
  const root = context.nextRef()
  const rootDict = context.obj({ Type: 'Outlines' })
  const write = (items: readonly Bookmark[], parent: PDFRef, parentDict: PDFDict): void => {
    const refs = items.map(() => context.nextRef())
    items.forEach((item, index) => {
      const ref = refs[index] as PDFRef
      const dict = context.obj({})
      dict.set(PDFName.of('Title'), PDFHexString.fromText(item.title))
      dict.set(PDFName.of('Parent'), parent)
      const target = targets.get(item.anchor)
      if (target) dict.set(PDFName.of('Dest'), withoutZoom(context, target))
      const [previous, next] = [refs[index - 1], refs[index + 1]]
      if (previous) dict.set(PDFName.of('Prev'), previous)
      if (next) dict.set(PDFName.of('Next'), next)
      context.assign(ref, dict)
      if (item.children.length > 0) write(item.children, ref, dict)
    })
    const [first, last] = [refs[0], refs.at(-1)]
    if (first) parentDict.set(PDFName.of('First'), first)
    if (last) parentDict.set(PDFName.of('Last'), last)
    // a count below zero: closed until the reader opens it
    const count = parent === root ? items.length : -items.length
    parentDict.set(PDFName.of('Count'), PDFNumber.of(count))
  }
  write(tree, root, rootDict)
  context.assign(root, rootDict)
  catalog.set(PDFName.of('Outlines'), root)
  catalog.set(PDFName.of('PageMode'), PDFName.of('UseOutlines'))
}

/** The same place, at whatever zoom the reader has. */
function withoutZoom(context: PDFContext, target: PDFArray): PDFArray {
  const { PDFNull } = pdfLibrary()
  const place = context.obj([target.get(0), 'XYZ'])
  for (const value of [PDFNull, target.get(3), PDFNull]) place.push(value)
  return place
}

/** What a fraction's bar and a narrow space read as when copied: `2 1/4`, not two rare characters. */
const COPIED_AS: readonly (readonly [RegExp, string])[] = [
  [/^(<[0-9A-F]{4}>) <2044>$/gm, '$1 <002F>'],
  [/^(<[0-9A-F]{4}>) <(?:202F|2009|00A0)>$/gm, '$1 <0020>'],
]

function plainSlashes(document: PDFDocument): void {
  const { PDFDict, PDFName, PDFRawStream } = pdfLibrary()
  const { context } = document
  for (const [, object] of context.enumerateIndirectObjects()) {
    if (!(object instanceof PDFDict)) continue
    if (object.get(PDFName.of('Type')) !== PDFName.of('Font')) continue
    const ref = object.get(PDFName.of('ToUnicode'))
    const stream = ref && context.lookup(ref)
    if (!(stream instanceof PDFRawStream)) continue
    const before = streamText(stream)
    const after = COPIED_AS.reduce((text, [from, to]) => text.replace(from, to), before)
    if (after !== before) context.assign(ref as PDFRef, context.flateStream(after))
  }
}
