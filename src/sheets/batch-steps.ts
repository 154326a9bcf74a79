/** The steps of a batch sheet, in the order in which they are done. */
import type { BoundBatch } from '../binder/bind-batch.ts'
import type { Frame } from './frame.ts'
import type { Inline, Step } from './model.ts'

export const readySteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => [
  {
    text: say('batch.ready.two'),
    why: say('batch.ready.two-why'),
    blanks: [
      { label: say('batch.ready.names') },
      { label: say('batch.ready.names') },
      { label: say('batch.ready.fetch') },
    ],
  },
  { text: say('batch.ready.wear') },
  { text: say('batch.ready.water') },
  { text: say('batch.ready.mould'), why: say('batch.ready.mould-why') },
  {
    text:
      batch.standHeight > 0.02
        ? say('batch.lift.low-stand', { stand: show.length('pour.highestStand', batch.standHeight) })
        : say('batch.lift.floor', {
            rim: show.length('mould.rimAboveBench', batch.mould.mould.rimAboveBench),
          }),
    caution: {
      signal: 'warning',
      words: say('batch.lift.caution', { mass: show.heavy('kettle.loaded', batch.pour.loadedMass) }),
    },
  },
  {
    text: say('batch.ready.tools', {
      kettle: show.volume('kettle.volume', batch.vessels.mixing.volume),
      pail: show.volume('pail.volume', batch.vessels.lye.volume),
    }),
  },
  ...(batch.ice ? [{ text: say('batch.ready.ice') }] : []),
  { text: say('batch.ready.seize') },
  { text: say('batch.ready.hold'), hold: true },
]

export const scaleCheckStep = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const { oils, gross } = batch.scales
  const place: Step[] = gross
    ? [
        {
          text: say('batch.oils.place', { scale: gross.name }),
          blanks: [{ label: say('batch.oils.place-reading'), after: say('blank.grams') }],
        },
      ]
    : []
  if (!oils.check || oils.checkMass === undefined)
    return [{ text: say('batch.oils.no-check', { scale: oils.name }) }, ...place]
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
    ...place,
  ]
}

export const grossStep = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
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
      blanks: [
        { label: say('batch.oils.reading'), after: say('blank.grams') },
        { label: say('blank.initials') },
      ],
      hold: true,
    },
  ]
}

export const lyeReadySteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => [
  ...batch.alkalis.map(
    ({ kind, name, purity }): Step => ({
      text: say('batch.lye.label', {
        alkali: name,
        purity: show.percent(`${kind.toLowerCase()}.purity`, purity, 1),
      }),
      blanks: [{ label: say('batch.record.alkali-lot') }],
    }),
  ),
  {
    caution: { signal: 'danger', words: say('batch.lye.weigh-caution') },
    text: say('batch.lye.weigh'),
  },
]

