/** Layouts against published instances whose best is known, by one code for all of them. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { checkLayout } from '../../src/sheet-stock/check-layout.ts'
import { layOut } from '../../src/sheet-stock/lay-out.ts'
import { mostValue, shortestPiece } from '../../src/sheet-stock/one-board.ts'
import type { Region } from '../../src/sheet-stock/types.ts'
import type { ValuedBlank } from '../../src/sheet-stock/whole-units.ts'
import { isSoak } from '../long.ts'
import { processorTime } from '../processor-time.ts'

interface Strip {
  readonly id: string
  readonly set: string
  readonly source: string
  readonly strip_width: number
  readonly optimum_strip: number
  /** width along the strip's width, then height */
  readonly items_wh: readonly (readonly [number, number])[]
}
interface OneBoard {
  readonly id: string
  readonly set: string
  readonly source: string
  readonly sheet: readonly [number, number]
  readonly optimum_value: number
  readonly optimum_value_if_rotation_allowed?: number
  /** length, width, most copies, value */
  readonly types?: readonly (readonly [number, number, number, number])[]
  /** length, width, value */
  readonly types_unconstrained?: readonly (readonly [number, number, number])[]
}

// Carried over with their sources: data sets of ESICUP (CC0) and OR-Datasets; the best values were computed by an exact
// search, a dynamic programme and a solver of integer programmes, and agree with the literature.
const instances = JSON.parse(
  readFileSync(new URL('packing-instances.json', import.meta.url), 'utf8'),
) as Record<'strips', readonly Strip[]> & Record<'limited' | 'unlimited' | 'anyLayout', readonly OneBoard[]>

const named = (blanks: readonly Omit<ValuedBlank, 'key'>[]): ValuedBlank[] =>
  blanks.map((blank, index) => ({ key: `blank-${index + 1}`, ...blank }))

/** In another order, the same for every run. */
const shuffled = <T>(all: readonly T[]): readonly T[] =>
  all
    .map((one, index) => ({ one, place: (index * 7919 + 13) % 97 }))
    .sort((a, b) => a.place - b.place)
    .map(({ one }) => one)

const blanksOf = ({ sheet, types, types_unconstrained }: OneBoard, turns = false): ValuedBlank[] => {
  const [length, width] = sheet
  const all = (long: number, wide: number): number =>
    turns
      ? Math.floor((length * width) / (long * wide))
      : Math.floor(length / long) * Math.floor(width / wide)
  return named(
    types
      ? types.map(([long, wide, count, value]) => ({ length: long, width: wide, count, value, turns }))
      : (types_unconstrained ?? []).map(([long, wide, value]) => ({
          length: long,
          width: wide,
          count: all(long, wide),
          value,
          turns,
        })),
  )
}

const scaled = (blanks: readonly ValuedBlank[], by: number): readonly ValuedBlank[] =>
  blanks.map((blank) => ({ ...blank, length: blank.length * by, width: blank.width * by }))

const sawn = (region: Region): readonly string[] =>
  region.kind === 'cut'
    ? [...sawn(region.first), ...(region.second ? sawn(region.second) : [])]
    : region.key === undefined
      ? []
      : [region.key]

/** Proved by code that the search has no part in; blanks that were not sawn are left by right. */
const expectSound = (
  blanks: readonly ValuedBlank[],
  board: { readonly length: number; readonly width: number },
  kerf: number,
  region: Region,
): void => {
  const keys = sawn(region)
  const left = blanks.flatMap(({ key, count }) => {
    const over = count - keys.filter((one) => one === key).length
    return over > 0 ? [{ key, count: over }] : []
  })
  const problem = { blanks, kerf, boards: [{ key: 'board', ...board, count: 1, cost: 1, trim: 0 }] }
  const layout = { boards: [{ board: 'board', region }], left, bound: { cost: 0, boards: 0 } }
  expect(checkLayout(problem, layout)).toEqual([])
}

