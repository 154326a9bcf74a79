/** The racks: how many bars a shelf takes, how full they get week by week, and which bars stand where. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import type { RackPlaces } from '../../cure/racks.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import type { Finding } from '../../findings.ts'
import { dateOf, dayNumber } from '../../units/civil-day.ts'
import { empty, finishSheet, inlineWords, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Figure, Inline, Sheet, Table } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { batchWords, withRemedy } from './tasks.ts'

const CHART = { width: 172, height: 74 } as const
const WEEK = 7
/** mm of paper that the name of a week needs below the axis */
const NAMED = 19
/** of the width of a week that its column takes */
const COLUMN = 0.8

/** @returns nothing for a shop without racks in its file */
export const rackSheet = (frame: Frame, binder: BoundBinder, order: number): Sheet | undefined => {
  const { say } = frame
  const { calendar } = binder
  if (calendar.racks.length === 0) return undefined
  const kinds = kindsOfBars(binder.cures)
  const findings = kinds.flatMap(({ racks }) => racks.flatMap((rack) => rack.findings))
  const blocks: Record<string, Block> = {
    places: placesTable(frame, kinds),
    notes: { kind: 'cautions', signal: 'warning', items: uniqueFindings(frame, findings) },
    care: {
      kind: 'steps',
      first: 1,
      items: ['wall', 'low', 'shelf', 'stand', 'mark'].map((key) => ({ text: say(`racks.care.${key}`) })),
    },
    chart: calendar.weeks.length === 0 ? nothing : weeksChart(frame, binder),
    weeks: calendar.weeks.length === 0 ? nothing : weeksTable(frame, binder),
    where: binder.cures.length === 0 ? nothing : whereTable(frame, binder),
  }
  return finishSheet({
    ...frame.sheet('cure', 'cure/racks', say('section.cure'), `6.${order}`, say('racks.title')),
    template: frame.template('racks'),
    fill: {},
    blocks,
    sources: pickSources(frame.sources, ['shelf-practice', 'common-practice']),
  })
}

interface Kind {
  readonly cure: BoundCure
  readonly racks: readonly RackPlaces[]
}

/** Bars that take other places than those before: of another mould, or heavier than a shelf carries. */
const kindsOfBars = (cures: readonly BoundCure[]): Kind[] => {
  const kinds = new Map<string, Kind>()
  for (const cure of cures) {
    const { alongLength, alongWidth, thickness } = cure.batch.mould.bar.green
    const key = JSON.stringify([alongLength, alongWidth, thickness, cure.racks.map(({ places }) => places)])
    // of bars that stand alike the heaviest loads the shelf
    if ((kinds.get(key)?.cure.barMass ?? 0) < cure.barMass) kinds.set(key, { cure, racks: cure.racks })
  }
  return [...kinds.values()]
}

const uniqueFindings = (frame: Frame, findings: readonly Finding[]): Inline[] => [
  ...new Map(
    findingsWords(frame, findings)
      .map((said, index) => withRemedy(frame, findings[index] as Finding, said))
      .map((said) => [inlineWords(said), said]),
  ).values(),
]

const placesTable = ({ say, show }: Frame, kinds: readonly Kind[]): Table => ({
  kind: 'table',
  caption: say('racks.places.caption'),
  columns: [
    { head: say('racks.places.rack'), align: 'left', width: 16 },
    { head: say('racks.places.bar'), align: 'left', width: 26 },
    { head: say('racks.places.shelf'), align: 'left', width: 15 },
    { head: say('racks.places.shelves'), align: 'right' },
    { head: say('racks.places.all'), align: 'right' },
    { head: say('racks.places.load'), align: 'right', width: 13 },
    { head: say('racks.places.carries'), align: 'right', width: 12 },
  ],
  rows: kinds.flatMap(({ cure, racks }, kind) =>
    racks.map((rack): Cell[] => {
      const name = `racks.${rack.key}.${kind + 1}`
      const { alongLength, alongWidth, thickness } = cure.batch.mould.bar.green
      return [
        words(say('racks.named', { rack: rack.key })),
        words(
          say('racks.places.bar-size', {
            long: show.wholeSize(`${name}.long`, Math.max(alongLength, alongWidth)),
            high: show.wholeSize(`${name}.high`, Math.min(alongLength, alongWidth)),
            thick: show.wholeSize(`${name}.thick`, thickness),
          }),
        ),
        words(
          say(rack.byLoad < rack.byRoom ? 'racks.places.by-load' : 'racks.places.rows', {
            rows: show.count(`${name}.rows`, rack.across),
            bars: show.count(`${name}.along`, rack.along),
            most: show.count(`${name}.byLoad`, rack.byLoad),
          }),
        ),
        number(show.count(`${name}.shelves`, rack.shelves)),
        number(show.count(`${name}.places`, rack.places)),
        number(show.heavy(`${name}.shelfLoad`, rack.shelfLoad)),
        rack.rating === undefined
          ? words(say('racks.places.unrated'))
          : number(show.heavy(`${name}.rating`, rack.rating)),
      ]
    }),
  ),
})

/** Room for bars like those of the first batch: what "so many more" counts in. */
const roomOf = (binder: BoundBinder): readonly RackPlaces[] => binder.cures[0]?.racks ?? []

