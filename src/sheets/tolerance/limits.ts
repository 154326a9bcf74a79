/** How many bars come out too light for their label. */
import type { BoundTolerance, LimitOfBars } from '../../binder/bind-tolerance.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'

/** kg */
const GRAM = 0.001
const TENTH = 0.0001
/** Bars of a block: fewer are told as less than it */
const LEAST = 0.1

export const limitTable = (
  frame: Frame,
  { limits }: BoundTolerance,
  logs: Readonly<Record<string, string>>,
): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  const hasCentred = limits.some(({ centred }) => centred !== undefined)
  const light = (name: string, { share, bars }: Pick<LimitOfBars, 'share' | 'bars'>): Cell => {
    const isFew = share * bars < LEAST / 2
    return words(
      say(isFew ? 'tolerance.limits.under' : 'tolerance.limits.light', {
        bars: isFew
          ? show.meanCount('limit.least-told', LEAST)
          : show.meanCount(`${name}.light`, share * bars),
        all: show.count(`${name}.bars`, bars),
      }),
    )
  }
  const needed = (name: string, one: Pick<LimitOfBars, 'green' | 'share' | 'bars'>): Cell[] => [
    number(show.weight(`${name}.green`, one.green, TENTH)),
    light(name, one),
  ]
  const hasDry = limits.some(({ dryEnd }) => dryEnd !== undefined)
  return {
    kind: 'table',
    caption: say('tolerance.limits.caption'),
    columns: [
      { head: say('tolerance.limits.of'), align: 'left' },
      right('tolerance.limits.label', 7),
      right('tolerance.limits.mean', 9),
      right('tolerance.limits.green', 9),
      right('tolerance.limits.share', 11),
      ...(hasDry ? [right('tolerance.limits.green-dry', 10), right('tolerance.limits.share-dry', 11)] : []),
      ...(hasCentred ? [right('tolerance.limits.centred', 11)] : []),
      right(hasDry ? 'tolerance.limits.blocks-dry' : 'tolerance.limits.blocks', 10),
    ],
    rows: limits.map((limit, index): Cell[] => {
      const name = `limit.${limit.batch?.key ?? limit.of}`
      return [
        words(limitWords(frame, limit, index, logs)),
        limit.declared === undefined ? empty : number(show.weight(`${name}.label`, limit.declared, GRAM)),
        number(show.weight(`${name}.mean`, limit.mean, TENTH)),
        ...needed(name, limit),
        ...(limit.dryEnd ? needed(`${name}.dry`, limit.dryEnd) : hasDry ? [empty, empty] : []),
        ...(limit.centred ? [light(`${name}.centred`, limit.centred)] : hasCentred ? [empty] : []),
        number(show.percent(`${name}.blocks`, (limit.dryEnd ?? limit).blocks, 0)),
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