/** ms of a processor; the time that a layout may take on a busy machine */
const FIVE_SECONDS = 5000
const TWO_SECONDS = 2000

const timed = <T>(run: () => T): { result: T; time: number } => {
  let result: T | undefined
  const time = processorTime(() => {
    result = run()
  })
  return { result: result as T, time }
}

const best = (instance: OneBoard, blanks: readonly ValuedBlank[], scale = 1, kerf = 0) => {
  const [length, width] = instance.sheet
  const board = { length: length * scale - kerf, width: width * scale - kerf }
  const { result, time } = timed(() => mostValue(blanks, board, kerf))
  expectSound(blanks, board, kerf, result.region)
  const values = new Map(blanks.map(({ key, value }) => [key, value ?? 0]))
  // The value that is said is the value of what is sawn.
  expect(sawn(result.region).reduce((sum, key) => sum + (values.get(key) ?? 0), 0)).toBe(result.value)
  expect(result.bound).toBeGreaterThanOrEqual(result.value)
  expect(time).toBeLessThan(FIVE_SECONDS)
  return result
}

describe('published: guillotine layouts of one board whose best value is known (OR-Library cgcut and gcut, Wang 1983, Oliveira & Ferreira 1990, Herz 1972)', () => {
  for (const instance of [...instances.limited, ...instances.unlimited]) {
    const { id, optimum_value } = instance
    it(`finds and proves the best of ${id}`, () => {
      const { value, bound } = best(instance, blanksOf(instance))
      expect([value, bound]).toEqual([optimum_value, optimum_value])
    })

    it(`does so for ${id} shuffled, at twice the size, and in inches`, () => {
      expect(best(instance, shuffled(blanksOf(instance))).value).toBe(optimum_value)
      expect(best(instance, scaled(blanksOf(instance), 2), 2).value).toBe(optimum_value)
      expect(best(instance, scaled(blanksOf(instance), 0.0254), 0.0254).value).toBe(optimum_value)
    })

    const turned = instance.optimum_value_if_rotation_allowed
    if (turned !== undefined)
      it(`finds the best of ${id} when blanks may be turned`, () => {
        expect(best(instance, blanksOf(instance, true)).value).toBe(turned)
      })
  }

  // Kerf transform (computed): blanks and board less by the kerf, with a saw between neighbours, fit as they did without.
  for (const instance of instances.limited)
    it(`finds the best of ${instance.id} with a kerf between neighbours`, () => {
      const kerf = 0.25
      const blanks = blanksOf(instance).map((blank) => ({
        ...blank,
        length: blank.length - kerf,
        width: blank.width - kerf,
      }))
      expect(best(instance, blanks, 1, kerf).value).toBe(instance.optimum_value)
    })
})

describe('published: one board cut in any way (OR-Library ngcut, Beasley 1985)', () => {
  for (const instance of instances.anyLayout)
    it(`passes no best value of ${instance.id}, which cuts right through cannot pass`, () => {
      const { value, bound } = best(instance, blanksOf(instance))
      expect(value).toBeLessThanOrEqual(instance.optimum_value)
      // What it says of the bound it has proved: nothing is left between the two.
      expect(bound).toBe(value)
    })
})

const stripBlanks = ({ items_wh }: Strip, turns: boolean, times = 1): ValuedBlank[] =>
  named(items_wh.map(([width, height]) => ({ length: height, width, count: times, turns })))

const shortest = (blanks: readonly ValuedBlank[], width: number, kerf = 0) => {
  const { result, time } = timed(() => shortestPiece(blanks, width, kerf))
  expectSound(blanks, { length: result.length, width }, kerf, result.region)
  expect(sawn(result.region)).toHaveLength(blanks.reduce((sum, { count }) => sum + count, 0))
  expect(result.length).toBeGreaterThanOrEqual(result.bound - 1e-9)
  return { ...result, time }
}

