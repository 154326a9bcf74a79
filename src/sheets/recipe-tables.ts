/** Tables and facts of a recipe sheet: the formula, the superfat with what makes it unsure, products, how it keeps. */
import type { BoundRecipe, RecipeFat } from '../binder/bind-recipe.ts'
import { empty, maker, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Cell, Facts, Inline, Table, Value } from './model.ts'
import { estimateValues } from './recipe-acids.ts'

/** Thousandths, as the trade writes mg for 1 g and g for 1 kg; the unit stands in the head of the column. */
export const perThousand = ({ show }: Frame, name: string, value: number, decimals: number): Value => ({
  name,
  value,
  unit: 'kg/kg',
  shown: show.plainNumber(value * 1000, decimals),
})

export const formulaTable = (frame: Frame, bound: BoundRecipe): Table => {
  const { say, show } = frame
  // Of what must not be made no amounts are printed.
  const amounts = bound.stops.length === 0
  const row = (fat: RecipeFat): Cell[] => {
    const name = `fat.${fat.key}`
    const { value } = fat
    return [
      maker(fat.name),
      number(show.percent(`${name}.share`, fat.share, 1)),
      number(perThousand(frame, `${name}.saponificationValue`, value.nominal, 1)),
      number(perThousand(frame, `${name}.saponificationValue.low`, value.low, 1)),
      number(perThousand(frame, `${name}.saponificationValue.high`, value.high, 1)),
      words(basisWords(frame, fat)),
      ...(amounts ? [number(perThousand(frame, `${name}.demand`, fat.demand, 1))] : []),
    ]
  }
  return {
    kind: 'table',
    caption: amounts ? say('recipe.formula.caption') : say('recipe.formula.caption-stopped'),
    columns: [
      { head: say('recipe.formula.fat'), align: 'left', width: 21 },
      { head: say('recipe.formula.share'), align: 'right', width: 11 },
      { head: say('recipe.formula.value'), align: 'right', width: 10 },
      { head: say('recipe.formula.low'), align: 'right', width: 10 },
      { head: say('recipe.formula.high'), align: 'right', width: 10 },
      { head: say('recipe.formula.from'), align: 'left' },
      ...(amounts ? [{ head: say('recipe.formula.demand'), align: 'right', width: 12 } as const] : []),
    ],
    rows: bound.fats.map(row),
    foot: [
      [
        words(say('recipe.formula.all')),
        number(
          show.percent(
            'fats.share',
            bound.fats.reduce((sum, { share }) => sum + share, 0),
            1,
          ),
        ),
        empty,
        empty,
        empty,
        empty,
        ...(amounts ? [number(perThousand(frame, 'fats.demand', bound.demand, 1))] : []),
      ],
    ],
  }
}

const basisWords = ({ say }: Frame, { value, entry }: RecipeFat): Inline => {
  const evidence = say(`frame.evidence.${entry['saponification-value'].evidence}`)
  switch (value.basis) {
    case 'certificate':
      return say('recipe.basis.certificate')
    case 'analysis-of-lot':
      return say('recipe.basis.analysis-of-lot')
    case 'composition':
      return say('recipe.basis.composition', { evidence })
    case 'middle-of-range':
      return say('recipe.basis.middle-of-range', { evidence })
  }
}

export const superfatFacts = (frame: Frame, bound: BoundRecipe): Facts => {
  const { say, show } = frame
  const { superfat } = bound
  const percent = (name: string, share: number): Cell => number(show.percent(`superfat.${name}`, share, 1))
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      { label: say('recipe.superfat.asked'), cell: percent('asked', bound.recipe.superfat) },
      {
        label: say('recipe.superfat.nominal'),
        cell: percent('nominal', superfat.nominal),
        note: say('recipe.superfat.nominal-note', { mass: show.heavy('superfat.for', bound.batchSize) }),
      },
      { label: say('recipe.superfat.interval'), cell: percent('low', superfat.monteCarlo.low) },
      { label: say('recipe.superfat.interval-high'), cell: percent('high', superfat.monteCarlo.high) },
      {
        label: say('recipe.superfat.worst'),
        cell: percent('worstCase', superfat.worst.low),
        note: say('recipe.superfat.worst-note'),
      },
      {
        label: say('recipe.superfat.floor'),
        cell: percent('floor', bound.floor),
        note: say('recipe.superfat.floor-note'),
      },
    ],
  }
}

