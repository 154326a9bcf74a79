/** The batch sheet: one dated batch, scaled, weighed out in draws, with every step, hold and blank. */
import type { BoundBatch } from '../binder/bind-batch.ts'
import { blank, box, empty, finishSheet, maker, number, pickSources, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Cell, Facts, Inline, Sheet, Step, Steps, Table } from './model.ts'

/** @param order place among the batch sheets, from 1: its number is 4.order */
export const batchSheet = (frame: Frame, batch: BoundBatch, order: number): Sheet => {
  const { say, show } = frame
  const title = say('batch.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) })
  const ready = readySteps(frame, batch)
  const oilsBefore = scaleCheckStep(frame, batch)
  const oilsAfter = grossStep(frame, batch)
  const lye = lyeSteps(frame, batch)
  const blend = blendSteps(frame, batch)
  const pour = pourSteps(frame, batch)
  const watch = watchSteps(frame)
  let next = 1
  const numbered = (items: readonly Step[]): Steps => {
    const first = next
    next += items.length
    return { kind: 'steps', first, items }
  }
  const blocks: Record<string, Block> = {
    state: stateStamp(frame, batch),
    weights: weightsTable(frame, batch),
    fill: fillFacts(frame, batch),
    ready: numbered(ready),
    lifting: liftFacts(frame, batch),
    'oils-before': numbered(oilsBefore),
    oils: oilDraws(frame, batch),
    'oils-after': numbered(oilsAfter),
    'alkali-draws': alkaliDraws(frame, batch),
    lye: numbered(lye),
    blend: numbered(blend),
    pour: numbered(pour),
    watch: numbered(watch),
    trouble: troubleTable(frame),
    record: recordTable(frame),
  }
  return finishSheet({
      ...frame.sheet('batch', `batch/${batch.key}`, say('section.batch'), `4.${order}`, title),
      template: frame.template('batch'),
      fill: {},
      blocks,
      sources: pickSources(frame.sources, [
        ...batch.fats.flatMap((fat) => fat.sources),
        'iupac-atomic-weights',
        'laliberte2009',
        'olsson1997',
        'felder',
        'niosh-94-110',
        'waters1993',
        'common-practice',
      ]),
    })
}

const stateStamp = ({ say, show }: Frame, batch: BoundBatch): Block => {
  const { superfat } = batch
  const fill = {
    nominal: show.percent('superfat.nominal', superfat.nominal, 1),
    low: show.percent('superfat.low', superfat.monteCarlo.low, 1),
    high: show.percent('superfat.high', superfat.monteCarlo.high, 1),
    worst: show.percent('superfat.worstCase', superfat.worst.low, 1),
  }
  if (batch.state !== 'hold')
    return { kind: 'stamp', heading: say('batch.state.go'), items: [say('batch.state.go-why', fill)] }
  return {
    kind: 'stamp',
    heading: say('batch.state.hold'),
    items: [
      ...(superfat.state === 'hold' ? [say('batch.state.hold-why', fill)] : [say('batch.state.go-why', fill)]),
      ...(batch.tried ? [] : [say('batch.state.untried')]),
      say('batch.state.hold-test'),
      say('batch.state.signed'),
    ],
  }
}

const weightsTable = ({ say, show }: Frame, batch: BoundBatch): Table => {
  const row = (what: Cell, share: Cell, mass: Cell): Cell[] => [what, share, mass, box]
  const oilSum = batch.fats.reduce((sum, fat) => sum + fat.plan.sum, 0)
  const lyeSum = batch.alkali.plan.sum + batch.water.sum + (batch.ice?.sum ?? 0)
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('batch.weights.caption', { bars: show.count('bars', batch.fill.bars) }),
    columns: [
      { head: say('batch.weights.what'), align: 'left' },
      { head: say('batch.weights.share'), align: 'right', width: 18 },
      { head: say('batch.weights.mass'), align: 'right', width: 24 },
      { head: say('batch.weights.done'), align: 'centre', width: 10 },
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
        words(
          say('batch.weights.alkali', {
            alkali: batch.alkali.name,
            purity: show.percent('naoh.purity', batch.alkali.purity, 1),
          }),
        ),
        empty,
        number(show.weight('naoh.mass', batch.alkali.plan.sum, batch.alkali.plan.scale.division)),
      ),
      row(words(say('batch.weights.water')), empty, number(show.weight('water.mass', batch.water.sum, batch.water.scale.division))),
      ...(batch.ice
        ? [row(words(say('batch.weights.ice')), empty, number(show.weight('ice.mass', batch.ice.sum, batch.ice.scale.division)))]
        : []),
    ],
    foot: [
      [words(say('batch.weights.fats')), empty, number(show.weight('oils.mass', oilSum, batch.alkali.plan.scale.division)), empty],
      [words(say('batch.weights.lye')), empty, number(show.weight('lye.mass', lyeSum, batch.alkali.plan.scale.division)), empty],
      [words(say('batch.weights.batter')), empty, number(show.weight('batter.mass', oilSum + lyeSum, batch.alkali.plan.scale.division)), empty],
    ],
  }
}

