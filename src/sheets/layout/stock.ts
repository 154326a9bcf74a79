/** Boards that are sawn up, in the order of the day; what becomes of them; and all parts by their numbers. */
import type { NumberedBlank, SawnMaterial } from '../../binder/plan-sawing.ts'
import { box, empty, maker, number, words } from '../compose.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet, Table } from '../model.ts'
import { cutLater } from '../mould/steps.ts'
import { linkTo } from '../places.ts'
import { panelName } from './figures.ts'

export const dayTable = (frame: Frame, materials: readonly SawnMaterial[]): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('layout.day.caption'),
    columns: [
      { head: say('layout.day.order'), align: 'right', width: 7 },
      { head: say('layout.day.board'), align: 'left' },
      { head: say('layout.day.shop'), align: 'right', width: 13 },
      { head: say('layout.day.buy'), align: 'right', width: 12 },
      { head: say('layout.day.parts'), align: 'right', width: 10 },
      { head: say('layout.day.cuts'), align: 'right', width: 10 },
      { head: say('layout.day.settings'), align: 'right', width: 12 },
      { head: say('layout.day.done'), align: 'centre', width: 8 },
    ],
    rows: materials.map((material, index): Cell[] => {
      const { boards, blanks, name, bought } = material
      const all = (of: (one: (typeof boards)[0]) => number): number =>
        boards.reduce((sum, one) => sum + of(one) * one.numbers.length, 0)
      const count = (what: string, value: number): Cell =>
        number(show.count(`${panelName(material)}.${what}`, value))
      return [
        number(show.count(`${panelName(material)}.order`, index + 1)),
        maker(name),
        count('in-shop', all(() => 1) - bought),
        count('bought', bought),
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
  const { boards, shares, bought, bound, panel } = material
  const base = panelName(material)
  const sizes = [...new Set(boards.map(({ stock }) => stock))]
  const share = (key: 'blanks' | 'kept' | 'waste') => ({
    label: say(`layout.share.${key}`),
    cell: number(show.percent(`${base}.share.${key}`, shares[key], 0)),
    ...(key === 'waste' ? { note: boundWords(frame, material) } : {}),
  })
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      ...sizes.map((stock) => ({
        label: say(stock.inShop ? 'layout.stock.shop' : 'layout.stock.buy'),
        cell: words(
          say('layout.stock.size', {
            count: show.count(
              `${base}.stock.${stock.key}.count`,
              boards
                .filter((one) => one.stock === stock)
                .reduce((sum, { numbers }) => sum + numbers.length, 0),
            ),
            length: show.wholeSize(`${base}.stock.${stock.key}.length`, stock.length),
            width: show.wholeSize(`${base}.stock.${stock.key}.width`, stock.width),
          }),
        ),
      })),
      {
        label: say('layout.stock.thickness'),
        cell: number(show.millimetres(`${base}.thickness`, panel.thickness)),
      },
      ...(bought > 0 && bound.boards > 0
        ? [{ label: say('layout.bound.label'), cell: number(show.count(`${base}.bound`, bound.boards)) }]
        : []),
      share('blanks'),
      share('kept'),
      share('waste'),
    ],
  }
}

/** How the waste compares with what nobody can go below. */
const boundWords = ({ say }: Frame, { bought, bound, left }: SawnMaterial): Inline => {
  if (bought === 0 || bound.boards === 0 || left.length > 0) return say('layout.bound.unknown')
  return say(bought <= bound.boards ? 'layout.bound.met' : 'layout.bound.open')
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
  const row = (blank: NumberedBlank): Cell[] => {
    const { key, part, count, length, width, sheet } = blank
    const at = sheets.get(sheet)
    const name = (what: string) => `layout.part.${key}.${what}`
    const exact = {
      length: show.millimetres(name('length.exact'), length),
      width: show.millimetres(name('width.exact'), width),
    }
    return [
      number(show.count(`layout.part.${key}`, blank.number)),
      words(partName(frame, { key: part })),
      at ? words(linkTo(at)) : empty,
      number(show.count(name('count'), count)),
      ...(inches ? [number(show.size(name('length'), length)), number(show.size(name('width'), width))] : []),
      words(say('fixture.cuts.by', exact)),
      words(laterWords(frame, blank)),
    ]
  }
  return {
    kind: 'table',
    caption: say('layout.parts.caption'),
    columns: [
      { head: say('layout.parts.number'), align: 'right', width: 6 },
      { head: say('fixture.parts.part'), align: 'left' },
      { head: say('layout.parts.sheet'), align: 'right', width: 8 },
      { head: say('fixture.parts.count'), align: 'right', width: 8 },
      ...(inches
        ? [
            { head: say('fixture.cuts.length'), align: 'right' as const, width: 11 },
            { head: say('fixture.cuts.width'), align: 'right' as const, width: 11 },
          ]
        : []),
      { head: say('layout.parts.exact'), align: 'right', width: 25 },
      { head: say('layout.parts.then'), align: 'left', width: 13 },
    ],
    rows: materials.flatMap(({ blanks }) => blanks.map(row)),
  }
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
