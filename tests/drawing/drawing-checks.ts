/** What tests of any fixture's drawings look for. */
import { expect, it } from 'vitest'
import { crosses, overlaps } from '../../src/drawing/lettering.ts'
import type { Drawing, LengthFormatter, Rect } from '../../src/drawing/types.ts'
import type { Part } from '../../src/geometry/part.ts'
import { inch } from '../fixtures/mould-input.ts'

export const millimetres: LengthFormatter = (metres) => ({
  shown: `${Math.round(metres * 10000) / 10} mm`,
})

/** Nearest 1/64 in, the longest fractions that a drawing has to hold. */
export const inches: LengthFormatter = (metres) => {
  const total = Math.round((metres / inch) * 64)
  const whole = Math.floor(total / 64)
  let top = total % 64
  let bottom = 64
  if (top === 0) return { shown: `${whole} in` }
  while (top % 2 === 0) {
    top /= 2
    bottom /= 2
  }
  return { shown: whole > 0 ? `${whole}\u202F${top}/${bottom} in` : `${top}/${bottom} in` }
}

/** Every coordinate of a part's features that its drawing has to fix, in order. */
export const coordinatesOf = (part: Part): string[] =>
  part.features
    .flatMap((feature) => {
      const own = (what: string) => `${feature.name}.${what}`
      if (feature.kind === 'hole')
        return [
          ...['u', 'v', 'diameter'].map(own),
          ...(feature.counterbore ? ['recess', 'recess-depth'].map(own) : []),
        ]
      if (feature.kind === 'notch') return ['at', 'size', 'depth'].map(own)
      if (feature.kind === 'fold' || feature.kind === 'scribe') return [own('at')]
      if (feature.kind === 'chamfer') return [own('size')]
      // the wall of a rebate is its place and its size in one
      return feature.kind === 'rebate' ? [own('at'), own('depth')] : [own('at'), own('size'), own('depth')]
    })
    .sort()

/** What holds for the drawings of every fixture, whatever its sizes. */
export function itDrawsWell(
  drawings: readonly Drawing[],
  parts: readonly Part[],
  box: { readonly width: number; readonly height: number },
): void {
  it('fits the box', () => {
    expectInside(drawings, box)
  })

  it('keeps every value clear of every other and on the paper', () => {
    expectClear(drawings)
  })

  it('draws no outline through a value', () => {
    for (const drawing of drawings)
      for (const segment of lineSegments(drawing.svg, 'visible|section|break'))
        for (const dimension of drawing.dimensions)
          expect(touches(segment, dimension.box), `${drawing.name} ${dimension.name}`).toBe(false)
  })

  it('draws no line of a dimension or cut through the value of another', () => {
    for (const drawing of drawings)
      for (const group of drawing.svg.matchAll(/<g class="dimension-group" data-name="(.*?)">(.*?)<\/g>/g))
        for (const segment of lineSegments(group[2]!, 'extension|dimension'))
          for (const { name, box: rect } of drawing.dimensions)
            if (name !== group[1] && !group[2]!.includes(`data-name="${name}"`))
              expect(touches(segment, rect), `${group[1]} through ${name}`).toBe(false)
  })

  it('locates every feature once and only once', () => {
    for (const part of parts) {
      const drawing = drawings.find((one) => one.name === `part.${part.key}`)!
      const located = drawing.dimensions.flatMap((dimension) => dimension.locates).sort()
      const wanted = coordinatesOf(part)
      expect(located, part.key).toEqual(wanted)
    }
  })

  it('names every dimension once, with its value', () => {
    const names = drawings.flatMap((drawing) => drawing.dimensions.map((dimension) => dimension.name))
    expect(new Set(names).size).toBe(names.length)
    for (const drawing of drawings)
      for (const { name } of drawing.dimensions) expect(drawing.svg).toContain(`data-name="${name}"`)
  })

  it('writes balanced elements and plain numbers', () => {
    for (const { svg } of drawings) {
      expect(unclosed(svg)).toEqual([])
      expect(svg).not.toMatch(/NaN|Infinity|undefined|\d\.\d{4,}/)
    }
  })
}

interface Segment {
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
}

function lineSegments(svg: string, kinds: string): readonly Segment[] {
  return [...svg.matchAll(new RegExp(`class="(?:${kinds})" d="(.*?)"`, 'g'))].flatMap((path) =>
    [...path[1]!.matchAll(/M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/g)].map((match) => {
      const [x1, y1, x2, y2] = match.slice(1).map(Number) as [number, number, number, number]
      return { x1, y1, x2, y2 }
    }),
  )
}

const touches = ({ x1, y1, x2, y2 }: Segment, rect: Rect): boolean =>
  crosses({ x: x1, y: y1 }, { x: x2, y: y2 }, rect)

function unclosed(svg: string): readonly string[] {
  const open: string[] = []
  for (const [, slash, name, rest] of svg.matchAll(/<(\/?)([a-z]+)((?:\s+[a-zA-Z:-]+="[^"<>]*")*\s*\/?)>/g)) {
    if (slash === '/') {
      if (open.pop() !== name) return [...open, `/${name}`]
    } else if (!rest!.endsWith('/')) open.push(name!)
  }
  const left = svg.replace(/<\/?[a-z]+(?:\s+[a-zA-Z:-]+="[^"<>]*")*\s*\/?>/g, '')
  return /[<>]|&(?!(?:amp|lt|gt|quot);)/.test(left) ? [...open, 'stray markup'] : open
}

export const expectInside = (
  drawings: readonly Drawing[],
  box: { readonly width: number; readonly height: number },
): void => {
  for (const { name, widthMm, heightMm } of drawings) {
    expect(widthMm, name).toBeLessThanOrEqual(box.width)
    expect(heightMm, name).toBeLessThanOrEqual(box.height)
  }
}

/** Every value on the paper, and clear of every other. */
export const expectClear = (drawings: readonly Drawing[]): void => {
  for (const { dimensions, widthMm, heightMm } of drawings)
    dimensions.forEach(({ name, box }, index) => {
      expect(Math.min(box.x, box.y), name).toBeGreaterThanOrEqual(0)
      expect(box.x + box.width, name).toBeLessThanOrEqual(widthMm)
      expect(box.y + box.height, name).toBeLessThanOrEqual(heightMm)
      for (const other of dimensions.slice(index + 1))
        expect(overlaps(box, other.box), `${name} and ${other.name}`).toBe(false)
    })
}

export const expectNamedOnce = (drawings: readonly Drawing[]): void => {
  const names = drawings.flatMap(({ dimensions }) => dimensions.map(({ name }) => name))
  expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([])
  for (const { svg, dimensions } of drawings) {
    expect(svg).not.toMatch(/NaN|Infinity|undefined|\d\.\d{4,}/)
    for (const { name } of dimensions) expect(svg).toContain(`data-name="${name}"`)
  }
}
