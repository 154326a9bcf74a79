/** Making the lye: labels, weighings, portions or a stock lye, the check of the pail, and how it cools. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { blank, box, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Facts, Inline, NamedStep, Step, Table, Wait } from '../model.ts'
import { kettleCarriers } from './ready.ts'
import { waitHours } from './waits.ts'
import { additionWords, alkaliKey, liquidWords } from './weights.ts'

const GRAM = 0.001

/** Of an alkali in words that stay when the maker's name for it is long. */
const kindWords = ({ say }: Frame, kind: 'NaOH' | 'KOH'): Inline => say(`batch.lye.kind.${alkaliKey(kind)}`)

export const lyeReadySteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show } = frame
  const water = {
    vessel: frame.vesselName(batch.vessels.lye.key),
    temperature: show.temperature('water.temperature', batch.lye.waterTemperature),
  }
  return [
    ...batch.alkalis.map(
      ({ kind, name, purity, stock }): NamedStep => ({
        name: `label-${alkaliKey(kind)}`,
        text: say(stock ? 'batch.lye.stock-label' : 'batch.lye.label', {
          alkali: name,
          purity: show.percent(`${alkaliKey(kind)}.purity`, purity, 1),
        }),
      }),
    ),
    ...placeStep(frame, batch),
    ...(batch.lye.thinned
      ? [{ name: 'stock-clear', text: say('batch.lye.stock-clear'), why: say('batch.lye.stock-clear-why') }]
      : []),
    {
      name: 'weigh-lye',
      caution: {
        signal: 'danger',
        words: say(batch.lye.thinned ? 'batch.lye.stock-caution' : 'batch.lye.weigh-caution'),
      },
      text: say(batch.lye.thinned ? 'batch.lye.stock-weigh' : 'batch.lye.weigh'),
    },
    batch.ice
      ? { name: 'water-in', text: say('batch.lye.water-ice', water), why: say('batch.lye.water-why') }
      : { name: 'water-in', text: say('batch.lye.water', water) },
  ]
}

/** In the order in which they go into the pail, each zeroed in its own container, with what the pail holds then. */
export const lyeDraws = (frame: Frame, batch: BoundBatch): Table => {
  const { say, show } = frame
  const acids = batch.additions.filter(({ role }) => role === 'acid')
  const plans = [
    batch.water,
    ...(batch.ice ? [batch.ice] : []),
    ...[...acids, ...batch.alkalis].map(({ plan }) => plan),
  ]
  const oneScale = plans.every(({ scale }) => scale.name === batch.water.scale.name)
  let inPail = 0
  let order = 0
  const names: string[] = []
  const row = (what: Cell, name: string, mass: number, plan: BoundBatch['water']): Cell[] => {
    inPail += mass
    order += 1
    names.push(name)
    return [
      number(show.count(`lye.draw.${order}`, order)),
      what,
      words(
        say(oneScale ? 'batch.lye.container' : 'batch.lye.container-scale', {
          container: frame.vesselName(plan.container.name),
          tare: show.weight(`${plan.container.name}.tare`, plan.container.emptyMass, GRAM),
          ...(oneScale ? {} : { scale: frame.scaleName(plan.scale.name) }),
        }),
      ),
      number(show.weight(name, mass, plan.scale.division)),
      number(show.weight(`${name}.inPail`, inPail, plan.scale.division)),
      blank(),
      box,
    ]
  }
  const drawsOf = (what: Cell, name: string, plan: BoundBatch['water']): Cell[][] =>
    plan.draws.map((draw) => row(what, `${name}.draw.${draw.number}.target`, draw.target, plan))
  const rows = [
    ...drawsOf(liquidWords(frame, batch), 'water', batch.water),
    ...(batch.ice ? drawsOf(words(say('batch.lye.ice')), 'ice', batch.ice) : []),
    ...acids.flatMap((acid) => drawsOf(words(additionWords(frame, acid)), `addition.${acid.key}`, acid.plan)),
    ...(batch.lye.thinned
      ? batch.alkalis.flatMap(({ kind, name, plan }) =>
          drawsOf(words(say('batch.lye.stock-of', { alkali: name })), alkaliKey(kind), plan),
        )
      : []),
    ...batch.lye.portions.flatMap((portion) =>
      batch.alkalis.map(({ kind, plan }, index) =>
        row(
          words(
            say('batch.lye.portion-of', {
              alkali: say(`batch.lye.kind-head.${alkaliKey(kind)}`),
              n: show.count(`portion.${portion.number}`, portion.number),
            }),
          ),
          `${alkaliKey(kind)}.portion.${portion.number}.mass`,
          portion.masses[index] ?? 0,
          plan,
        ),
      ),
    ),
  ]
  return {
    kind: 'table',
    style: 'weigh',
    caption: oneScale
      ? say('batch.lye.draws', { scale: frame.scaleName(batch.water.scale.name) })
      : say('batch.lye.draws-several'),
    columns: [
      { head: say('batch.oils.draw'), align: 'centre', width: 8 },
      { head: say('batch.lye.what'), align: 'left' },
      { head: say('batch.lye.in'), align: 'left', width: oneScale ? 13 : 20 },
      { head: say('batch.oils.target'), align: 'right', width: 14, main: true },
      { head: say('batch.lye.running'), align: 'right', width: 13 },
      { head: say('batch.lye.read-back'), align: 'left', width: 13 },
      { head: say('batch.oils.done'), align: 'centre', width: 8 },
    ],
    rows,
    names,
  }
}

