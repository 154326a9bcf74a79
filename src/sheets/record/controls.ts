/** Readings and checks with their plan and their limits, each with the step at which it is written. */
import type { BoundRecord } from '../../binder/bind-record.ts'
import type { RecordControl } from '../../binder/record-controls.ts'
import { box, empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Sheet, Table, Value } from '../model.ts'
import { placeOfReading } from './steps.ts'
import { typedReadings } from './typed.ts'

interface Row {
  readonly key: string
  readonly what: Inline
  readonly planned?: Inline | Value | undefined
  readonly limits?: Inline | undefined
  readonly isWithin?: boolean | undefined
}

export const controlTable = (frame: Frame, record: BoundRecord, sheet: Sheet): Table => {
  const { say } = frame
  const written = typedReadings(frame, record.batch)
  const rows = [...scaleRows(frame, record), ...potRows(frame, record), ...readingRows(frame, record)]
  return {
    kind: 'table',
    style: 'checks',
    columns: [
      { head: say('record.controls.what'), align: 'left', width: 25 },
      { head: say('record.controls.planned'), align: 'left', width: 18 },
      { head: say('record.controls.limits'), align: 'left' },
      { head: say('record.controls.found'), align: 'left', width: 23 },
      { head: say('record.controls.within'), align: 'centre', width: 9 },
    ],
    rows: rows.flatMap(({ key, what, planned, limits, isWithin }): Cell[][] => {
      const at = placeOfReading(frame, sheet, key)
      const typed = written.get(key)
      // what the sheet of this batch does not ask for is not looked through either
      if (!at && !typed) return []
      return [
        [
          words(what),
          planned === undefined ? empty : 'text' in planned ? words(planned) : number(planned),
          limits === undefined ? empty : words(limits),
          typed ? { kind: 'typed', words: typed } : words(at ?? say('record.controls.nowhere')),
          isWithin === undefined
            ? limits === undefined
              ? empty
              : box
            : { kind: 'typed', words: say(isWithin ? 'record.controls.yes' : 'record.controls.no') },
        ],
      ]
    }),
  }
}

const range = ({ say }: Frame, low: Value, high: Value): Inline => say('record.range', { low, high })

const scaleRows = (frame: Frame, { batch }: BoundRecord): Row[] => {
  const { say, show, scaleName } = frame
  return batch.scales.checks.flatMap(({ name, checkMass, band, division }): Row[] =>
    band === undefined || checkMass === undefined
      ? []
      : [
          {
            key: `scale-${name}`,
            what: say('record.controls.scale', { scale: scaleName(name) }),
            planned: show.weight(`scale.${name}.checkMass`, checkMass, 0.001),
            limits: range(
              frame,
              show.weight(`scale.${name}.checkLow`, band.low, division),
              show.weight(`scale.${name}.checkHigh`, band.high, division),
            ),
          },
        ],
  )
}

/** Kettle, water and pail as wholes, on the second scale. */
const potRows = (frame: Frame, { batch }: BoundRecord): Row[] => {
  const { say, show } = frame
  return (
    [
      ['kettle', batch.scales.gross],
      ['water', batch.scales.water],
      ['pail', batch.scales.lye],
    ] as const
  ).flatMap(([key, check]): Row[] => {
    if (!check) return []
    const { band, scale } = check
    const at = (of: 'expected' | 'low' | 'high') =>
      show.weight(`record.${key}.${of}`, band[of], scale.division)
    return [
      {
        key,
        what: say(`record.controls.${key}`),
        planned: at('expected'),
        limits: range(frame, at('low'), at('high')),
      },
    ]
  })
}

const readingRows = (frame: Frame, record: BoundRecord): Row[] =>
  record.controls.map((control) => ({
    key: control.key,
    what: frame.say(`record.reading.${control.key}`),
    isWithin: control.isWithin,
    ...plannedOf(frame, record, control),
  }))

/** In the words of the batch sheet, with its numbers under its names. */
const plannedOf = (
  frame: Frame,
  { batch, cure }: BoundRecord,
  { key, low, high }: RecordControl,
): Pick<Row, 'planned' | 'limits'> => {
  const { say, show } = frame
  const { lye, heat, fill, blockHeat } = batch
  const block = blockHeat?.heat
  const task = (name: string) => cure.planned.tasks.find((one) => one.task === name)
  const warmth = (name: string, at: number | undefined): Value =>
    show.temperature(`record.${key}.${name}`, at ?? 0)
  switch (key) {
    case 'lye-peak': {
      const hottest = lye.thinned ?? [...lye.portions].sort((a, b) => b.peak - a.peak)[0]
      return {
        planned: hottest && range(frame, warmth('low', hottest.peakLow), warmth('high', hottest.peak)),
        limits: say('record.at-most', { most: show.temperature('lye.limit', lye.limit) }),
      }
    }
    case 'lye':
    case 'fats':
      return {
        planned: show.temperature(`heat.${key}`, heat[key]),
        limits: range(frame, warmth('low', low), warmth('high', high)),
      }
    case 'lye-in':
      return {}
    case 'trace':
      return batch.timeToThick === 0
        ? {}
        : { limits: say('record.after-lye', { minutes: show.minutes('time.toThick', batch.timeToThick) }) }
    case 'poured': {
      const pour = task('pour')
      return pour ? { planned: show.time('record.pourAt', pour.at.minute) } : {}
    }
    case 'below-rim':
      return {
        planned: show.length('fill.belowRim', fill.freeboard),
        limits: say('record.near', { off: show.length('record.lineOff', (high ?? 0) - fill.freeboard) }),
      }
    case 'core-hottest':
      return {
        ...(block
          ? { planned: range(frame, warmth('low', block.peak.low), warmth('high', block.peak.high)) }
          : {}),
        ...(high === undefined ? {} : { limits: say('record.at-most', { most: warmth('most', high) }) }),
      }
    case 'sides-off':
      return block?.strip.nominal === undefined
        ? {}
        : { limits: say('record.not-before', { from: show.hours('block.strip', block.strip.nominal) }) }
    case 'set-height':
      return {
        planned: show.length('fill.setHeight', fill.setHeight.nominal),
        limits: range(
          frame,
          show.length('fill.setHeight.low', fill.setHeight.low),
          show.length('fill.setHeight.high', fill.setHeight.high),
        ),
      }
    case 'push':
      return {}
    case 'cut':
      return block?.earliestCut.nominal === undefined
        ? {}
        : {
            limits: say('record.between', {
              from: show.hours('block.cut', block.earliestCut.nominal),
              to: show.hours('block.latest', block.latestCut.nominal),
            }),
          }
  }
}
