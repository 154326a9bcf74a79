import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { loadSolver } from '../../src/solver/solver.ts'
import type { BatchNeed } from '../../src/supply/first-expired.ts'
import { choosePacks, type PackOffer, type Shopping } from '../../src/supply/pack-choice.ts'
import { programmeText, type Solve } from '../../src/supply/programme.ts'
import { isSoak } from '../long.ts'

let solve: Solve
beforeAll(async () => {
  solve = await loadSolver()
})

const pack = (offer: string, amount: number, price: number | undefined, more: object = {}): PackOffer => ({
  offer,
  supplier: 'north',
  material: 'olive oil',
  amount,
  price,
  arrives: 0,
  ...more,
})
const need = (amount: number, day = 10, batch = `b${day}`): BatchNeed => ({
  batch,
  material: 'olive oil',
  day,
  amount,
})
const bought = (shopping: Shopping): (string | number)[][] =>
  choosePacks(shopping, solve).orders.map(({ offer, packs }) => [offer, packs])

describe('by hand: packs at the least cost', () => {
  it('mixes sizes', () => {
    // 7 kg: 5 + 1 + 1 = 500 + 2 · 130 = 760; 2 · 5 = 1000; 7 · 130 = 910
    const offers = [pack('five', 5, 500), pack('one', 1, 130)]
    expect(bought({ offers, needs: [need(7)] })).toEqual([
      ['five', 1],
      ['one', 2],
    ])
    const choice = choosePacks({ offers, needs: [need(7)] }, solve)
    expect(choice).toMatchObject({ cost: 760, proved: true, shortages: [], findings: [] })
    expect(choice.bound).toBeCloseTo(760, 5)
  })

  it('buys too much where that is cheaper', () => {
    // 25 kg for 2000 rather than 5 · 5 kg for 2500
    expect(bought({ offers: [pack('five', 5, 500), pack('drum', 25, 2000)], needs: [need(23)] })).toEqual([
      ['drum', 1],
    ])
  })

  it('takes fewer packs where cost is the same', () => {
    expect(bought({ offers: [pack('one', 1, 100), pack('five', 5, 500)], needs: [need(5)] })).toEqual([
      ['five', 1],
    ])
  })

  it('buys no less than the supplier sells, and no more than there is', () => {
    const offers = [pack('one', 1, 100, { least: 4 }), pack('two', 2, 290)]
    // 2 kg: 4 · 100 = 400 or 290; 4 kg: 400 or 580
    expect(bought({ offers, needs: [need(2)] })).toEqual([['two', 1]])
    expect(bought({ offers, needs: [need(4)] })).toEqual([['one', 4]])
    expect(
      bought({ offers: [pack('one', 1, 100, { available: 3 }), pack('dear', 1, 900)], needs: [need(4)] }),
    ).toEqual([
      ['one', 3],
      ['dear', 1],
    ])
    expect(bought({ offers: [pack('one', 1, 100, { available: 3, least: 4 })], needs: [need(1)] })).toEqual(
      [],
    )
  })

  it('buys no more than is used before it expires', () => {
    // the drum would do for both, but is bad on day 50: 25 kg serve day 10 only
    const drum = pack('drum', 25, 2000, { lastDay: 40 })
    const needs = [need(4, 10), need(4, 50)]
    expect(bought({ offers: [{ ...drum, lastDay: 50 }, pack('five', 5, 1100)], needs })).toEqual([
      ['drum', 1],
    ])
    expect(bought({ offers: [drum, pack('five', 5, 1100)], needs })).toEqual([['five', 2]])
    // what comes too late for the first is bought for the second
    expect(bought({ offers: [pack('late', 4, 100, { arrives: 20 }), pack('soon', 4, 900)], needs })).toEqual([
      ['late', 1],
      ['soon', 1],
    ])
  })

  it('orders from one supplier where a second delivery costs more than it saves', () => {
    const offers = [
      pack('oil north', 5, 1000),
      pack('oil south', 5, 900, { supplier: 'south' }),
      pack('lye north', 1, 500, { material: 'lye' }),
    ]
    const needs = [need(5), { ...need(1), material: 'lye' }]
    // south saves 100: worth it at 99, not at 101
    const with_ = (charge: number): Shopping => ({ offers, needs, deliveries: new Map([['south', charge]]) })
    expect(bought(with_(99))).toEqual([
      ['oil south', 1],
      ['lye north', 1],
    ])
    expect(choosePacks(with_(99), solve)).toMatchObject({
      cost: 1499,
      deliveries: [{ supplier: 'south', cost: 99 }],
    })
    expect(bought(with_(101))).toEqual([
      ['oil north', 1],
      ['lye north', 1],
    ])
  })

  it('names what has no price and what nobody sells enough of', () => {
    const choice = choosePacks(
      {
        offers: [pack('unpriced', 5, undefined), pack('one', 1, 100, { available: 2 })],
        needs: [need(3), { ...need(1), material: 'lye' }],
      },
      solve,
    )
    expect(choice.findings.map(({ code }) => code)).toEqual([
      'pack-without-price',
      'packs-not-enough',
      'packs-not-enough',
    ])
    expect(choice.shortages.map(({ material, short }) => [material, short])).toEqual([
      ['olive oil', 1],
      ['lye', 1],
    ])
    expect(choice).toMatchObject({ orders: [{ offer: 'one', packs: 2 }], cost: 200, proved: true })
    expect(choosePacks({ offers: [], needs: [] }, solve)).toMatchObject({ orders: [], cost: 0, proved: true })
  })

  it('does not buy a pack for a hair', () => {
    // 0.1 + 0.2 kg from three packs of 0.1 kg
    expect(bought({ offers: [pack('a', 0.1, 100)], needs: [need(0.1), need(0.2)] })).toEqual([['a', 3]])
  })

  it('believes no solver that leaves a batch short, and does not call proved what is not', () => {
    const shopping = { offers: [pack('five', 5, 500)], needs: [need(7)] }
    const answer = { optimal: true, objective: 500, bound: 500 }
    const short = choosePacks(shopping, () => ({ ...answer, values: new Map([['x0', 1]]) }))
    expect(short).toMatchObject({ orders: [], proved: false, findings: [{ code: 'packs-not-chosen' }] })
    const dear = choosePacks(shopping, () => ({ ...answer, values: new Map([['x0', 2]]) }))
    expect(dear).toMatchObject({ cost: 1000, proved: false, findings: [{ code: 'packs-not-proved' }] })
  })
})

