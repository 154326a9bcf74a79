/** The quote page of a build: what is to be made, what it was reckoned to cost, and room for the friend's own figures. */
import { type BoundBuild, BUILT_ON } from '../../binder/bind-build.ts'
import type { BoardLine, BoundQuote, HardwareLine } from '../../binder/bind-quote.ts'
import { BORROWED, type BuildItem } from '../../binder/build-items.ts'
import { dateOf, dayNumber } from '../../units/civil-day.ts'
import { blank, empty, finishSheet, maker, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Cell, Column, Facts, Inline, Sheet, Table } from '../model.ts'
import { PLACES, referencesTo } from '../places.ts'
import { findingsWords } from '../stop-sheet.ts'

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
 * @param sheetNumber of this page in the binder
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
  const title = quoteTitle(frame, build)
  return finishSheet({
    ...frame.sheet('fixture', `quote/${build.key}`, say('section.fixture'), sheetNumber, title),
    template: frame.template('quote'),
    fill: {},
    blocks: {
      about: aboutFacts(costs, build),
      made: madeTable(costs, build, sheets),
      boards: boardTable(costs, quote),
      sums: sumTable(costs, build),
      answer: answerTable(frame, sheets),
      hardware: hardwareTable(costs, build),
      notes: notesBlock(frame, build, sheets),
    },
    sources: pickSources(frame.sources, ['common-practice']),
  })
}

export const quoteTitle = ({ say }: Frame, { title }: Pick<BoundBuild, 'title'>): Inline =>
  title === undefined ? say('quote.title-all') : say('quote.title', { title })

/** The heads of both columns of costs; the currency is said there, once. */
const costColumns = ({ frame: { say }, currency }: Costs, reckoned = 15, yours = 14): Column[] => [
  {
    head: currency === undefined ? say('quote.reckoned') : say('quote.reckoned-in', { currency }),
    align: 'right',
    width: reckoned,
  },
  {
    head: currency === undefined ? say('quote.yours') : say('quote.yours-in', { currency }),
    align: 'left',
    width: yours,
  },
]

const amount = ({ frame: { show }, currency }: Costs, name: string, minor: number) =>
  show.amount(name, { currency: currency ?? '', minor })

/** One amount, or both ends of what is not known better. */
const costWords = (costs: Costs, name: string, { low, high }: Span): Inline => {
  const { say } = costs.frame
  if (low === high) return say('quote.one', { one: amount(costs, name, low) })
  return say('quote.range', {
    low: amount(costs, `${name}.low`, low),
    high: amount(costs, `${name}.high`, high),
  })
}

/** What is not priced says so; in a shop without prices nobody misses them. */
const costCell = (costs: Costs, name: string, of: Span | undefined): Cell => {
  if (costs.currency === undefined) return empty
  return words(of ? costWords(costs, name, of) : costs.frame.say('quote.not-priced'))
}

const same = (minor: number | undefined): Span | undefined =>
  minor === undefined ? undefined : { low: minor, high: minor }

const sumOf = (lines: readonly { readonly cost: Span | number | undefined }[]): Span =>
  lines.reduce<Span>(
    (all, { cost = 0 }) =>
      typeof cost === 'number'
        ? { low: all.low + cost, high: all.high + cost }
        : { low: all.low + cost.low, high: all.high + cost.high },
    { low: 0, high: 0 },
  )

const aboutFacts = ({ frame: { say, show }, currency }: Costs, { wantedBy, quote }: BoundBuild): Facts => ({
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
        quote.rate === undefined || currency === undefined
          ? blank()
          : number(show.money('quote.rate', { currency, minor: quote.rate })),
    },
    {
      label: say('quote.waiting'),
      cell: number(show.days('quote.waiting', quote.waiting)),
    },
    {
      label: say('quote.sawn-by'),
      cell:
        wantedBy === undefined
          ? blank()
          : number(show.date('quote.sawnBy', dateOf(dayNumber(wantedBy) - quote.waiting))),
    },
  ],
})

