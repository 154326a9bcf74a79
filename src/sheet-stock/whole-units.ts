/**
 * Lengths as whole numbers, and the saw cut taken out of them: what search and bounds work on.
 *
 * Pieces of size w with a kerf k between neighbours fit a board of size W exactly when pieces of w + k without any kerf
 * fit one of W + k. So the kerf is added once to everything, and no search has to know of it.
 */
import type { Blank } from './types.ts'

/** Blanks of one size and worth, in whole units, kerf included. */
export interface Item {
  /** along the board's length [unit] */
  readonly length: number
  /** [unit] */
  readonly width: number
  readonly count: number
  /** of one of them; area where nobody says otherwise */
  readonly value: number
  readonly turns: boolean
  /** the blanks that it stands for, by key and number */
  readonly blanks: readonly {
    readonly key: string
    readonly count: number
    /** the blank's own length is the item's width */
    readonly upright: boolean
  }[]
}

/** A blank that is worth something of its own. */
export interface ValuedBlank extends Blank {
  /** of one of them [any unit, 0 or more]; its area where it is left out */
  readonly value?: number
}

/** nm; sixty-fourths of an inch and hundredths of a millimetre are whole numbers of them */
const NANOMETRE = 1e-9

export interface WholeUnits {
  /** m in a unit */
  readonly unit: number
  /** kerf [m] */
  readonly kerf: number
  readonly items: readonly Item[]
  /** boards in the order that they were given in [unit], kerf included */
  readonly boards: readonly { readonly length: number; readonly width: number }[]
}

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b))

/**
 * Blanks and boards in the largest unit that divides all of them, in an order that does not depend on that of the input.
 *
 * Formula: nanometres, divided by their greatest common divisor. Validity: sizes up to 9 Mm; differences below half a
 * nanometre are none.
 * @param blanks sizes above 0 [m]
 * @param boards as they lie on the saw, edges trimmed [m]
 * @param kerf [m, 0 or more]
 * @returns items of equal size, worth and freedom to turn joined into one, largest first
 * @source common practice
 */
export function wholeUnits(
  blanks: readonly ValuedBlank[],
  boards: readonly { readonly length: number; readonly width: number }[],
  kerf: number,
): WholeUnits {
  const whole = (size: number): number => Math.round((size + kerf) / NANOMETRE)
  const sizes = [...blanks, ...boards].flatMap(({ length, width }) => [whole(length), whole(width)])
  const divisor = sizes.filter((size) => size > 0).reduce(greatestCommon, 0) || 1
  const of = (size: number): number => Math.round(whole(size) / divisor)
  const joined = new Map<string, Item>()
  for (const blank of blanks) {
    const { key, count, turns } = blank
    const [length, width] = [of(blank.length), of(blank.width)]
    // What may lie either way is one item whichever way it was typed.
    const upright = turns && width > length
    const [long, short] = upright ? [width, length] : [length, width]
    const value = blank.value ?? blank.length * blank.width
    const same = joined.get(`${long} ${short} ${value} ${turns}`)
    joined.set(`${long} ${short} ${value} ${turns}`, {
      length: long,
      width: short,
      value,
      turns,
      count: (same?.count ?? 0) + count,
      blanks: [...(same?.blanks ?? []), { key, count, upright }],
    })
  }
  return {
    unit: divisor * NANOMETRE,
    kerf,
    items: [...joined.values()].sort(
      (a, b) => b.length * b.width - a.length * a.width || b.length - a.length || b.value - a.value,
    ),
    boards: boards.map(({ length, width }) => ({ length: of(length), width: of(width) })),
  }
}

/**
 * No more of an item than fit on a board, by its area alone.
 *
 * Formula: as often as its area goes into the board's; at least one. Validity: whatever else lies there.
 * @param item  kerf included [unit]
 * @param board kerf included [unit]
 * @returns pieces that are worth looking at [–]
 * @source common practice
 */
export const mostByArea = (
  { length, width, count }: Item,
  board: { readonly length: number; readonly width: number },
): number => Math.max(1, Math.min(count, Math.floor((board.length * board.width) / (length * width))))
