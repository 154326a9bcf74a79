/**
 * Renames the structure elements of a tagged PDF in the order of the file.
 *
 * The browser names the cells of table heads by a number that counts what it happened to look at, so that one print
 * in four of the same document differed from the others in nothing but these names.
 */
import type { PDFDict, PDFRef, PDFString } from '@cantoo/pdf-lib'
import { pdfLibrary } from './libraries.ts'
import type { PDFDocument } from './pdf-objects.ts'

/** Digits of a name; names are looked up in sorted order, so all are equally long. */
const DIGITS = 8

/** Gives every named element a name by its place in the file, and every mention of it the same. Works in place. */
export function renameStructure(document: PDFDocument): void {
  const { PDFArray, PDFDict, PDFHexString, PDFName, PDFRef, PDFString } = pdfLibrary()
  const { context, catalog } = document
  const root = catalog.lookupMaybe(PDFName.of('StructTreeRoot'), PDFDict)
  if (!root) return
  const elements: PDFDict[] = []
  const names = new Map<string, PDFString>()
  const tree = context.obj([])
  const textOf = (value: unknown): string | undefined =>
    value instanceof PDFString || value instanceof PDFHexString ? value.decodeText() : undefined

  for (const [ref, object] of context.enumerateIndirectObjects()) {
    if (!(object instanceof PDFDict)) continue
    if (object.get(PDFName.of('Type')) !== PDFName.of('StructElem')) continue
    elements.push(object)
    const old = textOf(object.get(PDFName.of('ID')))
    if (old === undefined) continue
    const name = PDFString.of(`e${String(names.size + 1).padStart(DIGITS, '0')}`)
    names.set(old, name)
    object.set(PDFName.of('ID'), name)
    tree.push(name)
    tree.push(ref)
  }
  if (names.size === 0) return

  for (const element of elements) {
    for (const attributes of attributesOf(element)) {
      const headers = attributes.lookup(PDFName.of('Headers'))
      if (!(headers instanceof PDFArray)) continue
      const renamed = headers.asArray().map((old) => names.get(textOf(old) ?? '') ?? old)
      attributes.set(PDFName.of('Headers'), context.obj(renamed))
    }
  }
  const old = root.get(PDFName.of('IDTree'))
  if (old instanceof PDFRef) removeTree(document, old)
  root.set(PDFName.of('IDTree'), context.obj({ Names: tree }))
}

/** Attributes of an element: one dictionary or a list of them. */
function attributesOf(element: PDFDict): PDFDict[] {
  const { PDFArray, PDFDict, PDFName } = pdfLibrary()
  const value = element.lookup(PDFName.of('A'))
  if (value instanceof PDFDict) return [value]
  if (!(value instanceof PDFArray)) return []
  return value
    .asArray()
    .map((_, index) => value.lookup(index))
    .filter((each) => each instanceof PDFDict)
}

/** Takes a tree of names out of the file, with all that hangs below it. */
function removeTree(document: PDFDocument, ref: PDFRef): void {
  const { PDFArray, PDFDict, PDFName, PDFRef } = pdfLibrary()
  const node = document.context.lookup(ref)
  const kids = node instanceof PDFDict ? node.lookup(PDFName.of('Kids')) : undefined
  if (kids instanceof PDFArray) {
    for (const kid of kids.asArray()) if (kid instanceof PDFRef) removeTree(document, kid)
  }
  document.context.delete(ref)
}
