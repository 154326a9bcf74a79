/** Boards that are sawn up, in the order of the day; what becomes of them; and all parts by their numbers. */
import { type NumberedBlank, ROUGH, type Sawing, type SawnMaterial } from '../../binder/plan-sawing.ts'
import { box, empty, inlineNumbers, number, words } from '../compose.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Cell, Inline, Sheet, Table } from '../model.ts'
import { cutLater } from '../mould/steps.ts'
import { panelName } from './figures.ts'

/** What is bought and what stands in the shop, each size once, with the numbers that its boards get on the drawings. */
export const boardsTable = (frame: Frame, { materials, currency }: Sawing): Table => {
  const { say, show } = frame
  const isPriced =
    currency !== undefined &&
    materials.some(({ boards }) => boards.some(({ stock }) => stock.price !== undefined))
  const rows = materials.flatMap((material) =>
    [...new Set(material.boards.map(({ stock }) => stock))].map((stock): Cell[] => {
      const base = `${panelName(material)}.stock.${stock.key}`
      const numbers = material.boards.filter((one) => one.stock === stock).flatMap((one) => one.numbers)
      const count = number(show.count(`${base}.count`, numbers.length))
      return [
        words(
          say('layout.boards.board', {
            name: material.name,
            key: material.panel.material,
            boards: inlineNumbers(
              show,
              numbers.map((one) => say('layout.number', { number: show.count(`${base}.board.${one}`, one) })),
            ),
          }),
        ),
        words(
          say(material.grain ? 'layout.boards.size' : 'layout.boards.size-any', {
            length: show.length(`${base}.length`, stock.length),
            width: show.length(`${base}.width`, stock.width),
          }),
        ),
        stock.inShop ? count : empty,
        stock.inShop ? empty : count,
        ...(isPriced
          ? [
              stock.price === undefined || stock.inShop
                ? empty
                : number(show.amount(`${base}.price`, { currency, minor: stock.price * numbers.length })),
            ]
          : []),
        box,
      ]
    }),
  )
  return {
    kind: 'table',
    caption: say('layout.boards.caption'),
    columns: [
      { head: say('layout.day.board'), align: 'left' },
      { head: say('layout.boards.sized'), align: 'left', width: 30 },
      { head: say('layout.day.shop'), align: 'right', width: 9 },
      { head: say('layout.day.buy'), align: 'right', width: 8 },
      ...(isPriced
        ? [{ head: say('layout.boards.price', { currency }), align: 'right' as const, width: 12 }]
        : []),
      { head: say('layout.boards.there'), align: 'centre', width: 8 },
    ],
    rows,
  }
}

export const dayTable = (frame: Frame, materials: readonly SawnMaterial[]): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('layout.day.caption'),
    columns: [
      { head: say('layout.day.order'), align: 'right', width: 7 },
      { head: say('layout.day.board'), align: 'left' },
      { head: say('layout.day.parts'), align: 'right', width: 7 },
      { head: say('layout.day.cuts'), align: 'right', width: 7 },
      { head: say('layout.day.settings'), align: 'right', width: 11 },
      { head: say('layout.day.done'), align: 'centre', width: 7 },
    ],
    rows: materials.map((material, index): Cell[] => {
      const { boards, blanks, name } = material
      const all = (of: (one: (typeof boards)[0]) => number): number =>
        boards.reduce((sum, one) => sum + of(one) * one.numbers.length, 0)
      const count = (what: string, value: number): Cell =>
        number(show.count(`${panelName(material)}.${what}`, value))
      return [
        number(show.count(`${panelName(material)}.order`, index + 1)),
        words(say('layout.day.named', { name, key: material.panel.material })),
        count(
          'parts',
          blanks.reduce((sum, blank) => sum + blank.count, 0),
        ),
        count(
          'cuts',
          all(({ plan }) => plan.cuts.length),
        ),
        count(
          'settings',
          boards.reduce((sum, { plan }) => sum + plan.settings, 0),
        ),
        material.isLater ? words(say('layout.day.later')) : box,
      ]
    }),
  }
}

/** What boards of one material are used, and what becomes of them. */
export const stockFacts = (frame: Frame, material: SawnMaterial): Block => {
  const { say, show } = frame
  const { shares } = material
  const base = panelName(material)
  const whole = hundredths([shares.blanks, shares.kept, shares.waste])
  const share = (key: 'blanks' | 'kept' | 'waste', index: number) => ({
    label: say(`layout.share.${key}`),
    cell: number(show.percent(`${base}.share.${key}`, whole[index]!, 0)),
    ...(key === 'waste' ? { note: boundWords(frame, material) } : {}),
  })
  return {
    kind: 'facts',
    size: 'plain',
    items: [share('blanks', 0), share('kept', 1), share('waste', 2)],
  }
}

/**
 * Shares that make up the whole once they are rounded, too.
 *
 * Formula: hundredths rounded down, and those that are missing go to the largest remainders. Validity: shares of one whole.
 * @param shares that add to one [–]
 * @returns whole hundredths that add to one [–]
 * @source common practice
 */
