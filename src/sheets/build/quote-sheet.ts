/** The quote page of a build: what is to be made, what it was reckoned to cost, and room for the friend's own figures. */
import type { BoundBuild } from '../../binder/bind-build.ts'
import type { BoardLine, HardwareLine } from '../../binder/bind-quote.ts'
import type { BuildItem } from '../../binder/build-items.ts'
import { blank, empty, finishSheet, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Facts, Inline, Sheet, Table } from '../model.ts'
import { linkTo, PLACES, type Place, referencesTo } from '../places.ts'
import { findingsWords } from '../stop-sheet.ts'

/** Ids of the sheets on which the pieces of a fixture are built. */
const BUILT_ON = {
  'set-up-gauge': 'fixture',
  mould: 'fixture',
  'grid-cutter': 'grid-cutter',
  'bar-cutter': 'bar-cutter',
  'trial-frame': 'trial-frame',
  'lever-press': 'lever-press',
} as const

/** Costs of a page in its currency. */
interface Costs {
  readonly frame: Frame
  readonly currency: string | undefined
}

interface Span {
  readonly low: number
  readonly high: number
}

/**
 * @param sheets those of the fixtures: the page names them by their numbers
 * @param number of this page in the binder
 */
export const quoteSheet = (
  frame: Frame,
  build: BoundBuild,
  sheets: readonly Sheet[],
  sheetNumber: string,
): Sheet => {
  const { say } = frame
  const { quote } = build
  const costs: Costs = { frame, currency: quote.currency }
  return finishSheet({
    ...frame.sheet(
      'fixture',
      `quote/${build.key}`,
      say('section.fixture'),
      sheetNumber,
      quoteTitle(frame, build),
    ),
    template: frame.template('quote'),
    fill: {},
    blocks: {
      about: aboutFacts(costs, build),
      made: madeTable(costs, build, sheets),
      goods: goodsTable(costs, build),
      total: totalFacts(costs, build),
      notes: notesBlock(frame, build, sheets),
      answer: answerFacts(frame),
    },
    sources: pickSources(frame.sources, ['common-practice', 'iso-4217']),
  })
}

export const quoteTitle = ({ say }: Frame, { title }: BoundBuild): Inline =>
  title === undefined ? say('quote.title-all') : say('quote.title', { title })

const cost = ({ frame: { show }, currency }: Costs, name: string, minor: number) =>
  show.money(name, { currency: currency ?? '', minor })

/** One amount, or both ends of what is not known better. */
const costWords = (costs: Costs, name: string, { low, high }: Span): Inline => {
  const { say } = costs.frame
  if (low === high) return say('quote.amount', { amount: cost(costs, name, low) })
  return say('quote.range', { low: cost(costs, `${name}.low`, low), high: cost(costs, `${name}.high`, high) })
}

/** What is not priced says so; in a shop without prices nobody misses them. */
const costCell = (costs: Costs, name: string, of: Span | undefined): Cell => {
  if (of && costs.currency !== undefined) return words(costWords(costs, name, of))
  return costs.currency === undefined ? empty : words(costs.frame.say('quote.not-priced'))
}

const same = (minor: number | undefined): Span | undefined =>
  minor === undefined ? undefined : { low: minor, high: minor }

const hoursWords = ({ say, show }: Frame, name: string, { low, high }: Span): Inline =>
  low === high
    ? say('quote.amount', { amount: show.halfHours(name, low) })
    : say('quote.range', {
        low: show.halfHours(`${name}.low`, low),
        high: show.halfHours(`${name}.high`, high),
      })

const aboutFacts = (costs: Costs, { wantedBy, quote }: BoundBuild): Facts => {
  const { say, show } = costs.frame
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('quote.wanted-by'),
        cell: wantedBy === undefined ? blank() : number(show.date('quote.wantedBy', wantedBy)),
      },
      {
        label: say('quote.rate'),
        cell:
          quote.rate === undefined || costs.currency === undefined
            ? blank()
            : number(cost(costs, 'quote.rate', quote.rate)),
      },
    ],
  }
}