const madeTable = (costs: Costs, build: BoundBuild, sheets: readonly Sheet[]): Table => {
  const { frame } = costs
  const { say, show } = frame
  const { quote, leftOut } = build
  const several = new Set([...build.items, ...leftOut].map(({ fixture }) => fixture)).size > 1
  const name = (item: Named): Cell => words(pieceWords(frame, item, several))
  return {
    kind: 'table',
    caption: say('quote.made.caption'),
    columns: [
      { head: say('quote.made.what'), align: 'left' },
      { head: say('quote.made.sheet'), align: 'left', width: 7 },
      { head: say('quote.made.count'), align: 'right', width: 7 },
      { head: say(`quote.made.size-${show.lengthUnit}`), align: 'left', width: 20 },
      { head: say('quote.made.mass'), align: 'right', width: 8 },
      { head: say('quote.made.hours'), align: 'right', width: 14 },
      ...costColumns(costs, 17, 12),
    ],
    rows: [
      ...quote.work.map(({ item, halves, cost }): Cell[] => {
        const of = `quote.${item.fixture}.${item.piece}`
        const { length, width, height } = item.outside
        return [
          name(item),
          words(sheetOf(frame, item, sheets)),
          number(show.count(`${of}.count`, item.count)),
          words(
            say('quote.made.over', {
              length: show.roughSize(`${of}.length`, length),
              width: show.roughSize(`${of}.width`, width),
              height: show.roughSize(`${of}.height`, height),
            }),
          ),
          number(show.heavy(`${of}.mass`, item.mass)),
          words(hoursWords(frame, `${of}.hours`, halves)),
          quote.rate === undefined ? empty : costCell(costs, `${of}.cost`, cost),
          blank(),
        ]
      }),
      ...leftOut.map((item): Cell[] => [
        name(item),
        words(sheetOf(frame, item, sheets)),
        empty,
        words(say('quote.made.left-out')),
        empty,
        empty,
        empty,
        empty,
      ]),
    ],
  }
}

type Named = Pick<BuildItem, 'piece' | 'title' | 'fixture'>

/** A piece, and of which fixture where there are several. */
const pieceWords = ({ say }: Frame, { piece, title }: Named, several: boolean): Inline =>
  several
    ? say('quote.piece-of', { piece: say(`quote.piece.${piece}`), fixture: title })
    : say(`quote.piece.${piece}`)

const hoursWords = ({ say, show }: Frame, name: string, { low, high }: Span): Inline =>
  low === high
    ? say('quote.one', { one: show.halfHours(name, low) })
    : say('quote.range', {
        low: show.halfHours(`${name}.low`, low),
        high: show.halfHours(`${name}.high`, high),
      })

const sheetOf = ({ say }: Frame, { piece, fixture }: Named, sheets: readonly Sheet[]): Inline => {
  const place = sheets.find(({ id }) => id === `${BUILT_ON[piece]}/${fixture}`)
  return place ? linkTo(place) : say('quote.no-sheet')
}

const boardTable = (costs: Costs, { boards }: BoundQuote): Table => {
  const { say } = costs.frame
  return {
    kind: 'table',
    caption: say('quote.boards.caption'),
    columns: [
      { head: say('quote.boards.what'), align: 'left' },
      { head: say('quote.boards.size'), align: 'left', width: 22 },
      { head: say('quote.boards.parts'), align: 'right', width: 6 },
      { head: say('quote.goods.buy'), align: 'right', width: 10 },
      { head: say('quote.goods.each'), align: 'right', width: 7 },
      ...costColumns(costs, 14, 12),
    ],
    rows: boards.map((line, index) => boardRow(costs, line, boards[index - 1]?.material === line.material)),
  }
}

