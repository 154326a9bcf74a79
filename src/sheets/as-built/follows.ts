/** What follows from the readings: oils and bars of each batch, sizes of the bars, notes of the wires. */
import type { BatchAsBuilt, BoundAsBuilt } from '../../binder/bind-as-built.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table, Value } from '../model.ts'
import { groupCell, groupColumn, right } from '../wires/groups.ts'

const GRAM = 0.001
const TENTH_GRAM = 0.0001
/** kg and m; less is no difference that anybody weighs or measures */
const NO_WEIGHT = 0.00005
const NO_OILS = 0.0005
const NO_HEIGHT = 0.00005

export const batchName = ({ say, show }: Frame, { batch }: BatchAsBuilt): Inline =>
  say('as-built.batch', {
    recipe: batch.recipeTitle,
    date: show.shortDate(`as-built.${batch.key}.date`, batch.date),
  })

/** Oils that the maker has fixed do not follow the mould. */
const oilsCell = ({ say }: Frame, { batch }: BatchAsBuilt, mass: Value): Cell =>
  batch.file.value.oils === undefined ? number(mass) : words(say('as-built.batches.fixed', { mass }))

/** One row as drawn, and one as measured where anything was. */
export const batchTable = (frame: Frame, { batches, isTyped }: BoundAsBuilt): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('as-built.batches.caption'),
    columns: [
      { head: say('as-built.batches.batch'), align: 'left' },
      { head: say('as-built.batches.which'), align: 'left', width: 12 },
      right(frame, 'as-built.batches.oils', 10),
      right(frame, 'as-built.batches.smallest', 10),
      right(frame, 'as-built.batches.mean', 10),
      right(frame, 'as-built.batches.largest', 10),
      right(frame, 'as-built.batches.needed', 20),
      right(frame, 'as-built.batches.under', 11),
    ],
    rows: batches.flatMap((one) =>
      (isTyped ? (['drawn', 'is'] as const) : (['drawn'] as const)).map((which, index): Cell[] => {
        const name = `as-built.${one.batch.key}.${which}`
        const bars = one[which]
        const grams = (key: string, mass: number) => number(show.weight(`${name}.${key}`, mass, TENTH_GRAM))
        return [
          index === 0 ? words(batchName(frame, one)) : empty,
          words(say(`as-built.which.${which}`)),
          oilsCell(frame, one, show.weight(`${name}.oils`, one.oils[which], GRAM)),
          grams('smallest', bars.smallest),
          grams('mean', bars.mean),
          grams('largest', bars.largest),
          index > 0
            ? empty
            : one.declared === undefined || one.greenNeeded === undefined
              ? words(say('as-built.batches.no-label'))
              : words(
                  say('as-built.batches.least', {
                    weight: show.weight(`as-built.${one.batch.key}.declared`, one.declared, GRAM),
                    green: show.weight(`as-built.${one.batch.key}.green`, one.greenNeeded, TENTH_GRAM),
                  }),
                ),
          bars.label
            ? words(
                say('as-built.batches.count', {
                  under: show.count(`${name}.under`, bars.label.under),
                  bars: show.count(`as-built.${one.batch.key}.bars`, one.bars),
                }),
              )
            : empty,
        ]
      }),
    ),
  }
}

/** In bars, weight and height, for each batch. */
export const costItems = (frame: Frame, { batches }: BoundAsBuilt): readonly Inline[] => {
  const { say } = frame
  if (batches.length === 0) return [say('as-built.cost.no-batch')]
  return batches.map((one) => {
    const parts = [
      oilsCost(frame, one),
      barCost(frame, one),
      labelCost(frame, one),
      heightCost(frame, one),
    ].flatMap((part) => part ?? [])
    const [first, ...rest] = parts
    if (!first) return say('as-built.cost.none', { batch: batchName(frame, one) })
    return say('as-built.cost.item', {
      batch: batchName(frame, one),
      what: rest.reduce((before, next) => say('as-built.cost.and', { before, next }), first),
    })
  })
}

const nameOf = ({ batch }: BatchAsBuilt): string => `as-built.${batch.key}.cost`

const oilsCost = ({ say, show }: Frame, one: BatchAsBuilt): Inline | undefined => {
  const more = one.oils.is - one.oils.drawn
  if (Math.abs(more) < NO_OILS) return undefined
  return say(more > 0 ? 'as-built.cost.oils-more' : 'as-built.cost.oils-less', {
    mass: show.weight(`${nameOf(one)}.oils`, Math.abs(more), GRAM),
  })
}

const barCost = ({ say, show }: Frame, one: BatchAsBuilt): Inline | undefined => {
  const more = one.is.mean - one.drawn.mean
  if (Math.abs(more) < NO_WEIGHT) return undefined
  return say(more > 0 ? 'as-built.cost.bar-heavier' : 'as-built.cost.bar-lighter', {
    mass: show.weight(`${nameOf(one)}.bar`, Math.abs(more), TENTH_GRAM),
  })
}

