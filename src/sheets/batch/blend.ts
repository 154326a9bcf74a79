/** Bringing fats and lye together: how warm each is, how long there is, what goes in at the first trace. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { NEAR } from '../../binder/record-controls.ts'
import { empty, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Facts, Inline, NamedStep, Table } from '../model.ts'
import { degrees } from './lye.ts'
import { howLifted } from './ready.ts'
import { waitMinutes } from './waits.ts'

/** what is done again for each kettle begins here */
export const FIRST_OF_KETTLE = 'fats-warm'

/** K; less than this no thermometer of a kitchen tells apart */
const SAME = 1.5

export const heatFacts = (frame: Frame, batch: BoundBatch): Facts => {
  const { say, show } = frame
  const { heat } = batch
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      { label: say('batch.heat.fats'), cell: number(show.temperature('heat.fats', heat.fats)) },
      { label: say('batch.heat.lye'), cell: number(show.temperature('heat.lye', heat.lye)) },
      {
        label: say('batch.heat.pot'),
        cell: number(show.temperature('heat.pot', heat.pot)),
        ...(heat.seeding === undefined
          ? {}
          : {
              note: say('batch.heat.seeding', {
                temperature: show.temperature('heat.seeding', heat.seeding.temperature),
                fat: heat.seeding.fat.name,
              }),
            }),
      },
      ...(heat.clearAt === undefined
        ? []
        : [
            {
              label: say('batch.heat.clear'),
              cell: number(show.temperature('heat.clearAt', heat.clearAt)),
              note: say('batch.heat.hard', { fats: show.list(heat.hard.map(({ name }) => name)) }),
            },
          ]),
      warmingFact(frame, batch),
      ...timeFacts(frame, batch),
    ],
  }
}

const warmingFact = ({ say, show }: Frame, { heat }: BoundBatch): Facts['items'][number] => ({
  label: say('batch.heat.takes'),
  cell: number(show.minutes('heat.time', heat.time)),
  note: say('batch.heat.takes-note', {
    power: show.power('heat.power', heat.power),
    energy: show.energy('heat.energy', heat.heat),
  }),
})

const timeFacts = ({ say, show }: Frame, { time }: BoundBatch): Facts['items'][number][] =>
  time?.spare === undefined
    ? []
    : [
        {
          label: say('batch.time.needed'),
          cell: number(show.minutes('time.needed', time.needed)),
          note: say('batch.time.needed-note', {
            spare: show.minutes('time.spare', Math.max(0, time.spare.usual)),
            least: show.minutes('time.spareLeast', Math.max(0, time.spare.least)),
          }),
        },
      ]

export const blendSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show } = frame
  const { heat, kettles } = batch
  const fats = show.temperature('heat.fats', heat.fats)
  const lye = show.temperature('heat.lye', heat.lye)
  const pail = batch.loads.find(({ key }) => key === 'pail-of-lye')
  const byJug = pail !== undefined && howLifted('pail-of-lye', pail.people) === 'jug'
  return [
    ...(kettles > 1
      ? [{ name: 'kettles', text: say('batch.blend.kettles', { kettles: show.count('kettles', kettles) }) }]
      : []),
    {
      name: FIRST_OF_KETTLE,
      text:
        heat.clearAt !== undefined && heat.clearAt > heat.fats + SAME
          ? say('batch.blend.melt', { clear: show.temperature('heat.clearAt', heat.clearAt), fats })
          : say('batch.blend.heat', { fats }),
      blanks: [{ label: say('batch.blend.oils'), after: degrees(frame) }],
      waits: [
        {
          name: 'fats-warm',
          words: say('bench.wait.fats-warm'),
          after: [waitMinutes(show, 'heat.time', heat.time)],
        },
      ],
    },
    {
      name: 'together',
      text: say('batch.blend.hold', { fats, lye, near: show.kelvins('heat.near', NEAR) }),
      why: say('batch.blend.hold-why'),
      blanks: [
        { label: say('batch.blend.oils'), after: degrees(frame), reading: 'fats' },
        { label: say('batch.blend.lye'), after: degrees(frame), reading: 'lye' },
        { label: say('blank.initials') },
      ],
      hold: true,
    },
    {
      name: 'lye-in',
      caution: { signal: 'danger', words: say('batch.blend.pour-caution') },
      text: lyeOver(frame, batch, byJug),
      blanks: [{ label: say('blank.time'), reading: 'lye-in', moment: 'lye-in' }],
    },
    {
      name: 'blend',
      text:
        batch.time === undefined
          ? say('batch.blend.blend')
          : say('batch.blend.blend-limit', { minutes: show.minutes('time.toThick', batch.timeToThick) }),
      why: say('batch.blend.blend-why'),
      blanks: [{ label: say('batch.blend.time'), reading: 'trace', moment: 'trace' }],
      ...(batch.time === undefined
        ? {}
        : {
            waits: [
              {
                name: 'too-thick',
                words: say('bench.wait.too-thick'),
                after: [waitMinutes(show, 'time.toThick', batch.timeToThick)],
                since: 'lye-in',
              },
            ],
          }),
    },
    ...traceSteps(frame, batch),
    ...(batch.colours.length > 0 ? [{ name: 'divide', text: say('batch.blend.divide') }] : []),
  ]
}

