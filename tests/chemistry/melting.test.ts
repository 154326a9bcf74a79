/** Melting ranges of the shipped library, against other prints than those it names. */
import { readFileSync } from 'node:fs'
import { load } from 'js-yaml'
import { describe, expect, test } from 'vitest'
import type { z } from 'zod'
import { fat } from '../../src/schema/fats.ts'
import { fats } from './fats-library.ts'

const schema = fat.shape.melting.unwrap()

interface Printed {
  readonly density: { readonly state?: string }
  readonly melting?: z.input<typeof schema>
}

const printed: readonly (readonly [string, Printed])[] = fats.map(([key, entry]) => [
  key,
  entry as unknown as Printed,
])
const melting = printed.flatMap(([key, entry]) => (entry.melting ? [{ key, ...entry.melting }] : []))
const keys = melting.map(({ key }) => key)

/** °C */
const rangeOf = (key: string): { readonly from: number; readonly to: number } => {
  const { from, to } = schema.parse(printed.find(([name]) => name === key)?.[1].melting)
  return { from: from - 273.15, to: to - 273.15 }
}

const NEARLY = 1e-9 // K, left by 273.15

/** °C; a range printed elsewhere lies in that of the library. */
const holds = (key: string, low: number, high: number): void => {
  const { from, to } = rangeOf(key)
  expect(from - NEARLY).toBeLessThanOrEqual(low)
  expect(to + NEARLY).toBeGreaterThanOrEqual(high)
}

describe('published: British Pharmaceutical Codex 1911, melting point', () => {
  test('coconut, 21 to 25 °C', () => holds('coconut', 21, 25))
})

describe('published: Malaysian requirements for cocoa butter, tempered', () => {
  test.each([
    ['slip', 31, 34],
    ['clear', 32, 35],
  ])('%s melting point, %d to %d °C', (_, low, high) => holds('cocoa-butter', low, high))
})

describe('published: Wille and Lutton, crystal forms I to VI of cocoa butter', () => {
  test('form V, the tempered one, is melted at the end of the range; form VI, of long storage, not quite', () => {
    const { from, to } = rangeOf('cocoa-butter')
    expect(from).toBeGreaterThan(27.5) // form IV
    expect(to).toBeGreaterThan(33.8) // form V
    expect(Math.abs(to - 36.3)).toBeLessThan(0.5) // form VI
  })
})

describe('published: USP 32', () => {
  test('white wax melts at 62 to 65 °C', () => holds('beeswax', 62, 65))
  test('purified stearic acid, 90 % of C18:0, congeals at 66 to 69 °C', () => holds('stearic-acid', 66, 69))
})

describe('published: Japanese Pharmacopoeia 2001, drop point of beeswax, 60 to 67 °C', () => {
  test('the library is narrower by 1 K at each end', () => {
    const { from, to } = rangeOf('beeswax')
    expect(from).toBeCloseTo(61, 6)
    expect(to).toBeCloseTo(66, 6)
  })
})

describe('published: Merck Index, tallow and prepared suet', () => {
  test('mutton suet melts at 45 to 50 °C', () => holds('mutton-tallow', 45, 50))
  test('fatty acids of tallow set at 40 to 46 °C', () => holds('beef-tallow', 40, 46))
})

describe('published: Belitz, Grosch and Schieberle, Food Chemistry', () => {
  test('the hard part pressed from beef tallow melts at 50 to 56 °C, above the tallow', () => {
    expect(rangeOf('beef-tallow').to).toBeLessThanOrEqual(50 + NEARLY)
  })
  test('coconut, 20 to 28 °C', () => holds('coconut', 20, 28))
  test('palm kernel, 23 to 30 °C, and shea, 23 to 42 °C, hold those of the library', () => {
    expect(rangeOf('palm-kernel').from).toBeGreaterThan(23)
    expect(rangeOf('palm-kernel').to).toBeLessThan(30)
    expect(rangeOf('shea-butter').from).toBeGreaterThan(23)
    expect(rangeOf('shea-butter').to).toBeLessThan(42)
  })
  test('stearic acid of the trade melts below pure C18:0, its softest type below pure C16:0', () => {
    const { from, to } = rangeOf('stearic-acid')
    expect(to).toBeLessThan(69.6)
    expect(from).toBeLessThan(62.9)
    expect(from).toBeGreaterThan(44) // pure C12:0
  })
})

describe('published: Wiley, Foods and their Adulteration, means of lard', () => {
  test.each([
    ['steam-rendered', 37],
    ['leaf', 40],
  ])('%s, %d °C', (_, mean) => holds('lard', mean, mean))
})