export const lyeSteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const { lye, vessels } = batch
  const portions = lye.portions.flatMap((portion): Step[] => {
    const amounts = batch.alkalis.map(({ kind, plan }, index) =>
      say('batch.lye.amount', {
        mass: show.weight(
          `${kind.toLowerCase()}.portion.${portion.number}.mass`,
          portion.masses[index] ?? 0,
          plan.scale.division,
        ),
        alkali: say(`batch.lye.kind.${kind.toLowerCase()}`),
      }),
    )
    const [first, second] = amounts
    const add: Step = {
      ...(portion.number === 1
        ? { caution: { signal: 'danger' as const, words: say('batch.lye.portion-caution') } }
        : {}),
      text: say('batch.lye.portion', {
        n: show.count(`portion.${portion.number}`, portion.number),
        of: show.count('portions', lye.portions.length),
        mass:
          first && second ? say('batch.lye.amounts', { first, second }) : (first ?? say('batch.lye.nothing')),
        peak: show.temperature(`lye.portion.${portion.number}.peak`, portion.peak),
        limit: show.temperature('lye.limit', lye.limit),
      }),
      ...(portion.number === 1
        ? {
            why: say('batch.lye.over', {
              limit: show.temperature('lye.limit', lye.limit),
              below: show.temperature('lye.nextPortionBelow', lye.waitBelow),
            }),
          }
        : {}),
      blanks: [{ label: say('batch.lye.temperature'), after: degrees({ say, show }) }],
    }
    // With ice the first portions stay below what the next one waits for: nothing to wait for.
    if (portion.number === lye.portions.length || portion.peak < lye.waitBelow) return [add]
    return [
      add,
      { text: say('batch.lye.wait', { below: show.temperature('lye.nextPortionBelow', lye.waitBelow) }) },
    ]
  })
  const water = {
    mass: show.weight('water.mass', batch.water.sum, batch.water.scale.division),
    vessel: vessels.lye.key,
    temperature: show.temperature('water.temperature', lye.waterTemperature),
  }
  return [
    batch.ice
      ? {
          text: say('batch.lye.water-ice', {
            ...water,
            ice: show.weight('ice.mass', batch.ice.sum, batch.ice.scale.division),
          }),
          why: say('batch.lye.water-why'),
        }
      : { text: say('batch.lye.water', water) },
    ...batch.additions
      .filter(({ role }) => role === 'acid')
      .map(
        ({ key, name, plan }): Step => ({
          text: say('batch.lye.acid', {
            mass: show.weight(`addition.${key}.mass`, plan.sum, plan.scale.division),
            name,
          }),
          why: say('batch.lye.acid-why'),
        }),
      ),
    ...portions,
    {
      text: say('batch.lye.stand', { temperature: show.temperature('lye.useAt', batch.pourTemperature) }),
      ...(lye.coolingTime === undefined
        ? {}
        : {
            why: say(lye.coolingMeasured ? 'batch.lye.stand-measured' : 'batch.lye.stand-why', {
              hours: show.hours('lye.coolingTime', lye.coolingTime),
            }),
          }),
      blanks: [{ label: say('blank.time') }, { label: say('batch.lye.at'), after: degrees({ say, show }) }],
    },
  ]
}

const degrees = ({ say, show }: Pick<Frame, 'say' | 'show'>): Inline =>
  say(show.firstDegrees === 'F' ? 'blank.fahrenheit' : 'blank.celsius')

export const blendSteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => {
  const temperature = show.temperature('pour.temperature', batch.pourTemperature)
  return [
    {
      text: say('batch.blend.heat', { temperature }),
      blanks: [{ label: say('batch.blend.oils'), after: degrees({ say, show }) }],
    },
    {
      text: say('batch.blend.hold', { oils: temperature }),
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
    ...(batch.later
      ? [
          {
            text: say('batch.blend.later', {
              mass: show.weight('later.mass', batch.later.sum, batch.later.scale.division),
            }),
          },
        ]
      : []),
    ...batch.additions
      .filter(({ role }) => role !== 'acid')
      .map(
        ({ key, name, plan, flashPoint }): Step => ({
          text: say('batch.blend.addition', {
            mass: show.weight(`addition.${key}.mass`, plan.sum, plan.scale.division),
            name,
          }),
          ...(flashPoint === undefined
            ? {}
            : {
                why: say('batch.blend.flash-point', {
                  flash: show.temperature(`addition.${key}.flashPoint`, flashPoint),
                  batter: show.temperature('pour.temperature', batch.pourTemperature),
                }),
              }),
        }),
      ),
    {
      text: say('batch.blend.blend'),
      why: say('batch.blend.blend-why'),
      blanks: [{ label: say('batch.blend.time') }],
    },
  ]
}

export const pourSteps = ({ say, show }: Frame, batch: BoundBatch): Step[] => [
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

export const watchSteps = ({ say, show }: Frame): Step[] => [
  {
    text: say('batch.watch.often'),
    blanks: [
      { label: say('batch.watch.hottest'), after: degrees({ say, show }) },
      { label: say('blank.time') },
    ],
  },
  {
    text: say('batch.watch.rise'),
    caution: { signal: 'warning', words: say('batch.watch.rise-caution') },
  },
  { text: say('batch.watch.wash') },
  { text: say('batch.watch.open') },
]
