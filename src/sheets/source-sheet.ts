/** Sources and methods: where every figure comes from and how the numbers are made. */
import { finishSheet, maker, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Sheet, Source } from './model.ts'

const METHODS = [
  'demand', 'purity', 'water', 'heat', 'fill', 'draws', 'interval', 'block', 'lift', 'mould', 'letters', 'rounding',
] as const // biome-ignore format: one line reads better

/** @param used every source that a sheet of this binder names */
export const sourceSheet = (frame: Frame, used: readonly Source[]): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet('sources', 'sources', say('section.sources'), '13.1', say('sources.title')),
    template: frame.template('sources'),
    fill: {},
    blocks: {
      sources: {
        kind: 'table',
        columns: [
          { head: say('sources.work'), align: 'left' },
          { head: say('sources.where'), align: 'left', width: 34 },
          { head: say('sources.evidence'), align: 'left', width: 18 },
        ],
        rows: [...used]
          .sort((a, b) => (a.key < b.key ? -1 : 1))
          .map((source) => [
            maker(source.title),
            maker(source.where),
            words(say(`frame.evidence.${source.evidence}`)),
          ]),
      },
      methods: {
        kind: 'table',
        columns: [
          { head: say('sources.number'), align: 'left', width: 26 },
          { head: say('sources.how'), align: 'left' },
        ],
        rows: METHODS.map((method) => [words(say(`method.${method}`)), words(say(`method.${method}.how`))]),
      },
    },
    sources: [],
  })
}
