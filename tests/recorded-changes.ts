/** Answers of several functions to one input, and to the same input with one number changed: only what changes is kept. */
import { asNumbersChange, expectRecorded } from './recorded.ts'

/** Figures of a number: a search may stop a little before or after. */
const FIGURES = 6

const told = (answer: unknown): string =>
  JSON.stringify(answer, (_, one) =>
    typeof one !== 'number' ? one : Number.isFinite(one) ? figuresOf(one) : String(one),
  ) ?? 'nothing'

const figuresOf = (value: number): number => {
  const short = Number(value.toPrecision(FIGURES))
  // what sums of floating numbers leave over
  return Math.abs(short) < 1e-12 ? 0 : short
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
  const before = all(input)
  const rows = asNumbersChange(input, all, factors, leftOut).map(([change, after]): [string, string[]] => [
    change,
    after.filter((one) => !before.includes(one)),
  ])
  expectRecorded(
    Object.fromEntries([['as it is', before], ...rows.filter(([, after]) => after.length > 0)]),
    place.name,
    place.test,
  )
}

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
