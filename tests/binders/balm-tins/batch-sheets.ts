/** A batch on its sheet, its card and its record; where it is stopped, on the page that says why. */
import { isStopped } from '../../../src/findings.ts'
import { placeAt } from '../../../src/schema/placed.ts'
import { cardSheet } from '../../../src/sheets/card-sheet.ts'
import {
  blank,
  box,
  empty,
  finishSheet,
  maker,
  number,
  pickSources,
  words,
} from '../../../src/sheets/compose.ts'
import type { Frame } from '../../../src/sheets/frame.ts'
import { linkTo } from '../../../src/sheets/links.ts'
import type { Cell, Inline, NamedStep, Sheet, Step, Steps, Table } from '../../../src/sheets/model.ts'
import { stopSheet } from '../../../src/sheets/stop-sheet.ts'
import type { BoundBalm } from './bind.ts'
import type { BalmShop } from './schema.ts'
import { GRAM, links, placeOf, shownOf, titled } from './words.ts'

/** Every sheet of a batch; of a stopped one nothing that could be weighed by. */
export const batchSheets = (
  frame: Frame,
  shop: BalmShop,
  batch: BoundBalm,
  index: number,
): { readonly batch: Sheet; readonly card: Sheet; readonly record?: Sheet } =>
  isStopped(batch.figures.findings)
    ? { batch: stopped(frame, batch, index), card: stopCard(frame, shop, batch, index) }
    : {
        batch: batchSheet(frame, shop, batch, index),
        card: meltCard(frame, shop, batch, index),
        record: recordSheet(frame, shop, batch, index),
      }

const shownIn = (frame: Frame, { heating }: BalmShop, batch: BoundBalm) =>
  shownOf(frame, batch, { hottest: heating.hottest, lids: heating['lids-after'] })

/** What a maker can change about a finding. */
const PATHS: Readonly<Record<string, readonly string[]>> = {
  'balm-jug-overflows': ['/tins', '/vessel'],
  'balm-too-hot': ['/recipe'],
  'balm-no-scale': ['/tins'],
}

const stopped = (frame: Frame, batch: BoundBalm, index: number): Sheet => {
  const { say } = frame
  return stopSheet(frame, {
    kind: 'batch',
    words: { heading: say('stop.heading'), template: 'balm-stopped' },
    ...placeOf('batch', batch, index),
    title: titled(frame, 'balm.batch.title', batch),
    findings: batch.figures.findings,
    placesOf: ({ code }) => (PATHS[code] ?? []).flatMap((path) => placeAt(batch.file.document, path) ?? []),
  })
}

const batchSheet = (frame: Frame, shop: BalmShop, batch: BoundBalm, index: number): Sheet => {
  const { say, show } = frame
  const { id, number: sheetNumber } = placeOf('batch', batch, index)
  const shown = shownIn(frame, shop, batch)
  const ready = readySteps(frame, shop, batch)
  const weigh: NamedStep = {
    name: 'weigh',
    text: say('balm.weigh.how', { jug: frame.vesselName(batch.file.value.vessel) }),
  }
  const melt = meltSteps(frame, shop, batch)
  const pour = pourSteps(frame, shop, batch)
  const at = (steps: readonly NamedStep[], first: number): Steps => ({ kind: 'steps', first, items: steps })
  const afterMelt = ready.length + 1 + melt.length
  return finishSheet({
    ...frame.sheet('batch', id, say('section.batch'), sheetNumber, titled(frame, 'balm.batch.title', batch)),
    atBench: true,
    template: frame.template('balm-batch'),
    fill: { ...links, record: linkTo(placeOf('record', batch, index)) },
    blocks: {
      facts: {
        kind: 'facts',
        size: 'big',
        items: [
          {
            label: say('balm.batch.tins'),
            cell: number(shown.tins),
            note: say('balm.batch.tins-note', { tin: batch.tin }),
          },
          {
            label: say('balm.batch.melt'),
            cell: number(shown.melt),
            note: say('balm.batch.melt-note'),
          },
          {
            label: say('balm.batch.pour'),
            cell: number(shown.pour),
            note: say('balm.batch.pour-note'),
          },
          {
            label: say('balm.batch.tin-mass'),
            cell: number(shown.tinMass),
            note: say('balm.batch.tin-mass-note', {
              volume: show.smallVolume('tin.volume', batch.figures.tinMass / batch.figures.density),
            }),
          },
        ],
      },
      ready: at(ready, 1),
      weigh: at([weigh], ready.length + 1),
      weights: weightTable(frame, batch),
      melt: at(melt, ready.length + 2),
      pour: at(pour, afterMelt + 1),
      set: at(setSteps(frame, shop, batch), afterMelt + pour.length + 1),
    },
    sources: pickSources(frame.sources, [...batch.sources, 'choi-okos', 'common-practice']),
  })
}

