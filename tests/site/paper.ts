/** Where everything stands on pages of a PDF, and how far two of them are apart. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { type Piece, piecesOn } from '../print/kitchen-sink/painted-pieces.ts'

const PER_POINT = 25.4 / 72

export interface ReadPage {
  /** mm */
  readonly width: number
  readonly height: number
  /** with the place of their beginning and the size of their letters [mm] */
  readonly texts: readonly {
    readonly text: string
    readonly x: number
    readonly y: number
    readonly size: number
  }[]
  readonly pieces: readonly Piece[]
}

/** @returns a function that reads so many pages from one on, counted from 1; and what ends it */
export const openPaper = async (pdf: Uint8Array) => {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 })
  const document = await task.promise
  const page = async (number: number): Promise<ReadPage> => {
    const one = await document.getPage(number)
    const [left, low, right, high] = one.view as [number, number, number, number]
    const { items } = await one.getTextContent({ disableNormalization: true })
    return {
      width: (right - left) * PER_POINT,
      height: (high - low) * PER_POINT,
      texts: items.flatMap((item) =>
        'str' in item && item.str.trim() !== ''
          ? {
              // the binder's stroke of a fraction is made one that can be searched for
              text: item.str.replaceAll('\u2044', '/'),
              x: item.transform[4] * PER_POINT,
              y: item.transform[5] * PER_POINT,
              size: Math.hypot(item.transform[2], item.transform[3]) * PER_POINT,
            }
          : [],
      ),
      pieces: await piecesOn(one),
    }
  }
  return {
    pageCount: document.numPages,
    pages: (first: number, count: number) =>
      Promise.all(Array.from({ length: count }, (_, index) => page(first + index))),
    close: () => task.destroy(),
  }
}

/** What differs between two pages in words, and how far the rest is apart at most. [mm] */
export const difference = (
  one: ReadPage,
  other: ReadPage,
): { readonly words: readonly string[]; readonly texts: number; readonly lines: number } => {
  const words: string[] = []
  if (Math.max(Math.abs(one.width - other.width), Math.abs(one.height - other.height)) > 0.1)
    words.push(`size ${one.width} × ${one.height}, not ${other.width} × ${other.height}`)
  const textOf = ({ texts }: ReadPage): string => texts.map(({ text }) => text).join('|')
  if (textOf(one) !== textOf(other)) {
    const at = one.texts.findIndex(({ text }, index) => text !== other.texts[index]?.text)
    words.push(`“${one.texts[at]?.text}”, not “${other.texts[at]?.text}”`)
  }
  if (one.pieces.length !== other.pieces.length)
    words.push(`${one.pieces.length} lines, not ${other.pieces.length}`)
  if (words.length > 0) return { words, texts: Number.POSITIVE_INFINITY, lines: Number.POSITIVE_INFINITY }
  const apart = (distances: readonly number[]): number =>
    distances.reduce((most, distance) => Math.max(most, distance), 0)
  return {
    words,
    texts: apart(
      one.texts.flatMap(({ x, y, size }, index) => {
        const same = other.texts[index] as ReadPage['texts'][number]
        return [Math.abs(x - same.x), Math.abs(y - same.y), Math.abs(size - same.size)]
      }),
    ),
    lines: apart(
      one.pieces.flatMap((piece, index) => {
        const same = other.pieces[index] as Piece
        return (['left', 'right', 'low', 'high'] as const).map((side) => Math.abs(piece[side] - same[side]))
      }),
    ),
  }
}
