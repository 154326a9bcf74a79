/** Training: what a helper shows at each station before working there alone, and who may do what. */
import { scaleChecks } from '../binder/caution-figures.ts'
import type { ShopFile } from '../schema/shop.ts'
import { cautionBox, under } from './cautions/boxes.ts'
import { empty, type Fill, finishSheet, inlineList, pickSources, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Inline, Sheet, Table } from './model.ts'
import { PLACES } from './places.ts'

/** Stations in the order of the work, each with what is shown there. */
const STATIONS = {
  'lye-knowledge': ['splash', 'eye', 'order', 'metal', 'call', 'spill'],
  weigh: ['check', 'draw', 'gross', 'lot'],
  lye: ['portion', 'hot', 'cover', 'failed'],
  blend: ['trace', 'thick', 'lift', 'pour'],
  mould: ['close', 'water', 'open'],
  watch: ['look', 'rise', 'night'],
  cut: ['ready', 'wires', 'stroke', 'snap'],
  slice: ['frame', 'mark'],
  rack: ['place', 'weigh', 'label'],
  test: ['run', 'hold'],
} as const

const TASKS = ['lye', 'oils', 'mould', 'watch', 'cut', 'slice', 'rack', 'test', 'release'] as const
/** Lines to sign on */
const HELPERS = 4

/** @param fill references to other sheets and to entries of trouble, and limits of the shop */
export const trainingSheet = (frame: Frame, shop: ShopFile, fill: Fill): Sheet => {
  const { say } = frame
  const all: Fill = { ...fill, checks: checkWords(frame, shop) }
  const blocks: Record<string, Block> = {
    rule: cautionBox(
      say,
      'warning',
      'training.rule.heading',
      under('training.rule', ['1', '2', '3', '4']),
      all,
    ),
    alone: aloneTable(frame),
    signed: signTable(frame),
  }
  for (const [station, lines] of Object.entries(STATIONS))
    blocks[station] = stationTable(frame, station, lines, all)
  return finishSheet({
    ...frame.sheet(
      'training',
      PLACES.training.id,
      say('section.training'),
      PLACES.training.number,
      say('training.title'),
    ),
    template: frame.template('training'),
    fill: {},
    blocks,
    sources: pickSources(frame.sources, ['nj-right-to-know', 'common-practice']),
  })
}

const stationTable = ({ say }: Frame, station: string, lines: readonly string[], fill: Fill): Table => ({
  kind: 'table',
  style: 'log',
  caption: say(`training.${station}.caption`),
  columns: [
    { head: say('training.column.ask'), align: 'left', width: 26 },
    { head: say('training.column.answer'), align: 'left' },
    { head: say('training.column.helper'), align: 'left', width: 10 },
    { head: say('training.column.trainer'), align: 'left', width: 10 },
    { head: say('training.column.date'), align: 'left', width: 10 },
  ],
  rows: lines.map((line) => [
    words(say(`training.${station}.${line}.ask`, fill)),
    words(say(`training.${station}.${line}.answer`, fill)),
    empty,
    empty,
    empty,
  ]),
})

const aloneTable = ({ say }: Frame): Table => ({
  kind: 'table',
  caption: say('training.alone.caption'),
  columns: [
    { head: say('training.alone.task'), align: 'left', width: 38 },
    { head: say('training.alone.helper'), align: 'left' },
    { head: say('training.alone.needs'), align: 'left', width: 20 },
  ],
  rows: TASKS.map((task) =>
    [task, `${task}-helper`, `${task}-needs`].map((key) => words(say(`training.alone.${key}`))),
  ),
})

const signTable = ({ say }: Frame): Table => {
  const keys = ['name', 'stations', 'date', 'helper', 'trainer', 'until']
  return {
    kind: 'table',
    style: 'log',
    caption: say('training.signed.caption'),
    columns: keys.map((key) => ({ head: say(`training.signed.${key}`), align: 'left' as const })),
    rows: Array.from({ length: HELPERS }, () => keys.map(() => empty)),
  }
}

/** Check weights of the shop's scales, one after the other. */
const checkWords = ({ say, show, scaleName }: Frame, shop: ShopFile): Inline =>
  inlineList(
    say,
    scaleChecks(shop).flatMap(({ name, mass }) =>
      mass === undefined
        ? []
        : [
            say('training.weigh.on', {
              mass: show.heavy(`training.check.${name}`, mass),
              scale: scaleName(name),
            }),
          ],
    ),
  )