export const hundredths = (shares: readonly number[]): readonly number[] => {
  const down = shares.map((share) => Math.floor(share * 100 + 1e-9))
  const missing =
    Math.round(shares.reduce((sum, share) => sum + share * 100, 0)) - down.reduce((a, b) => a + b, 0)
  const byRest = shares
    .map((share, index) => ({ index, rest: share * 100 - down[index]! }))
    .sort((a, b) => b.rest - a.rest || a.index - b.index)
    .slice(0, missing)
  return down.map((share, index) => (share + Number(byRest.some((one) => one.index === index))) / 100)
}

/** How what is bought compares with what nobody can go below. */
const boundWords = ({ say, show }: Frame, material: SawnMaterial): Inline => {
  const { bought, bound, left, boards } = material
  if (bought === 0 || bound.boards === 0 || left.length > 0) return say('layout.bound.unknown')
  if (bought <= bound.boards) return say('layout.bound.met')
  const cost = boards.reduce((sum, { stock, numbers }) => sum + stock.cost * numbers.length, 0)
  return say(cost <= bound.cost * (1 + 1e-9) ? 'layout.bound.least' : 'layout.bound.open', {
    bound: show.count(`${panelName(material)}.bound`, bound.boards),
  })
}

/** What no board was left for. */
export const leftWords = (frame: Frame, { left, blanks }: SawnMaterial): readonly Inline[] =>
  left.flatMap(({ key, count }) => {
    const blank = blanks.find((one) => one.key === key)
    if (!blank) return []
    return [
      frame.say('layout.left', {
        count: frame.show.count(`layout.left.${key}`, count),
        number: frame.show.count(`layout.part.${key}`, blank.number),
        part: partName(frame, { key: blank.part }),
      }),
    ]
  })

/** All parts by the numbers of the drawings. */
export const partTable = (
  frame: Frame,
  materials: readonly SawnMaterial[],
  sheets: ReadonlyMap<string, Pick<Sheet, 'id' | 'number'>>,
): Table => {
  const { say, show } = frame
  const inches = show.lengthUnit === 'in'
  const row = (blank: NumberedBlank, material: SawnMaterial): Cell[] => {
    const { key, count, length, width, sheet } = blank
    const at = sheets.get(sheet)
    const name = (what: string) => `layout.part.${key}.${what}`
    const size = (shown: typeof show.size, exact: string) =>
      words(
        say('fixture.cuts.by', {
          length: shown(name(`length${exact}`), length),
          width: shown(name(`width${exact}`), width),
        }),
      )
    const on = material.boards.filter(({ plan }) => plan.pieces.some((piece) => piece.key === key))
    return [
      number(show.count(`layout.part.${key}`, blank.number)),
      words(laterNamed(frame, blank)),
      at ? words(linkTo(at)) : empty,
      words(
        say('layout.parts.on', {
          key: material.panel.material,
          boards: inlineNumbers(
            show,
            on.flatMap(({ numbers }) =>
              numbers.map((board) =>
                say('layout.number', { number: show.count(`${name('board')}.${board}`, board) }),
              ),
            ),
          ),
        }),
      ),
      number(show.count(name('count'), count)),
      size(show.millimetres, '.exact'),
      ...(inches ? [size(show.size, '')] : []),
    ]
  }
  return {
    kind: 'table',
    caption: say('layout.parts.caption'),
    columns: [
      { head: say('layout.parts.number'), align: 'right', width: 5 },
      { head: say('fixture.parts.part'), align: 'left' },
      { head: say('layout.parts.sheet'), align: 'right', width: 7 },
      { head: say('layout.parts.board'), align: 'left', width: 17 },
      { head: say('fixture.parts.count'), align: 'right', width: 7 },
      { head: say('layout.parts.exact'), align: 'right', width: 23 },
      ...(inches ? [{ head: say('layout.parts.inches'), align: 'right' as const, width: 21 }] : []),
    ],
    rows: materials.flatMap((material) => material.blanks.map((blank) => row(blank, material))),
  }
}

/** A part with what is still to come: nothing where it has its size. */
const laterNamed = (frame: Frame, blank: NumberedBlank): Inline => {
  const { say, show } = frame
  const part = partName(frame, { key: blank.part })
  if (!blank.fitted) return part
  const later = say('layout.parts.later', { part, when: laterWords(frame, blank) })
  if (!blank.fitted.isOversize) return later
  const name = (what: string) => `layout.part.${blank.key}.final.${what}`
  return say('layout.parts.final', {
    part: later,
    length: show.millimetres(name('length'), blank.length - ROUGH),
    width: show.millimetres(name('width'), blank.width - ROUGH),
  })
}

/** A part that is fitted to others gets its size in a step of its build sheet. */
export const laterWords = (frame: Frame, { key, part, fitted }: NumberedBlank): Inline => {
  const { say, show } = frame
  if (!fitted) return say('layout.parts.done')
  const step = cutLater(part)
  if (step === undefined) return say(fitted.isOversize ? 'layout.parts.rough' : 'layout.parts.held')
  return say(fitted.isOversize ? 'layout.parts.rough-step' : 'layout.parts.held-step', {
    step: show.count(`layout.part.${key}.step`, step),
  })
}
