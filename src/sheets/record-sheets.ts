/** Records: blank logs to copy. */
import type { BoundBinder } from '../binder/bind.ts'
import { scaleChecks } from '../binder/caution-figures.ts'
import { empty, type Fill, finishSheet, maker, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Sheet, Table } from './model.ts'
import { PLACES, type PlaceKey } from './places.ts'

interface Log {
  readonly key: 'batches' | 'lots' | 'scales' | 'wires' | 'care' | 'accidents'
  readonly place: PlaceKey
  readonly orientation: Sheet['orientation']
  /** each with its share of the width in percent; 0 shares what is left */
  readonly columns: Readonly<Record<string, number>>
  readonly rows: number
}

const LOGS: readonly Log[] = [
  {
    key: 'batches',
    place: 'log-batches',
    orientation: 'landscape',
    columns: {
      date: 10, recipe: 0, sheet: 8, record: 8, bars: 8, deviations: 22, test: 14, released: 16,
    }, // biome-ignore format: one line reads better
    rows: 11,
  },
  {
    key: 'lots',
    place: 'log-lots',
    orientation: 'landscape',
    columns: {
      date: 8, what: 0, supplier: 13, lot: 10, mass: 8, best: 8, purity: 16, look: 9, open: 7, gone: 7, initials: 6,
    }, // biome-ignore format: one line reads better
    rows: 11,
  },
  {
    key: 'scales',
    place: 'log-scales',
    orientation: 'portrait',
    columns: { date: 12, which: 12, empty: 11, reads: 14, range: 17, good: 9, done: 0, initials: 9 },
    rows: 15,
  },
  {
    key: 'wires',
    place: 'log-wires',
    orientation: 'landscape',
    columns: {
      fitted: 8, cutter: 13, gauge: 9, 'note-wanted': 8, 'note-found': 9, cuts: 18, off: 8, why: 0, found: 7, initials: 6,
    }, // biome-ignore format: one line reads better
    rows: 11,
  },
  {
    key: 'care',
    place: 'log-care',
    orientation: 'portrait',
    columns: { date: 12, done: 0, found: 34, initials: 10 },
    rows: 8,
  },
  {
    key: 'accidents',
    place: 'log-accidents',
    orientation: 'landscape',
    columns: { date: 8, who: 10, what: 0, hurt: 17, cause: 15, change: 17, sheets: 7, closed: 8 },
    rows: 5,
  },
]

/** @param fill references to other sheets */
export const recordSheets = (frame: Frame, binder: BoundBinder, fill: Fill): readonly Sheet[] =>
  LOGS.map((log) => recordSheet(frame, binder, fill, log))

const recordSheet = (frame: Frame, binder: BoundBinder, fill: Fill, log: Log): Sheet => {
  const { say } = frame
  const { id, number: sheetNumber } = PLACES[log.place]
  const before =
    log.key === 'scales' ? checkTable(frame, binder) : log.key === 'care' ? careTable(frame, fill) : undefined
  return finishSheet({
    ...frame.sheet('record', id, say('section.records'), sheetNumber, say(`records.${log.key}.title`)),
    orientation: log.orientation,
    template: frame.template(before ? 'record-with-list' : 'record'),
    fill: { note: say(`records.${log.key}.note`), copy: say('records.copy') },
    blocks: { log: logTable(frame, log), ...(before ? { list: before } : {}) },
    sources: [],
  })
}

const logTable = ({ say }: Frame, { key, columns, rows }: Log): Table => ({
  kind: 'table',
  style: 'log',
  columns: Object.entries(columns).map(([column, width]) => ({
    head: say(`records.${key}.${column}`),
    align: 'left',
    ...(width > 0 ? { width } : {}),
  })),
  rows: Array.from({ length: rows }, () => Object.keys(columns).map(() => empty)),
})

/** Scales with their check weights, as the shop's file has them. */
const checkTable = ({ say, show, scaleName }: Frame, { content }: BoundBinder): Block => ({
  kind: 'table',
  caption: say('records.scales.caption'),
  columns: [
    { head: say('records.scales.scale'), align: 'left' },
    { head: say('records.scales.mass'), align: 'right', width: 30 },
    { head: say('records.scales.division'), align: 'right', width: 30 },
  ],
  rows: scaleChecks(content.shop.value).map(({ name, mass, division }) => [
    maker(scaleName(name)),
    mass === undefined ? words(say('records.scales.none')) : number(show.heavy(`scale.${name}.check`, mass)),
    number(show.weight(`scale.${name}.division`, division, division)),
  ]),
})

const CARE = ['mould', 'water', 'cutters', 'pots', 'blender', 'gear', 'water-tap', 'kit', 'racks'] as const

const careTable = ({ say }: Frame, fill: Fill): Block => ({
  kind: 'table',
  caption: say('records.care.caption'),
  columns: [
    { head: say('records.care.thing'), align: 'left', width: 26 },
    { head: say('records.care.how'), align: 'left' },
    { head: say('records.care.when'), align: 'left', width: 24 },
  ],
  rows: CARE.map((thing) =>
    ['thing', 'how', 'when'].map((part) => words(say(`records.care.${thing}.${part}`, fill))),
  ),
})