export const lyeSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show } = frame
  const { lye } = batch
  return [
    waterStep(frame, batch),
    ...batch.additions
      .filter(({ role }) => role === 'acid')
      .map(
        (acid): NamedStep => ({
          name: `acid-${acid.key}`,
          text: say('batch.lye.acid', {
            mass: show.weight(`addition.${acid.key}.mass`, acid.plan.sum, acid.plan.scale.division),
            name: additionWords(frame, acid),
          }),
          why: say('batch.lye.acid-why'),
        }),
      ),
    ...(lye.thinned ? [stockStep(frame, batch, lye.thinned)] : portionSteps(frame, batch)),
    ...checkStep(frame, batch),
    {
      name: 'lye-stands',
      text: say('batch.lye.stand', { temperature: show.temperature('lye.useAt', batch.heat.lye) }),
      ...standWhy(frame, batch),
      blanks: [
        { label: say('blank.time'), moment: 'lye-stands' },
        { label: say('batch.lye.at'), after: degrees(frame) },
      ],
      ...coolingWaits(frame, batch),
    },
  ]
}

const placeStep = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show, scaleName, vesselName } = frame
  const { lye, gross } = batch.scales
  if (!lye) return []
  return [
    ...(gross?.scale.name === lye.scale.name
      ? [
          {
            name: 'kettle-off',
            text: say('batch.lye.kettle-off', {
              scale: scaleName(lye.scale.name),
              by: kettleCarriers(frame, batch),
            }),
          },
        ]
      : []),
    {
      name: 'pail-empty',
      text: say('batch.lye.place', {
        vessel: vesselName(batch.vessels.lye.key),
        scale: scaleName(lye.scale.name),
      }),
      why: say('batch.lye.place-why', {
        vessel: vesselName(batch.vessels.lye.key),
        tare: show.weight('pail.tare', batch.vessels.lye['empty-mass'], GRAM),
      }),
      blanks: [{ label: say('batch.lye.place-reading'), after: say('blank.grams') }],
    },
  ]
}

/** Before any alkali: beads on too little water boil, and nothing later would find it in time. */
const waterStep = ({ say, show, scaleName }: Frame, batch: BoundBatch): NamedStep => {
  const check = batch.scales.water
  if (!check)
    return {
      name: 'water-checked',
      text: say('batch.lye.hold-water-counted'),
      hold: true,
      blanks: [{ label: say('blank.initials') }],
    }
  const { band, scale } = check
  return {
    name: 'water-checked',
    text: say(batch.ice ? 'batch.lye.hold-water-ice' : 'batch.lye.hold-water', {
      scale: scaleName(scale.name),
      low: show.weight('lye.water.low', band.low, scale.division),
      high: show.weight('lye.water.high', band.high, scale.division),
    }),
    why: say('batch.lye.hold-water-why'),
    blanks: [
      { label: say('batch.oils.reading'), after: say('blank.grams'), reading: 'water' },
      { label: say('blank.initials') },
    ],
    hold: true,
  }
}

