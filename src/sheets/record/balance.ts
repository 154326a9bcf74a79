/** What became of batter, bars and packaging: counted by one, added up by the other. */
import type { BoundRecord } from '../../binder/bind-record.ts'
import { batterMass } from '../batch/weights.ts'
import { blank, empty, maker, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table, Value } from '../model.ts'
import { typedOr } from './cells.ts'

/** kg */
const GRAM = 0.001
/** kg; an estimate is told no finer */
const TEN_GRAMS = 0.01

const counted = (frame: Frame, name: string, count: number | undefined): Cell =>
  typedOr(frame, count === undefined ? undefined : frame.show.count(`made.bars.${name}`, count))

/** Every bar that was cut is a test, rejected, or fit for sale. */
export const barTable = (frame: Frame, record: BoundRecord): Table => {
  const { say, show } = frame
  const { batch, made, bars, wrapped } = record
  const cut = made?.bars
  const sum = (name: string, value: number | undefined): Cell =>
    value === undefined ? empty : number(show.count(`record.bars.${name}`, value))
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.bars.caption'),
    columns: ['planned', 'cut', 'tests', 'rejected', 'fit', 'wrapped', 'loose', 'yield'].map((key) => ({
      head: say(`record.bars.${key}`),
      align: 'left' as const,
    })),
    rows: [
      [
        number(show.count('bars', batch.fill.bars)),
        counted(frame, 'cut', cut?.cut),
        counted(frame, 'tests', cut?.tests),
        counted(frame, 'rejected', cut?.rejected),
        sum('fit', bars.fit),
        counted(frame, 'wrapped', wrapped),
        sum('loose', bars.loose ?? (wrapped !== undefined && wrapped === bars.fit ? 0 : undefined)),
        bars.yield === undefined ? empty : number(show.percent('record.bars.yield', bars.yield, 1)),
      ],
    ],
  }
}

export const batterTable = (frame: Frame, record: BoundRecord): Table => {
  const { say, show } = frame
  const { batch, made, batter, cure } = record
  const { allowances, fill } = batch
  const grams = (name: string, mass: number): Value => show.weight(`record.batter.${name}`, mass, GRAM)
  const found = (name: string, mass: number | undefined): Cell =>
    typedOr(
      frame,
      mass === undefined ? undefined : show.weight(`made.${name}`, mass, GRAM),
      blank(say('blank.grams')),
    )
  const reckoned = (name: string, mass: number | undefined): Cell =>
    mass === undefined ? empty : number(grams(name, mass))
  const planned = (name: string, mass: number): Cell =>
    number(show.weight(`record.planned.${name}`, mass, TEN_GRAMS))
  const inBars = fill.bars * cure.barMass
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.batter.caption'),
    columns: [
      { head: say('record.batter.what'), align: 'left', width: 12 },
      ...['pot', 'left', 'poured', 'bars', 'trimmed', 'rest'].map((key) => ({
        head: say(`record.batter.${key}`),
        align: 'left' as const,
      })),
    ],
    rows: [
      [
        words(say('record.batter.planned')),
        number(batterMass(frame, batch)),
        planned('left', fill.batterMass * allowances.potResidue.nominal),
        planned('poured', fill.pouredMass),
        planned('inBars', inBars),
        planned('trimmed', Math.max(0, fill.pouredMass - inBars)),
        empty,
      ],
      [
        words(say('record.batter.done')),
        made ? number(grams('pot', batter.planned)) : empty,
        found('left-in-pot', made?.['left-in-pot']),
        reckoned('poured', batter.poured),
        reckoned('inBars', batter.inBars),
        found('trimmed', made?.trimmed),
        batter.rest === undefined || batter.share === undefined
          ? empty
          : words(
              say('record.batter.rest-share', {
                rest: grams('rest', batter.rest),
                share: show.percent('record.batter.share', batter.share, 1),
              }),
            ),
      ],
    ],
  }
}

/** Rows for what nobody has typed. */
const PACKAGING_ROWS = 2

export const packagingTable = (frame: Frame, record: BoundRecord): Table => {
  const { say, show } = frame
  const { made, packaging, wrapped } = record
  const label = made?.wrapped?.label
  const names = packaging.map(({ material }) => material ?? '')
  const blanks = Math.max(0, Math.max(PACKAGING_ROWS, record.packagingNames.size) - packaging.length)
  return {
    kind: 'table',
    style: 'log',
    caption:
      label === undefined
        ? say('record.packaging.caption')
        : say('record.packaging.caption-label', { label: say('record.typed', { value: label }) }),
    columns: [
      { head: say('record.packaging.what'), align: 'left' },
      { head: say('record.packaging.lot'), align: 'left', width: 18 },
      { head: say('record.packaging.taken'), align: 'left', width: 14 },
      { head: say('record.packaging.spoiled'), align: 'left', width: 16 },
      { head: say('record.packaging.on-bars'), align: 'left', width: 14 },
      { head: say('record.packaging.rest'), align: 'left', width: 16 },
    ],
    rows: [
      ...packaging.map(({ lot, taken, spoiled, unaccounted }, index): Cell[] => {
        const name = `packaging.${lot}`
        const good = taken - (spoiled ?? 0)
        return [
          maker(record.packagingNames.get(names[index] ?? '') ?? names[index] ?? ''),
          typedOr(frame, lot),
          typedOr(frame, show.count(`made.${name}.taken`, taken)),
          typedOr(frame, spoiled === undefined ? undefined : show.count(`made.${name}.spoiled`, spoiled)),
          wrapped === undefined ? empty : number(show.count(`record.${name}.on`, good - unaccounted)),
          wrapped === undefined ? empty : number(show.count(`record.${name}.rest`, unaccounted)),
        ]
      }),
      ...Array.from({ length: blanks }, (_, index): Cell[] => [
        nameToCome(record, index),
        empty,
        empty,
        empty,
        empty,
        empty,
      ]),
    ],
  }
}

/** Names of what the shop wraps in, where no lot was typed yet. */
const nameToCome = ({ packagingNames, packaging }: BoundRecord, index: number): Cell => {
  const used = new Set(packaging.map(({ material }) => material))
  const name = [...packagingNames].filter(([key]) => !used.has(key))[index]?.[1]
  return name === undefined ? empty : maker(name)
}
