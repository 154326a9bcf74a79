/** How many bars come out too light for their label. */
import type { BoundTolerance, LimitOfBars } from '../../binder/bind-tolerance.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'

const GRAM = 0.001
/** Shares below this are told as less than it [–] */
const LEAST = 0.001

export const limitTable = (
  frame: Frame,
  { limits }: BoundTolerance,
  logs: Readonly<Record<string, string>>,
): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  const share = (name: string, value: number): Inline | ReturnType<typeof show.percent> =>
    value < LEAST
      ? say('tolerance.limits.under', { least: show.percent('limit.least-told', LEAST, 1) })
      : show.percent(name, value, 1)
  const cells = (
    name: string,
    one: { readonly green: number; readonly share: number; readonly blocks: number },
  ): Cell[] => [
    number(show.lightWeight(`${name}.green`, one.green)),
    cellOf(share(`${name}.share`, one.share)),
    cellOf(share(`${name}.blocks`, one.blocks)),
  ]
  return {
    kind: 'table',
    caption: say('tolerance.limits.caption'),
    columns: [
      { head: say('tolerance.limits.of'), align: 'left' },
      right('tolerance.limits.label', 9),
      { head: say('tolerance.limits.drying'), align: 'left', width: 18 },
      right('tolerance.limits.green', 18),
      right('tolerance.limits.share', 12),
      right('tolerance.limits.blocks', 14),
    ],
    rows: limits.flatMap((limit, index): Cell[][] => {
      const name = `limit.${limit.batch?.key ?? limit.of}`
      const declared =
        limit.declared === undefined ? empty : number(show.weight(`${name}.label`, limit.declared, GRAM))
      const first = [
        words(limitWords(frame, limit, index, logs)),
        declared,
        limit.dryEnd ? words(say('tolerance.limits.middle')) : empty,
        ...cells(name, limit),
      ]
      if (!limit.dryEnd) return [first]
      return [
        first,
        [empty, empty, words(say('tolerance.limits.dry')), ...cells(`${name}.dry`, limit.dryEnd)],
      ]
    }),
  }
}

const cellOf = (shown: Inline | ReturnType<Frame['show']['percent']>): Cell =>
  'text' in shown ? words(shown) : number(shown)

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