/** The pail as a whole: it finds a portion that was left out or went in twice, while that still harms nobody. */
const checkStep = ({ say, show, scaleName }: Frame, batch: BoundBatch): NamedStep[] => {
  const check = batch.scales.lye
  if (!check)
    return [
      {
        name: 'lye-checked',
        text: say('batch.lye.no-scale'),
        hold: true,
        blanks: [{ label: say('blank.initials') }],
      },
    ]
  const { band, scale } = check
  return [
    {
      name: 'lye-checked',
      text: say('batch.lye.gross', {
        scale: scaleName(scale.name),
        low: show.weight('lye.gross.low', band.low, scale.division),
        high: show.weight('lye.gross.high', band.high, scale.division),
      }),
      why: say('batch.lye.gross-why'),
      blanks: [
        { label: say('batch.lye.before-tub'), after: say('blank.grams') },
        { label: say('batch.oils.reading'), after: say('blank.grams'), reading: 'pail' },
        { label: say('blank.initials') },
      ],
      hold: true,
    },
  ]
}

const portionSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show } = frame
  const { lye } = batch
  // the one of them that the record asks for
  const hottest = [...lye.portions].sort((a, b) => b.peak - a.peak)[0]
  return lye.portions.flatMap((portion): NamedStep[] => {
    const amounts = batch.alkalis.map(({ kind, plan }, index) =>
      say('batch.lye.amount', {
        mass: show.weight(
          `${alkaliKey(kind)}.portion.${portion.number}.mass`,
          portion.masses[index] ?? 0,
          plan.scale.division,
        ),
        alkali: kindWords(frame, kind),
      }),
    )
    const [first, second] = amounts
    const name = `lye.portion.${portion.number}`
    const add: NamedStep = {
      name: `portion-${portion.number}`,
      ...(portion.number === 1
        ? { caution: { signal: 'danger' as const, words: say('batch.lye.portion-caution') } }
        : {}),
      text: say('batch.lye.portion', {
        n: show.count(`portion.${portion.number}`, portion.number),
        of: show.count('portions', lye.portions.length),
        mass:
          first && second ? say('batch.lye.amounts', { first, second }) : (first ?? say('batch.lye.nothing')),
        low: show.temperature(`${name}.peakLow`, portion.peakLow),
        peak: show.temperature(`${name}.peak`, portion.peak),
        limit: show.temperature('lye.limit', lye.limit),
        left: show.count(
          `cups.left.${portion.number}`,
          (lye.portions.length - portion.number) * batch.alkalis.length,
        ),
      }),
      ...(portion.number === 1 ? { why: offWords(frame, batch) } : {}),
      blanks: [
        {
          label: say('batch.lye.temperature'),
          after: degrees(frame),
          ...(portion === hottest ? { reading: 'lye-peak' } : {}),
        },
      ],
    }
    // With ice the first portions stay below what the next one waits for: nothing to wait for.
    if (portion.number === lye.portions.length || portion.peak < lye.waitBelow) return [add]
    return [
      add,
      {
        name: `wait-${portion.number}`,
        text: say('batch.lye.wait', { below: show.temperature('lye.nextPortionBelow', lye.waitBelow) }),
      },
    ]
  })
}

const stockStep = (
  frame: Frame,
  batch: BoundBatch,
  thinned: NonNullable<BoundBatch['lye']['thinned']>,
): NamedStep => {
  const { say, show } = frame
  const low = show.temperature('lye.thinned.peakLow', thinned.peakLow)
  const peak = show.temperature('lye.thinned.peak', thinned.peak)
  const limit = show.temperature('lye.limit', batch.lye.limit)
  return {
    name: 'stock-in',
    caution: { signal: 'danger', words: say('batch.lye.stock-pour-caution') },
    // So little heat is left in a stock lye that both ends are often the same degree.
    text:
      low.shown === peak.shown
        ? say('batch.lye.stock-pour-one', { peak, limit })
        : say('batch.lye.stock-pour', { low, peak, limit }),
    why: overWords(frame, batch),
    blanks: [{ label: say('batch.lye.temperature'), after: degrees(frame), reading: 'lye-peak' }],
  }
}

