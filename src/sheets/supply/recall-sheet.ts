/** One lot or batch called back: what is held, who is told, what nobody wrote down. It guesses nothing and judges nothing. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { Recalled } from '../../binder/bind-trace.ts'
import { dateOf } from '../../units/civil-day.ts'
import { box, empty, finishSheet, maker, nothing, number, pickSources, words } from '../compose.ts'
import { batchWords as shortWords } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Facts, Inline, Sheet, Step } from '../model.ts'
import { PLACES } from '../places.ts'
import { amountValue, materialName } from './supply-words.ts'
import { countCell, lotWords, receivedCell, traceFindings, wayCell } from './trace-words.ts'

/** A batch as somebody outside the shop can find it: by its day, and by the code on its wrapper. */
const batchWords = (frame: Frame, binder: BoundBinder, key: string): Inline => {
  const { say, show } = frame
  const batch = shortWords(frame, binder, key)
  const date = binder.content.batches.get(key)?.value.date
  if (date === undefined) return batch
  const poured = show.date(`recall.day.${key}`, date)
  const code = binder.labels.find((label) => label.batch.key === key)?.code?.code
  return code === undefined
    ? say('recall.batch-of', { batch, poured })
    : say('recall.batch-coded', { batch, poured, code })
}

/** kg */
const GRAM = 0.001

/** It stands in no binder: it is printed by itself, on the day. */
const RECALL = { id: 'recall', number: 'R' } as const

export const recallSheet = (frame: Frame, binder: BoundBinder, recalled: Recalled): Sheet => {
  const { say } = frame
  const name = nameOf(recalled)
  return finishSheet({
    ...frame.sheet(
      'record',
      RECALL.id,
      say('section.supply'),
      RECALL.number,
      recalled.kind === 'lot'
        ? say('recall.title-lot', { lot: name })
        : say('recall.title-batch', { batch: name }),
    ),
    template: frame.template('recall'),
    fill: { day: frame.show.date('stock.day', binder.stock.date) },
    blocks: {
      about:
        recalled.kind === 'lot' ? lotFacts(frame, binder, recalled) : batchFacts(frame, binder, recalled),
      sums: sumFacts(frame, recalled),
      steps: { kind: 'steps', first: 1, items: stepsOf(frame, binder, recalled) },
      open: {
        kind: 'cautions',
        signal: 'warning',
        heading: say('recall.open.heading'),
        items: openOf(frame, binder, recalled),
      },
      held: heldTable(frame, binder, recalled),
      'to-come': {
        kind: 'cautions',
        signal: 'warning',
        heading: say('recall.to-come.heading'),
        items: toCome(frame, binder, recalled),
      },
      gone: goneTable(frame, binder, recalled),
      ways: wayTable(frame, binder, recalled),
      lots: recalled.kind === 'batch' ? sourceTable(frame, binder, recalled) : nothing,
      begun: blankRow(frame, ['recall.signed.begun', 'recall.signed.by', 'recall.signed.why']),
      signed: blankRow(frame, ['recall.signed.supplier', 'recall.signed.authority', 'recall.signed.closed']),
    },
    sources: pickSources(frame.sources, ['common-practice']),
  })
}

const blankRow = ({ say }: Frame, keys: readonly string[]): Block => ({
  kind: 'table',
  style: 'log',
  columns: keys.map((key) => ({ head: say(key), align: 'left' })),
  rows: [keys.map(() => empty)],
})

const nameOf = (recalled: Recalled): string => (recalled.kind === 'lot' ? recalled.lot.lot : recalled.batch)

/** The lot and all that was made of it as stock, as far as some of it may be there. */
const lotsIn = (recalled: Recalled): readonly string[] => [
  ...(recalled.kind === 'lot' ? [recalled.lot.lot] : []),
  ...recalled.holders.lots.map(({ name }) => name),
]

type RecalledLot = Extract<Recalled, { kind: 'lot' }>
type RecalledBatch = Extract<Recalled, { kind: 'batch' }>

