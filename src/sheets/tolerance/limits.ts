/** How many bars come out too light for their label. */
import type { BoundTolerance, LimitOfBars } from '../../binder/bind-tolerance.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'

/** kg */
const GRAM = 0.001
const TENTH = 0.0001
/** Shares below this are told as less than it [–] */
const LEAST = 0.001

export const limitTable = (
  frame: Frame,
  { limits }: BoundTolerance,
  logs: Readonly<Record<string, string>>,
): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  const share = (name: string, value: number): Cell =>
    value < LEAST
      ? words(say('tolerance.limits.under', { least: show.percent('limit.least-told', LEAST, 1) }))
      : number(show.percent(name, value, 1))
  const needed = (name: string, one: { readonly green: number; readonly share: number }): Cell[] => [
    number(show.weight(`${name}.green`, one.green, TENTH)),
    share(`${name}.share`, one.share),
  ]
  const hasDry = limits.some(({ dryEnd }) => dryEnd !== undefined)
  return {
    kind: 'table',
    caption: say('tolerance.limits.caption'),
    columns: [
      { head: say('tolerance.limits.of'), align: 'left' },
      right('tolerance.limits.label', 8),
      right('tolerance.limits.green', 14),
      right('tolerance.limits.share', 13),
      ...(hasDry ? [right('tolerance.limits.green-dry', 14), right('tolerance.limits.share-dry', 12)] : []),
      right(hasDry ? 'tolerance.limits.blocks-dry' : 'tolerance.limits.blocks', 15),
    ],
    rows: limits.map((limit, index): Cell[] => {
      const name = `limit.${limit.batch?.key ?? limit.of}`
      return [
        words(limitWords(frame, limit, index, logs)),
        limit.declared === undefined ? empty : number(show.weight(`${name}.label`, limit.declared, GRAM)),
        ...needed(name, limit),
        ...(limit.dryEnd ? needed(`${name}.dry`, limit.dryEnd) : hasDry ? [empty, empty] : []),
        share(`${name}.blocks`, (limit.dryEnd ?? limit).blocks),
      ]
    }),
  }
}

const limitWords = (
  { say, show }: Frame,
  { of, batch }: LimitOfBars,
  index: number,
  logs: Readonly<Record<string, string>>,
): Inline => {
  if (of === 'typed') return say('tolerance.limits.typed')
  if (!batch) return say('tolerance.limits.presumed')
  return say('tolerance.limits.batch', {
    recipe: batch.recipeTitle,
    date: show.shortDate(`limit.${index + 1}.date`, batch.date),
    log: logs[batch.key] ?? '',
  })
}