/** Outside of what it ought to come to, and over its limit. */
const offWords = (frame: Frame, batch: BoundBatch): Inline =>
  frame.say('batch.lye.off', {
    below: frame.show.temperature('lye.nextPortionBelow', batch.lye.waitBelow),
    over: overWords(frame, batch),
  })

const overWords = ({ say, show }: Frame, { lye }: BoundBatch): Inline =>
  say('batch.lye.over', {
    limit: show.temperature('lye.limit', lye.limit),
    below: show.temperature('lye.nextPortionBelow', lye.waitBelow),
  })

const standWhy = ({ say, show }: Frame, { lye }: BoundBatch): Pick<Step, 'why'> => {
  if (lye.coolingTime === undefined || lye.coolingTime === 0) return {}
  const hours = show.hours('lye.coolingTime', lye.coolingTime)
  const bath = lye.bathTime === undefined ? undefined : show.hours('lye.bathTime', lye.bathTime)
  if (bath === undefined) return { why: say('batch.lye.stand-air', { hours }) }
  return {
    why: say(lye.coolingMeasured ? 'batch.lye.stand-measured' : 'batch.lye.stand-why', { hours, bath }),
  }
}

/** By the same estimates as it says; the thermometer decides. */
const coolingWaits = ({ say, show }: Frame, { lye }: BoundBatch): Pick<Step, 'waits'> => {
  if (lye.coolingTime === undefined || lye.coolingTime === 0) return {}
  const waits: Wait[] = [
    {
      name: 'lye-in-air',
      words: say('bench.wait.lye-in-air'),
      after: [waitHours(show, 'lye.coolingTime', lye.coolingTime)],
    },
    ...(lye.bathTime === undefined
      ? []
      : [
          {
            name: 'lye-in-bath',
            words: say('bench.wait.lye-in-bath'),
            after: [waitHours(show, 'lye.bathTime', lye.bathTime)] as const,
          },
        ]),
  ]
  return { waits }
}

/** How hot it would get without portions and without ice; not of a thinned stock. */
export const lyeFacts = ({ say, show }: Frame, batch: BoundBatch): Facts => {
  const { lye } = batch
  return {
    kind: 'facts',
    size: 'plain',
    items: lye.thinned
      ? []
      : [
          {
            label: say(batch.ice ? 'batch.lye.at-once-ice' : 'batch.lye.at-once'),
            cell: number(show.temperature('lye.atOnce.high', lye.atOnce.high)),
            note: say('batch.lye.at-once-note', { low: show.temperature('lye.atOnce.low', lye.atOnce.low) }),
          },
        ],
  }
}

/** What the water of this day does, and how much ice would hold all of the alkali at once. */
export const iceTable = ({ say, show }: Frame, { lye }: BoundBatch): Block => {
  if (lye.byWater.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('batch.ice.caption', { limit: show.temperature('lye.limit', lye.limit) }),
    columns: [
      { head: say('batch.ice.water'), align: 'left' },
      { head: say('batch.ice.peak'), align: 'right', width: 34 },
      { head: say('batch.ice.share'), align: 'right', width: 34 },
    ],
    rows: lye.byWater.map(({ waterTemperature, peakWithoutIce, boilsWithoutIce, share }, index): Cell[] => {
      const name = index === 0 ? 'ice.own' : `ice.day.${index}`
      return [
        index === 0
          ? words(say('batch.ice.own', { water: show.temperature(`${name}.water`, waterTemperature) }))
          : number(show.temperature(`${name}.water`, waterTemperature)),
        boilsWithoutIce
          ? words(say('batch.ice.boils', { peak: show.temperature(`${name}.peak`, peakWithoutIce) }))
          : number(show.temperature(`${name}.peak`, peakWithoutIce)),
        share === undefined || share > MOST_ICE
          ? words(say('batch.ice.never'))
          : number(show.percent(`${name}.share`, share, 0)),
      ]
    }),
  }
}

/** Of the water: with more there is nothing for the alkali to dissolve in [–] (common practice) */
const MOST_ICE = 0.9

export const degrees = ({ say, show }: Pick<Frame, 'say' | 'show'>): Inline =>
  say(show.firstDegrees === 'F' ? 'blank.fahrenheit' : 'blank.celsius')
