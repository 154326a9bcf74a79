/** The few readings of finished fixtures that change a number elsewhere, and what follows from them. */
import type { BoundAsBuilt, Reading } from '../../binder/bind-as-built.ts'
import { finishSheet, inlineList, nothing, pickSources } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Inline, Sheet, Value } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { batchTable, costItems, loafTable, sliceTable, tunedTable } from './follows.ts'
import { placesFigure } from './places.ts'
import { exampleOf, mostOf, readingTable, typingTable } from './readings.ts'

export const asBuiltSheet = (frame: Frame, bound: BoundAsBuilt, numbers: FixtureNumbers): Sheet => {
  const { say } = frame
  const groups = readingGroups(bound.readings)
  const wires = linkTo({ id: `wires/${bound.key}`, number: numbers.wires ?? '' })
  return finishSheet({
    ...frame.sheet(
      'fixture',
      `as-built/${bound.key}`,
      say('section.fixture'),
      numbers.asBuilt ?? '',
      say('as-built.title', { title: bound.title }),
    ),
    template: frame.template('as-built'),
    fill: {
      records: records(frame, bound, numbers),
      state: say(bound.isTyped ? 'as-built.state.typed' : 'as-built.state.drawn'),
    },
    blocks: {
      places: placesFigure(frame, bound, groups),
      how: {
        kind: 'steps',
        first: 1,
        items: howTo(bound).map((key) => ({
          text: say(`as-built.how.${key}`, { ...letterFill(groups), below: below(frame, bound) }),
        })),
      },
      rules: {
        kind: 'cautions',
        signal: 'notice',
        heading: say('as-built.rules.heading'),
        items: rules(frame, bound, groups),
      },
      readings: readingTable(frame, bound, groups),
      most: mostOf(frame, groups),
      typing: typingTable(frame, bound, groups),
      misfits: misfits(frame, bound),
      cost: {
        kind: 'cautions',
        signal: 'notice',
        heading: say('as-built.cost.heading'),
        items: bound.isTyped ? costItems(frame, bound) : [],
      },
      batches: bound.batches.length > 0 ? batchTable(frame, bound) : nothing,
      // as drawn all are alike, as the mould's sheet says
      loaves: bound.isTyped ? loafTable(frame, bound) : nothing,
      slices: bound.isTyped ? sliceTable(frame, bound) : nothing,
      tuned: bound.wires.length > 0 ? tunedTable(frame, bound, wires) : nothing,
    },
    sources: pickSources(frame.sources, ['mersenne1636', 'common-practice']),
  })
}

/** Steps in the order in which they are taken. Whoever bends over a tight wire has goggles on before. */
const howTo = ({ grid, bar }: BoundAsBuilt): readonly string[] => [
  'water',
  'inside',
  ...(grid || bar ? ['goggles'] : []),
  ...(grid ? ['frame', 'wires', 'speaking'] : []),
  ...(bar ? ['bar'] : []),
]

/** What is typed in and what is built anew; the least of a frame with an example. */
const rules = (frame: Frame, bound: BoundAsBuilt, groups: readonly ReadingGroup[]): readonly Inline[] => {
  const { grid, bar } = bound
  const example = grid ? exampleOf(frame, bound) : undefined
  const keys = [
    'always',
    ...(grid ? ['always-frame'] : []),
    'pass',
    'type',
    'rebuild',
    ...(grid ? ['rebuild-grid'] : []),
    ...(bar ? ['rebuild-bar'] : []),
    ...(grid ? ['frame'] : []),
    ...(example ? ['example'] : []),
    'refused',
  ]
  return keys.map((key) => frame.say(`as-built.rules.${key}`, { ...letterFill(groups), ...example }))
}

/** How far below the rim the pour shall stand. */
const below = ({ show }: Frame, { readings }: BoundAsBuilt): Value =>
  show.millimetres('as-built.how.below', readings.find(({ key }) => key === 'water-below-rim')?.drawn ?? 0)

/** Readings under one letter: one, or the places of a row of wires. */
export interface ReadingGroup {
  readonly letter: string
  readonly key: string
  readonly readings: readonly [Reading, ...Reading[]]
}

/** I and O are left out: they read as digits. */
const LETTERS = 'ABCDEFGHJKLMNPQ'

const readingGroups = (readings: readonly Reading[]): readonly ReadingGroup[] => {
  const keys = [...new Set(readings.map(({ on, key }) => `${on} ${key}`))]
  return keys.flatMap((key, index) => {
    const [first, ...rest] = readings.filter((one) => `${one.on} ${one.key}` === key)
    return first ? [{ letter: LETTERS[index] ?? '', key: first.key, readings: [first, ...rest] }] : []
  })
}

/** Letters by the keys of their readings, for the placeholders of a phrase; a block of one row has no wires across its width. */
const letterFill = (groups: readonly ReadingGroup[]): Readonly<Record<string, string>> => ({
  ...Object.fromEntries(OF_WIRES.map((key) => [key, '–'])),
  ...Object.fromEntries(groups.map(({ key, letter }) => [key, letter])),
})
const OF_WIRES = ['wires-across-length', 'wires-across-width', 'speaking-short', 'speaking-long'] as const

/** Sheets that the whole inspection records stand on. */
const records = ({ say }: Frame, { key }: BoundAsBuilt, numbers: FixtureNumbers): Inline => {
  const sheets = [
    { id: `fixture/${key}`, number: numbers.mould },
    ...(numbers.gridCutter ? [{ id: `grid-cutter/${key}`, number: numbers.gridCutter }] : []),
    ...(numbers.barCutter ? [{ id: `bar-cutter/${key}`, number: numbers.barCutter }] : []),
  ].map((place) => linkTo(place))
  return inlineList(say, sheets)
}

/** What was measured and does not go together, each with what to do. */
const misfits = (frame: Frame, { findings }: BoundAsBuilt): Block => {
  const words = findingsWords(frame, findings)
  return {
    kind: 'cautions',
    signal: findings.some(({ severity }) => severity === 'stop') ? 'warning' : 'caution',
    heading: frame.say('as-built.misfits.heading'),
    items: findings.map(({ code, severity }, index) => {
      const what = words[index] as Inline
      return severity === 'stop'
        ? frame.say('as-built.misfits.item', { what, remedy: frame.say(`finding.${code}.do`) })
        : what
    }),
  }
}