const lotFacts = (frame: Frame, binder: BoundBinder, { lot }: RecalledLot): Facts => {
  const { say, show } = frame
  const { stock } = binder
  const amount = (key: string, value: number): Cell =>
    number(amountValue(frame, stock, `recall.${key}`, lot.material, value))
  const seller = stock.sellers.get(lot.lot)
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      { label: say('recall.lot'), cell: maker(lot.lot) },
      { label: say('recall.material'), cell: maker(materialName(stock, lot.material)) },
      {
        label: say('recall.seller'),
        cell:
          seller !== undefined
            ? maker(seller)
            : words(say(lot.madeBy === undefined ? 'trace.not-written' : 'recall.made-here')),
      },
      { label: say('recall.came'), cell: receivedCell(frame, binder, lot.lot) },
      {
        label: say('recall.expiry'),
        cell:
          lot.expiry === undefined
            ? words(say('trace.not-written'))
            : number(show.date('recall.expiry', dateOf(lot.expiry))),
      },
      { label: say('recall.bought'), cell: amount('bought', lot.bought) },
      { label: say('recall.used'), cell: amount('used', lot.used) },
      { label: say('recall.lost'), cell: amount('lost', lot.lost) },
      { label: say('recall.left'), cell: amount('left', Math.max(0, lot.left)) },
    ],
  }
}

const batchFacts = (frame: Frame, binder: BoundBinder, { batch }: RecalledBatch): Facts => {
  const { say, show } = frame
  const file = binder.content.batches.get(batch)?.value
  const recipe = file && binder.content.recipes.get(file.recipe)?.value.title
  const made = file?.made
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      { label: say('recall.batch'), cell: maker(batch) },
      { label: say('recall.recipe'), cell: maker(recipe ?? batch) },
      { label: say('recall.poured'), cell: number(show.date('recall.poured', file?.date ?? '')) },
      { label: say('recall.sheet'), cell: words(batchWords(frame, binder, batch)) },
      ...(made ? [] : [{ label: say('recall.made'), cell: words(say('recall.not-made')) }]),
    ],
  }
}

/** How far it went, before anybody reads on. */
const sumFacts = ({ say, show }: Frame, { holders }: Recalled): Facts => ({
  kind: 'facts',
  size: 'big',
  items: [
    { label: say('recall.batches'), cell: number(show.count('recall.batches', holders.batches.length)) },
    { label: say('recall.fit'), cell: number(show.count('recall.fit', holders.made)) },
    { label: say('recall.gone'), cell: number(show.count('recall.gone', holders.sold)) },
    { label: say('recall.kept'), cell: number(show.count('recall.kept', holders.kept)) },
  ],
})

/** Lye itself is among what is fetched and tagged. */
const isCaustic = ({ stock, content }: BoundBinder, recalled: Recalled): boolean =>
  lotsIn(recalled).some((lot) => {
    const material = stock.lots.get(lot)?.material ?? ''
    return content.alkalis.has(material) || content.stockLyes.has(material)
  })

const stepsOf = (frame: Frame, binder: BoundBinder, recalled: Recalled): Step[] => {
  const { say } = frame
  const { stock } = binder
  const seller = recalled.kind === 'lot' ? stock.sellers.get(recalled.lot.lot) : undefined
  return [
    { text: say('recall.step.stop'), hold: true },
    ...(recalled.holders.sold > 0 || recalled.holders.unrecorded.length > 0
      ? [{ text: say('recall.step.shelf') }]
      : []),
    {
      ...(isCaustic(binder, recalled)
        ? {
            caution: {
              signal: 'danger' as const,
              words: say('recall.step.caustic', { lye: PLACES.lye.number }),
            },
          }
        : {}),
      text: say('recall.step.count'),
    },
    { text: seller === undefined ? say('recall.step.suppliers') : say('recall.step.supplier', { seller }) },
    { text: say('recall.step.authority') },
    { text: say('recall.step.tell') },
    {
      text: say('recall.step.write', {
        accidents: PLACES['log-accidents'].number,
        release: PLACES.release.number,
      }),
    },
  ]
}

