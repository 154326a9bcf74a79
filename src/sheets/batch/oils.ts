/** Weighing the oils, and what goes in later: scales first, then draws, then the pot as a whole. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { PREMIX } from '../../binder/weigh-out.ts'
import { blank, box, type Fill, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, NamedStep, Table } from '../model.ts'
import { kettleCarriers } from './ready.ts'
import { additionWords, liquidWords } from './weights.ts'

const GRAM = 0.001

export const scaleSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show } = frame
  const { checks, gross } = batch.scales
  const premix = batch.oils.find(({ key }) => key === PREMIX)
  return [
    ...checks.map(({ name, checkMass, band, division }): NamedStep => {
      if (!band || checkMass === undefined)
        return { name: `scale-${name}`, text: say('batch.oils.no-check', { scale: frame.scaleName(name) }) }
      return {
        name: `scale-${name}`,
        text: say('batch.oils.scale-check', {
          mass: show.weight(`scale.${name}.checkMass`, checkMass, GRAM),
          scale: frame.scaleName(name),
          low: show.weight(`scale.${name}.checkLow`, band.low, division),
          high: show.weight(`scale.${name}.checkHigh`, band.high, division),
        }),
        blanks: [{ label: say('batch.oils.reading'), after: say('blank.grams'), reading: `scale-${name}` }],
      }
    }),
    ...batch.fats.flatMap(({ key, name, lot }): NamedStep[] =>
      lot === undefined ? [] : [{ name: `lot-${key}`, text: say('batch.oils.lot-check', { name, lot }) }],
    ),
    ...(batch.heat.hard.length > 0
      ? [{ name: 'hard-fats', text: say('batch.oils.hard', { fats: names(frame, batch.heat.hard) }) }]
      : []),
    ...(premix
      ? [{ name: 'premix', text: say('batch.oils.premix', { fats: names(frame, premix.fats) }) }]
      : []),
    ...(gross
      ? [
          {
            name: 'kettle-empty',
            text: say('batch.oils.place', {
              scale: frame.scaleName(gross.scale.name),
              low: show.weight('kettle.empty.low', gross.empty?.low ?? 0, gross.scale.division),
              high: show.weight('kettle.empty.high', gross.empty?.high ?? 0, gross.scale.division),
            }),
            blanks: [{ label: say('batch.oils.place-reading'), after: say('blank.grams') }],
          },
        ]
      : []),
  ]
}

const names = ({ show }: Frame, fats: readonly { readonly name: string }[]): string =>
  show.list(fats.map(({ name }) => name))

/** @param links references to other sheets: lots and initials stand in the record */
export const oilDraws = (frame: Frame, batch: BoundBatch, links: Fill): Table => {
  const { say, show } = frame
  const { weighing } = batch.vessels
  const { kettles } = batch
  const several = kettles > 1
  let draw = 0
  const names: string[] = []
  const rowsOf = (kettle: number): Cell[][] => {
    let inKettle = 0
    return batch.oils.flatMap(({ key, fats, plan }) => {
      const each = plan.draws.length / kettles
      return plan.draws.slice(kettle * each, (kettle + 1) * each).map((one): Cell[] => {
        inKettle += one.target
        draw += 1
        const name = `fat.${key}.draw.${one.number}`
        names.push(name)
        return [
          number(show.count(`draw.${draw}`, draw)),
          ...(several ? [number(show.count(`kettle.${kettle + 1}`, kettle + 1))] : []),
          words(drawnWords(frame, batch, key, fats, plan.scale.name)),
          number(show.weight(`${name}.target`, one.target, plan.scale.division)),
          number(show.weight(`${name}.inKettle`, inKettle, plan.scale.division)),
          box,
        ]
      })
    })
  }
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('batch.oils.caption', {
      ...links,
      scale: frame.scaleName(batch.scales.oils),
      container: frame.vesselName(weighing.key),
      tare: show.weight('weighing.tare', weighing['empty-mass'], GRAM),
    }),
    columns: [
      { head: say('batch.oils.draw'), align: 'centre', width: 8 },
      ...(several ? [{ head: say('batch.oils.kettle'), align: 'centre' as const, width: 9 }] : []),
      { head: say('batch.oils.what'), align: 'left' },
      { head: say('batch.oils.target'), align: 'right', width: 17, main: true },
      { head: say('batch.oils.running'), align: 'right', width: 18 },
      { head: say('batch.oils.in'), align: 'centre', width: 8 },
    ],
    rows: Array.from({ length: kettles }, (_, kettle) => rowsOf(kettle)).flat(),
    names,
  }
}