/** One unit, or a twentieth. */
const near = (length: number): number => Math.max(length + 1, length * 1.05)

describe('published: strips without waste (Hopper & Turton 2000; Burke, Kendall & Whitwell 2004)', () => {
  /** Held to a twentieth; each day two of them, and in the soak all that there are. */
  const HELD = ['C1_1', 'C1_3', 'N1', 'N2']
  const daily = ['C1_3', 'N1']
  for (const strip of instances.strips.filter(({ id }) => isSoak || daily.includes(id))) {
    const { id, strip_width, optimum_strip } = strip
    const held = HELD.includes(id)
    for (const [turns, how] of [
      [false, 'as they lie'],
      [true, 'turned where that helps'],
    ] as const)
      it(`saws ${id}, blanks ${how}, from ${held ? 'hardly more than' : 'no less than'} the least length`, () => {
        const { length, bound, time } = shortest(stripBlanks(strip, turns), strip_width)
        expect(bound).toBeLessThanOrEqual(optimum_strip)
        expect(length).toBeGreaterThanOrEqual(optimum_strip)
        // What cuts right through cannot saw without waste has a gap; it stays as small as this.
        if (!held) {
          expect(length / optimum_strip).toBeLessThanOrEqual(1.1)
          return
        }
        expect(length).toBeLessThanOrEqual(near(optimum_strip))
        expect(time).toBeLessThan(TWO_SECONDS)
      })

    if (held)
      it(`saws ${id} shuffled, doubled, and with a kerf as well`, () => {
        const same = shortest(shuffled(stripBlanks(strip, false)), strip_width)
        expect(same.length).toBeLessThanOrEqual(near(optimum_strip))
        const twice = shortest(stripBlanks(strip, false, 2), strip_width)
        expect(twice.length).toBeGreaterThanOrEqual(2 * optimum_strip)
        expect(twice.length).toBeLessThanOrEqual(near(2 * optimum_strip))
        const kerf = 0.125
        const smaller = stripBlanks(strip, false).map((blank) => ({
          ...blank,
          length: blank.length - kerf,
          width: blank.width - kerf,
        }))
        expect(shortest(smaller, strip_width - kerf, kerf).length + kerf).toBeCloseTo(
          shortest(stripBlanks(strip, false), strip_width).length,
          9,
        )
      })
  }

  it('needs more than a strip without waste as soon as the saw takes more than was counted on', () => {
    // Kerf transform (computed): pieces of w - k, a kerf of k, on W - k - e do not fit for any e above 0.
    const strip = instances.strips.find(({ id }) => id === 'C1_1') as Strip
    const kerf = 0.125
    const smaller = stripBlanks(strip, false).map((blank) => ({
      ...blank,
      length: blank.length - kerf,
      width: blank.width - kerf,
    }))
    const { length } = shortest(smaller, strip.strip_width - kerf - 0.001, kerf)
    expect(length + kerf).toBeGreaterThan(strip.optimum_strip)
  })
})

describe('published: boards without waste, several of them', () => {
  for (const id of isSoak ? ['C1_1', 'C1_3', 'N1', 'N2'] : ['C1_3', 'N1']) {
    const strip = instances.strips.find((one) => one.id === id) as Strip
    it(`takes no more boards for two copies of ${id} than the area needs`, () => {
      const blanks = stripBlanks(strip, false, 2)
      const boards = [
        {
          key: 'sheet',
          length: strip.optimum_strip,
          width: strip.strip_width,
          count: Number.POSITIVE_INFINITY,
          cost: 1,
          trim: 0,
        },
      ]
      const problem = { blanks, boards, kerf: 0 }
      const layout = layOut(problem)
      expect(checkLayout(problem, layout)).toEqual([])
      expect(layout.left).toEqual([])
      expect(layout.bound).toEqual({ cost: 2, boards: 2 })
      expect(layout.boards).toHaveLength(2)
    })
  }
})
