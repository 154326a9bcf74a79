/** Reads how large every piece of text of a printed page really is, with a library that had no part in making it. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'

export interface SizedText {
  readonly text: string
  /** type size [pt] */
  readonly points: number
  /** baseline from the lower edge of the page [mm] */
  readonly up: number
}

/** Pieces of text of a page, as the library gives them. */
export const sizesOf = (items: readonly object[]): SizedText[] =>
  (items as readonly { readonly str?: string; readonly transform?: readonly number[] }[]).flatMap(
    ({ str, transform = [] }) => {
      if (str === undefined || str.trim() === '') return []
      const [, , c = 0, d = 0, , y = 0] = transform
      return [{ text: str, points: Math.hypot(c, d), up: (y * 25.4) / 72 }]
    },
  )

/** Every piece of text, page by page. */
export async function typeSizesOf(pdf: Uint8Array): Promise<SizedText[][]> {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 })
  const document = await task.promise
  const pages: SizedText[][] = []
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number)
    const { items } = await page.getTextContent({ disableNormalization: true })
    pages.push(sizesOf(items))
  }
  await task.destroy()
  return pages
}
