/** Shapes that several kinds of file share. */
import { z } from 'zod'
import { name, report } from './fields.ts'

/** A mapping from the maker's own keys to things of one kind, at least one of them. */
export const mapOf = <T extends z.ZodType>(thing: T) =>
  z
    .record(name(), thing)
    .superRefine((map, context) => {
      if (Object.keys(map).length > 0) return
      report(context, {
        code: 'nothing-listed',
        message: 'Nothing is listed here',
        advice: 'List at least one below, each on a line of its own with a name and a colon.',
      })
    })
    .meta({ minProperties: 1 })

/** A range is typed from its lower to its upper end; a limit that is not given is none. */
export const inOrder = (
  range: { readonly from?: number | undefined; readonly to?: number | undefined },
  context: z.RefinementCtx,
): void => {
  if (range.from === undefined || range.to === undefined || range.from <= range.to) return
  report(context, {
    code: 'range-upside-down',
    message: 'The range begins above its end',
    advice: 'Swap "from" and "to".',
  })
}

/** Of several ways to say one thing, just one is used. */
export const exactlyOne = (
  thing: Readonly<Record<string, unknown>>,
  keys: readonly [string, ...string[]],
  context: z.RefinementCtx,
): void => {
  const given = keys.filter((key) => thing[key] !== undefined)
  if (given.length === 1) return
  const named = keys.map((key) => `"${key}"`).join(', ')
  report(context, {
    code: given.length === 0 ? 'none-of-several' : 'more-than-one',
    message: given.length === 0 ? `One of ${named} is missing` : `Only one of ${named} can be said`,
    advice: given.length === 0 ? `Add one of ${named}.` : `Keep one of them and take the other out.`,
    path: given[1] === undefined ? [] : [given[1]],
    at: 'key',
  })
}
