/** The shopping list: what to order of whom, by when, in which packs, for all batches to come. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundShopping, ShoppingLine, SupplierOrder } from '../../binder/bind-shopping.ts'
import {
  box,
  empty,
  finishSheet,
  inlineList,
  maker,
  nothing,
  number,
  pickSources,
  words,
} from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet, Table } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { SUPPLY } from './supply-places.ts'
import { amountWords, materialName, takerWords, toldFindings } from './supply-words.ts'

export const shoppingSheet = (frame: Frame, binder: BoundBinder, shopping: BoundShopping): Sheet => {
  const { say, show } = frame
  const { stock } = binder
  const { choice, suppliers } = shopping
  const told = toldFindings(frame, binder, shopping.findings)
  // what has a price has a currency
  const currency = shopping.currency ?? ''
  const amount = (name: string, minor: number) => show.amount(name, { currency, minor })
  const tables = suppliers.map(
    (order) => [`order-${order.key}`, orderTable(frame, binder, order, amount, currency)] as const,
  )
  const blocks: Record<string, Block> = {
    short:
      told.length === 0
        ? nothing
        : {
            kind: 'cautions',
            signal: 'warning',
            heading: say('shopping.short'),
            items: told.map(({ reason }) => reason),
          },
    about: {
      kind: 'facts',
      size: 'plain',
      items: [
        { label: say('shopping.as-of'), cell: number(show.date('shopping.asOf', stock.date)) },
        ...(choice.orders.length === 0
          ? []
          : [
              {
                label: say('shopping.total'),
                cell: number(show.money('shopping.total', { currency, minor: choice.cost })),
                note: say(choice.proved ? 'shopping.proved' : 'shopping.not-proved'),
              },
            ]),
      ],
    },
    ...Object.fromEntries(tables),
    unneeded:
      suppliers.length > 0
        ? nothing
        : {
            kind: 'cautions',
            signal: 'notice',
            items: [say(told.length > 0 ? 'shopping.nothing-sold' : 'shopping.nothing')],
          },
  }
  return {
    ...finishSheet({
      ...frame.sheet(
        'supply',
        SUPPLY.shopping.id,
        say('section.supply'),
        SUPPLY.shopping.number,
        say('shopping.title'),
      ),
      template: frame
        .template('shopping')
        .replace(/^\[\[orders\]\]$/m, tables.map(([name]) => `[[${name}]]`).join('\n\n')),
      fill: { ...fixedLinks, batches: batchList(frame, binder) },
      blocks,
      sources: pickSources(frame.sources, ['common-practice', 'dantzig1957']),
    }),
    conflicts: told,
  }
}

type Amount = (name: string, minor: number) => ReturnType<Frame['show']['amount']>

const orderTable = (
  frame: Frame,
  binder: BoundBinder,
  order: SupplierOrder,
  amount: Amount,
  currency: string,
): Table => {
  const { say, show } = frame
  const name = `order.${order.key}`
  const line = (one: ShoppingLine): Cell[] => {
    const key = `${name}.${one.offer}`
    return [
      box,
      maker(materialName(binder.stock, one.material)),
      one.least > 1 && one.packs === one.least
        ? words(say('shopping.at-least', { packs: show.count(`${key}.packs`, one.packs) }))
        : number(show.count(`${key}.packs`, one.packs)),
      words(amountWords(frame, binder.stock, `${key}.each`, one.material, one.each)),
      number(amount(`${key}.price`, one.price)),
      number(amount(`${key}.cost`, one.cost)),
      words(
        inlineList(
          frame.say,
          one.batches.map((batch) => takerWords(frame, binder, batch)),
        ),
      ),
      words(amountWords(frame, binder.stock, `${key}.needed`, one.material, one.needed)),
      words(amountWords(frame, binder.stock, `${key}.over`, one.material, one.over)),
    ]
  }
  const sums: Cell[][] = [
    ...(order.delivery === undefined
      ? []
      : [
          [
            empty,
            words(say('shopping.delivery')),
            empty,
            empty,
            empty,
            number(amount(`${name}.delivery`, order.delivery)),
            empty,
            empty,
            empty,
          ],
        ]),
    [
      empty,
      words(say('shopping.sum')),
      empty,
      empty,
      empty,
      number(amount(`${name}.sum`, order.cost)),
      empty,
      empty,
      empty,
    ],
  ]
  return {
    kind: 'table',
    caption: say('shopping.caption', {
      supplier: order.name,
      by: show.shortDate(`${name}.by`, order.orderBy),
      on: show.shortDate(`${name}.neededOn`, order.neededOn),
    }),
    columns: [
      { head: say('shopping.bought'), align: 'centre', width: 6 },
      { head: say('shopping.material'), align: 'left' },
      { head: say('shopping.packs'), align: 'right', width: 9, main: true },
      { head: say('shopping.each'), align: 'right', width: 11 },
      { head: say('shopping.price', { currency }), align: 'right', width: 9 },
      { head: say('shopping.cost', { currency }), align: 'right', width: 9 },
      { head: say('shopping.batches'), align: 'left', width: 17 },
      { head: say('shopping.needed'), align: 'right', width: 11 },
      { head: say('shopping.over'), align: 'right', width: 11 },
    ],
    rows: order.lines.map(line),
    foot: sums,
  }
}

/** Batches whose materials the list covers, whether anything is bought for them or not. */
const batchList = (frame: Frame, binder: BoundBinder): Inline =>
  inlineList(
    frame.say,
    [...new Set(binder.stock.needs.map(({ batch }) => batch))].map((batch) =>
      takerWords(frame, binder, batch),
    ),
  )