const madeTable = (costs: Costs, { quote, leftOut }: BoundBuild, sheets: readonly Sheet[]): Table => {
  const { frame } = costs
  const { say, show } = frame
  const sum = quote.work.reduce(
    (all, one) => ({ low: all.low + (one.cost?.low ?? 0), high: all.high + (one.cost?.high ?? 0) }),
    { low: 0, high: 0 },
  )
  return {
    kind: 'table',
    caption: say('quote.made.caption'),
    columns: [
      { head: say('quote.made.what'), align: 'left' },
      { head: say('quote.made.sheet'), align: 'left', width: 7 },
      { head: say('quote.made.count'), align: 'right', width: 7 },
      { head: say('quote.made.size'), align: 'left', width: 23 },
      { head: say('quote.made.mass'), align: 'right', width: 9 },
      { head: say('quote.made.hours'), align: 'right', width: 12 },
      { head: say('quote.reckoned'), align: 'right', width: 15 },
      { head: say('quote.yours'), align: 'left', width: 12 },
    ],
    rows: [
      ...quote.work.map(({ item, halves, cost: labour }): Cell[] => {
        const name = `quote.${item.fixture}.${item.piece}`
        const { length, width, height } = item.outside
        return [
          words(pieceWords(frame, item)),
          words(sheetOf(frame, item, sheets)),
          number(show.count(`${name}.count`, item.count)),
          words(
            say('quote.made.over', {
              length: show.wholeSize(`${name}.length`, length),
              width: show.wholeSize(`${name}.width`, width),
              height: show.wholeSize(`${name}.height`, height),
            }),
          ),
          number(show.heavy(`${name}.mass`, item.mass)),
          words(hoursWords(frame, `${name}.hours`, halves)),
          costCell(costs, `${name}.cost`, labour),
          blank(),
        ]
      }),
      ...leftOut.map((item): Cell[] => [
        words(pieceWords(frame, item)),
        words(sheetOf(frame, item, sheets)),
        empty,
        words(say('quote.made.left-out')),
        empty,
        empty,
        empty,
        empty,
      ]),
    ],
    foot: [
      [
        words(say('quote.made.all')),
        empty,
        empty,
        empty,
        empty,
        words(hoursWords(frame, 'quote.hours', quote.halves)),
        quote.rate === undefined ? empty : costCell(costs, 'quote.work', sum),
        blank(),
      ],
    ],
  }
}

/** A piece, and of which fixture where there are several. */
const pieceWords = ({ say }: Frame, { piece, title }: Pick<BuildItem, 'piece' | 'title'>): Inline =>
  say('quote.piece-of', { piece: say(`quote.piece.${piece}`), fixture: title })

const sheetOf = (
  { say }: Frame,
  { piece, fixture }: Pick<BuildItem, 'piece' | 'fixture'>,
  sheets: readonly Sheet[],
): Inline => {
  const place: Place | undefined = sheets.find(({ id }) => id === `${BUILT_ON[piece]}/${fixture}`)
  return place ? linkTo(place) : say('quote.no-sheet')
}

const goodsTable = (costs: Costs, { quote, materials }: BoundBuild): Table => {
  const { frame } = costs
  const { say } = frame
  const sum = [...quote.boards, ...quote.hardware].reduce((all, one) => all + (one.cost ?? 0), 0)
  return {
    kind: 'table',
    caption: say('quote.goods.caption'),
    columns: [
      { head: say('quote.goods.what'), align: 'left' },
      { head: say('quote.goods.needed'), align: 'right', width: 11 },
      { head: say('quote.goods.buy'), align: 'right', width: 12 },
      { head: say('quote.goods.each'), align: 'right', width: 12 },
      { head: say('quote.reckoned'), align: 'right', width: 14 },
      { head: say('quote.yours'), align: 'left', width: 12 },
    ],
    rows: [
      ...quote.boards.map((line, index) => {
        const first = quote.boards.findIndex(({ material }) => material === line.material) === index
        const parts = materials
          .filter(({ material }) => first && material === line.material)
          .flatMap(({ blanks }) => blanks)
          .reduce((all, { count }) => all + count, 0)
        return boardRow(costs, line, parts)
      }),
      ...quote.hardware.map((line) => hardwareRow(costs, line)),
    ],
    foot: [
      [
        words(say('quote.goods.all')),
        empty,
        empty,
        empty,
        costs.currency === undefined ? empty : costCell(costs, 'quote.goods', same(sum)),
        blank(),
      ],
    ],
  }
}

