/** Stock by materials and lots, as it is written down, with what is wrong or short. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundStock } from '../../binder/bind-stock.ts'
import { dateOf, dayNumber } from '../../units/civil-day.ts'
import { blank, empty, finishSheet, maker, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Cell, Sheet, Table } from '../model.ts'
import { SUPPLY } from './supply-places.ts'
import { amountWords, materialName, toldFindings } from './supply-words.ts'

export const stockSheet = (frame: Frame, binder: BoundBinder): Sheet => {
  const { say, show } = frame
  const { stock } = binder
  const { currency } = binder.content.shop.value
  const told = toldFindings(frame, binder, stock.findings)
  return {
    ...finishSheet({
      ...frame.sheet(
        'supply',
        SUPPLY.stock.id,
        say('section.supply'),
        SUPPLY.stock.number,
        say('stock.title'),
      ),
      orientation: 'landscape',
      template: frame.template('stock'),
      fill: { day: show.date('stock.day', stock.date) },
      blocks: {
        findings:
          stock.findings.length === 0
            ? { kind: 'cautions', signal: 'notice', items: [say('stock.all-well')] }
            : {
                kind: 'cautions',
                signal: stock.findings.every(({ code }) => SHORTAGES.has(code)) ? 'notice' : 'warning',
                heading: say('stock.look-at'),
                items: [
                  ...told.map(({ reason }) => reason),
                  ...(binder.shopping && stock.findings.some(({ code }) => SHORTAGES.has(code))
                    ? [say('stock.on-the-list', { sheet: linkTo(SUPPLY.shopping) })]
                    : []),
                ],
              },
        lots: stock.ledger.lots.some(({ left }) => left !== 0) ? lotTable(frame, binder, currency) : nothing,
        gone: goneTable(frame, stock),
      },
      sources: pickSources(frame.sources, ['first-expired-first-out', 'common-practice']),
    }),
    // what the shopping list brings in time needs nobody's attention at the terminal
    conflicts: told.filter(({ code }) => !binder.shopping || !SHORTAGES.has(code)),
  }
}

const SHORTAGES: ReadonlySet<string> = new Set(['stock-short', 'stock-only-expired'])

const lotTable = (frame: Frame, { stock }: BoundBinder, currency: string | undefined): Table => {
  const { say, show } = frame
  const day = dayNumber(stock.date)
  const kept = stock.shelf.filter(({ left }) => left !== 0)
  let before = ''
  const rows = kept.map((lot): Cell[] => {
    const name = `lot.${lot.lot}`
    const isFirst = lot.material !== before
    before = lot.material
    const amount = (key: string, value: number): Cell =>
      words(amountWords(frame, stock, `${name}.${key}`, lot.material, value))
    const reserved = stock.reserved.get(lot.lot) ?? 0
    return [
      isFirst ? maker(materialName(stock, lot.material)) : empty,
      maker(lot.lot),
      lot.madeBy === undefined ? maker(stock.sellers.get(lot.lot) ?? '') : words(say('stock.made-here')),
      number(show.narrowDate(`${name}.received`, dateOf(lot.received))),
      lot.expiry === undefined
        ? words(say('stock.keeps'))
        : words(
            say(lot.expiry < day ? 'stock.expired' : 'stock.best-before', {
              date: show.narrowDate(`${name}.expiry`, dateOf(lot.expiry)),
            }),
          ),
      amount('bought', lot.bought),
      amount('left', lot.left),
      reserved > 0 ? amount('reserved', reserved) : empty,
      ...(currency === undefined
        ? []
        : [
            lot.value === undefined
              ? words(say('stock.no-price'))
              : number(show.amount(`${name}.value`, { currency, minor: lot.value })),
          ]),
      blank(),
    ]
  })
  return {
    kind: 'table',
    caption: say('stock.lots.caption'),
    columns: [
      { head: say('stock.lots.material'), align: 'left' },
      { head: say('stock.lots.lot'), align: 'left', width: 9 },
      { head: say('stock.lots.from'), align: 'left', width: 12 },
      { head: say('stock.lots.received'), align: 'right', width: 10 },
      { head: say('stock.lots.expiry'), align: 'right', width: 11 },
      { head: say('stock.lots.bought'), align: 'right', width: 9 },
      { head: say('stock.lots.left'), align: 'right', width: 9, main: true },
      { head: say('stock.lots.reserved'), align: 'right', width: 9 },
      ...(currency === undefined
        ? []
        : [{ head: say('stock.lots.value', { currency }), align: 'right' as const, width: 8 }]),
      { head: say('stock.lots.counted'), align: 'left', width: 13 },
    ],
    rows,
    ...(currency === undefined
      ? {}
      : {
          foot: [
            [
              words(say('stock.lots.all')),
              ...Array.from({ length: 7 }, () => empty),
              number(show.amount('stock.value', { currency, minor: stock.worth })),
              empty,
            ],
          ],
        }),
  }
}

/** Lots that are used up: they stay on the list, since somebody may ask for them. */
const goneTable = (frame: Frame, stock: BoundStock): Table | typeof nothing => {
  const { say, show } = frame
  const gone = stock.shelf.filter(({ left }) => left === 0)
  if (gone.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('stock.gone.caption'),
    columns: [
      { head: say('stock.lots.material'), align: 'left' },
      { head: say('stock.lots.lot'), align: 'left', width: 20 },
      { head: say('stock.lots.received'), align: 'right', width: 14 },
      { head: say('stock.gone.used'), align: 'right', width: 14 },
      { head: say('stock.gone.lost'), align: 'right', width: 14 },
    ],
    rows: gone.map((lot) => {
      const name = `gone.${lot.lot}`
      return [
        maker(materialName(stock, lot.material)),
        maker(lot.lot),
        number(show.narrowDate(`${name}.received`, dateOf(lot.received))),
        words(amountWords(frame, stock, `${name}.used`, lot.material, lot.used)),
        words(amountWords(frame, stock, `${name}.lost`, lot.material, lot.lost)),
      ]
    }),
  }
}
