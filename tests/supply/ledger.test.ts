import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { barCost } from '../../src/supply/bar-cost.ts'
import { type Entry, ledgerOn, materialsOfBatch, stockOf } from '../../src/supply/ledger.ts'

const received = (lot: string, amount: number, more: object = {}): Entry => ({
  kind: 'received',
  day: 100,
  lot,
  material: 'olive oil',
  amount,
  ...more,
})
const used = (lot: string, amount: number, day: number, batch = 'b1'): Entry => ({
  kind: 'used',
  day,
  lot,
  amount,
  batch,
})
const lost = (lot: string, amount: number, day: number): Entry => ({ kind: 'lost', day, lot, amount })
const counted = (lot: string, amount: number, day: number): Entry => ({ kind: 'counted', day, lot, amount })
const codes = (entries: readonly Entry[], day = 1000): string[] =>
  ledgerOn(entries, day).findings.map(({ code }) => code)

describe('by hand: stock by lots', () => {
  const entries = [
    received('o1', 25, { price: 11250, shelfLife: 300 }),
    used('o1', 4.2, 110),
    lost('o1', 0.3, 111),
    counted('o1', 20, 120),
    used('o1', 5, 130),
  ]

  it('is what came less what went', () => {
    // 25 − 4.2 − 0.3 = 20.5; counted 20, so 0.5 is missing; 20 − 5 = 15
    const on = (day: number): number | undefined => ledgerOn(entries, day).lots[0]?.left
    expect([99, 100, 110, 111, 119, 120, 130].map(on)).toEqual([undefined, 25, 20.8, 20.5, 20.5, 20, 15])
    expect(ledgerOn(entries, 130).lots[0]).toMatchObject({ bought: 25, used: 9.2, lost: 0.8, left: 15 })
    expect(ledgerOn(entries, 130).findings).toEqual([])
  })

  it('is worth its share of the price', () => {
    // 11250 · 15 / 25 = 6750; 11250 · 20.8 / 25 = 9360
    expect(ledgerOn(entries, 130).lots[0]?.value).toBe(6750)
    expect(ledgerOn(entries, 110).lots[0]?.value).toBe(9360)
    // 100 · 1 / 8 = 12.5 goes up, 100 · 1 / 3 = 33.3 down
    expect(ledgerOn([received('a', 8, { price: 100 }), used('a', 7, 101)], 101).lots[0]?.value).toBe(13)
    expect(ledgerOn([received('a', 3, { price: 100 }), used('a', 2, 101)], 101).lots[0]?.value).toBe(33)
    expect(ledgerOn([received('a', 3)], 101).lots[0]?.value).toBeUndefined()
  })

  it('writes every movement with what was left', () => {
    expect(ledgerOn(entries, 130).movements.map(({ change, left }) => [change, left])).toEqual([
      [25, 25],
      [-4.2, 20.8],
      [-0.3, 20.5],
      [-0.5, 20],
      [-5, 15],
    ])
  })

  it('takes entries by day, and a count in the evening', () => {
    const mixed = [counted('a', 6, 101), used('a', 4, 101), received('a', 10, { day: 101 })]
    expect(ledgerOn(mixed, 101)).toMatchObject({ lots: [{ left: 6, lost: 0 }], findings: [] })
  })

  it('finds more at stock-taking than it should', () => {
    expect(ledgerOn([received('a', 10), used('a', 4, 101), counted('a', 7, 102)], 102).lots[0]).toMatchObject(
      {
        used: 4,
        lost: -1,
        left: 7,
      },
    )
  })

  it('adds lots up by material, expired ones apart', () => {
    const lots = [
      received('a', 4, { price: 400, expiry: 149 }),
      received('b', 3, { price: 600 }),
      received('c', 2),
      received('d', 1, { material: 'lye', price: 99 }),
      used('c', 5, 120),
    ]
    // c is overdrawn and counts as empty
    expect(stockOf(ledgerOn(lots, 150))).toEqual([
      { material: 'lye', amount: 1, usable: 1, value: 99, unpriced: 0 },
      { material: 'olive oil', amount: 7, usable: 3, value: 1000, unpriced: 0 },
    ])
    expect(stockOf(ledgerOn(lots, 149))[1]).toMatchObject({ usable: 7 })
    expect(stockOf(ledgerOn([received('c', 2)], 149))[0]).toMatchObject({ unpriced: 2, value: 0 })
  })

  it('prices a batch by its lots', () => {
    const { materials, unpriced } = materialsOfBatch(
      [
        received('a', 3, { price: 1000 }),
        received('b', 2, { price: 500 }),
        received('c', 1),
        // of nothing nobody knows what a kilogram costs
        received('d', 0, { price: 300 }),
        used('a', 1, 101),
        used('b', 1, 101),
        used('c', 1, 101),
        used('d', 1, 101),
        used('a', 1, 101, 'b2'),
      ],
      'b1',
    )
    expect(unpriced).toEqual(['c', 'd'])
    // 1000 · 1 / 3 + 500 · 1 / 2 = 583.33, one line for both lots; of 4 bars 145.83 each
    const cost = barCost({
      materials,
      packaging: [],
      bars: { cut: 4, tests: 0, rejected: 0 },
      batter: { mixed: 3, residue: 0, trim: 0 },
    })
    expect(cost?.lines).toEqual([{ kind: 'material', name: 'olive oil', batch: 583, bar: 146, share: 1 }])
  })
})

