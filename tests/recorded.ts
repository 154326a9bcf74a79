/** What the program said once, kept line by line: not whether it is right, only that nobody changes it unseen. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect } from 'vitest'

/** Of a line; what is longer is told part by part. */
const LONGEST = 160
/** Figures of a number: sums of another order differ by less. */
const FIGURES = 7

/** A record as lines of "where: what", a part that has a key or a name standing by it. */
export const asLines = (value: unknown, where = ''): string[] => {
  const text = JSON.stringify(value, (_, one) =>
    typeof one === 'number'
      ? Number.isFinite(one)
        ? tidy(one)
        : String(one)
      : one instanceof Map
        ? [...one]
        : one,
  )
  if (text === undefined) return []
  if (text.length + where.length < LONGEST || typeof value !== 'object' || value === null)
    return [`${where}: ${text}`]
  const parts = value instanceof Map ? [...value] : Object.entries(value)
  return parts.flatMap(([key, one]) => asLines(one, `${where}${where === '' ? '' : ' / '}${named(key, one)}`))
}

/** @param figures searches may stop a little before or after: of what they find, fewer */
export const tidy = (value: number, figures = FIGURES): number => {
  const short = Number(value.toPrecision(figures))
  // what sums of floating numbers leave over
  return Math.abs(short) < 1e-12 ? 0 : short
}

const named = (key: unknown, value: unknown): string => {
  const { key: own = undefined, name = own } = (typeof value === 'object' && value !== null ? value : {}) as {
    key?: unknown
    name?: unknown
  }
  return typeof name === 'string' ? name : String(key)
}

/**
 * Holds a value against a file beside its test. A file that is not there is written where somebody asks for it.
 *
 *     KETTLE_RECORD=1 npm test -- tests/fixtures/recorded.test.ts
 */
export const expectRecorded = (value: unknown, name: string, test: string): void => {
  const place = fileURLToPath(new URL(`recorded/${name}.txt`, test))
  const lines = asLines(value)
  if (!existsSync(place) && process.env.KETTLE_RECORD === '1') {
    mkdirSync(dirname(place), { recursive: true })
    writeFileSync(place, `${lines.join('\n')}\n`)
  }
  expect(lines).toEqual(readFileSync(place, 'utf8').trimEnd().split('\n'))
}

type Tree = Readonly<Record<string, unknown>>

/**
 * What a function answers when one number of its input becomes another, each by itself: where limits are, and what counts.
 *
 * @param input   a record with numbers anywhere in it
 * @param answer  of any kind
 * @param factors each number is multiplied by
 * @param leftOut names of parts of the input that stay as they are
 * @returns for each number and factor the change in words, and the answer
 */
export const asNumbersChange = <Input extends object, Answer>(
  input: Input,
  answer: (input: Input) => Answer,
  factors: readonly number[],
  leftOut: ReadonlySet<string> = new Set(),
): [change: string, answer: Answer][] =>
  waysTo(input as Tree, leftOut).flatMap((way) =>
    factors.map((factor): [string, Answer] => [
      `${way.join('.')} × ${factor}`,
      answer(changed(input, way, factor) as Input),
    ]),
  )

const waysTo = (tree: Tree, leftOut: ReadonlySet<string>): string[][] =>
  Object.entries(tree).flatMap(([key, value]) => {
    if (leftOut.has(key)) return []
    if (typeof value === 'number') return [[key]]
    if (typeof value !== 'object' || value === null) return []
    return waysTo(value as Tree, leftOut).map((way) => [key, ...way])
  })

const changed = (tree: unknown, [key = '', ...way]: readonly string[], factor: number): unknown => {
  const value = (tree as Tree)[key]
  const other = typeof value === 'number' ? value * factor : changed(value, way, factor)
  return Array.isArray(tree)
    ? tree.map((one, index) => (String(index) === key ? other : one))
    : { ...(tree as Tree), [key]: other }
}
