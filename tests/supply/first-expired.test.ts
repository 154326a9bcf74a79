import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type BatchNeed, type LotOnHand, proposeLots } from '../../src/supply/first-expired.ts'

const lot = (name: string, left: number, expiry?: number, received = 0): LotOnHand => ({
  lot: name,
  material: 'olive oil',
  left,
  received,
  expiry,
})
const need = (amount: number, day: number, batch = 'b1'): BatchNeed => ({
  batch,
  material: 'olive oil',
  day,
  amount,
})
const picked = (lots: readonly LotOnHand[], needs: readonly BatchNeed[]): (string | number)[][] =>
  proposeLots(lots, needs).picks.map(({ batch, lot: of, amount }) => [batch, of, amount])

describe('by hand: first expired, first out', () => {
  it('opens what expires first, what keeps last, and of one day what came first', () => {
    const lots = [
      lot('keeps', 5),
      lot('late', 5, 90, 3),
      lot('b', 5, 50, 2),
      lot('a', 5, 50, 2),
      lot('old', 5, 50, 1),
    ]
    expect(picked(lots, [need(22, 40)])).toEqual([
      ['b1', 'old', 5],
      ['b1', 'a', 5],
      ['b1', 'b', 5],
      ['b1', 'late', 5],
      ['b1', 'keeps', 2],
    ])
  })

  it('leaves alone what expires before the day of use, and what is not there yet', () => {
    expect(picked([lot('a', 5, 39), lot('b', 5, 40)], [need(3, 40)])).toEqual([['b1', 'b', 3]])
    expect(picked([lot('a', 5, 60, 41), lot('b', 5, 70, 40)], [need(3, 40)])).toEqual([['b1', 'b', 3]])
    expect(picked([{ ...lot('a', 5), material: 'lye' }], [need(3, 40)])).toEqual([])
  })

  it('keeps for earlier batches what they take', () => {
    // the earlier day takes 4 of 5 although it stands last; 1 is left, and 2 of b
    expect(picked([lot('a', 5, 60), lot('b', 9, 70)], [need(3, 50, 'later'), need(4, 45, 'first')])).toEqual([
      ['first', 'a', 4],
      ['later', 'a', 1],
      ['later', 'b', 2],
    ])
  })

  it('takes of one lot alone what was reckoned with its certificate, and is short rather than of another', () => {
    const lots = [lot('early', 9, 60), lot('certified', 3, 90)]
    const some = { ...need(2, 40), only: 'certified' }
    expect(picked(lots, [some])).toEqual([['b1', 'certified', 2]])
    // 3 of the 4 are there; what expires sooner is left for whoever may take it
    const more = proposeLots(lots, [{ ...some, amount: 4 }, need(1, 40, 'b2')])
    expect(more.picks.map(({ batch, lot: of, amount }) => [batch, of, amount])).toEqual([
      ['b1', 'certified', 3],
      ['b2', 'early', 1],
    ])
    expect(more.shortages.map(({ short, expired }) => [short, expired])).toEqual([[1, 0]])
  })

  it('says what is short, and what is there but expired', () => {
    const short = proposeLots([lot('a', 5, 60), lot('b', 2, 20)], [need(10, 50)])
    // the two ended on day 20
    expect(short.shortages).toEqual([
      { batch: 'b1', material: 'olive oil', day: 50, short: 5, expired: 2, until: 20 },
    ])
    expect(short.findings.map(({ code }) => code)).toEqual(['stock-short'])
    expect(short.left).toEqual(
      new Map([
        ['a', 0],
        ['b', 2],
      ]),
    )
    const expired = proposeLots([lot('b', 20, 20)], [need(10, 50)])
    expect(expired.shortages).toMatchObject([{ short: 10, expired: 10, until: 20 }])
    expect(expired.findings.map(({ code }) => code)).toEqual(['stock-only-expired'])
    // overdrawn lots hold nothing, and 0.3 covers 0.1 + 0.2
    expect(picked([lot('a', -1, 60)], [need(1, 50)])).toEqual([])
    expect(proposeLots([lot('a', 0.3)], [need(0.1, 50), need(0.2, 50)]).shortages).toEqual([])
  })

  const lots = fc.array(
    fc.record({
      left: fc.integer({ min: 0, max: 12 }),
      received: fc.integer({ min: 0, max: 6 }),
      expiry: fc.option(fc.integer({ min: 0, max: 10 }), { nil: undefined }),
    }),
    { maxLength: 5 },
  )
  const needs = fc.array(
    fc.record({ day: fc.integer({ min: 0, max: 10 }), amount: fc.integer({ min: 1, max: 9 }) }),
    { minLength: 1, maxLength: 5 },
  )

  it('keeps every rule, and leaves no more short than must be', () => {
    fc.assert(
      fc.property(lots, needs, (some, wants) => {
        const stock = some.map((one, index) => ({ ...one, lot: `l${index}`, material: 'olive oil' }))
        const plan = wants.map(({ day, amount }, index) => need(amount, day, `b${index}`))
        const { picks, shortages, left } = proposeLots(stock, plan)
        const sum = (amounts: readonly { amount: number }[]): number =>
          amounts.reduce((all, one) => all + one.amount, 0)
        for (const one of stock) {
          const taken = picks.filter((pick) => pick.lot === one.lot)
          expect(sum(taken) + (left.get(one.lot) ?? 0)).toBe(one.left)
          for (const { day } of taken) {
            expect(day).toBeGreaterThanOrEqual(one.received)
            expect(day).toBeLessThanOrEqual(one.expiry ?? 99)
          }
        }
        for (const { batch, amount } of plan)
          expect(
            sum(picks.filter((pick) => pick.batch === batch)) +
              (shortages.find((one) => one.batch === batch)?.short ?? 0),
          ).toBe(amount)
        // Hall, Ford and Fulkerson (from memory): least short = the most by which some needs exceed all lots that could serve any of them
        let least = 0
        for (let set = 1; set < 2 ** plan.length; set += 1) {
          const chosen = plan.filter((_, index) => set & (1 << index))
          const serving = stock.filter(({ received, expiry }) =>
            chosen.some(({ day }) => day >= received && day <= (expiry ?? 99)),
          )
          least = Math.max(least, sum(chosen) - serving.reduce((all, one) => all + one.left, 0))
        }
        expect(shortages.reduce((all, { short }) => all + short, 0)).toBe(least)
      }),
      { seed: 20270302, numRuns: 400 },
    )
  })
})