describe('by hand: what cannot be as it is written', () => {
  it('more than the lot had', () => {
    const over = [received('a', 4), used('a', 3, 101), used('a', 1.5, 102)]
    expect(ledgerOn(over, 102).findings).toEqual([
      {
        code: 'lot-overdrawn',
        severity: 'warn',
        values: { entry: 2, lot: 'a', material: 'olive oil', taken: 1.5, left: 1, excess: 0.5 },
      },
    ])
    expect(codes([received('a', 4), lost('a', 5, 101)])).toEqual(['lot-overdrawn'])
    // to the last gram is not too much, whatever 0.1 + 0.2 is
    expect(codes([received('a', 0.3), used('a', 0.1, 101), used('a', 0.2, 102)])).toEqual([])
  })

  it('before it came, after it expired, never heard of, twice', () => {
    expect(codes([received('a', 4), used('a', 1, 99)])).toEqual(['lot-before-received'])
    expect(ledgerOn([received('a', 4), used('a', 1, 99)], 100).lots[0]?.left).toBe(3)
    expect(codes([received('a', 4), counted('a', 1, 99)])).toEqual(['lot-before-received'])
    expect(codes([received('a', 4, { expiry: 120 }), used('a', 1, 120)])).toEqual([])
    expect(codes([received('a', 4, { expiry: 120 }), used('a', 1, 121)])).toEqual(['lot-used-expired'])
    // the earlier of both days
    expect(codes([received('a', 4, { expiry: 120, shelfLife: 10 }), used('a', 1, 111)])).toEqual([
      'lot-used-expired',
    ])
    // thrown away is not used
    expect(codes([received('a', 4, { expiry: 120 }), lost('a', 1, 130)])).toEqual([])
    expect(codes([received('a', 4), used('b', 1, 101)])).toEqual(['lot-unknown'])
    expect(codes([received('a', 4), received('a', 4)])).toEqual(['lot-received-twice'])
  })

  it('not yet on the day that is asked for', () => {
    expect(codes([received('a', 4), used('a', 5, 200)], 199)).toEqual([])
  })
})

describe('by hand: nothing comes from nowhere', () => {
  /** Whole grams, so that the sum beside is exact; amounts go in as kg. */
  const event = fc.record({
    kind: fc.constantFrom('used', 'used', 'lost', 'counted'),
    lot: fc.integer({ min: 0, max: 3 }),
    day: fc.integer({ min: 101, max: 140 }),
    grams: fc.integer({ min: 0, max: 9000 }),
  })

  it('bought = used + lost + left, for every lot and day, by a sum of its own', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 40_000 }), { minLength: 4, maxLength: 4 }),
        fc.array(event, { maxLength: 40 }),
        fc.integer({ min: 100, max: 141 }),
        (bought, events, day) => {
          const entries: Entry[] = [
            ...bought.map((grams, lot) => received(`l${lot}`, grams / 1000)),
            ...events.map(({ kind, lot, day: on, grams }): Entry => {
              const one = { lot: `l${lot}`, day: on, amount: grams / 1000 }
              return kind === 'used'
                ? { kind, batch: 'b', ...one }
                : { kind: kind as 'lost' | 'counted', ...one }
            }),
          ]
          const { lots, movements } = ledgerOn(entries, day)
          for (const [lot, of] of lots.entries()) {
            // backwards: what is left is the last count, less what went on later days; else all that came, less all that went
            const own = events.filter((one) => one.lot === lot && one.day <= day)
            const last = own
              .filter(({ kind }) => kind === 'counted')
              .reduce((at, one) => Math.max(at, one.day), 0)
            const count = own.filter(({ kind, day: on }) => kind === 'counted' && on === last).at(-1)?.grams
            const went = own
              .filter(({ kind, day: on }) => kind !== 'counted' && on > last)
              .reduce((sum, { grams }) => sum + grams, 0)
            const left = (count ?? bought[lot] ?? 0) - went
            const usedUp = own
              .filter(({ kind }) => kind === 'used')
              .reduce((sum, { grams }) => sum + grams, 0)
            const written = own
              .filter(({ kind }) => kind === 'lost')
              .reduce((sum, { grams }) => sum + grams, 0)
            expect(Math.round(of.left * 1e6)).toBe(left * 1000)
            expect(Math.round(of.used * 1e6)).toBe(usedUp * 1000)
            const inGrains = (amount: number): number => Math.round(amount * 1e6)
            expect(inGrains(of.bought)).toBe(inGrains(of.used) + inGrains(of.lost) + inGrains(of.left))
            if (count === undefined) expect(inGrains(of.lost)).toBe(written * 1000)
            // and so says the list of movements
            const moved = movements.filter((one) => one.lot === of.lot)
            expect(moved.reduce((sum, { change }) => sum + inGrains(change), 0)).toBe(left * 1000)
          }
        },
      ),
      { seed: 20270301, numRuns: 400 },
    )
  })
})
