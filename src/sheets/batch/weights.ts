/** What goes into a batch, and how high it stands: the tables at its head. */

import type { Band } from '../../batch/band.ts'
import type { DrawPlan } from '../../batch/draws.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { batterSum } from '../../binder/weigh-out.ts'
import type { AsBuilt } from '../../fixtures/mould-types.ts'
import { empty, maker, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Facts, Inline, Table, Value } from '../model.ts'

/** kg; where no alkali was planned there is nothing to be finer about */
const GRAM = 0.001

export const alkaliKey = (kind: 'NaOH' | 'KOH'): string => kind.toLowerCase()

/** Water, or the liquid that the maker names. */
export const liquidWords = ({ say }: Frame, batch: BoundBatch): Cell =>
  batch.liquid === undefined ? words(say('batch.weights.water')) : maker(batch.liquid)

/** What an addition is called: an acid with its strength, a colour with the part it is for. */
export interface NamedAddition {
  readonly key: string
  readonly name: string
  readonly strength?: number | undefined
  readonly acid?: string | undefined
  readonly colour?: string | undefined
}

export const additionWords = ({ say, show }: Frame, addition: NamedAddition): Inline => {
  const { key, name, strength, acid, colour } = addition
  if (strength !== undefined && acid !== undefined)
    return say('batch.weights.acid', {
      name,
      acid: say(`acid.${acid}`),
      strength: show.percent(`addition.${key}.strength`, strength, 1),
    })
  return colour === undefined
    ? say('batch.weights.addition', { name })
    : say('batch.weights.colour', { name, colour })
}

const sumOf = (plans: readonly { readonly plan: DrawPlan }[]): number =>
  plans.reduce((total, { plan }) => total + plan.sum, 0)

/** kg; how finely sums are written: as the alkali is weighed */
const divisionOf = ({ alkalis }: BoundBatch): number => alkalis[0]?.plan.scale.division ?? GRAM

/** All fats as they are weighed. */
export const oilsMass = ({ show }: Frame, batch: BoundBatch): Value =>
  show.weight('oils.mass', sumOf(batch.fats), divisionOf(batch))

/** All that goes into the pot, as it is weighed. */
export const batterMass = ({ show }: Frame, batch: BoundBatch): Value =>
  show.weight('batter.mass', batterSum(batch), divisionOf(batch))

export const weightsTable = (frame: Frame, batch: BoundBatch): Table => {
  const { say, show } = frame
  const row = (what: Cell, share: Cell, mass: Cell): Cell[] => [what, share, mass]
  const weigh = (name: string, plan: DrawPlan): Cell =>
    number(show.weight(name, plan.sum, plan.scale.division))
  const oilSum = sumOf(batch.fats)
  const lyeSum = sumOf(batch.alkalis) + batch.water.sum + (batch.ice?.sum ?? 0)
  const division = divisionOf(batch)
  return {
    kind: 'table',
    caption: say('batch.weights.caption', { bars: show.count('bars', batch.fill.bars) }),
    columns: [
      { head: say('batch.weights.what'), align: 'left' },
      { head: say('batch.weights.share'), align: 'right', width: 18 },
      { head: say('batch.weights.mass'), align: 'right', width: 24, main: true },
    ],
    rows: [
      ...batch.fats.map((fat) =>
        row(
          maker(fat.name),
          number(show.percent(`fat.${fat.key}.share`, fat.share, 1)),
          weigh(`fat.${fat.key}.mass`, fat.plan),
        ),
      ),
      row(liquidWords(frame, batch), empty, weigh('water.mass', batch.water)),
      ...(batch.ice ? [row(words(say('batch.weights.ice')), empty, weigh('ice.mass', batch.ice))] : []),
      ...batch.alkalis.map(({ kind, name, purity, stock, plan }) =>
        row(
          words(
            say(stock ? 'batch.weights.stock' : 'batch.weights.alkali', {
              alkali: name,
              purity: show.percent(`${alkaliKey(kind)}.purity`, purity, 1),
            }),
          ),
          empty,
          weigh(`${alkaliKey(kind)}.mass`, plan),
        ),
      ),
      ...(batch.later
        ? [row(words(say('batch.weights.later')), empty, weigh('later.mass', batch.later))]
        : []),
      ...batch.additions.map((addition) =>
        row(
          words(additionWords(frame, addition)),
          number(show.percent(`addition.${addition.key}.share`, addition.plan.sum / oilSum, 1)),
          weigh(`addition.${addition.key}.mass`, addition.plan),
        ),
      ),
    ],
    foot: [
      [words(say('batch.weights.fats')), empty, number(oilsMass(frame, batch))],
      [words(say('batch.weights.lye')), empty, number(show.weight('lye.mass', lyeSum, division))],
      [words(say('batch.weights.batter')), empty, number(batterMass(frame, batch))],
    ],
  }
}