const offerOf = fc.record({
  amount: fc.integer({ min: 1, max: 6 }),
  price: fc.integer({ min: 1, max: 900 }),
  least: fc.constantFrom(1, 1, 2, 3),
  available: fc.option(fc.integer({ min: 1, max: 4 }), { nil: undefined }),
  supplier: fc.constantFrom('north', 'south'),
  arrives: fc.integer({ min: 0, max: 3 }),
  lastDay: fc.option(fc.integer({ min: 1, max: 6 }), { nil: undefined }),
})
const needOf = fc.record({ day: fc.integer({ min: 1, max: 6 }), amount: fc.integer({ min: 1, max: 5 }) })
const chargeOf = fc.constantFrom(0, 50, 300)
const shoppingOf = fc
  .record({
    offers: fc.array(offerOf, { minLength: 1, maxLength: 4 }),
    needs: fc.array(needOf, { minLength: 1, maxLength: 3 }),
    north: chargeOf,
    south: chargeOf,
  })
  .map(({ offers, needs, north, south }) => ({
    offers: offers.map((one, index): PackOffer => ({ ...one, offer: `o${index}`, material: 'olive oil' })),
    needs: needs.map(({ day, amount }, index) => need(amount, day, `b${index}`)),
    deliveries: new Map([
      ['north', north],
      ['south', south],
    ]),
  }))

/** Every choice there is: [least cost, fewest packs at it]; undefined where none meets all needs. */
const exhaustive = ({ offers, needs, deliveries }: Shopping): [number, number] | undefined => {
  const wanted = needs.reduce((sum, { amount }) => sum + amount, 0)
  let best: [number, number] | undefined
  const meets = (counts: readonly number[]): boolean => {
    for (let set = 1; set < 2 ** needs.length; set += 1) {
      const chosen = needs.filter((_, index) => set & (1 << index))
      const supply = offers.reduce(
        (sum, { arrives, lastDay = 99, amount }, index) =>
          chosen.some(({ day }) => day >= arrives && day <= lastDay)
            ? sum + amount * (counts[index] ?? 0)
            : sum,
        0,
      )
      if (supply < chosen.reduce((sum, { amount }) => sum + amount, 0)) return false
    }
    return true
  }
  const walk = (counts: readonly number[]): void => {
    const offer = offers[counts.length]
    if (offer) {
      const { least = 1, available = 99, amount } = offer
      const most = Math.min(available, Math.max(least, Math.ceil(wanted / amount)))
      for (let count = 0; count <= most; count += 1)
        if (count === 0 || count >= least) walk([...counts, count])
      return
    }
    const suppliers = new Set(
      offers.filter((_, index) => (counts[index] ?? 0) > 0).map(({ supplier }) => supplier),
    )
    const cost =
      offers.reduce((sum, { price = 0 }, index) => sum + price * (counts[index] ?? 0), 0) +
      [...suppliers].reduce((sum, supplier) => sum + (deliveries?.get(supplier) ?? 0), 0)
    const number = counts.reduce((sum, one) => sum + one, 0)
    if (best && (cost > best[0] || (cost === best[0] && number >= best[1]))) return
    if (meets(counts)) best = [cost, number]
  }
  walk([])
  return best
}

