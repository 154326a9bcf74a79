/** Which lots a batch takes of the stock, and what of it there is not. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { isToBeMade } from '../../binder/stock-needs.ts'
import { dateOf } from '../../units/civil-day.ts'
import { box, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Cell, Inline } from '../model.ts'
import { SUPPLY } from '../supply/supply-places.ts'
import { amountValue, amountWords, materialName } from '../supply/supply-words.ts'

/** @returns both empty in a shop that keeps no stock, and for a batch that was made: its record has its lots */
export const lotsToTake = (
  frame: Frame,
  binder: BoundBinder,
  batch: BoundBatch,
): { readonly short: Block; readonly table: Block } => {
  const { say, show } = frame
  const { stock } = binder
  if (!stock.isKept || !isToBeMade(batch)) return { short: nothing, table: nothing }
  const isOfPour = (one: { readonly batch: string; readonly material: string }): boolean =>
    one.batch === batch.key && stock.materials.get(one.material)?.counted !== true
  const short = stock.proposal.shortages.filter(isOfPour).map((shortage): Inline => {
    const { material } = shortage
    const amount = (key: 'short' | 'expired'): Inline =>
      amountWords(frame, stock, `lots.${material}.${key}`, material, shortage[key])
    const fill = { material: materialName(stock, material), short: amount('short') }
    if (shortage.expired === 0) return say('batch.lots.short', fill)
    const until = show.narrowDate(`lots.${material}.until`, dateOf(shortage.until ?? 0))
    return say('batch.lots.expired', { ...fill, expired: amount('expired'), until })
  })
  const picks = stock.proposal.picks.filter(isOfPour)
  return {
    short:
      short.length === 0
        ? nothing
        : {
            kind: 'cautions',
            signal: 'warning',
            heading: say('batch.lots.missing', {
              list: binder.shopping ? say('batch.lots.list', { sheet: linkTo(SUPPLY.shopping) }) : '',
            }),
            items: short,
          },
    table:
      picks.length === 0
        ? nothing
        : {
            kind: 'table',
            caption: say('batch.lots.caption', { sheet: linkTo(SUPPLY.stock) }),
            columns: [
              { head: say('batch.lots.got'), align: 'centre', width: 8 },
              { head: say('batch.lots.material'), align: 'left' },
              { head: say('batch.lots.lot'), align: 'left', width: 20 },
              { head: say('batch.lots.take'), align: 'right', width: 16 },
              { head: say('batch.lots.until'), align: 'right', width: 20 },
            ],
            names: picks.map(({ material, lot }) => `lots.${material}.${lot}`),
            rows: picks.map(({ material, lot, amount }): Cell[] => {
              const expiry = stock.lots.get(lot)?.expiry
              const name = `lots.${material}.${lot}`
              return [
                box,
                maker(materialName(stock, material)),
                batch.fats.some((fat) => fat.lot === lot)
                  ? words(say('batch.lots.only', { lot }))
                  : maker(lot),
                number(amountValue(frame, stock, `${name}.take`, material, amount)),
                expiry === undefined
                  ? words(say('batch.lots.keeps'))
                  : number(show.narrowDate(`${name}.until`, dateOf(expiry))),
              ]
            }),
          },
  }
}
