/** The tables of a batch sheet: weights, draws, fill, heights to lift, trouble, record. */
import type { BoundBatch } from '../binder/bind-batch.ts'
import { blank, box, empty, maker, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Cell, Facts, Table } from './model.ts'

/** kg; where no alkali was planned there is nothing to be finer about */
const GRAM = 0.001

const alkaliKey = (kind: 'NaOH' | 'KOH'): string => kind.toLowerCase()

export const weightsTable = ({ say, show }: Frame, batch: BoundBatch): Table => {
  const row = (what: Cell, share: Cell, mass: Cell): Cell[] => [what, share, mass]
  const oilSum = batch.fats.reduce((sum, fat) => sum + fat.plan.sum, 0)
  const lyeSum =
    batch.alkalis.reduce((sum, { plan }) => sum + plan.sum, 0) + batch.water.sum + (batch.ice?.sum ?? 0)
  const laterSum = batch.later?.sum ?? 0
  const additionSum = batch.additions.reduce((sum, { plan }) => sum + plan.sum, 0)
  const division = batch.alkalis[0]?.plan.scale.division ?? GRAM
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('batch.weights.caption', { bars: show.count('bars', batch.fill.bars) }),
    columns: [
      { head: say('batch.weights.what'), align: 'left' },
      { head: say('batch.weights.share'), align: 'right', width: 18 },
      { head: say('batch.weights.mass'), align: 'right', width: 24, main: true },
    ],
    rows: [
      ...batch.fats.map((fat) =>
        row(
          maker(fat.name),
          number(show.percent(`fat.${fat.key}.share`, fat.share, 1)),
          number(show.weight(`fat.${fat.key}.mass`, fat.plan.sum, fat.plan.scale.division)),
        ),
      ),
      row(
        batch.liquid === undefined ? words(say('batch.weights.water')) : maker(batch.liquid),
        empty,
        number(show.weight('water.mass', batch.water.sum, batch.water.scale.division)),
      ),
      ...(batch.ice
        ? [
            row(
              words(say('batch.weights.ice')),
              empty,
              number(show.weight('ice.mass', batch.ice.sum, batch.ice.scale.division)),
            ),
          ]
        : []),
      ...batch.alkalis.map(({ kind, name, purity, plan }) =>
        row(
          words(
            say('batch.weights.alkali', {
              alkali: name,
              purity: show.percent(`${alkaliKey(kind)}.purity`, purity, 1),
            }),
          ),
          empty,
          number(show.weight(`${alkaliKey(kind)}.mass`, plan.sum, plan.scale.division)),
        ),
      ),
      ...(batch.later
        ? [
            row(
              words(say('batch.weights.later')),
              empty,
              number(show.weight('later.mass', batch.later.sum, batch.later.scale.division)),
            ),
          ]
        : []),
      ...batch.additions.map(({ key, name, plan }) =>
        row(
          maker(name),
          number(show.percent(`addition.${key}.share`, plan.sum / oilSum, 1)),
          number(show.weight(`addition.${key}.mass`, plan.sum, plan.scale.division)),
        ),
      ),
    ],
    foot: [
      [words(say('batch.weights.fats')), empty, number(show.weight('oils.mass', oilSum, division))],
      [words(say('batch.weights.lye')), empty, number(show.weight('lye.mass', lyeSum, division))],
      [
        words(say('batch.weights.batter')),
        empty,
        number(show.weight('batter.mass', oilSum + lyeSum + laterSum + additionSum, division)),
      ],
    ],
  }
}

export const fillFacts = ({ say, show }: Frame, batch: BoundBatch): Facts => {
  const { fill, mould } = batch
  const { block } = mould.mould
  return {
    kind: 'facts',
    size: 'big',
    items: [
      {
        label: say('batch.fill.height'),
        cell: number(show.length('fill.pourHeight', fill.pourHeight.nominal)),
        note: say('batch.fill.height-note'),
      },
      {
        label: say('batch.fill.below-rim'),
        cell: number(show.length('fill.belowRim', fill.freeboard)),
        note: say('batch.fill.below-rim-note'),
      },
      { label: say('batch.fill.bars'), cell: number(show.count('bars', fill.bars)) },
      { label: say('batch.fill.block-length'), cell: number(show.length('block.length', block.length)) },
      { label: say('batch.fill.block-width'), cell: number(show.length('block.width', block.width)) },
      {
        label: say('batch.fill.set-height'),
        cell: number(show.length('fill.setHeight', fill.setHeight.nominal)),
      },
      { label: say('batch.fill.volume'), cell: number(show.volume('batter.volume', fill.batterVolume)) },
      {
        label: say('batch.fill.strength'),
        cell: number(show.percent('lye.concentration', batch.lye.concentration, 1)),
      },
      {
        label: say('batch.fill.superfat'),
        cell: number(show.percent('superfat.nominal', batch.superfat.nominal, 1)),
      },
    ],
  }
}

