/** What of an answer becomes another when one number of its input does, a line for each change. */
import { asNumbersChange } from './recorded.ts'

const FIGURES = 7

/**
 * For records of `expectRecorded`: the answer as it is, and of each change only what is other than that. A change that
 * nothing comes of has no line.
 *
 * @param input   a record with numbers anywhere in it
 * @param answer  of any kind
 * @param factors each number is multiplied by
 * @param leftOut names of parts of the input that stay as they are
 * @returns by change, what is other then
 */
export const whatChanges = <Input extends object>(
  input: Input,
  answer: (input: Input) => unknown,
  factors: readonly number[],
  leftOut: ReadonlySet<string> = new Set(),
): object => {
  const told = (given: Input): unknown => {
    try {
      return answer(given)
    } catch (error) {
      return `throws ${(error as Error).message}`
    }
  }
  const asItIs = told(input)
  const before = leavesOf(asItIs)
  const changes = asNumbersChange(input, told, factors, leftOut)
    .map(([change, found]): [string, string] => [change, otherThan(before, leavesOf(found))])
    .filter(([, other]) => other !== '')
  return Object.fromEntries([['as it is', asItIs], ...changes])
}

const otherThan = (before: ReadonlyMap<string, string>, now: ReadonlyMap<string, string>): string =>
  [
    ...[...now].filter(([name, value]) => before.get(name) !== value).map((one) => one.join(' ')),
    ...[...before.keys()].filter((name) => !now.has(name)).map((name) => `no ${name}`),
  ].join(', ')

const leavesOf = (value: unknown, name = ''): Map<string, string> => {
  if (typeof value !== 'object' || value === null) return new Map([[name, figures(value)]])
  const inside = [...(value instanceof Map ? value : Object.entries(value))]
  return new Map(inside.flatMap(([key, one]) => [...leavesOf(one, name === '' ? key : `${name}.${key}`)]))
}

const figures = (value: unknown): string => {
  if (typeof value !== 'number') return String(value)
  const short = Number(value.toPrecision(FIGURES))
  // what sums of floating numbers leave over
  return Math.abs(short) < 1e-12 ? '0' : String(short)
}
