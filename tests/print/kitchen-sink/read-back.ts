/** Reads a printed binder with two libraries that had no part in making it. */
import { PDFiumLibrary } from '@hyzyla/pdfium'
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { type SizedText, sizesOf } from '../type-sizes.ts'

export interface OutlineItem {
  readonly title: string
  readonly page: number
  /** below zero: closed until opened */
  readonly count: number
  readonly children: readonly OutlineItem[]
}

export interface StructureRead {
  readonly pageCount: number
  /** page of every named destination, from 1 */
  readonly destinations: Readonly<Record<string, number>>
  readonly outline: readonly OutlineItem[]
  /** pieces of text of each page, as they would be copied */
  readonly texts: readonly (readonly string[])[]
  /** the same without blanks, with their sizes */
  readonly sizes: readonly (readonly SizedText[])[]
  readonly info: Readonly<Record<string, unknown>>
  readonly viewerPreferences: Readonly<Record<string, unknown>>
  readonly isTagged: boolean
  readonly roles: ReadonlySet<string>
  /** what each figure says to those who cannot see it */
  readonly figures: readonly { readonly page: number; readonly alt: string | undefined }[]
  /** where each link leads: page of its target, from 1; nothing for one that leaves the binder */
  readonly links: readonly {
    readonly page: number
    readonly to: string
    readonly toPage: number | undefined
  }[]
  /** every colour that anything is painted in */
  readonly colours: ReadonlySet<string>
}

/** Operators that choose a colour; a pattern is named as one. */
const COLOURS = new Set([OPS.setFillRGBColor, OPS.setStrokeRGBColor, OPS.setFillColorN, OPS.setStrokeColorN])

interface Reference {
  readonly num: number
  readonly gen: number
}

/** Structure, text and names, by the first reader. */
export async function readStructure(pdf: Uint8Array): Promise<StructureRead> {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 })
  const document = await task.promise
  const pageOf = async (destination: unknown): Promise<number> =>
    (await document.getPageIndex((destination as [Reference])[0])) + 1
  const destinations: Record<string, number> = {}
  for (const [name, target] of Object.entries(await document.getDestinations())) {
    destinations[name] = await pageOf(target)
  }
  type Items = Awaited<ReturnType<typeof document.getOutline>>
  const outlineOf = async (items: Items): Promise<OutlineItem[]> => {
    const read: OutlineItem[] = []
    for (const item of items ?? []) {
      const page = item.dest ? await pageOf(item.dest) : 0
      read.push({ title: item.title, page, count: item.count ?? 0, children: await outlineOf(item.items) })
    }
    return read
  }
  const texts: string[][] = []
  const sizes: SizedText[][] = []
  const roles = new Set<string>()
  const figures: StructureRead['figures'][number][] = []
  const links: StructureRead['links'][number][] = []
  const colours = new Set<string>()
  const gather = (node: unknown, page: number): void => {
    const { role, alt, children } = node as { role?: string; alt?: string; children?: unknown[] }
    if (role) roles.add(role)
    if (role === 'Figure') figures.push({ page, alt })
    for (const child of children ?? []) gather(child, page)
  }
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number)
    const { items } = await page.getTextContent({ disableNormalization: true })
    texts.push(items.map((item) => ('str' in item ? item.str : '')))
    sizes.push(sizesOf(items))
    gather(await page.getStructTree(), number)
    for (const { subtype, dest } of await page.getAnnotations())
      if (subtype === 'Link') {
        const to = typeof dest === 'string' ? dest : ''
        links.push({ page: number, to, toPage: destinations[to] })
      }
    const { fnArray, argsArray } = await page.getOperatorList()
    fnArray.forEach((operator, index) => {
      if (COLOURS.has(operator)) colours.add(String(argsArray[index]?.[0]))
    })
  }
  const read = {
    pageCount: document.numPages,
    destinations,
    outline: await outlineOf(await document.getOutline()),
    texts,
    sizes,
    info: (await document.getMetadata()).info as Record<string, unknown>,
    viewerPreferences: ((await document.getViewerPreferences()) ?? {}) as Record<string, unknown>,
    isTagged: ((await document.getMarkInfo()) as { Marked?: boolean } | null)?.Marked === true,
    roles,
    figures,
    links,
    colours,
  }
  await task.destroy()
  return read
}

/** Widths and heights of all painted paths of a page, on paper. [mm] */
export async function paintedExtents(
  pdf: Uint8Array,
  pageNumber: number,
): Promise<{ width: number; height: number }[]> {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 })
  const page = await (await task.promise).getPage(pageNumber)
  const { fnArray, argsArray } = await page.getOperatorList()
  let scale: readonly [number, number] = [1, 1]
  const stack: (readonly [number, number])[] = []
  const extents: { width: number; height: number }[] = []
  fnArray.forEach((operator, index) => {
    const values = argsArray[index]
    if (operator === OPS.save) stack.push(scale)
    else if (operator === OPS.restore) scale = stack.pop() ?? [1, 1]
    else if (operator === OPS.transform) scale = [scale[0] * values[0], scale[1] * values[3]]
    else if (operator === OPS.constructPath && values[0] !== OPS.endPath) {
      const [left, low, right, high] = values[2] as readonly number[] as [number, number, number, number]
      const perPoint = 25.4 / 72
      extents.push({
        width: Math.abs((right - left) * scale[0]) * perPoint,
        height: Math.abs((high - low) * scale[1]) * perPoint,
      })
    }
  })
  await task.destroy()
  return extents
}

export interface PageRaster {
  /** size of the page [pt] */
  readonly width: number
  readonly height: number
  readonly text: string
  /** share of a rectangle that is not white; edges in mm from the top left corner of the page */
  readonly inkIn: (left: number, top: number, right: number, bottom: number) => number
}

const PIXELS_PER_POINT = 1

/** Size, text and picture of every page, by the second reader. */
export async function readRaster(pdf: Uint8Array): Promise<PageRaster[]> {
  const library = await PDFiumLibrary.init()
  const document = await library.loadDocument(pdf)
  const pages: PageRaster[] = []
  for (const page of document.pages()) {
    // rendering closes the page, so the rest is asked first
    const size = page.getOriginalSize()
    const text = page.getText()
    const picture = await page.render({
      scale: PIXELS_PER_POINT,
      render: 'bitmap',
      colorSpace: 'Gray',
    })
    const perMillimetre = (72 / 25.4) * PIXELS_PER_POINT
    pages.push({
      width: size.originalWidth,
      height: size.originalHeight,
      text,
      inkIn: (left, top, right, bottom) => {
        let [ink, all] = [0, 0]
        const { data, width, height } = picture
        const [low, far] = [Math.min(bottom * perMillimetre, height), Math.min(right * perMillimetre, width)]
        for (let y = Math.ceil(top * perMillimetre); y < low; y += 1) {
          for (let x = Math.ceil(left * perMillimetre); x < far; x += 1) {
            all += 1
            if ((data[y * width + x] ?? 0) < 250) ink += 1
          }
        }
        return all === 0 ? Number.NaN : ink / all
      },
    })
  }
  document.destroy()
  library.destroy()
  return pages
}