/** What the records do not say, each with what counts until somebody has found out. */
const openOf = (frame: Frame, binder: BoundBinder, recalled: Recalled): Inline[] => {
  const { say, show } = frame
  const { holders } = recalled
  const called = new Set(holders.batches.map(({ name }) => name))
  const batch = (key: string): Inline => batchWords(frame, binder, key)
  const materials = new Set(
    lotsIn(recalled).flatMap((lot) => {
      const state = binder.stock.lots.get(lot)
      return state ? [state.material] : []
    }),
  )
  return [
    ...traceFindings(frame, binder, holders.findings),
    ...holders.bars
      .filter(({ batch: key }) => holders.unrecorded.includes(key))
      .map(({ batch: key, made }) =>
        made === undefined
          ? say('recall.open.uncounted', { batch: batch(key) })
          : say('recall.open.unrecorded', {
              batch: batch(key),
              bars: show.count(`recall.open.${key}`, made),
            }),
      ),
    // made of the same thing, and nobody wrote down of which lot
    ...binder.records
      .filter((record) => record.made && !called.has(record.batch.key))
      .flatMap((record) =>
        record.materials
          .filter(
            ({ material, lots }) => material !== undefined && materials.has(material) && lots.length === 0,
          )
          .map(({ material }) =>
            say('recall.open.no-lot', {
              batch: batch(record.batch.key),
              material: materialName(binder.stock, material ?? ''),
            }),
          ),
      ),
    ...binder.stock.findings
      .filter(({ code }) => code === 'batch-not-written-down')
      .map(({ values }) => say('recall.open.not-made', { batch: batch(String(values.batch)) })),
  ]
}

/** Batches that would take it next. */
const toCome = (frame: Frame, binder: BoundBinder, recalled: Recalled): Inline[] =>
  [
    ...new Set(
      binder.stock.proposal.picks
        .filter(({ lot }) => lotsIn(recalled).includes(lot))
        .map((pick) => pick.batch),
    ),
  ].map((key) => frame.say('recall.to-come', { batch: batchWords(frame, binder, key) }))

const heldTable = (frame: Frame, binder: BoundBinder, recalled: Recalled): Block => {
  const { say, show } = frame
  const { stock, trace } = binder
  const lots = lotsIn(recalled).flatMap((lot): Cell[][] => {
    const state = stock.lots.get(lot)
    if (!state || state.left <= 0) return []
    return [
      [
        words(say('recall.held.lot', { lot, what: lotWords(frame, binder, lot) })),
        number(amountValue(frame, stock, `recall.held.${lot}`, state.material, state.left)),
        words(say('recall.held.store')),
        box,
        empty,
        empty,
      ],
    ]
  })
  const bars = recalled.holders.bars.flatMap(({ batch, kept }): Cell[][] => {
    const made = trace.batches.find(({ key }) => key === batch)?.made
    const { tests = 0, rejected = 0 } = made?.bars ?? {}
    const row = (key: string, count: Cell, where: Cell): Cell[] => [
      words(say(key, { batch: batchWords(frame, binder, batch) })),
      count,
      where,
      box,
      empty,
      empty,
    ]
    const mass = (name: 'trimmed'): Cell =>
      made?.[name] === undefined
        ? words(say('trace.not-written'))
        : number(show.weight(`recall.held.${batch}.${name}`, made[name], GRAM))
    return [
      row(
        'recall.held.bars',
        countCell(frame, `recall.held.${batch}.bars`, kept),
        made?.stands === undefined ? words(say('trace.not-written')) : maker(made.stands),
      ),
      ...(tests + rejected > 0
        ? [
            row(
              'recall.held.others',
              number(show.count(`recall.held.${batch}.others`, tests + rejected)),
              empty,
            ),
          ]
        : []),
      row('recall.held.trim', mass('trimmed'), empty),
    ]
  })
  const rows = [...lots, ...bars]
  if (rows.length === 0) return { kind: 'cautions', signal: 'notice', items: [say('recall.held.nothing')] }
  return {
    kind: 'table',
    style: 'log',
    caption: say('recall.held.caption'),
    columns: [
      { head: say('recall.held.what'), align: 'left' },
      { head: say('recall.held.records'), align: 'right', width: 14 },
      { head: say('recall.held.where'), align: 'left', width: 20 },
      { head: say('recall.held.tagged'), align: 'centre', width: 9 },
      { head: say('recall.held.found'), align: 'left', width: 13 },
      { head: say('record.initials'), align: 'left', width: 10 },
    ],
    rows,
  }
}