describe('by hand: packs against every choice there is', () => {
  it('cost what the cheapest of all costs, in as few packs, proved by the bound', () => {
    let met = 0
    fc.assert(
      fc.property(shoppingOf, (shopping) => {
        const found = choosePacks(shopping, solve)
        const best = exhaustive(shopping)
        expect(found.shortages.length === 0).toBe(best !== undefined)
        expect(found.proved).toBe(true)
        expect(found.bound).toBeCloseTo(found.cost, 4)
        if (!best) return
        met += 1
        expect([found.cost, found.orders.reduce((sum, { packs }) => sum + packs, 0)]).toEqual(best)
      }),
      { seed: 20270306, numRuns: isSoak ? 250 : 80 },
    )
    expect(met).toBeGreaterThan(isSoak ? 60 : 20)
  }, 60_000)

  it('never cost more when a pack is added, or less is needed', () => {
    fc.assert(
      fc.property(shoppingOf, offerOf, fc.nat(), (shopping, more, at) => {
        const now = choosePacks(shopping, solve)
        fc.pre(now.shortages.length === 0)
        const added: PackOffer = { ...more, offer: 'added', material: 'olive oil' }
        expect(
          choosePacks({ ...shopping, offers: [...shopping.offers, added] }, solve).cost,
        ).toBeLessThanOrEqual(now.cost)
        const needs = shopping.needs.map((one, index) =>
          index === at % shopping.needs.length ? { ...one, amount: one.amount - 1 } : one,
        )
        expect(choosePacks({ ...shopping, needs }, solve).cost).toBeLessThanOrEqual(now.cost)
      }),
      { seed: 20270307, numRuns: isSoak ? 100 : 30 },
    )
  }, 60_000)

  it('is done with a season of a shop', () => {
    // ten materials, four packs each, twelve dates
    const offers = Array.from({ length: 40 }, (_, i) =>
      pack(`o${i}`, [1, 5, 10, 25][i % 4] ?? 1, [420, 1890, 3510, 8200][i % 4] ?? 1, {
        material: `m${Math.floor(i / 4)}`,
        supplier: i % 3 === 0 ? 'north' : 'south',
        lastDay: i % 4 === 3 ? 60 : 300,
        least: i % 4 === 0 ? 2 : 1,
      }),
    )
    const needs = Array.from({ length: 120 }, (_, i) => ({
      ...need(0.8 + ((i * 37) % 23) / 10, 10 + 9 * (i % 12), `b${i % 12}`),
      material: `m${Math.floor(i / 12)}`,
    }))
    const choice = choosePacks(
      {
        offers,
        needs,
        deliveries: new Map([
          ['north', 900],
          ['south', 1200],
        ]),
      },
      solve,
    )
    expect(choice).toMatchObject({ proved: true, shortages: [] })
  }, 60_000)
})

describe('by hand: the text of a programme', () => {
  it('is what the format asks for', () => {
    expect(
      programmeText({
        objective: [
          [300, 'x0'],
          [-0.5, 'y0'],
        ],
        rows: [
          {
            terms: [
              [2, 'x0'],
              [-1, 'y0'],
            ],
            is: '>=',
            than: 1.25,
          },
        ],
        variables: [
          { name: 'x0', from: 0, to: 9, whole: true },
          { name: 'y0', from: 0, whole: false },
        ],
      }),
    ).toBe(
      'Minimize\n cost: + 300 x0 - 0.5 y0\nSubject To\n r0: + 2 x0 - 1 y0 >= 1.25\nBounds\n 0 <= x0 <= 9\n y0 >= 0\nGeneral\n x0\nEnd\n',
    )
  })

  it('fills lines of 200 characters and no longer ones', () => {
    // " + 1 " and a name: in some of these a line would be 200, in others 201
    const longest = Array.from({ length: 40 }, (_, more) => {
      const terms = Array.from({ length: 60 }, (_, index): [number, string] => [
        1,
        `x${'0'.repeat(more)}${index}`,
      ])
      const text = programmeText({ objective: terms, rows: [], variables: [] })
      return Math.max(...text.split('\n').map(({ length }) => length))
    })
    expect(Math.max(...longest)).toBe(200)
  })

  it('has no line that the format cuts off', () => {
    const names = Array.from({ length: 2000 }, (_, index) => `x${index}`)
    const terms = names.map((name): [number, string] => [123_456.789, name])
    const text = programmeText({
      objective: terms,
      rows: [{ terms, is: '>=', than: 1 }],
      variables: names.map((name) => ({ name, from: 0, to: 9, whole: true })),
    })
    expect(Math.max(...text.split('\n').map(({ length }) => length))).toBeLessThan(560)
    // read whole: 1 / 123456.789 of one of them, so one whole one
    expect(solve(text)).toMatchObject({ optimal: true, objective: 123_456.789, bound: 123_456.789 })
  })
})
