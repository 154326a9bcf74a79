/** Sources and methods: where every figure comes from and how the numbers are made. */
import { finishSheet, maker, pickSources, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Place } from './links.ts'
import type { Sheet, Source } from './model.ts'

/**
 * @param place   that it has in its binder
 * @param methods kinds of numbers, each with keys of the works behind it: `method.KEY` and `method.KEY.how` say how
 * @param used    every source that a sheet of this binder names
 */
export const sourceSheet = (
  frame: Frame,
  { id, number: sheetNumber }: Place,
  methods: Readonly<Record<string, readonly string[]>>,
  used: readonly Source[],
): Sheet => {
  const { say, show } = frame
  const methodSources = pickSources(frame.sources, Object.values(methods).flat())
  const listed = [...new Map([...used, ...methodSources].map((one) => [one.key, one])).values()].sort(
    (a, b) => (a.key < b.key ? -1 : 1),
  )
  const numberOf = (key: string): string => String(listed.findIndex((source) => source.key === key) + 1)
  return finishSheet({
    ...frame.sheet('sources', id, say('section.sources'), sheetNumber, say('sources.title')),
    template: frame.template('sources'),
    fill: {},
    blocks: {
      sources: {
        kind: 'table',
        columns: [
          { head: say('sources.no'), align: 'right', width: 6 },
          { head: say('sources.work'), align: 'left' },
          { head: say('sources.where'), align: 'left', width: 30 },
          { head: say('sources.evidence'), align: 'left', width: 16 },
        ],
        rows: listed.map((source) => [
          maker(numberOf(source.key)),
          maker(source.title),
          source.where === '' ? words(say(`sources.where-${unseen(source)}`)) : maker(source.where),
          words(say(`frame.evidence.${source.evidence}`)),
        ]),
      },
      methods: {
        kind: 'table',
        columns: [
          { head: say('sources.number'), align: 'left', width: 22 },
          { head: say('sources.how'), align: 'left' },
          { head: say('sources.from'), align: 'left', width: 14 },
        ],
        rows: Object.entries(methods).map(([method, keys]) => [
          words(say(`method.${method}`)),
          words(say(`method.${method}.how`)),
          maker(
            keys
              .map(numberOf)
              .sort((a, b) => Number(a) - Number(b))
              .join(show.numbersMark),
          ),
        ]),
      },
    },
    sources: [],
  })
}

/** Where a source stands that names no place. */
const unseen = ({ evidence }: Source): 'recalled' | 'here' | 'unsaid' => {
  if (evidence === 'recalled') return 'recalled'
  return evidence === 'read' ? 'unsaid' : 'here'
}