/** The fat, or what the blend is of; with the scale where it is another than the caption's. */
const drawnWords = (
  frame: Frame,
  batch: BoundBatch,
  key: string,
  fats: BoundBatch['oils'][number]['fats'],
  scale: string,
): Inline => {
  const { say } = frame
  const name = names(frame, fats)
  const what = key === PREMIX ? say('batch.oils.blend', { fats: name }) : say('batch.oils.fat', { name })
  return scale === batch.scales.oils
    ? what
    : say('batch.oils.on-scale', { what, scale: frame.scaleName(scale) })
}

export const grossSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show, scaleName } = frame
  const { gross } = batch.scales
  if (!gross)
    return [
      { name: 'kettle', text: say('batch.oils.no-scale', { by: kettleCarriers(frame, batch) }), hold: true },
    ]
  const { band, scale } = gross
  const fill = {
    scale: scaleName(scale.name),
    mass: show.weight('gross.expected', band.expected, scale.division),
    low: show.weight('gross.low', band.low, scale.division),
    high: show.weight('gross.high', band.high, scale.division),
  }
  return [
    {
      name: 'kettle',
      text: say(batch.kettles > 1 ? 'batch.oils.gross-each' : 'batch.oils.gross', fill),
      why: say('batch.oils.gross-why'),
      blanks: [
        ...Array.from({ length: batch.kettles }, () => ({
          label: say('batch.oils.reading'),
          after: say('blank.grams'),
          reading: 'kettle',
        })),
        { label: say('blank.initials') },
      ],
      hold: true,
    },
  ]
}

/** What is measured out now and goes in at the first trace: nothing is weighed while batter thickens. */
export const laterDraws = (frame: Frame, batch: BoundBatch): Block => {
  const { say, show } = frame
  const { kettles, vessels } = batch
  const names: string[] = []
  const rows: Cell[][] = [
    ...batch.additions
      .filter(({ role }) => role !== 'acid')
      .map((addition) => ({
        what: words(additionWords(frame, addition)),
        name: `addition.${addition.key}`,
        plan: addition.plan,
      })),
    ...(batch.later ? [{ what: liquidWords(frame, batch), name: 'later', plan: batch.later }] : []),
  ].flatMap(({ what, name, plan }) =>
    plan.draws.map((draw): Cell[] => {
      const one = `${name}.draw.${draw.number}`
      names.push(one)
      return [
        what,
        maker(frame.scaleName(plan.scale.name)),
        number(show.weight(`${one}.target`, draw.target, plan.scale.division)),
        blank(),
        box,
      ]
    }),
  )
  if (rows.length === 0) return nothing
  return {
    kind: 'table',
    style: 'weigh',
    caption: say(kettles > 1 ? 'batch.later.caption-each' : 'batch.later.caption', {
      container: frame.vesselName(vessels.weighing.key),
    }),
    columns: [
      { head: say('batch.lye.what'), align: 'left' },
      { head: say('batch.later.scale'), align: 'left', width: 13 },
      { head: say('batch.oils.target'), align: 'right', width: 18, main: true },
      { head: say('batch.lye.read-back'), align: 'left', width: 16 },
      { head: say('batch.oils.done'), align: 'centre', width: 8 },
    ],
    rows,
    names,
  }
}
