/** What becomes another when one number of an input does: only what changes is kept. */
import { asNumbersChange, expectRecorded, tidy } from './recorded.ts'

/** Figures of a number: a search may stop a little before or after. */
const FIGURES = 6

const told = (answer: unknown): string =>
  JSON.stringify(answer, (_, one) =>
    typeof one !== 'number' ? one : Number.isFinite(one) ? tidy(one, FIGURES) : String(one),
  ) ?? 'nothing'

/**
 * Lines that a function answers, and of each change of its input those alone that were not among them.
 *
 * @param input   a record with numbers anywhere in it
 * @param lines   that are told of it
 * @param factors each number is multiplied by
 * @param leftOut names of parts of the input that stay as they are
 * @returns by change, for records of `expectRecorded`
 */
export const newLines = <Input extends object>(
  input: Input,
  lines: (given: Input) => readonly string[],
  factors: readonly number[],
  leftOut: ReadonlySet<string> = new Set(),
): Readonly<Record<string, readonly string[]>> => {
  const before = lines(input)
  const rows = asNumbersChange(input, lines, factors, leftOut).map(([change, after]): [string, string[]] => [
    change,
    after.filter((one) => !before.includes(one)),
  ])
  return Object.fromEntries([['as it is', before], ...rows.filter(([, after]) => after.length > 0)])
}

/**
 * Holds what functions answer, as each number of their input becomes another, against a file beside the test.
 *
 * @param input   a record with numbers anywhere in it
 * @param answers by the name of what is asked; one that throws is kept with its message
 * @param factors each number is multiplied by
 * @param leftOut names of parts of the input that stay as they are
 */
export const expectChangesRecorded = <Input extends object>(
  place: { readonly name: string; readonly test: string },
  input: Input,
  answers: Readonly<Record<string, (given: Input) => unknown>>,
  factors: readonly number[],
  leftOut: ReadonlySet<string> = new Set(),
): void => {
  const all = (given: Input): readonly string[] =>
    Object.entries(answers).map(([name, answer]) => {
      try {
        return `${name}: ${told(answer(given))}`
      } catch (error) {
        return `${name}: throws ${(error as Error).message}`
      }
    })
  expectRecorded(newLines(input, all, factors, leftOut), place.name, place.test)
}

/**
 * `expectChangesRecorded` beside one test file.
 *
 * @param test where it stands: `import.meta.url`
 */
export const changesBeside =
  (test: string) =>
  <Input extends object>(
    name: string,
    input: Input,
    answers: Readonly<Record<string, (given: Input) => unknown>>,
    factors: readonly number[],
    leftOut?: ReadonlySet<string>,
  ): void =>
    expectChangesRecorded({ name, test }, input, answers, factors, leftOut)

/** One answer for all that is asked of it. */
export const once = <Input extends object, Answer>(
  run: (given: Input) => Answer,
): ((given: Input) => Answer) => {
  const known = new WeakMap<Input, { readonly answer: Answer }>()
  return (given) => {
    const found = known.get(given) ?? { answer: run(given) }
    known.set(given, found)
    return found.answer
  }
}

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
  const answered = (given: Input): unknown => {
    try {
      return answer(given)
    } catch (error) {
      return `throws ${(error as Error).message}`
    }
  }
  const asItIs = answered(input)
  const before = leavesOf(asItIs)
  const changes = asNumbersChange(input, answered, factors, leftOut)
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

const figures = (value: unknown): string => String(typeof value === 'number' ? tidy(value) : value)