/** Bars that the label loses or wins, and soap beyond it in all that keep it. */
const labelCost = ({ say, show }: Frame, one: BatchAsBuilt): Inline | undefined => {
  const [is, drawn] = [one.is.label, one.drawn.label]
  if (!is || !drawn || one.declared === undefined) return undefined
  const name = nameOf(one)
  const under = is.under - drawn.under
  const given = is.given - drawn.given
  const weight = show.weight(`as-built.${one.batch.key}.declared`, one.declared, GRAM)
  const bars =
    under === 0
      ? undefined
      : say(under > 0 ? 'as-built.cost.bars-fewer' : 'as-built.cost.bars-more', {
          bars: show.count(`${name}.bars`, Math.abs(under)),
          weight,
        })
  const soap =
    Math.abs(given) < GRAM / 2
      ? undefined
      : say(given > 0 ? 'as-built.cost.given-more' : 'as-built.cost.given-less', {
          mass: show.weight(`${name}.given`, Math.abs(given), GRAM),
          each: show.weight(`${name}.given-each`, is.given / Math.max(1, one.bars - is.under), TENTH_GRAM),
        })
  return bars && soap ? say('as-built.cost.and', { before: bars, next: soap }) : (bars ?? soap)
}

/** What the drawing's oils would do in the mould that is there. */
const heightCost = ({ say, show }: Frame, one: BatchAsBuilt): Inline | undefined => {
  const more = one.height.is - one.height.drawn
  if (Math.abs(more) < NO_HEIGHT) return undefined
  return say(more > 0 ? 'as-built.cost.height-higher' : 'as-built.cost.height-lower', {
    height: show.millimetres(`${nameOf(one)}.height`, Math.abs(more)),
  })
}

/** The loaves as they stand in the block, seen from above, back row first, with the weight of a bar of each. */
export const loafTable = (frame: Frame, { bars: { is }, batches }: BoundAsBuilt): Table => {
  const { say, show } = frame
  const rows = is.rows.map((width, index) => ({ width, at: index + 1 })).toReversed()
  const [batch] = batches
  const thickness = is.slices.reduce((sum, one) => sum + one, 0) / Math.max(1, is.slices.length)
  const lengthOf = (length: number, index: number) =>
    show.millimetres(`as-built.column-${index + 1}.size`, length)
  const widthOf = (width: number, at: number) => show.millimetres(`as-built.row-${at}.size`, width)
  return {
    kind: 'table',
    caption: batch
      ? say('as-built.loaves.caption', { batch: batchName(frame, batch) })
      : say('as-built.loaves.caption-sizes'),
    columns: [
      { head: say('as-built.loaves.row'), align: 'left', width: 16 },
      ...is.columns.map((length, index) => ({
        head: say('as-built.loaves.column', {
          number: show.count(`as-built.column-${index + 1}`, index + 1),
          length: lengthOf(length, index),
        }),
        align: 'right' as const,
      })),
    ],
    rows: rows.map(({ width, at }): Cell[] => [
      words(
        say('as-built.loaves.this-row', {
          number: show.count(`as-built.row-${at}`, at),
          width: widthOf(width, at),
        }),
      ),
      ...is.columns.map((length, index) =>
        batch
          ? number(
              show.weight(
                `as-built.loaf-${index + 1}-${at}`,
                length * width * thickness * batch.density,
                TENTH_GRAM,
              ),
            )
          : words(
              say('as-built.loaves.size', { length: lengthOf(length, index), width: widthOf(width, at) }),
            ),
      ),
    ]),
  }
}

/** Thickness of every slice, from the underside of the block up. */
export const sliceTable = (frame: Frame, { bars: { is, drawn } }: BoundAsBuilt): Table => {
  const { say, show } = frame
  const row = (key: 'drawn' | 'is'): Cell[] => [
    words(say(`as-built.which.${key}`)),
    ...{ drawn, is }[key].slices.map((thickness, index) =>
      number(show.millimetres(`as-built.slice-${index + 1}.${key}`, thickness)),
    ),
  ]
  return {
    kind: 'table',
    caption: say('as-built.slices.caption'),
    columns: [
      { head: say('as-built.slices.slice'), align: 'left', width: 14 },
      ...is.slices.map((_, index) => ({
        head: say('as-built.slices.number', { number: show.count(`as-built.slice-${index + 1}`, index + 1) }),
        align: 'right' as const,
      })),
    ],
    rows: [row('drawn'), row('is')],
  }
}

/** Notes at the tension that was meant, and pieces of wire. */
export const tunedTable = (frame: Frame, { wires, isTyped }: BoundAsBuilt, sheet: Inline): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('as-built.tuned.caption', { sheet }),
    columns: [
      groupColumn(frame, 26),
      right(frame, 'as-built.tuned.length', 22),
      right(frame, 'as-built.tuned.note', 24),
      ...(isTyped ? [right(frame, 'as-built.tuned.off', 14)] : []),
      right(frame, 'as-built.tuned.cut', 20),
    ],
    rows: wires.map(({ is, cents, cut }): Cell[] => {
      const name = `as-built.wire.${is.key}`
      return [
        groupCell(frame, is),
        number(show.millimetres(`${name}.length`, is.length)),
        words(
          say('as-built.tuned.tune', {
            note: show.note(`${name}.note`, is.chosen.note),
            needle: show.cents(`${name}.needle`, is.chosen.note.cents),
            pitch: show.frequency(`${name}.pitch`, is.chosen.pitch),
          }),
        ),
        ...(isTyped ? [number(show.cents(`${name}.cents`, cents))] : []),
        number(show.exactLength(`${name}.cut`, cut.is)),
      ]
    }),
  }
}
