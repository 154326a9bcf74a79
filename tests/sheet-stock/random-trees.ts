/** Trees of saw cuts by chance, from the board down: nothing of this knows how layouts are found. */
import fc from 'fast-check'
import type { Blank, Board, LayoutProblem, Region, SheetLayout } from '../../src/sheet-stock/types.ts'

export interface RandomLayout {
  readonly problem: LayoutProblem
  readonly layout: SheetLayout
}

/** Draws from a list of numbers between 0 and 1, over and over. */
const drawer = (draws: readonly number[]): (() => number) => {
  let at = 0
  return () => {
    at += 1
    return draws[at % draws.length]!
  }
}

/** One to three boards, each parted again and again until chance says that a piece is a blank or an offcut. */
export const randomLayout: fc.Arbitrary<RandomLayout> = fc
  .record({
    // whole numbers: doubles by chance are tiny ones most of the time
    draws: fc.array(
      fc.integer({ min: 0, max: 999 }).map((draw) => draw / 1000),
      { minLength: 30, maxLength: 120 },
    ),
    kerf: fc.constantFrom(0, 0.0024, 0.003175),
    trim: fc.constantFrom(0, 0.002, 0.00635, 0.012),
    length: fc.integer({ min: 300, max: 2440 }).map((size) => size / 1000),
    width: fc.integer({ min: 200, max: 1525 }).map((size) => size / 1000),
    boards: fc.integer({ min: 1, max: 3 }),
    depth: fc.integer({ min: 0, max: 8 }),
  })
  .map(({ draws, kerf, trim, length, width, boards, depth }) => {
    const draw = drawer(draws)
    const blanks: Blank[] = []
    const board: Board = { key: 'sheet', length, width, count: boards, cost: 1, trim }
    const grow = (along: number, across: number, long: number, wide: number, left: number): Region => {
      const place = { along, across, length: long, width: wide }
      const chance = draw()
      const blank = (): Region => {
        const turned = draw() < 0.3
        const key = `part-${blanks.length}`
        const [own, other] = turned ? [wide, long] : [long, wide]
        blanks.push({ key, length: own, width: other, count: 1, turns: turned })
        return { kind: 'blank', key, turned, ...place }
      }
      if (left === 0 || Math.min(long, wide) < 0.03)
        return chance < 0.7 ? blank() : { kind: 'offcut', ...place }
      if (chance < 0.12) return blank()
      if (chance < 0.18) return { kind: 'offcut', ...place }
      const cut = draw() < 0.5 ? 'rip' : 'crosscut'
      const size = cut === 'rip' ? wide : long
      // now and then equal strips, and now and then so little beyond that the saw takes it
      const near = draw() < 0.1 ? size - kerf * draw() : draw() < 0.5 ? size / 4 : size * (0.1 + 0.8 * draw())
      const beyond = size - near - kerf
      if (near >= size - 1e-6) return blank()
      const far = near + kerf
      const first =
        cut === 'rip' ? grow(along, across, long, near, left - 1) : grow(along, across, near, wide, left - 1)
      if (beyond <= 1e-6) return { kind: 'cut', cut, ...place, first }
      const second =
        cut === 'rip'
          ? grow(along, across + far, long, beyond, left - 1)
          : grow(along + far, across, beyond, wide, left - 1)
      return { kind: 'cut', cut, ...place, first, second }
    }
    const sawn = Array.from({ length: boards }, () => ({
      board: 'sheet',
      region: grow(0, 0, length - 2 * trim, width - 2 * trim, depth),
    }))
    return {
      problem: { blanks, boards: [board], kerf },
      layout: { boards: sawn, left: [], bound: { cost: 0, boards: 0 } },
    }
  })