export const liftFacts = ({ say, show }: Frame, batch: BoundBatch): Facts => ({
  kind: 'facts',
  size: 'plain',
  items: [
    {
      label: say('batch.fill.rim'),
      cell: number(show.length('mould.rimAboveBench', batch.mould.mould.rimAboveBench)),
    },
    {
      label: say('batch.fill.stand'),
      cell:
        batch.standHeight > 0.02
          ? number(show.length('pour.highestStand', batch.standHeight))
          : words(say('batch.fill.stand-none')),
    },
    { label: say('batch.fill.kettle'), cell: number(show.heavy('kettle.loaded', batch.pour.loadedMass)) },
    { label: say('batch.fill.loaded'), cell: number(show.heavy('mould.loaded', batch.loadedMould)) },
  ],
})

export const oilDraws = ({ say, show }: Frame, batch: BoundBatch): Table => {
  const { weighing } = batch.vessels
  let inKettle = 0
  let draw = 0
  const rows = batch.fats.flatMap((fat) =>
    fat.plan.draws.map((one): Cell[] => {
      inKettle += one.target
      draw += 1
      const name = `fat.${fat.key}.draw.${one.number}`
      const { division } = fat.plan.scale
      return [
        number(show.count(`draw.${draw}`, draw)),
        maker(fat.name),
        number(show.weight(`${name}.target`, one.target, division)),
        number(show.weight(`${name}.inKettle`, inKettle, division)),
        blank(),
        box,
      ]
    }),
  )
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('batch.oils.caption', {
      scale: batch.scales.oils.name,
      container: weighing.key,
      tare: show.weight('weighing.tare', weighing['empty-mass'], 0.001),
    }),
    columns: [
      { head: say('batch.oils.draw'), align: 'centre', width: 8 },
      { head: say('batch.oils.what'), align: 'left' },
      { head: say('batch.oils.target'), align: 'right', width: 17, main: true },
      { head: say('batch.oils.running'), align: 'right', width: 15 },
      { head: say('batch.oils.lot'), align: 'left', width: 15 },
      { head: say('batch.oils.done'), align: 'centre', width: 8 },
    ],
    rows,
  }
}

/** Water, ice, then alkali by portions: in the order in which they go in, each zeroed in its own container. */
export const lyeDraws = ({ say, show }: Frame, batch: BoundBatch): Table => {
  const scale = batch.alkalis[0]?.plan.scale
  const drawsOf = (what: Cell, name: string, plan: BoundBatch['water']): Cell[][] =>
    plan.draws.map((draw) => [
      what,
      number(show.weight(`${name}.draw.${draw.number}.target`, draw.target, plan.scale.division)),
      blank(),
      box,
    ])
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('batch.lye.draws', { scale: scale?.name ?? '' }),
    columns: [
      { head: say('batch.lye.what'), align: 'left' },
      { head: say('batch.oils.target'), align: 'right', width: 20, main: true },
      { head: say('batch.lye.read-back'), align: 'left', width: 24 },
      { head: say('batch.oils.done'), align: 'centre', width: 8 },
    ],
    rows: [
      ...drawsOf(
        batch.liquid === undefined ? words(say('batch.weights.water')) : maker(batch.liquid),
        'water',
        batch.water,
      ),
      ...(batch.ice ? drawsOf(words(say('batch.lye.ice')), 'ice', batch.ice) : []),
      ...batch.lye.portions.flatMap((portion) =>
        batch.alkalis.map(({ kind, name, plan }, index): Cell[] => [
          words(
            say('batch.lye.portion-of', {
              alkali: name,
              n: show.count(`portion.${portion.number}`, portion.number),
            }),
          ),
          number(
            show.weight(
              `${alkaliKey(kind)}.portion.${portion.number}.mass`,
              portion.masses[index] ?? 0,
              plan.scale.division,
            ),
          ),
          blank(),
          box,
        ]),
      ),
    ],
  }
}

export const troubleTable = ({ say }: Frame): Table => ({
  kind: 'table',
  caption: say('batch.trouble.caption'),
  columns: [
    { head: say('batch.trouble.sign'), align: 'left', width: 32 },
    { head: say('batch.trouble.now'), align: 'left' },
  ],
  rows: ['1', '2', '3', '4', '5'].map((row) => [
    words(say(`batch.trouble.${row}.sign`)),
    words(say(`batch.trouble.${row}.now`)),
  ]),
})

export const recordTable = ({ say }: Frame): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('batch.record.caption'),
  columns: [
    { head: say('batch.record.what'), align: 'left', width: 35 },
    { head: say('batch.record.written'), align: 'left' },
  ],
  rows: ['who', 'checked', 'room', 'start', 'end', 'deviations'].map((row) => [
    words(say(`batch.record.${row}`)),
    empty,
  ]),
})