/** A line for each hand-over, with room for the call. */
const goneTable = (frame: Frame, binder: BoundBinder, { holders }: Recalled): Block => {
  const { say, show } = frame
  const rows = holders.batches.flatMap(({ name }): Cell[][] => {
    const made = binder.trace.batches.find(({ key }) => key === name)?.made
    return (made?.went ?? []).map(({ date, bars, to }, index): Cell[] => [
      words(batchWords(frame, binder, name)),
      number(show.count(`recall.${name}.gone.${index + 1}`, bars)),
      maker(to),
      number(show.date(`recall.${name}.gone.${index + 1}.date`, date)),
      empty,
      empty,
    ])
  })
  // what left since nobody has typed in yet
  rows.push(...Array.from({ length: 2 }, () => Array.from({ length: 6 }, () => empty)))
  return {
    kind: 'table',
    style: 'log',
    caption: say('recall.gone.caption'),
    columns: [
      { head: say('trace.batch'), align: 'left', width: 18 },
      { head: say('recall.gone.bars'), align: 'right', width: 8 },
      { head: say('recall.gone.to'), align: 'left' },
      { head: say('recall.gone.date'), align: 'left', width: 18 },
      { head: say('recall.gone.told'), align: 'left', width: 20 },
      { head: say('recall.gone.back'), align: 'left', width: 12 },
    ],
    rows,
  }
}

const wayTable = (frame: Frame, binder: BoundBinder, recalled: Recalled): Block => {
  const { say } = frame
  const { lots, batches } = recalled.holders
  const rows: Cell[][] = [
    ...lots.map((one): Cell[] => [
      words(say('recall.held.lot', { lot: one.name, what: lotWords(frame, binder, one.name) })),
      wayCell(frame, binder, one),
    ]),
    ...batches
      .filter(({ name }) => name !== nameOf(recalled))
      .map((one): Cell[] => [words(batchWords(frame, binder, one.name)), wayCell(frame, binder, one)]),
  ]
  if (rows.length === 0) return { kind: 'cautions', signal: 'notice', items: [say('recall.ways.nothing')] }
  return {
    kind: 'table',
    caption: say('recall.ways.caption'),
    columns: [
      { head: say('recall.ways.what'), align: 'left', width: 55 },
      { head: say('trace.way'), align: 'left' },
    ],
    rows,
  }
}

const sourceTable = (frame: Frame, binder: BoundBinder, { sources }: RecalledBatch): Block => {
  const { say } = frame
  if (sources.lots.length === 0)
    return { kind: 'cautions', signal: 'notice', items: [say('recall.lots.nothing')] }
  return {
    kind: 'table',
    caption: say('recall.lots.caption'),
    columns: [
      { head: say('trace.lot'), align: 'left', width: 16 },
      { head: say('trace.what'), align: 'left' },
      { head: say('trace.came'), align: 'left', width: 22 },
      { head: say('trace.way'), align: 'left', width: 26 },
    ],
    rows: sources.lots.map((one): Cell[] => [
      maker(one.name),
      words(lotWords(frame, binder, one.name)),
      receivedCell(frame, binder, one.name),
      wayCell(frame, binder, one),
    ]),
  }
}
