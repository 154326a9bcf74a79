/** The same errors added up in three ways, for the weight of bars of each kind of loaf and for their sizes. */
import type { BoundTolerance, ErrorKey } from '../../binder/bind-tolerance.ts'
import type { LoafKind } from '../../tolerance/block-chain.ts'
import { number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { ERROR_WORDS } from './error-words.ts'

const KIND_WORDS: Readonly<Record<LoafKind, string>> = {
  inner: 'tolerance.kind.inner',
  edge: 'tolerance.kind.edge',
  corner: 'tolerance.kind.corner',
}

export const wayTable = (frame: Frame, { kinds, drawn, barMass, deviations }: BoundTolerance): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  const grams = (name: string, share: number) => show.lightWeight(name, share * barMass)
  const chance = (name: string, { deviation }: { readonly deviation: number }) =>
    number(grams(`${name}.chance`, deviations * deviation))
  const rows = kinds.map(({ kind, bars, worst, rootSumSquare }): Cell[] => {
    const spread = drawn.kinds.find((one) => one.kind === kind) ?? drawn.all
    return [
      words(say(KIND_WORDS[kind])),
      number(show.count(`kind.${kind}.bars`, bars)),
      number(grams(`kind.${kind}.worst`, worst)),
      number(grams(`kind.${kind}.rss`, rootSumSquare)),
      chance(`kind.${kind}`, spread),
    ]
  })
  return {
    kind: 'table',
    caption: say('tolerance.ways.caption'),
    columns: [
      { head: say('tolerance.ways.kind'), align: 'left' },
      right('tolerance.ways.bars', 12),
      right('tolerance.ways.worst', 17),
      right('tolerance.ways.rss', 17),
      right('tolerance.ways.chance', 20),
    ],
    rows,
    foot: [
      [
        words(say('tolerance.ways.all')),
        number(show.count('kind.all.bars', drawn.all.bars)),
        number(grams('kind.all.worst', Math.max(...kinds.map(({ worst }) => worst)))),
        number(grams('kind.all.rss', Math.max(...kinds.map(({ rootSumSquare }) => rootSumSquare)))),
        chance('kind.all', drawn.all),
      ],
    ],
  }
}

type Size = BoundTolerance['sizes'][number]

const SIZE_WORDS = {
  'length-0': 'tolerance.size.length-0',
  'length-1': 'tolerance.size.length-1',
  'length-2': 'tolerance.size.length-2',
  'width-0': 'tolerance.size.width-0',
  'width-1': 'tolerance.size.width-1',
  'width-2': 'tolerance.size.width-2',
  'both-0': 'tolerance.size.both-0',
  'both-1': 'tolerance.size.both-1',
  'both-2': 'tolerance.size.both-2',
  'height-0': 'tolerance.size.height-0',
  'height-1': 'tolerance.size.height-1',
  'height-2': 'tolerance.size.height-2',
} as const

/** Length and width of the block as one row, where they are off alike. */
const sizeRows = (sizes: readonly Size[]): readonly (Size & { readonly of: keyof typeof SIZE_WORDS })[] =>
  sizes.flatMap((size) => {
    const alike = sizes.filter(
      (other) =>
        other.faces === size.faces &&
        other.direction !== 'height' &&
        size.direction !== 'height' &&
        Math.abs(other.stack.worst - size.stack.worst) < ALIKE &&
        Math.abs(other.stack.nearlyAll - size.stack.nearlyAll) < ALIKE,
    )
    if (alike.length === 2 && size.direction === 'width') return []
    return [{ ...size, of: `${alike.length === 2 ? 'both' : size.direction}-${size.faces}` as const }]
  })

/** m; less is not seen in a table */
const ALIKE = 5e-6
/** Shares that a whole percent does not tell apart [–] */
const EVEN = 0.005

export const sizeTable = (frame: Frame, { sizes }: BoundTolerance): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  return {
    kind: 'table',
    caption: say('tolerance.sizes.caption'),
    columns: [
      { head: say('tolerance.sizes.size'), align: 'left' },
      right('tolerance.sizes.worst', 18),
      right('tolerance.sizes.chance', 18),
      { head: say('tolerance.sizes.most'), align: 'left', width: 39 },
    ],
    rows: sizeRows(sizes).map(({ of, stack, shares }): Cell[] => {
      const name = `size.${of}` as const
      const [most, other] = shares
      const isEven = most && other && most.ofVariance - other.ofVariance < EVEN
      return [
        words(say(SIZE_WORDS[of])),
        number(show.thousandths(`${name}.worst`, stack.worst)),
        number(show.thousandths(`${name}.chance`, stack.nearlyAll)),
        words(
          most && most.ofVariance > 0
            ? say(isEven ? 'tolerance.sizes.shares' : 'tolerance.sizes.share', {
                what: say(ERROR_WORDS[most.key as ErrorKey].short),
                ...(isEven ? { other: say(ERROR_WORDS[other.key as ErrorKey].short) } : {}),
                share: show.percent(`${name}.${most.key}`, most.ofVariance, 0),
              })
            : say('tolerance.sizes.none'),
        ),
      ]
    }),
  }
}