export const fillFacts = (frame: Frame, batch: BoundBatch): Facts => {
  const { say, show } = frame
  const { fill, mould } = batch
  const { block } = mould.mould
  return {
    kind: 'facts',
    size: 'big',
    items: [
      {
        label: say('batch.fill.height'),
        cell: number(show.length('fill.pourHeight', fill.pourHeight.nominal)),
        note: say('batch.fill.height-note'),
      },
      {
        label: say('batch.fill.below-rim'),
        cell: number(show.length('fill.belowRim', fill.freeboard)),
        note: say('batch.fill.below-rim-note'),
      },
      { label: say('batch.fill.bars'), cell: number(show.count('bars', fill.bars)) },
      ...(batch.kettles > 1
        ? [
            {
              label: say('batch.fill.kettles'),
              cell: number(show.count('kettles', batch.kettles)),
              note: say('batch.fill.kettles-note'),
            },
          ]
        : []),
      { label: say('batch.fill.block-length'), cell: number(show.length('block.length', block.length)) },
      { label: say('batch.fill.block-width'), cell: number(show.length('block.width', block.width)) },
      {
        label: say('batch.fill.set-height'),
        cell: number(show.length('fill.setHeight', fill.setHeight.nominal)),
        note: say('batch.fill.set-height-note', {
          low: show.length('fill.setHeight.low', fill.setHeight.low),
          high: show.length('fill.setHeight.high', fill.setHeight.high),
        }),
      },
      {
        label: say('batch.fill.trim'),
        cell: number(show.length('fill.trim', fill.trim)),
        note: say('batch.fill.trim-note', { needed: show.length('fill.trimNeeded', fill.trimNeeded) }),
      },
      { label: say('batch.fill.volume'), cell: number(show.volume('batter.volume', fill.batterVolume)) },
      {
        label: say('batch.fill.strength'),
        cell: number(show.percent('lye.concentration', batch.lye.concentration, 1)),
      },
      {
        label: say('batch.fill.superfat'),
        cell: number(show.percent('superfat.nominal', batch.superfat.nominal, 1)),
      },
      ...onHandFacts(frame, batch),
    ],
  }
}

/** What the fill was reckoned with: estimates of the trade, each until the shop has measured its own. */
export const allowanceFacts = ({ say, show }: Frame, { allowances, mould }: BoundBatch): Facts => {
  const item = (key: 'potResidue' | 'air' | 'setShrinkage', value: Band): Facts['items'][number] => ({
    label: say(`batch.allowance.${key}`),
    cell: number(show.percent(`fill.${key}`, value.nominal, 1)),
    note:
      value.low === value.high
        ? say('batch.allowance.measured')
        : say('batch.allowance.estimate', {
            low: show.percent(`fill.${key}.low`, value.low, 1),
            high: show.percent(`fill.${key}.high`, value.high, 1),
          }),
  })
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      item('potResidue', allowances.potResidue),
      item('air', allowances.air),
      item('setShrinkage', allowances.setShrinkage),
      {
        label: say('batch.allowance.lining'),
        cell: number(show.size('mould.lining', mould.mould.input.panels.lining.thickness)),
        note: say('batch.allowance.each-face'),
      },
      {
        label: say('batch.allowance.room'),
        cell: number(show.volume('mould.room', mould.mould.insideArea * mould.mould.block.setHeight)),
        note: say(`batch.allowance.by-${howMeasured(mould.mould.input.asBuilt)}`),
      },
    ],
  }
}

/** Whether the mould that is filled is the drawing's, the tape's or the water's. */
const howMeasured = ({ water, ...tape }: AsBuilt): 'water' | 'tape' | 'drawing' =>
  water ? 'water' : Object.values(tape).some((found) => found !== undefined) ? 'tape' : 'drawing'

/** The bar as it is cut and as it is sold: which of them the maker had in mind is in the fixture's file. */
export const barTable = ({ say, show }: Frame, { mould }: BoundBatch): Table => {
  const row = (key: 'green' | 'cured'): Cell[] => {
    const { alongLength, alongWidth, thickness } = mould.bar[key]
    return [
      words(say(`batch.sizes.${key}`)),
      number(show.length(`bar.${key}.alongLength`, alongLength)),
      number(show.length(`bar.${key}.alongWidth`, alongWidth)),
      number(show.length(`bar.${key}.thickness`, thickness)),
    ]
  }
  return {
    kind: 'table',
    caption: say('batch.sizes.caption', { loss: show.percent('bar.weightLoss', mould.weightLoss, 0) }),
    columns: [
      { head: say('batch.sizes.bar'), align: 'left' },
      { head: say('batch.sizes.along-length'), align: 'right', width: 24 },
      { head: say('batch.sizes.along-width'), align: 'right', width: 24 },
      { head: say('batch.sizes.thickness'), align: 'right', width: 24 },
    ],
    rows: [row('green'), row('cured')],
  }
}

/** Of a batch that was sized by what there is: which fat ran short, and what stays on the shelf. */
const onHandFacts = ({ say, show }: Frame, { onHand, fats }: BoundBatch): Facts['items'][number][] => {
  const short = onHand && fats.find(({ key }) => key === onHand.limitingFat)
  const left = onHand?.leftOver.find(({ name }) => name === onHand.limitingFat)
  if (!short || !left) return []
  return [
    {
      label: say('batch.fill.short'),
      cell: maker(short.name),
      note: say('batch.fill.short-note', {
        left: show.weight(`fat.${short.key}.left`, left.mass, short.plan.scale.division),
      }),
    },
  ]
}