/** @param again whether the row above is of the same material, which is not named twice */
const boardRow = (
  costs: Costs,
  { key, name, board, count, cost, parts }: BoardLine,
  again: boolean,
): Cell[] => {
  const { say, show } = costs.frame
  const of = `quote.board.${key.replaceAll('/', '.')}`
  const inShop = board.from === 'shop'
  return [
    again ? words(say('quote.boards.same')) : maker(name),
    words(
      say(`quote.boards.${board.from}`, {
        length: show.stockSize(`${of}.length`, board.length),
        width: show.stockSize(`${of}.width`, board.width),
      }),
    ),
    parts > 0 ? number(show.count(`${of}.parts`, parts)) : empty,
    inShop
      ? words(say('quote.boards.there', { count: show.count(`${of}.count`, count) }))
      : number(show.count(`${of}.count`, count)),
    board.price === undefined || costs.currency === undefined
      ? empty
      : number(amount(costs, `${of}.price`, board.price)),
    inShop ? empty : costCell(costs, `${of}.cost`, same(cost)),
    inShop ? empty : blank(),
  ]
}

/** What the tables come to, one below the other. */
const sumTable = (costs: Costs, { quote }: BoundBuild): Table => {
  const { frame } = costs
  const { say } = frame
  const without = withoutWords(frame, quote)
  const row = (key: string, note: Cell, of: Span | undefined): Cell[] => [
    words(say(`quote.sums.${key}`)),
    note,
    of ? costCell(costs, `quote.${key}`, of) : empty,
    blank(),
  ]
  return {
    kind: 'table',
    caption: say('quote.sums.caption'),
    columns: [
      { head: say('quote.sums.what'), align: 'left', width: 24 },
      { head: say('quote.sums.of-it'), align: 'left' },
      ...costColumns(costs, 22),
    ],
    rows: [
      row(
        'work',
        words(hoursWords(frame, 'quote.hours', quote.halves)),
        quote.rate === undefined ? undefined : sumOf(quote.work),
      ),
      row('boards', words(say('quote.sums.listed')), sumOf(quote.boards)),
      row('hardware', words(say('quote.sums.listed')), sumOf(quote.hardware)),
    ],
    foot: [row('total', without && costs.currency !== undefined ? words(without) : empty, quote.total)],
  }
}

/** What has no price, and so is not in the sum. */
const withoutWords = ({ say }: Frame, { boards, hardware, rate }: BoundQuote): Inline | undefined => {
  const [first, ...rest] = [
    ...boards
      .filter(({ cost }) => cost === undefined)
      .map(({ name }) => say('quote.without.board', { board: name })),
    ...hardware.filter(({ cost }) => cost === undefined).map(({ kind }) => say(`quote.hardware.${kind}`)),
    ...(rate === undefined ? [say('quote.without.work')] : []),
  ]
  if (!first) return undefined
  const what = rest.reduce((before, next) => say('quote.without.and', { before, next }), first)
  return say('quote.without.all', { what })
}

const hardwareTable = (costs: Costs, { quote }: BoundBuild): Table => {
  const { say } = costs.frame
  return {
    kind: 'table',
    caption: say('quote.goods.caption'),
    columns: [
      { head: say('quote.goods.what'), align: 'left' },
      { head: say('quote.goods.needed'), align: 'right', width: 14 },
      { head: say('quote.goods.buy'), align: 'right', width: 10 },
      { head: say('quote.goods.each'), align: 'right', width: 10 },
      ...costColumns(costs),
    ],
    rows: quote.hardware.map((line) => hardwareRow(costs, line, quote)),
  }
}

const hardwareRow = (costs: Costs, line: HardwareLine, quote: BoundQuote): Cell[] => {
  const { say, show } = costs.frame
  const { kind, offer } = line
  const of = `quote.hardware.${kind}`
  return [
    goodsCell(costs.frame, line, quote),
    neededCell(costs.frame, of, line),
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
    offer && costs.currency !== undefined ? number(amount(costs, `${of}.price`, offer.price)) : blank(),
    costCell(costs, `${of}.cost`, same(line.cost)),
    blank(),
  ]
}

