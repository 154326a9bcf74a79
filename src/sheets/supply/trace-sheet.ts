/** From a lot to every bar that holds some of it, and from a batch back to every lot: for whoever asks where something went. */
import type { BoundBinder } from '../../binder/bind.ts'
import { empty, finishSheet, maker, nothing, pickSources, words } from '../compose.ts'
import { batchWords } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet } from '../model.ts'
import { SUPPLY } from './supply-places.ts'
import {
  countCell,
  goneWords,
  listed,
  lotWords,
  receivedCell,
  traceFindings,
  wayCell,
} from './trace-words.ts'

export const traceSheet = (frame: Frame, binder: BoundBinder): Sheet => {
  const { say } = frame
  const { trace, stock } = binder
  const idle = trace.lots
    .filter(({ holders }) => holders.batches.length === 0 && holders.lots.length === 0)
    .map(({ lot }) => lot.lot)
  return {
    ...finishSheet({
      ...frame.sheet(
        'supply',
        SUPPLY.trace.id,
        say('section.supply'),
        SUPPLY.trace.number,
        say('trace.title'),
      ),
      orientation: 'landscape',
      template: frame.template('trace'),
      fill: {
        day: frame.show.date('stock.day', stock.date),
        idle: say('trace.idle', { lots: listed(frame, idle) }),
      },
      blocks: {
        findings: {
          kind: 'cautions',
          signal: 'warning',
          items: traceFindings(frame, binder, ringsOf(binder)),
        },
        forward: forwardTable(frame, binder),
        bars: barTable(frame, binder),
        back: backTable(frame, binder),
      },
      sources: pickSources(frame.sources, ['common-practice']),
    }),
  }
}

/** A ring is found from every lot in it, and told once. */
const ringsOf = ({ trace }: BoundBinder) => [
  ...new Map(
    trace.lots
      .flatMap(({ holders }) => holders.findings)
      .map((one) => [`${one.code} ${one.values.batch}`, one]),
  ).values(),
]

/** A row for each batch that holds a lot; the lot stands in the first of them. */
const forwardTable = (frame: Frame, binder: BoundBinder): Block => {
  const { say } = frame
  const rows = binder.trace.lots.flatMap(({ lot, holders }): Cell[][] => {
    if (holders.batches.length === 0 && holders.lots.length === 0) return []
    const head: Cell[] = [maker(lot.lot), words(lotWords(frame, binder, lot.lot))]
    const name = `trace.${lot.lot}`
    // made of it and in no batch yet: there all the same
    const waiting = holders.lots.filter((one) => !holders.batches.some(({ way }) => way.includes(one.name)))
    const ends: Cell[][] = [
      ...holders.batches.map((one): Cell[] => {
        const bars = holders.bars.find(({ batch }) => batch === one.name)
        return [
          wayCell(frame, binder, one),
          words(batchWords(frame, binder, one.name)),
          countCell(frame, `${name}.${one.name}.made`, bars?.made),
          countCell(frame, `${name}.${one.name}.gone`, bars?.sold),
          countCell(frame, `${name}.${one.name}.kept`, bars?.kept),
        ]
      }),
      ...waiting.map((one): Cell[] => [
        words(listed(frame, [...one.way.slice(1)])),
        words(say('trace.no-batch')),
        empty,
        empty,
        empty,
      ]),
    ]
    return ends.map((end, index) => [...(index === 0 ? head : [empty, empty]), ...end])
  })
  if (rows.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('trace.forward.caption'),
    columns: [
      { head: say('trace.lot'), align: 'left', width: 11 },
      { head: say('trace.what'), align: 'left' },
      { head: say('trace.way'), align: 'left', width: 18 },
      { head: say('trace.batch'), align: 'left', width: 18 },
      { head: say('trace.fit'), align: 'right', width: 9 },
      { head: say('trace.gone'), align: 'right', width: 9 },
      { head: say('trace.kept'), align: 'right', width: 9 },
    ],
    rows,
  }
}

const barTable = (frame: Frame, binder: BoundBinder): Block => {
  const { say } = frame
  const { batches } = binder.trace
  if (batches.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('trace.bars.caption'),
    columns: [
      { head: say('trace.batch'), align: 'left', width: 18 },
      { head: say('trace.cut'), align: 'right', width: 9 },
      { head: say('trace.fit'), align: 'right', width: 9 },
      { head: say('trace.where'), align: 'left' },
      { head: say('trace.kept'), align: 'right', width: 9 },
      { head: say('trace.stands'), align: 'left', width: 18 },
    ],
    rows: batches.map((one): Cell[] => [
      words(batchWords(frame, binder, one.key)),
      countCell(frame, `trace.${one.key}.cut`, one.made.bars?.cut),
      countCell(frame, `trace.${one.key}.fit`, one.bars.made),
      words(goneWords(frame, one)),
      countCell(frame, `trace.${one.key}.kept`, one.bars.kept),
      words(
        one.made.stands === undefined
          ? say('trace.not-written')
          : say('trace.lot-name', { lot: one.made.stands }),
      ),
    ]),
  }
}

const backTable = (frame: Frame, binder: BoundBinder): Block => {
  const { say } = frame
  const rows = binder.trace.batches.flatMap((one): Cell[][] => {
    const head: Inline = batchWords(frame, binder, one.key)
    if (one.sources.lots.length === 0)
      return [[words(head), words(say('trace.not-written')), empty, empty, empty]]
    return one.sources.lots.map((lot, index): Cell[] => [
      index === 0 ? words(head) : empty,
      maker(lot.name),
      words(lotWords(frame, binder, lot.name)),
      receivedCell(frame, binder, lot.name),
      wayCell(frame, binder, lot),
    ])
  })
  if (rows.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('trace.back.caption'),
    columns: [
      { head: say('trace.batch'), align: 'left', width: 18 },
      { head: say('trace.lot'), align: 'left', width: 14 },
      { head: say('trace.what'), align: 'left' },
      { head: say('trace.came'), align: 'left', width: 18 },
      { head: say('trace.way'), align: 'left', width: 22 },
    ],
    rows,
  }
}