const fillFacts = ({ say, show }: Frame, batch: BoundBatch): Facts => {
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
      {
        label: say('batch.fill.block'),
        cell: words(
          say('batch.fill.block-size', {
            length: show.length('block.length', block.length),
            width: show.length('block.width', block.width),
          }),
        ),
      },
      { label: say('batch.fill.set-height'), cell: number(show.length('fill.setHeight', fill.setHeight.nominal)) },
      { label: say('batch.fill.volume'), cell: number(show.volume('batter.volume', fill.batterVolume)) },
      { label: say('batch.fill.strength'), cell: number(show.percent('lye.concentration', batch.lye.concentration, 1)) },
      { label: say('batch.fill.superfat'), cell: number(show.percent('superfat.nominal', batch.superfat.nominal, 1)) },
    ],
  }
}

const liftFacts = ({ say, show }: Frame, batch: BoundBatch): Facts => ({
  kind: 'facts',
  size: 'plain',
  items: [
    { label: say('batch.fill.rim'), cell: number(show.length('mould.rimAboveBench', batch.mould.mould.rimAboveBench)) },
    {
      label: say('batch.fill.stand'),
      cell:
        batch.pour.highestStand > 0
          ? number(show.length('pour.highestStand', batch.pour.highestStand))
          : words(say('batch.fill.stand-none')),
    },
    { label: say('batch.fill.kettle'), cell: number(show.heavy('kettle.loaded', batch.pour.loadedMass)) },
    { label: say('batch.fill.loaded'), cell: number(show.heavy('mould.loaded', batch.loadedMould)) },
  ],
})

const readySteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => [
  {
    text: say('batch.ready.two'),
    why: say('batch.ready.two-why'),
    blanks: [{ label: say('batch.ready.names') }],
  },
  { text: say('batch.ready.wear') },
  { text: say('batch.ready.water') },
  { text: say('batch.ready.mould'), why: say('batch.ready.mould-why') },
  {
    text:
      batch.pour.highestStand > 0.02
        ? say('batch.lift.low-stand', { stand: show.length('pour.highestStand', batch.pour.highestStand) })
        : say('batch.lift.floor', { rim: show.length('mould.rimAboveBench', batch.mould.mould.rimAboveBench) }),
    caution: {
      signal: 'warning',
      words: say('batch.lift.caution', { mass: show.heavy('kettle.loaded', batch.pour.loadedMass) }),
    },
  },
  { text: say('batch.ready.tools') },
  { text: say('batch.ready.seize') },
  { text: say('batch.ready.hold'), hold: true },
]