const lyeOver = ({ say, show }: Frame, batch: BoundBatch, byJug: boolean): Inline => {
  const { kettles } = batch
  const each = { mass: show.heavy('lye.perKettle', batch.lye.mass / kettles) }
  if (byJug) {
    const jug = show.heavy('pour.jugMass', batch.pour.jug.mass)
    return kettles > 1
      ? say('batch.blend.pour-jug-each', { ...each, jug })
      : say('batch.blend.pour-jug', { jug })
  }
  return kettles > 1 ? say('batch.blend.pour-each', each) : say('batch.blend.pour')
}

/** What goes in at the first trace, in the order of the table in which it was weighed. */
const traceSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { say, show } = frame
  const { kettles } = batch
  const each = (name: string, plan: BoundBatch['water']) =>
    show.weight(kettles > 1 ? `${name}.perKettle` : `${name}.mass`, plan.sum / kettles, plan.scale.division)
  return [
    ...(batch.later
      ? [{ name: 'later', text: say('batch.blend.later', { mass: each('later', batch.later) }) }]
      : []),
    ...batch.additions
      .filter(({ role, colour }) => role !== 'acid' && colour === undefined)
      .map(
        (addition): NamedStep => ({
          name: `addition-${addition.key}`,
          text: say('batch.blend.addition', {
            mass: each(`addition.${addition.key}`, addition.plan),
            name: addition.name,
          }),
          ...(addition.flashPoint === undefined
            ? {}
            : {
                why: say('batch.blend.flash-point', {
                  flash: show.temperature(`addition.${addition.key}.flashPoint`, addition.flashPoint),
                  batter: show.temperature('pour.temperature', batch.pourTemperature),
                }),
              }),
        }),
      ),
  ]
}

/** Parts that the batter is divided into, with what colours each; nothing for a batter of one colour. */
export const colourTable = (frame: Frame, batch: BoundBatch): Block => {
  const { say, show } = frame
  if (batch.colours.length === 0) return nothing
  const rows = batch.colours.flatMap(({ key, share, mass, volume }): Cell[][] => {
    const head: Cell[] = [
      maker(key),
      number(show.percent(`colour.${key}.share`, share, 0)),
      number(show.heavy(`colour.${key}.mass`, mass)),
      number(show.volume(`colour.${key}.pot`, volume / POT_FULLNESS)),
    ]
    const inIt = batch.additions.filter(({ colour }) => colour === key)
    if (inIt.length === 0) return [[...head, words(say('batch.colour.plain'))]]
    return inIt.map((addition, index): Cell[] => [
      ...(index === 0 ? head : [empty, empty, empty, empty]),
      words(
        say('batch.colour.with', {
          mass: show.weight(
            `colour.${addition.key}.mass`,
            addition.plan.sum / batch.kettles,
            addition.plan.scale.division,
          ),
          name: addition.name,
        }),
      ),
    ])
  })
  return {
    kind: 'table',
    caption: say('batch.colour.caption'),
    columns: [
      { head: say('batch.colour.part'), align: 'left', width: 20 },
      { head: say('batch.colour.share'), align: 'right', width: 12 },
      { head: say('batch.colour.batter'), align: 'right', width: 16 },
      { head: say('batch.colour.pot'), align: 'right', width: 18 },
      { head: say('batch.colour.in'), align: 'left' },
    ],
    rows,
  } satisfies Table
}

/** Batter fills a pot to this share at most, so that it can be stirred [–] (common practice) */
const POT_FULLNESS = 0.75