/** What it is, and why it is so many, where somebody who counts holes comes to another number. */
const goodsCell = ({ say, show }: Frame, line: HardwareLine, { work, coats }: BoundQuote): Cell => {
  const { kind, name } = line
  const shared = borrowed(work).has(kind) ? say('quote.goods.borrowed') : undefined
  const sizes = isMorePacks(line) ? say('quote.goods.sizes') : undefined
  const note =
    kind === 'epoxy'
      ? say('quote.goods.epoxy', { coats: show.count('quote.coats', coats) })
      : shared && sizes
        ? say('quote.goods.both', { one: shared, other: sizes })
        : (shared ?? sizes)
  const what = name ?? say(`quote.hardware.${kind}`)
  if (note) return words(say('quote.goods.noted', { what, note }))
  return name === undefined ? words(say(`quote.hardware.${kind}`)) : maker(name)
}

/** Whether one pack less would hold as many pieces: they are of several sizes. */
const isMorePacks = ({ count, length, mass, offer }: HardwareLine): boolean =>
  offer !== undefined &&
  length === undefined &&
  mass === undefined &&
  offer.pack > 1 &&
  (offer.packs - 1) * offer.pack >= count

/** Hardware that the trial frame has from the grid cutter which is made with it. */
const borrowed = (work: BoundQuote['work']): ReadonlySet<string> => {
  const has = (piece: BuildItem['piece']): boolean => work.some(({ item }) => item.piece === piece)
  return new Set(has('trial-frame') && has('grid-cutter') ? BORROWED : [])
}

const neededCell = ({ show }: Frame, of: string, { mass, length, count }: HardwareLine): Cell => {
  if (mass !== undefined) return number(show.heavy(`${of}.mass`, mass))
  if (length !== undefined) return number(show.coil(`${of}.length`, length))
  return number(show.count(`${of}.count`, count))
}

const notesBlock = (frame: Frame, build: BoundBuild, sheets: readonly Sheet[]): Block => {
  const { say } = frame
  const references = referencesTo(
    frame,
    sheets.filter(({ id }) =>
      build.items.some(({ piece, fixture }) => id === `${BUILT_ON[piece]}/${fixture}`),
    ),
  )
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('quote.note.heading'),
    items: [
      // the size that is enough stands in its row
      ...findingsWords(
        frame,
        build.findings.filter(({ code }) => code !== 'board-size-unknown'),
      ),
      ...(build.quote.boards.some(({ board }) => board.from === 'asked') ? [say('quote.note.sizes')] : []),
      ...(borrowed(build.quote.work).size > 0 ? [say('quote.note.borrowed')] : []),
      say('quote.note.boards', { saw: linkTo(PLACES.saw) }),
      say('quote.note.finish', { builds: references.builds ?? say('reference.none') }),
    ],
  }
}

/** Lines to write on, two beside each other. */
const answerTable = ({ say }: Frame, sheets: readonly Sheet[]): Table => {
  const router = sheets.find(({ id }) => id === 'router/files')
  const asked = (key: string): Inline =>
    key === 'router'
      ? say('quote.answer.router', { router: router ? linkTo(router) : say('quote.no-sheet') })
      : say(`quote.answer.${key}`)
  return {
    kind: 'table',
    style: 'log',
    columns: [
      { head: say('quote.answer.head'), align: 'left', width: 22 },
      { head: say('quote.answer.write'), align: 'left' },
      { head: say('quote.answer.head'), align: 'left', width: 22 },
      { head: say('quote.answer.write'), align: 'left', width: 28 },
    ],
    rows: [
      ['by-when', 'router'],
      ['price', 'paid'],
      ['spoiled', 'left'],
      ['maker', 'asked'],
    ].map((pair) => pair.flatMap((key): Cell[] => [words(asked(key)), empty])),
  }
}
