/** Spill: what to do first, what after, and the kit that takes up the most lye that this shop makes at once. */
import type { BoundBinder } from '../../binder/bind.ts'
import { type LargestPail, largestPail } from '../../binder/caution-figures.ts'
import { box, type Fill, finishSheet, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet, Value } from '../model.ts'
import { PLACES } from '../places.ts'
import { cautionBox, ticked, under } from './boxes.ts'

export const spillSheet = (frame: Frame, binder: BoundBinder, fill: Fill): Sheet => {
  const { say, show } = frame
  const pail = largestPail(binder)
  return finishSheet({
    ...frame.sheet(
      'cautions',
      PLACES.spill.id,
      say('section.cautions'),
      PLACES.spill.number,
      say('cautions.spill.title'),
    ),
    template: frame.template('spill'),
    fill: {},
    blocks: {
      first: cautionBox(
        say,
        'danger',
        'cautions.spill.first.heading',
        under('cautions.spill.first', ['person', 'big', ...(pail ? ['takes'] : []), 'out']),
        pail ? { ...fill, filled: show.volume('kit.filled', pail.filled) } : fill,
      ),
      lye: ticked(say, under('cautions.spill.lye', ['ring', 'shovel', 'wash', 'test']), fill),
      batter: ticked(say, under('cautions.spill.batter', ['1', '2']), fill, 5),
      beads: ticked(say, ['cautions.spill.beads'], fill, 7),
      after: ticked(say, under('cautions.spill.after', ['label', 'ask', 'kit']), fill, 8),
      kit: pail ? kitTable(frame, pail, fill) : nothing,
      checked: {
        kind: 'table',
        style: 'log',
        columns: ['1', '2', '3', '4'].map(() => ({
          head: say('cautions.spill.kit.checked'),
          align: 'left' as const,
        })),
        rows: [1, 2].map(() => [1, 2, 3, 4].map((): Cell => ({ kind: 'empty' }))),
      },
    },
    sources: pickSources(frame.sources, ['clp', 'inrs20', 'nj-right-to-know', 'common-practice']),
  })
}

const kitTable = (
  { say, show, vesselName }: Frame,
  { key, brim, filled, kit }: LargestPail,
  fill: Fill,
): Block => {
  const row = (what: Inline, much: Value | Inline | undefined, note: Inline | undefined): Cell[] => [
    words(what),
    much === undefined ? { kind: 'empty' } : 'text' in much ? words(much) : number(much),
    note === undefined ? { kind: 'empty' } : words(note),
    box,
  ]
  return {
    kind: 'table',
    caption: say('cautions.spill.kit.caption'),
    columns: [
      { head: say('cautions.spill.kit.what'), align: 'left', width: 32 },
      { head: say('cautions.spill.kit.much'), align: 'right', width: 18 },
      { head: say('cautions.spill.kit.why'), align: 'left' },
      { head: say('cautions.spill.kit.there'), align: 'centre', width: 9 },
    ],
    rows: [
      row(
        say('cautions.spill.kit.lye'),
        show.volume('kit.filled', filled),
        say('cautions.spill.kit.lye-note', { pail: vesselName(key), brim: show.volume('kit.pail', brim) }),
      ),
      row(
        say('cautions.spill.kit.sand'),
        say('cautions.spill.kit.sand-much', {
          volume: show.volume('kit.sand', kit.sand),
          mass: show.heavy('kit.sandMass', kit.sandMass),
        }),
        say('cautions.spill.kit.sand-note', {
          pails: show.count('kit.sandPails', kit.sandPails),
          voids: show.percent('kit.voids', kit.voids, 0),
          reserve: show.percent('kit.reserve', kit.reserve, 0),
        }),
      ),
      row(
        say('cautions.spill.kit.waste'),
        say('cautions.spill.kit.pails', {
          pails: show.count('kit.wastePails', kit.wastePails),
          volume: show.volume('kit.wastePail', kit.wastePail),
        }),
        say('cautions.spill.kit.waste-note'),
      ),
      row(
        say('cautions.spill.kit.wash'),
        say('cautions.spill.kit.pails', {
          pails: show.count('kit.washPails', kit.washPails),
          volume: show.volume('kit.washPail', kit.washPail),
        }),
        say('cautions.spill.kit.wash-note', {
          washes: show.count('kit.washes', kit.washes),
          wash: show.volume('kit.wash', kit.wash),
        }),
      ),
      row(say('cautions.spill.kit.tools', fill), undefined, undefined),
      row(say('cautions.spill.kit.gear'), undefined, say('cautions.spill.kit.gear-note')),
      row(say('cautions.spill.kit.labels'), undefined, undefined),
    ],
  }
}