const weeksTable = (frame: Frame, binder: BoundBinder): Table => {
  const { say, show } = frame
  const racks = roomOf(binder)
  const room = racks.reduce((sum, { places }) => sum + places, 0)
  return {
    kind: 'table',
    caption: say('racks.weeks.caption'),
    columns: [
      { head: say('racks.weeks.week'), align: 'left', width: 13 },
      { head: say('racks.weeks.bars'), align: 'right', width: 8 },
      { head: say('racks.weeks.full'), align: 'right', width: 9 },
      { head: say('racks.weeks.left'), align: 'left', width: 38 },
      { head: say('racks.weeks.batches'), align: 'left' },
    ],
    rows: binder.calendar.weeks.map(({ week, bars, share, day }): Cell[] => {
      const over = Math.ceil((share - 1) * room - 1e-6)
      const then = binder.cures.filter(({ planned }) => isThere(binder, planned.batch, day))
      const name = `racks.week.${week}`
      return [
        number(show.shortDate(`${name}.monday`, week)),
        number(show.count(`${name}.bars`, bars)),
        number(show.percent(`${name}.full`, share, 0)),
        over > 0
          ? words(say('racks.weeks.over', { bars: show.count(`${name}.over`, over) }))
          : racks.length === 0
            ? empty
            : words(
                racks
                  .map(({ key, places }) =>
                    say('racks.weeks.more', {
                      bars: show.count(`${name}.${key}.left`, leftOn(binder, key, places, day)),
                      rack: key,
                    }),
                  )
                  .reduce((before, next) => say('calendar.list', { before, next })),
              ),
        then.length === 0
          ? empty
          : words(
              then
                .map(({ batch }) => batchWords(frame, binder, batch.key))
                .reduce((before, next) => say('calendar.list', { before, next })),
            ),
      ]
    }),
  }
}

/** Bars that one rack still takes on a day. */
const leftOn = ({ calendar }: BoundBinder, rack: string, places: number, day: string): number => {
  const share = calendar.plan.rackStays
    .filter((stay) => stay.rack === rack && stay.from <= day && day <= stay.to)
    .reduce((sum, stay) => sum + stay.share, 0)
  return Math.max(0, Math.floor((1 - share) * places + 1e-6))
}

const isThere = ({ calendar, cures }: BoundBinder, batch: string, day: string): boolean => {
  const unplaced = cures.find(({ planned }) => planned.batch === batch)?.planned.unplaced
  return (
    calendar.plan.rackStays.some((stay) => stay.batch === batch && stay.from <= day && day <= stay.to) ||
    (unplaced !== undefined && unplaced.bars > 0 && unplaced.from <= day && day <= unplaced.to)
  )
}

/** A column a week: the share of the room that is taken on its fullest day. */
const weeksChart = ({ say, show }: Frame, { calendar }: BoundBinder): Figure => {
  const named = (key: string): string => inlineWords(say(`racks.chart.${key}`))
  const { weeks } = calendar
  const first = dayNumber(weeks[0]?.week ?? '')
  const width = (CHART.width - 18) / weeks.length
  const every = Math.max(1, Math.ceil(NAMED / width))
  const top = Math.max(100, Math.ceil((Math.max(...weeks.map(({ share }) => share)) * 100 + 5) / 25) * 25)
  const ticks = weeks.flatMap((_, index) => (index % every === 0 ? [index] : []))
  const drawn = chart({
    name: 'racks',
    label: named('label'),
    ...CHART,
    x: {
      title: named('weeks'),
      ticks: [
        { at: 0, shown: '' },
        ...ticks.map((index) => ({
          at: index + 0.5,
          shown: show.shortDate('', dateOf(first + index * WEEK)).shown,
        })),
        { at: weeks.length, shown: '' },
      ],
    },
    y: { title: named('full'), ticks: axisTicks(0, top, 25, show.plainNumber) },
    columns: weeks.map(({ share, bars }, index) => ({
      from: index + (1 - COLUMN) / 2,
      to: index + (1 + COLUMN) / 2,
      height: share * 100,
      name: show.plainNumber(bars),
    })),
    curves: [],
    levels: [{ at: 100, name: named('level') }],
    moments: [],
  })
  return { kind: 'figure', svg: drawn.svg, caption: say('racks.chart.caption'), values: [] }
}

const whereTable = (frame: Frame, binder: BoundBinder): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('racks.where.caption'),
    columns: [
      { head: say('racks.where.batch'), align: 'left', width: 28 },
      { head: say('racks.where.rack'), align: 'left', width: 22 },
      { head: say('racks.where.bars'), align: 'right', width: 10 },
      { head: say('racks.where.from'), align: 'left' },
      { head: say('racks.where.to'), align: 'left' },
    ],
    rows: binder.cures.flatMap(({ planned, cutUnknown }): Cell[][] => {
      const { batch, unplaced } = planned
      if (cutUnknown)
        return [[words(batchWords(frame, binder, batch)), words(say('calendar.no-day')), empty, empty, empty]]
      const stays = [
        ...binder.calendar.plan.rackStays.filter((stay) => stay.batch === batch),
        ...(unplaced.bars > 0 ? [{ ...unplaced, rack: undefined }] : []),
      ]
      return stays.map(({ rack, bars, from, to }): Cell[] => {
        const name = `racks.where.${batch}.${rack ?? 'none'}.${from}`
        return [
          words(batchWords(frame, binder, batch)),
          words(rack === undefined ? say('racks.where.none') : say('racks.named', { rack })),
          number(show.count(`${name}.bars`, bars)),
          number(show.shortDate(`${name}.from`, from)),
          number(show.shortDate(`${name}.to`, to)),
        ]
      })
    }),
  }
}
