/** Before anything caustic is opened: who is there, what stands where, what may be lifted. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { LoadKey } from '../../binder/plan-lifts.ts'
import { empty, type Fill, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Facts, Inline, NamedStep, Table } from '../model.ts'

/** m; a stand lower than a board is the floor */
const LOWEST_STAND = 0.02

/** @param links references to other sheets, the batch's own record among them */
export const readySteps = ({ say, show, vesselName }: Frame, batch: BoundBatch, links: Fill): NamedStep[] => [
  {
    name: 'two',
    text: say('batch.ready.two', links),
    why: say('batch.ready.two-why'),
    blanks: [{ label: say('batch.ready.fetch') }],
  },
  { name: 'wear', text: say('batch.ready.wear') },
  { name: 'water-runs', text: say('batch.ready.water', links) },
  { name: 'rinse', text: say('batch.ready.rinse') },
  {
    name: 'mould',
    text: say('batch.ready.mould', {
      level: show.length('mould.level', Math.tan(batch.allowances.level) * batch.mould.mould.block.length),
    }),
    why: say('batch.ready.mould-why'),
  },
  {
    name: 'stand',
    text:
      batch.standHeight > LOWEST_STAND
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
    name: 'tools',
    text: say('batch.ready.tools', {
      weighing: vesselName(batch.vessels.weighing.key),
      alkali: vesselName(batch.vessels.alkali.key),
      cups: show.count('cups', cupsOf(batch)),
      mark: show.volume('pour.jugVolume', batch.pour.jug.volume),
      pail: vesselName(batch.vessels.lye.key),
      kettle: vesselName(batch.vessels.mixing.key),
      pitcher: vesselName(batch.vessels.pouring.key),
      tub: show.volume('pail.tub', batch.uses.find(({ role }) => role === 'lye')?.trayNeeded ?? 0),
    }),
  },
  ...(batch.ice
    ? [
        {
          name: 'ice',
          text: say('batch.ready.ice', {
            ice: show.weight('ice.sum', batch.ice.sum, batch.ice.scale.division),
            water: show.weight('water.sum', batch.water.sum, batch.water.scale.division),
            temperature: show.temperature('water.temperature', batch.lye.waterTemperature),
          }),
        },
      ]
    : []),
  { name: 'seize', text: say('batch.ready.seize') },
  { name: 'ready', text: say('batch.ready.hold', links), hold: true },
]

/** One for each portion of each alkali, or for each draw of a stock lye. */
const cupsOf = ({ lye, alkalis }: BoundBatch): number =>
  lye.portions.length > 0
    ? lye.portions.length * alkalis.length
    : alkalis.reduce((sum, { plan }) => sum + plan.draws.length, 0)

export const heightFacts = ({ say, show }: Frame, batch: BoundBatch): Facts => ({
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
        batch.standHeight > LOWEST_STAND
          ? number(show.length('pour.highestStand', batch.standHeight))
          : words(say('batch.fill.stand-none')),
    },
  ],
})

export const liftTable = (frame: Frame, batch: BoundBatch): Table => {
  const { say, show } = frame
  const never = (what: string, name: string, mass: number, how: string): Cell[] => [
    words(say(what)),
    number(show.heavy(name, mass)),
    words(say('batch.lift.none')),
    words(say(how)),
  ]
  return {
    kind: 'table',
    caption: say('batch.lift.table'),
    columns: [
      { head: say('batch.lift.load'), align: 'left', width: 34 },
      { head: say('batch.lift.weighs'), align: 'right', width: 13 },
      { head: say('batch.lift.alone'), align: 'right', width: 20 },
      { head: say('batch.lift.how'), align: 'left' },
    ],
    rows: [
      ...batch.loads.map(({ key, mass, alone, people }) => [
        words(say(`batch.lift.load.${key}`)),
        number(show.heavy(`load.${key}.mass`, mass)),
        number(show.heavy(`load.${key}.alone`, alone)),
        words(say(`batch.lift.by.${howLifted(key, people)}`)),
      ]),
      never(
        'batch.lift.load.kettle-of-batter',
        'kettle.loaded',
        batch.pour.loadedMass,
        'batch.lift.by.never',
      ),
      never('batch.lift.load.mould', 'mould.loaded', batch.loadedMould, 'batch.lift.by.set'),
    ],
  }
}

/** A pail that is too heavy for one is emptied with a jug: two people cannot pour from one pail. */
export const howLifted = (key: LoadKey, people: 1 | 2 | undefined): 'one' | 'two' | 'jug' => {
  if (people === 1) return 'one'
  return key === 'kettle-of-oils' ? 'two' : 'jug'
}

/** Who carries the kettle with its oils to the heat, as the table of loads has it. */
export const kettleCarriers = ({ say }: Frame, { loads }: BoundBatch): Inline => {
  const people = loads.find(({ key }) => key === 'kettle-of-oils')?.people
  return say(`batch.lift.by.${howLifted('kettle-of-oils', people)}`)
}

/** Every vessel with what it is made of, how hot and how full it may get, and how hot and full it gets today. */
export const vesselTable = ({ say, show, vesselName }: Frame, batch: BoundBatch): Table => ({
  kind: 'table',
  caption: say('batch.vessels.caption'),
  columns: [
    { head: say('batch.vessels.vessel'), align: 'left' },
    { head: say('batch.vessels.material'), align: 'left', width: 20 },
    { head: say('batch.vessels.fill'), align: 'right', width: 12 },
    { head: say('batch.vessels.filled'), align: 'right', width: 12 },
    { head: say('batch.vessels.allowed'), align: 'right', width: 17 },
    { head: say('batch.vessels.peak'), align: 'right', width: 17 },
  ],
  rows: batch.uses.map(({ role, vessel, contents, peak, workingVolume, allowed }): Cell[] => [
    words(
      say(`batch.vessels.use.${role}`, {
        vessel: vesselName(vessel.key),
        brim: show.volume(`vessel.${role}.brim`, vessel.volume),
      }),
    ),
    words(say(`material.${vessel.material}`)),
    number(show.volume(`vessel.${role}.working`, workingVolume)),
    number(show.volume(`vessel.${role}.contents`, contents)),
    allowed === undefined ? empty : number(show.temperature(`vessel.${role}.allowed`, allowed)),
    number(show.temperature(`vessel.${role}.peak`, peak)),
  ]),
})
