/** The same errors added up in three ways, for the weight of bars of each kind of loaf and for their sizes. */
import type { BoundTolerance, ErrorKey } from '../../binder/bind-tolerance.ts'
import type { LoafKind } from '../../tolerance/block-chain.ts'
import { number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'
import { whatWords } from './error-words.ts'

const KIND_WORDS: Readonly<Record<LoafKind, string>> = {
  inner: 'tolerance.kind.inner',
  edge: 'tolerance.kind.edge',
  corner: 'tolerance.kind.corner',
}

export const wayTable = (frame: Frame, { kinds, drawn, barMass }: BoundTolerance): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  const grams = (name: string, share: number) => show.lightWeight(name, share * barMass)
  const chance = (name: string, { low, high }: { readonly low: number; readonly high: number }): Inline =>
    say('tolerance.ways.between', {
      low: show.lightWeight(`${name}.low`, low * barMass),
      high: show.lightWeight(`${name}.high`, high * barMass),
    })
  const rows = kinds.map(({ kind, bars, worst, rootSumSquare }): Cell[] => {
    const spread = drawn.kinds.find((one) => one.kind === kind) ?? drawn.all
    return [
      words(say(KIND_WORDS[kind])),
      number(show.count(`kind.${kind}.bars`, bars)),
      number(grams(`kind.${kind}.worst`, worst)),
      number(grams(`kind.${kind}.rss`, rootSumSquare)),
      words(chance(`kind.${kind}.chance`, spread)),
    ]
  })
  return {
    kind: 'table',
    caption: say('tolerance.ways.caption'),
    columns: [
      { head: say('tolerance.ways.kind'), align: 'left' },
      right('tolerance.ways.bars', 9),
      right('tolerance.ways.worst', 16),
      right('tolerance.ways.rss', 16),
      right('tolerance.ways.chance', 30),
    ],
    rows,
    foot: [
      [
        words(say('tolerance.ways.all')),
        number(show.count('kind.all.bars', drawn.all.bars)),
        number(grams('kind.all.worst', Math.max(...kinds.map(({ worst }) => worst)))),
        number(grams('kind.all.rss', Math.max(...kinds.map(({ rootSumSquare }) => rootSumSquare)))),
        words(chance('kind.all.chance', drawn.all)),
      ],
    ],
  }
}

const SIZE_WORDS = {
  'length-0': 'tolerance.size.length-0',
  'length-1': 'tolerance.size.length-1',
  'length-2': 'tolerance.size.length-2',
  'width-0': 'tolerance.size.width-0',
  'width-1': 'tolerance.size.width-1',
  'width-2': 'tolerance.size.width-2',
  'height-0': 'tolerance.size.height-0',
  'height-1': 'tolerance.size.height-1',
  'height-2': 'tolerance.size.height-2',
} as const

export const sizeTable = (frame: Frame, { sizes }: BoundTolerance): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  return {
    kind: 'table',
    caption: say('tolerance.sizes.caption'),
    columns: [
      { head: say('tolerance.sizes.size'), align: 'left' },
      right('tolerance.sizes.worst', 17),
      right('tolerance.sizes.rss', 17),
      { head: say('tolerance.sizes.most'), align: 'left', width: 37 },
    ],
    rows: sizes.map(({ direction, faces, stack, shares }): Cell[] => {
      const name = `size.${direction}-${faces}` as const
      const listed = shares
        .filter(({ ofVariance }) => ofVariance >= LEAST_TOLD)
        .slice(0, 2)
        .map(({ key, ofVariance }) =>
          say('tolerance.sizes.share', {
            what: whatWords(frame, key as ErrorKey),
            share: show.percent(`${name}.${key}`, ofVariance, 0),
          }),
        )
      const [first, second] = listed
      return [
        words(say(SIZE_WORDS[`${direction}-${faces}`])),
        number(show.thousandths(`${name}.worst`, stack.worst)),
        number(show.thousandths(`${name}.rss`, stack.rootSumSquare)),
        words(
          first === undefined
            ? say('tolerance.sizes.none')
            : second === undefined
              ? first
              : say('tolerance.sizes.then', { first, second }),
        ),
      ]
    }),
  }
}

/** Of the variance of a size [–]: less is not told of */
const LEAST_TOLD = 0.1
