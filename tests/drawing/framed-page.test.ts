/** Drawings on pages: nothing lost, nothing over the frame, nothing over anything else. */
import { describe, expect, test } from 'vitest'
import { framedPages, roomInFrame, type TitleBlock } from '../../src/drawing/framed-page.ts'
import { overlaps } from '../../src/drawing/lettering.ts'
import type { Drawing } from '../../src/drawing/types.ts'

const field = (text: string) => ({ label: 'Label', text })
const title: TitleBlock = {
  owner: field('A shop with a name that is a good deal longer than the field that it stands in'),
  title: field('Block mould'),
  documentType: field('Build drawing'),
  number: field('7.1'),
  date: field('1 March 2027'),
  drawnBy: field(''),
  approvedBy: field(''),
  tolerance: field('± 1/32 in'),
  scale: 'Scale',
  sheet: 'drawing',
  of: 'of',
}
const page = { width: 175, height: 225 }
const room = roomInFrame(page)

const drawing = (name: string, widthMm: number, heightMm: number, model = 5): Drawing => ({
  name,
  label: name,
  widthMm,
  heightMm,
  scale: { paper: 1, model },
  body: `<g data-drawing="${name}"/>`,
  svg: '',
  dimensions: [
    {
      name: `${name}.all`,
      value: 1,
      shown: '1',
      locates: [],
      box: { x: 0, y: 0, width: widthMm, height: heightMm },
    },
  ],
})
const framed = (drawings: readonly Drawing[]) =>
  framedPages(drawings, { page, title, projection: 'third-angle' })

describe('by hand: room in a frame of 175 by 225 mm', () => {
  test('1 mm all round, and 17 mm of title block', () => expect(room).toEqual({ width: 173, height: 206 }))
})

describe('by hand: drawings of all sizes', () => {
  const sizes = [
    [173, 206], [80, 90], [80, 90], [60, 20], [100, 150], [40, 40], [173, 30], [50, 120], [90, 60],
  ] as const // biome-ignore format: a table
  const pages = framed(sizes.map(([w, h], index) => drawing(`d${index}`, w, h)))
  const shown = pages.flatMap(({ drawings }) => drawings)

  test('each stands on one page', () =>
    expect([...shown].sort()).toEqual(sizes.map((_, index) => `d${index}`)))

  test('all inside the frame, above the title block, clear of each other', () => {
    for (const { dimensions } of pages)
      dimensions.forEach(({ box }, index) => {
        expect(box.x).toBeGreaterThanOrEqual(0)
        expect(box.x + box.width).toBeLessThanOrEqual(page.width)
        expect(box.y).toBeGreaterThanOrEqual(0)
        expect(box.y + box.height).toBeLessThanOrEqual(page.height - 17)
        for (const other of dimensions.slice(index + 1)) expect(overlaps(box, other.box)).toBe(false)
      })
  })

  test('small ones fill the corners that large ones leave: 80 + 7 + 80 mm share a row', () =>
    expect(pages.find(({ drawings }) => drawings.includes('d1'))?.drawings).toContain('d2'))

  test('the title block says which of how many, and every scale on its page once', () => {
    const two = framed([drawing('a', 80, 50), drawing('b', 80, 50, 10), drawing('c', 173, 200)])
    expect(two).toHaveLength(2)
    expect(two[0]?.svg).toContain('7.1 · drawing 1 of 2')
    expect(two[0]?.svg).toContain('1:5, 1:10')
    expect(two[1]?.svg).toContain('7.1 · drawing 2 of 2')
  })

  test('a long name is set smaller, never cut', () => {
    const [first] = framed([drawing('a', 80, 50)])
    const size = Number(/font-size="([\d.]+)"[^>]*>A shop with a name/.exec(first?.svg ?? '')?.[1])
    expect(size).toBeGreaterThan(1)
    expect(size).toBeLessThan(3.5)
    expect(first?.svg).toContain('the field that it stands in</text>')
  })
})