const CAUSE_WORDS: Readonly<Record<BoundRecipe['superfat']['contributions'][number]['cause'], string>> = {
  'saponification-value': 'recipe.cause.saponification-value',
  purity: 'recipe.cause.purity',
  weighing: 'recipe.cause.weighing',
  span: 'recipe.cause.span',
}

/** Below this share of the spread a cause is not worth a line [–], our choice. */
const SMALLEST_CAUSE = 0.005

export const causeTable = (frame: Frame, bound: BoundRecipe): Table => {
  const { say, show } = frame
  const { contributions } = bound.superfat
  const all = contributions.reduce((sum, { deviation }) => sum + deviation ** 2, 0)
  const nameOf = (key: string): string =>
    bound.fats.find((fat) => fat.key === key)?.name ??
    bound.alkalis.find(({ kind }) => kind === key)?.name ??
    bound.formula.additions.find((addition) => addition.key === key)?.name ??
    key
  return {
    kind: 'table',
    caption: say('recipe.causes.caption'),
    columns: [
      { head: say('recipe.causes.cause'), align: 'left' },
      { head: say('recipe.causes.deviation'), align: 'right', width: 22 },
      { head: say('recipe.causes.share'), align: 'right', width: 22 },
    ],
    rows: contributions
      .filter(({ deviation }) => deviation ** 2 >= SMALLEST_CAUSE * all)
      .map(({ cause, of, deviation }) => {
        const name = `cause.${cause}.${of}`
        return [
          words(say(CAUSE_WORDS[cause], { of: cause === 'span' ? frame.scaleName(of) : nameOf(of) })),
          number(show.percent(`${name}.deviation`, deviation, 2)),
          number(show.percent(`${name}.share`, deviation ** 2 / all, 0)),
        ]
      }),
  }
}

export const productFacts = (frame: Frame, { products }: BoundRecipe): Facts => ({
  kind: 'facts',
  size: 'plain',
  items: [
    {
      label: frame.say('recipe.products.soap'),
      cell: number(perThousand(frame, 'product.soap', products.soap, 0)),
    },
    {
      label: frame.say('recipe.products.glycerol'),
      cell: number(perThousand(frame, 'product.glycerol', products.glycerol, 0)),
      note: frame.say('recipe.products.glycerol-note'),
    },
    {
      label: frame.say('recipe.products.unreacted'),
      cell: number(perThousand(frame, 'product.unreactedFat', products.unreactedFat, 0)),
    },
  ],
})

/** Share of acids with two or more double bonds above which a bar is said to keep less long [–], common practice. */
const UNSATURATED_LIMIT = 0.15

export const keepingNotice = (frame: Frame, bound: BoundRecipe): Block => {
  const { say, show } = frame
  const { covered, groups } = bound.makeUp
  const unsaturated = groups.find(({ key }) => key === 'twoOrMoreDoubleBonds')?.share
  const upper = bound.superfat.monteCarlo.high
  const soft = {
    upper: show.percent('superfat.high', upper, 1),
    limit: show.percent('superfat.softLimit', bound.softLimit, 0),
  }
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('recipe.keep.heading'),
    items: [
      ...(unsaturated && covered > 0 ? [unsaturatedWords(frame, unsaturated)] : []),
      ...(covered < 1 - 1e-9
        ? [say('recipe.keep.unknown', { share: show.percent('uncovered', 1 - covered, 1) })]
        : []),
      upper > bound.softLimit ? say('recipe.keep.soft-high', soft) : say('recipe.keep.soft-low', soft),
      say('recipe.keep.look'),
      say('recipe.keep.metal'),
    ],
  }
}

const unsaturatedWords = (frame: Frame, unsaturated: Parameters<typeof estimateValues>[2]): Inline => {
  const { middle: share, low, high } = estimateValues(frame, 'twoOrMoreDoubleBonds', unsaturated)
  const limit = frame.show.percent('twoOrMoreDoubleBonds.limit', UNSATURATED_LIMIT, 0)
  if (unsaturated.middle > UNSATURATED_LIMIT)
    return frame.say('recipe.keep.unsaturated-high', { share, low, high, limit })
  if (unsaturated.high > UNSATURATED_LIMIT)
    return frame.say('recipe.keep.unsaturated-maybe', { share, high, limit })
  return frame.say('recipe.keep.unsaturated-low', { share, high, limit })
}