const weightTable = (frame: Frame, { parts }: BoundBalm): Table => {
  const { say, show, scaleName } = frame
  const all = parts.reduce((sum, { mass }) => sum + mass, 0)
  const coarsest = Math.max(...parts.map(({ division }) => division))
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('balm.weigh.caption'),
    columns: [
      { head: say('balm.weigh.what'), align: 'left' },
      { head: say('balm.weigh.share'), align: 'right', width: 11 },
      { head: say('balm.weigh.scale'), align: 'left', width: 17 },
      { head: say('balm.weigh.mass'), align: 'right', width: 15, main: true },
      { head: say('balm.weigh.done'), align: 'centre', width: 9 },
    ],
    names: parts.map(({ key }) => `weigh-${key}`),
    rows: parts.map(({ key, material, share, mass, scale, division }): Cell[] => {
      return [
        maker(material.name),
        number(show.percent(`${key}.share`, share, 1)),
        maker(scaleName(scale)),
        number(show.weight(`${key}.mass`, mass, division)),
        box,
      ]
    }),
    foot: [
      [words(say('balm.weigh.sum')), empty, empty, number(show.weight('jug.mass', all, coarsest)), empty],
    ],
  }
}

const readySteps = (frame: Frame, shop: BalmShop, batch: BoundBalm): NamedStep[] => {
  const { say, vesselName } = frame
  const fill = { ...links, ...shownIn(frame, shop, batch), jug: vesselName(batch.file.value.vessel) }
  return [
    { name: 'bench', text: say('balm.ready.bench', fill) },
    { name: 'dry', text: say('balm.ready.dry'), why: say('balm.ready.dry-why') },
    { name: 'bath', text: say('balm.ready.bath', fill) },
    { name: 'fire', text: say('balm.ready.fire', fill) },
    { name: 'who', text: say('balm.ready.who', fill) },
    {
      name: 'ready',
      text: say('balm.ready.hold', fill),
      hold: true,
      blanks: [{ label: say('balm.initials') }],
    },
  ]
}

const meltSteps = (frame: Frame, shop: BalmShop, batch: BoundBalm): NamedStep[] => {
  const { say, show, vesselName } = frame
  const fill = { ...links, ...shownIn(frame, shop, batch), jug: vesselName(batch.file.value.vessel) }
  const degrees = say(shop.units.temperature === 'F' ? 'blank.fahrenheit' : 'blank.celsius')
  const last = batch.parts.find(({ material }) => material.melting?.to === batch.figures.allMelted)
  return [
    {
      name: 'heat',
      caution: { signal: 'warning', words: say('balm.melt.hottest', fill) },
      text: say('balm.melt.heat', fill),
      why: last
        ? say('balm.melt.heat-why', {
            name: last.material.name,
            top: show.temperature('melted.all', batch.figures.allMelted),
            margin: show.kelvins('melt.above', shop.heating['melt-above']),
          })
        : say('balm.melt.heat-why-liquid'),
      blanks: [{ label: say('balm.melt.reads'), after: degrees, reading: 'melt' }],
    },
    { name: 'clear', text: say('balm.melt.clear'), hold: true },
    { name: 'off', text: say('balm.melt.off') },
  ]
}

const pourSteps = (frame: Frame, shop: BalmShop, batch: BoundBalm): NamedStep[] => {
  const { say } = frame
  const shown = shownIn(frame, shop, batch)
  const degrees = say(shop.units.temperature === 'F' ? 'blank.fahrenheit' : 'blank.celsius')
  return [
    {
      name: 'cool',
      text: say('balm.pour.cool', shown),
      why: say('balm.pour.cool-why'),
      blanks: [{ label: say('balm.melt.reads'), after: degrees, reading: 'pour' }],
    },
    {
      name: 'first',
      text: say('balm.pour.first', { mass: shown.tinMass }),
      blanks: [{ label: say('balm.pour.first-reads'), after: say('blank.grams'), reading: 'tin' }],
    },
    { name: 'all', text: say('balm.pour.all', shown) },
    {
      name: 'count',
      text: say('balm.pour.count'),
      blanks: [
        { label: say('balm.pour.full') },
        { label: say('balm.pour.began'), after: say('blank.time'), moment: 'poured' },
      ],
    },
  ]
}

const setSteps = (frame: Frame, shop: BalmShop, batch: BoundBalm): NamedStep[] => {
  const { say, show } = frame
  const shown = shownIn(frame, shop, batch)
  return [
    {
      name: 'wait',
      text: say('balm.set.wait', {
        ...shown,
        room: show.temperature('room', shop.room['usual-temperature']),
      }),
      why: say('balm.set.wait-why'),
      waits: [{ name: 'set', words: say('balm.wait.set'), after: [shown.wait], since: 'poured' }],
    },
    { name: 'look', text: say('balm.set.look') },
    { name: 'label', text: say('balm.set.label', links) },
    { name: 'wash', text: say('balm.set.wash') },
  ]
}

const sizeOf = ({ paper }: BalmShop) => paper.cards ?? 'full'

