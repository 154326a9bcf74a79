/** What we put in place of a library's own does as the library's own did. */
import { createRequire } from 'node:module'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { appendEntry, pdfLibrary } from '../../src/print/libraries.ts'

/** The library anew, as it comes, and in nobody else's hands. */
const untouched = (): typeof import('@cantoo/pdf-lib') => {
  const require = createRequire(import.meta.url)
  const ours = Object.entries(require.cache).filter(([path]) => path.includes('pdf-lib'))
  const takeOut = (): void => {
    for (const path of Object.keys(require.cache)) if (path.includes('pdf-lib')) delete require.cache[path]
  }
  takeOut()
  const library = require('@cantoo/pdf-lib') as typeof import('@cantoo/pdf-lib')
  takeOut()
  Object.assign(require.cache, Object.fromEntries(ours))
  return library
}

/** A table with entries of these objects, as it stands in a file. */
const tableOf = (library: typeof import('@cantoo/pdf-lib'), objects: readonly number[]): string => {
  const { PDFContext, PDFCrossRefStream, PDFDict, PDFRef } = library
  const table = PDFCrossRefStream.create(PDFDict.withContext(PDFContext.create()), false)
  for (const [index, object] of objects.entries()) table.addUncompressedEntry(PDFRef.of(object), 100 + index)
  return Buffer.from(table.getUnencodedContents()).toString('hex')
}

describe('published: the table of objects, as the library makes it', () => {
  const plain = untouched()
  const { PDFCrossRefStream } = pdfLibrary()

  it('is made by our own way in our library alone', () => {
    expect(Reflect.get(PDFCrossRefStream.prototype, 'appendEntry')).toBe(appendEntry)
    expect(Reflect.get(plain.PDFCrossRefStream.prototype, 'appendEntry')).not.toBe(appendEntry)
  })

  it('has the same entries in the same places, whatever order they come in', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 60 }), { maxLength: 40 }), (objects) => {
        expect(tableOf(pdfLibrary(), objects)).toBe(tableOf(plain, objects))
      }),
      { numRuns: 300 },
    )
  })
})