describe('published: Journal of Oil Palm Research 2013', () => {
  test('palm kernel oil melts at 27.3 to 28.0 °C', () => holds('palm-kernel', 27.3, 28))
})

describe('published: trade specifications of processed palm oil, method AOCS Cc 3-25', () => {
  test('palm oil, 33 to 39 °C', () => {
    holds('palm', 33, 39)
    expect(rangeOf('palm').to).toBeLessThanOrEqual(39 + NEARLY)
  })
  test('palm olein, 24 °C at most', () => {
    expect(rangeOf('palm-olein').to).toBeLessThanOrEqual(24 + NEARLY)
  })
})

describe('published: Journal of Food Processing and Preservation 2020, mango kernel fat of Sabah', () => {
  test('slip melting points of 31.0 to 35.2 °C overlap the lower end', () => {
    const { from, to } = rangeOf('mango-kernel')
    expect(from).toBeLessThan(35.2)
    expect(to).toBeGreaterThan(35.2)
  })
})

describe('published: Journal of the Society of Cosmetic Chemists 6, stable tristearin, 73.1 °C', () => {
  test.each(keys)('%s has nothing solid left above it', (key) => {
    expect(rangeOf(key).to).toBeLessThan(73.1)
  })
})

describe('by hand: order of the fats', () => {
  test.each([
    ['coconut', 'cocoa-butter', 'beeswax'],
    ['palm-olein', 'palm', 'palm-stearin'],
    ['babassu', 'lard', 'mutton-tallow'],
    ['shea-butter', 'beef-tallow', 'stearic-acid'],
  ])('%s, %s, %s: each melts later than the one before', (soft, middle, hard) => {
    const [first, second, third] = [rangeOf(soft), rangeOf(middle), rangeOf(hard)]
    expect(first.from).toBeLessThan(second.from)
    expect(second.from).toBeLessThan(third.from)
    expect(first.to).toBeLessThan(second.to)
    expect(second.to).toBeLessThan(third.to)
  })
})

describe('by hand: every entry', () => {
  const file = new URL('../../content/sources.yaml', import.meta.url)
  const { sources } = load(readFileSync(file, 'utf8')) as {
    readonly sources: Readonly<Record<string, { readonly evidence: string }>>
  }

  test('14 fats have a melting range, the solid ones among them', () => {
    const solid = printed.flatMap(([key, { density }]) => (density.state === 'solid' ? [key] : []))
    expect(keys).toHaveLength(14)
    expect(solid.length).toBeGreaterThan(0)
    expect(solid.filter((key) => !keys.includes(key))).toEqual([])
  })

  test.each(melting)('$key is read by the schema and stays in part solid at 20 °C', ({ key }) => {
    const { from, to } = rangeOf(key)
    expect(from).toBeLessThanOrEqual(to)
    expect(to).toBeGreaterThan(20)
  })

  test.each(melting)('$key says of its source what its source says of itself', ({ source, evidence }) => {
    expect(sources[source]?.evidence).toBe(evidence)
  })

  test.each(melting.filter((entry) => entry['solid-at-room'] !== undefined))(
    '$key, solid for a part only, is a share between none and all',
    ({ key: _, ...entry }) => {
      const share = schema.parse(entry)['solid-at-room']
      expect(share).toBeGreaterThan(0)
      expect(share).toBeLessThan(1)
    },
  )
})

describe('by hand: what the schema refuses', () => {
  const typed = { from: '20 C', to: '28 C', source: 'somewhere', evidence: 'read' }
  const refusal = (change: Readonly<Record<string, string>>): string =>
    schema.safeParse({ ...typed, ...change }).error?.issues[0]?.message ?? ''

  test('a range that runs downwards, but not one of a single temperature', () => {
    expect(refusal({ from: '28.1 C' })).toBe('The range begins above its end')
    expect(refusal({ from: '28 C' })).toBe('')
  })
  test('less than -30 °C and more than 120 °C', () => {
    expect(refusal({ from: '-30 C', to: '120 C' })).toBe('')
    expect(refusal({ from: '-30.1 C' })).toContain('less than the smallest allowed, -30 C')
    expect(refusal({ to: '120.1 C' })).toContain('more than the largest allowed, 120 C')
  })
  test('a solid share of more than all', () => {
    expect(refusal({ 'solid-at-room': '100 %' })).toBe('')
    expect(refusal({ 'solid-at-room': '101 %' })).toContain('more than the largest allowed')
  })
})