const scaleCheckStep = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const { oils } = batch.scales
  if (!oils.check || oils.checkMass === undefined) return [{ text: say('batch.oils.no-check', { scale: oils.name }) }]
  return [
    {
      text: say('batch.oils.scale-check', {
        mass: show.weight('scale.checkMass', oils.checkMass, 0.001),
        scale: oils.name,
        low: show.weight('scale.checkLow', oils.check.low, 0.001),
        high: show.weight('scale.checkHigh', oils.check.high, 0.001),
      }),
      blanks: [{ label: say('batch.oils.reading'), after: say('blank.grams') }],
    },
  ]
}

const oilDraws = ({ say, show }: Frame, batch: BoundBatch): Table => {
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
        number(show.weight(`${name}.gross`, one.gross, division)),
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
      { head: say('batch.oils.target'), align: 'right', width: 17 },
      { head: say('batch.oils.with-container'), align: 'right', width: 16 },
      { head: say('batch.oils.running'), align: 'right', width: 15 },
      { head: say('batch.oils.lot'), align: 'left', width: 15 },
      { head: say('batch.oils.done'), align: 'centre', width: 8 },
    ],
    rows,
  }
}

const grossStep = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const { gross } = batch.scales
  if (!gross) return [{ text: say('batch.oils.no-scale'), hold: true }]
  return [
    {
      text: say('batch.oils.gross', {
        scale: gross.name,
        mass: show.weight('gross.expected', gross.band.expected, 0.001),
        low: show.weight('gross.low', gross.band.low, 0.001),
        high: show.weight('gross.high', gross.band.high, 0.001),
      }),
      why: say('batch.oils.gross-why'),
      blanks: [{ label: say('batch.oils.reading'), after: say('blank.grams') }, { label: say('blank.initials') }],
      hold: true,
    },
  ]
}

const alkaliDraws = ({ say, show }: Frame, batch: BoundBatch): Table => {
  const { plan } = batch.alkali
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('batch.lye.draws', {
      scale: plan.scale.name,
      container: batch.vessels.alkali.key,
      tare: show.weight('alkali.tare', batch.vessels.alkali['empty-mass'], plan.scale.division),
    }),
    columns: [
      { head: say('batch.oils.draw'), align: 'centre', width: 8 },
      { head: say('batch.lye.what'), align: 'left' },
      { head: say('batch.oils.target'), align: 'right', width: 18 },
      { head: say('batch.oils.with-container'), align: 'right', width: 18 },
      { head: say('batch.lye.read-back'), align: 'left', width: 20 },
      { head: say('batch.oils.done'), align: 'centre', width: 8 },
    ],
    rows: [
      ...batch.lye.portions.map((portion): Cell[] => [
        number(show.count(`portion.${portion.number}`, portion.number)),
        maker(batch.alkali.name),
        number(show.weight(`naoh.portion.${portion.number}.mass`, portion.mass, plan.scale.division)),
        number(
          show.weight(
            `naoh.portion.${portion.number}.gross`,
            portion.mass + batch.vessels.alkali['empty-mass'],
            plan.scale.division,
          ),
        ),
        blank(),
        box,
      ]),
    ],
  }
}

const lyeSteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const { lye, vessels } = batch
  const portions = lye.portions.flatMap((portion): Step[] => {
    const name = `naoh.portion.${portion.number}`
    const add: Step = {
      ...(portion.number === 1 ? { caution: { signal: 'danger' as const, words: say('batch.lye.portion-caution') } } : {}),
      text: say('batch.lye.portion', {
        n: show.count(`portion.${portion.number}`, portion.number),
        of: show.count('portions', lye.portions.length),
        mass: show.weight(`${name}.mass`, portion.mass, batch.alkali.plan.scale.division),
        peak: show.temperature(`${name}.peak`, portion.peak),
        limit: show.temperature('lye.limit', lye.limit),
      }),
      blanks: [{ label: say('batch.lye.temperature'), after: degrees({ say, show }) }],
    }
    if (portion.number === lye.portions.length) return [add]
    return [add, { text: say('batch.lye.wait', { below: show.temperature('lye.nextPortionBelow', lye.waitBelow) }) }]
  })
  const water = {
    mass: show.weight('water.mass', batch.water.sum, batch.water.scale.division),
    vessel: vessels.lye.key,
    temperature: show.temperature('water.temperature', lye.waterTemperature),
  }
  return [
    {
      text: say('batch.lye.weigh', { vessel: vessels.alkali.key }),
      caution: { signal: 'danger', words: say('batch.lye.weigh-caution') },
      blanks: [{ label: say('batch.record.alkali-lot') }],
    },
    batch.ice
      ? {
          text: say('batch.lye.water-ice', {
            ...water,
            ice: show.weight('ice.mass', batch.ice.sum, batch.ice.scale.division),
          }),
          why: say('batch.lye.water-why'),
        }
      : { text: say('batch.lye.water', water) },
    ...portions,
    {
      text: say('batch.lye.stand', { temperature: show.temperature('lye.useAt', batch.pourTemperature) }),
      ...(lye.coolingTime === undefined
        ? {}
        : { why: say('batch.lye.stand-why', { hours: show.hours('lye.coolingTime', lye.coolingTime) }) }),
      blanks: [{ label: say('blank.time') }, { label: say('batch.lye.at'), after: degrees({ say, show }) }],
    },
  ]
}

const degrees = ({ say, show }: Pick<Frame, 'say' | 'show'>): Inline =>
  say(show.firstDegrees === 'F' ? 'blank.fahrenheit' : 'blank.celsius')

const blendSteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const temperature = show.temperature('pour.temperature', batch.pourTemperature)
  return [
    {
      text: say('batch.blend.heat', { temperature }),
      blanks: [{ label: say('batch.blend.oils'), after: degrees({ say, show }) }],
    },
    {
      text: say('batch.blend.hold', { oils: temperature, lye: temperature }),
      why: say('batch.blend.hold-why'),
      blanks: [
        { label: say('batch.blend.oils'), after: degrees({ say, show }) },
        { label: say('batch.blend.lye'), after: degrees({ say, show }) },
        { label: say('blank.initials') },
      ],
      hold: true,
    },
    {
      caution: { signal: 'danger', words: say('batch.blend.pour-caution') },
      text: say('batch.blend.pour'),
      blanks: [{ label: say('blank.time') }],
    },
    {
      text: say('batch.blend.blend'),
      why: say('batch.blend.blend-why'),
      blanks: [{ label: say('batch.blend.time') }],
    },
  ]
}

const pourSteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => [
  {
    caution: { signal: 'danger', words: say('batch.pour.by-jug-caution') },
    text: say('batch.pour.by-jug', {
      vessel: batch.vessels.pouring.key,
      mass: show.heavy('pour.jugMass', batch.pour.jug.mass),
      height: show.length('fill.pourHeight', batch.fill.pourHeight.nominal),
      below: show.length('fill.belowRim', batch.fill.freeboard),
    }),
    blanks: [{ label: say('batch.pour.height') }, { label: say('batch.pour.time') }],
  },
  { text: say('batch.pour.tap') },
  { text: say('batch.pour.cover') },
]

const watchSteps = ({ say, show }: Frame): Step[] => [
  {
    text: say('batch.watch.often'),
    blanks: [{ label: say('batch.watch.hottest'), after: degrees({ say, show }) }, { label: say('blank.time') }],
  },
  {
    text: say('batch.watch.rise'),
    caution: { signal: 'warning', words: say('batch.watch.rise-caution') },
  },
  { text: say('batch.watch.wash') },
  { text: say('batch.watch.open') },
]

const troubleTable = ({ say }: Frame): Table => ({
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

const recordTable = ({ say }: Frame): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('batch.record.caption'),
  columns: [
    { head: say('batch.record.what'), align: 'left', width: 35 },
    { head: say('batch.record.written'), align: 'left' },
  ],
  rows: ['who', 'checked', 'room', 'start', 'end', 'deviations'].map((row) => [words(say(`batch.record.${row}`)), empty]),
})