const boardRow = (costs: Costs, { key, name, board, count, cost: all }: BoardLine, parts: number): Cell[] => {
  const { say, show } = costs.frame
  const of = `quote.board.${key.replaceAll('/', '.')}`
  return [
    words(
      say(`quote.goods.board-${board.from}`, {
        board: name,
        length: show.length(`${of}.length`, board.length),
        width: show.length(`${of}.width`, board.width),
      }),
    ),
    parts > 0 ? words(say('quote.goods.parts', { count: show.count(`${of}.parts`, parts) })) : empty,
    board.from === 'shop'
      ? words(say('quote.goods.there', { count: show.count(`${of}.count`, count) }))
      : number(show.count(`${of}.count`, count)),
    board.price === undefined || costs.currency === undefined
      ? empty
      : number(cost(costs, `${of}.price`, board.price)),
    board.from === 'shop' ? empty : costCell(costs, `${of}.cost`, same(all)),
    board.from === 'shop' ? empty : blank(),
  ]
}

const hardwareRow = (costs: Costs, line: HardwareLine): Cell[] => {
  const { say, show } = costs.frame
  const { kind, name, count, length, mass, offer } = line
  const of = `quote.hardware.${kind}`
  return [
    words(
      name === undefined
        ? say(`quote.hardware.${kind}`)
        : say('quote.goods.named', { what: say(`quote.hardware.${kind}`), name }),
    ),
    mass !== undefined
      ? number(show.heavy(`${of}.mass`, mass))
      : length !== undefined
        ? number(show.coil(`${of}.length`, length))
        : number(show.count(`${of}.count`, count)),
    offer
      ? offer.pack > 1
        ? words(
            say('quote.goods.packs', {
              packs: show.count(`${of}.packs`, offer.packs),
              pack: show.count(`${of}.pack`, offer.pack),
            }),
          )
        : number(show.count(`${of}.packs`, offer.packs))
      : blank(),
    offer && costs.currency !== undefined ? number(cost(costs, `${of}.price`, offer.price)) : empty,
    costCell(costs, `${of}.cost`, same(line.cost)),
    blank(),
  ]
}

/** The sum of both tables, and what it is without. */
const totalFacts = (costs: Costs, { quote }: BoundBuild): Facts => {
  const { frame } = costs
  const { say } = frame
  const { total } = quote
  const unnamed = [
    ...quote.boards
      .filter(({ cost: all }) => all === undefined)
      .map(({ name }): Inline => {
        return say('quote.without.board', { board: name })
      }),
    ...quote.hardware
      .filter(({ cost: all }) => all === undefined)
      .map(({ kind }) => say(`quote.hardware.${kind}`)),
    ...(quote.rate === undefined ? [say('quote.without.work')] : []),
  ]
  const [first, ...rest] = unnamed
  const without = first && rest.reduce((before, next) => say('quote.without.and', { before, next }), first)
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('quote.total'),
        cell: costs.currency === undefined ? blank() : words(costWords(costs, 'quote.total', total)),
        ...(without && costs.currency !== undefined
          ? { note: say('quote.without.all', { what: without }) }
          : {}),
      },
      { label: say('quote.total-yours'), cell: blank() },
    ],
  }
}

const notesBlock = (frame: Frame, build: BoundBuild, sheets: readonly Sheet[]): Block => {
  const { say } = frame
  const references = referencesTo(frame, sheets)
  const items = [
    ...findingsWords(frame, build.findings),
    say('quote.note.not-included'),
    say('quote.note.boards'),
    say('quote.note.finish', { builds: references.builds ?? say('reference.none') }),
    say('quote.note.saw', { saw: linkTo(PLACES.saw) }),
    say('quote.note.hours'),
  ]
  return items.length === 0
    ? nothing
    : { kind: 'cautions', signal: 'notice', heading: say('quote.note.heading'), items }
}

/** Lines to write on. */
const answerFacts = ({ say }: Frame): Facts => ({
  kind: 'facts',
  size: 'plain',
  items: ['by-when', 'spoiled', 'changes', 'maker', 'asked'].map((key) => ({
    label: say(`quote.answer.${key}`),
    cell: blank(),
  })),
})