const meltCard = (frame: Frame, shop: BalmShop, batch: BoundBalm, index: number): Sheet => {
  const { say } = frame
  const shown = { ...links, ...shownIn(frame, shop, batch) }
  return cardSheet(
    frame,
    {
      id: `melt/${batch.key}`,
      title: titled(frame, 'balm.card.title', batch),
      card: {
        caution: { signal: 'danger', words: say('balm.card.caution') },
        number: {
          label: say('balm.card.number'),
          words: { text: '[[melt]]', fill: { melt: shown.melt } },
        },
        wear: say('balm.card.wear'),
        steps: [
          say('balm.card.bath'),
          say('balm.card.melt'),
          say('balm.card.pour', { ...shown, mass: shown.tinMass }),
          say('balm.card.set', shown),
        ],
        stop: say('balm.card.stop', shown),
        from: say('balm.card.from', { sheet: linkTo(placeOf('batch', batch, index)) }),
      },
    },
    placeOf('card', batch, index).number,
    sizeOf(shop),
  )
}

/** A card that is laminated outlives its batch: of a stopped one there is a card that says so. */
const stopCard = (frame: Frame, shop: BalmShop, batch: BoundBalm, index: number): Sheet => {
  const { say } = frame
  const sheet = linkTo(placeOf('batch', batch, index))
  return cardSheet(
    frame,
    {
      id: `melt/${batch.key}`,
      title: titled(frame, 'balm.card.stop-title', batch),
      card: {
        caution: { signal: 'danger', words: say('balm.card.stop-caution') },
        steps: [say('balm.card.stop-old'), say('balm.card.stop-why', { sheet })],
        from: say('balm.card.from', { sheet }),
      },
    },
    placeOf('card', batch, index).number,
    sizeOf(shop),
  )
}

/** Rows that nobody plans: what went wrong. */
const FREE_ROWS = 4

const recordSheet = (frame: Frame, shop: BalmShop, batch: BoundBalm, index: number): Sheet => {
  const { say, show } = frame
  const { id, number: sheetNumber } = placeOf('record', batch, index)
  const shown = shownIn(frame, shop, batch)
  const degrees = say(shop.units.temperature === 'F' ? 'blank.fahrenheit' : 'blank.celsius')
  const grams = say('blank.grams')
  const table = (caption: string, what: string, rows: readonly (readonly [Inline, Cell, Cell])[]): Table => ({
    kind: 'table',
    style: 'checks',
    caption: say(caption),
    columns: [
      { head: say(what), align: 'left' },
      { head: say('balm.record.planned'), align: 'right', width: 22 },
      { head: say('balm.record.done'), align: 'left', width: 24 },
      { head: say('balm.record.by'), align: 'left', width: 14 },
    ],
    rows: rows.map(([name, planned, done]) => [words(name), planned, done, empty]),
  })
  const signed: Step = { text: say('balm.record.let-go'), blanks: [{ label: say('balm.record.signed') }] }
  return finishSheet({
    ...frame.sheet(
      'record',
      id,
      say('section.records'),
      sheetNumber,
      titled(frame, 'balm.record.title', batch),
    ),
    template: frame.template('balm-record'),
    fill: {},
    blocks: {
      weights: {
        kind: 'table',
        style: 'checks',
        caption: say('balm.record.weights'),
        columns: [
          { head: say('balm.record.what'), align: 'left' },
          { head: say('balm.record.planned'), align: 'right', width: 16 },
          { head: say('balm.record.done'), align: 'left', width: 18 },
          { head: say('balm.record.lot'), align: 'left', width: 20 },
          { head: say('balm.record.by'), align: 'left', width: 14 },
        ],
        rows: batch.parts.map(({ key, material, mass, division }): Cell[] => [
          maker(material.name),
          number(show.weight(`${key}.mass`, mass, division)),
          blank(grams),
          empty,
          empty,
        ]),
      },
      readings: table('balm.record.readings', 'balm.record.what', [
        [say('balm.record.melt'), number(shown.melt), blank(degrees)],
        [say('balm.record.pour'), number(shown.pour), blank(degrees)],
        [say('balm.record.tin'), number(shown.tinMass), blank(grams)],
      ]),
      out: table('balm.record.out', 'balm.record.what', [
        [say('balm.record.full'), number(shown.tins), blank()],
        [say('balm.record.spoilt'), words(say('balm.record.none')), blank()],
        [
          say('balm.record.left'),
          number(show.weight('left.mass', batch.figures.leftMass, GRAM)),
          blank(grams),
        ],
        [say('balm.record.lids'), number(shown.wait), blank(say('blank.time'))],
      ]),
      off: {
        kind: 'table',
        style: 'log',
        caption: say('balm.record.off'),
        columns: [
          { head: say('balm.record.when'), align: 'left', width: 16 },
          { head: say('balm.record.seen'), align: 'left' },
          { head: say('balm.record.decided'), align: 'left', width: 32 },
          { head: say('balm.record.by'), align: 'left', width: 12 },
        ],
        rows: Array.from({ length: FREE_ROWS }, () => [empty, empty, empty, empty]),
      },
      'let-go': { kind: 'steps', first: 1, items: [signed] },
    },
    sources: [],
  })
}
