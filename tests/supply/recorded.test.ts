/**
 * Recorded on 27 November 2026: what was said of stock, packs, costs and records as each of their numbers became another, so
 * that nobody changes unseen what a shop buys by. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { barCost } from '../../src/supply/bar-cost.ts'
import { proposeLots } from '../../src/supply/first-expired.ts'
import { type Entry, lastDayOf, ledgerOn, materialsOfBatch, stockOf } from '../../src/supply/ledger.ts'
import { choosePacks, type PackOffer } from '../../src/supply/pack-choice.ts'
import type { Answer } from '../../src/supply/programme.ts'
import {
  balanceBars,
  balanceBatter,
  balancePackaging,
  reconcileMaterials,
  releaseFindings,
} from '../../src/supply/reconcile.ts'
import {
  holdersOfBatch,
  holdersOfLot,
  recallSet,
  recallSetOfBatch,
  sourcesOfBatch,
  traceLinks,
} from '../../src/supply/trace.ts'
import { expectRecorded } from '../recorded.ts'
import { changesBeside } from '../recorded-changes.ts'

const keep = changesBeside(import.meta.url)

describe('recorded: stock', () => {
  const entries: readonly Entry[] = [
    {
      kind: 'received',
      day: 100,
      lot: 'o1',
      material: 'olive',
      amount: 25,
      price: 11250,
      shelfLife: 60,
      expiry: 190,
    },
    { kind: 'received', day: 120, lot: 'o2', material: 'olive', amount: 5, expiry: 400 },
    { kind: 'received', day: 90, lot: 'n1', material: 'lye', amount: 2, price: 901 },
    { kind: 'used', day: 110, lot: 'o1', amount: 4.2, batch: 'b1' },
    { kind: 'used', day: 110, lot: 'n1', amount: 0.7, batch: 'b1' },
    { kind: 'lost', day: 111, lot: 'o1', amount: 0.3 },
    { kind: 'counted', day: 120, lot: 'o1', amount: 20 },
    { kind: 'used', day: 150, lot: 'o1', amount: 6, batch: 'b2' },
    { kind: 'used', day: 150, lot: 'o2', amount: 4, batch: 'b2' },
    { kind: 'received', day: 152, lot: 't2', material: 'trim', amount: 1.5, madeBy: 'b2' },
  ]
  test('by lots', () =>
    keep(
      'stock',
      { entries, day: 160 },
      {
        lots: (given) => ledgerOn(given.entries, given.day).lots,
        movements: (given) =>
          ledgerOn(given.entries, given.day).movements.map(({ entry, change, left }) => [
            entry,
            change,
            left,
          ]),
        told: (given) => ledgerOn(given.entries, given.day).findings,
        stock: (given) => stockOf(ledgerOn(given.entries, given.day)),
        'last days': (given) => given.entries.map((one) => (one.kind === 'received' ? lastDayOf(one) : 0)),
        'of a batch': (given) => materialsOfBatch(given.entries, 'b2'),
      },
      [0.5, 3],
    ))

  const lots = [
    { lot: 'a', material: 'olive', left: 5, received: 10, expiry: 60 },
    { lot: 'b', material: 'olive', left: 3, received: 12, expiry: 48 },
    { lot: 'c', material: 'olive', left: 9, received: 20, expiry: undefined },
    { lot: 'd', material: 'lye', left: 1, received: 5, expiry: 45 },
  ]
  const needs = [
    { batch: 'b1', material: 'olive', day: 50, amount: 4 },
    { batch: 'b2', material: 'olive', day: 45, amount: 6 },
    { batch: 'b2', material: 'lye', day: 45, amount: 0.8 },
    { batch: 'b3', material: 'olive', day: 70, amount: 5, only: 'c' },
  ]
  test('for batches', () =>
    keep(
      'lots-for-batches',
      { lots, needs },
      {
        picks: (given) =>
          proposeLots(given.lots, given.needs).picks.map((one) => Object.values(one).join(' ')),
        short: (given) => proposeLots(given.lots, given.needs).shortages,
        left: (given) => [...proposeLots(given.lots, given.needs).left],
        told: (given) =>
          proposeLots(given.lots, given.needs).findings.map(({ code, values }) => [code, values]),
      },
      [0, 0.5, 0.9, 1.2, 3],
    ))
})

describe('recorded: packs', () => {
  const offers: readonly PackOffer[] = [
    {
      offer: 'drum',
      supplier: 'north',
      material: 'olive',
      amount: 25,
      price: 9000,
      arrives: 10,
      lastDay: 60,
    },
    { offer: 'five', supplier: 'south', material: 'olive', amount: 5, price: 2300, arrives: 20, least: 2 },
    { offer: 'one', supplier: 'south', material: 'olive', amount: 1, price: 600, arrives: 5, available: 4 },
    { offer: 'lye', supplier: 'north', material: 'lye', amount: 1, price: 500, arrives: 12 },
    { offer: 'scent', supplier: 'west', material: 'scent', amount: 0.1, price: undefined, arrives: 3 },
  ]
  const needs = [
    { batch: 'b1', material: 'olive', day: 20, amount: 3.25 },
    { batch: 'b1', material: 'lye', day: 20, amount: 0.41 },
    { batch: 'b2', material: 'olive', day: 40, amount: 7.7 },
    { batch: 'b2', material: 'olive', day: 40, amount: 0.3 },
    { batch: 'b3', material: 'olive', day: 70, amount: 4.1 },
    { batch: 'b3', material: 'scent', day: 70, amount: 0.05 },
  ]
  /** Buys all that may be bought of the first so many offers: a solver that is easily seen through. */
  const greedy =
    (texts: string[], most: number, factor: number) =>
    (text: string): Answer => {
      texts.push(text)
      const found = [...text.matchAll(/^ 0 <= (x(\d+)) <= (\d+)$/gm)]
      const values = new Map(
        found.map(([, name = '', at, count]) => [name, Number(at) < most ? Number(count) : 0] as const),
      )
      return { optimal: true, objective: 0, bound: factor * 1000, values }
    }
  const input = { offers, needs, charges: [1200, 700], most: 5, bound: 18 }
  const chosen = (given: typeof input, texts: string[] = []) => {
    const charges = new Map(['north', 'south'].map((name, at) => [name, given.charges[at] ?? 0]))
    return choosePacks({ ...given, deliveries: charges }, greedy(texts, given.most, given.bound))
  }
  const programmesOf = (given: typeof input) => {
    const texts: string[] = []
    chosen(given, texts)
    return texts.map((text) => text.split('\n'))
  }
  test('as they are asked for', () => expectRecorded(programmesOf(input), 'programmes', import.meta.url))
  test('as numbers change', () =>
    keep(
      'programmes-as-numbers-change',
      input,
      {
        programme: (given) =>
          programmesOf(given)[0]
            ?.map((line) => line.replaceAll(' ', ''))
            .join(),
      },
      [1.6],
      new Set(['most', 'bound', 'price', 'charges']),
    ))
  test('and what is bought', () =>
    keep(
      'packs',
      input,
      {
        orders: (given) => [chosen(given).orders, chosen(given).cost, chosen(given).deliveries],
        uses: (given) => chosen(given).uses.map(({ batch, lot, amount }) => `${batch} ${lot} ${amount}`),
        left: (given) => [...chosen(given).left],
        short: (given) => chosen(given).shortages,
        told: (given) => [chosen(given).proved, chosen(given).findings.map(({ code }) => code)],
        'without deliveries': (given) => choosePacks(given, greedy([], given.most, given.bound)).cost,
      },
      [0, 0.5, 2],
    ))
})

describe('recorded: costs', () => {
  test('of a bar', () =>
    keep(
      'bar-cost',
      {
        materials: [
          { name: 'olive', used: 2.5, price: 3000, priceFor: 5 },
          { name: 'lye', used: 0.35, price: 900, priceFor: 1 },
          { name: 'olive', used: 0.5, price: 3300, priceFor: 5 },
        ],
        packaging: [{ name: 'band', used: 1, price: 500, priceFor: 100 }],
        labour: { hours: 3, perHour: 1700 },
        bars: { cut: 20, tests: 2, rejected: 2 },
        batter: { mixed: 4, residue: 0.2, trim: 0.3 },
      },
      { cost: barCost },
      [0.5, 1.5, 3],
    ))
})

describe('recorded: records', () => {
  test('beside the plan', () =>
    keep(
      'records',
      {
        planned: [
          { material: 'olive', mass: 3.603, draws: 2, division: 0.001 },
          { material: 'castor', mass: 0.1, draws: 1, division: 0.001 },
          { material: 'beads', mass: 1.329, draws: 3, division: 0.001 },
        ],
        used: [
          { lot: 'o1', material: 'olive', amount: 2.1 },
          { lot: 'o2', material: 'olive', amount: 1.503 },
          { lot: 'c1', material: 'castor', amount: 0.101 },
          { lot: 'x', material: 'chalk', amount: 0.01 },
        ],
        bars: { planned: 60, cut: 58, tests: 2, rejected: 3, wrapped: 50, went: 20 },
        labels: [
          { lot: 'l1', taken: 40, spoiled: 2 },
          { lot: 'l2', taken: 30, spoiled: undefined },
        ],
        perBar: 1,
        batter: { batter: 8, leftInPot: 0.2, trimmed: 0.4, bars: 58, barMass: 0.125 },
        release: {
          testDay: 28,
          tested: { day: 28, passed: true },
          release: { decision: 'released' as const, day: 30 },
          went: [
            { day: 31, bars: 12 },
            { day: 33, bars: 3 },
          ],
        },
      },
      {
        materials: ({ planned, used }) => reconcileMaterials(planned, used),
        bars: ({ bars }) => balanceBars(bars),
        packaging: ({ labels, bars, perBar }) => balancePackaging(labels, bars.wrapped, perBar),
        batter: ({ batter }) => balanceBatter(batter),
        release: ({ release }) => releaseFindings(release),
      },
      [0.5, 0.99, 1.2],
    ))

  test('both ways', () => {
    const made = (lot: string, madeBy?: string): Entry => ({
      kind: 'received',
      day: 1,
      lot,
      material: 'm',
      amount: 9,
      madeBy,
    })
    const into = (lot: string, batch: string): Entry => ({ kind: 'used', day: 10, lot, amount: 1, batch })
    const links = traceLinks([
      made('oil'),
      into('oil', 'b1'),
      made('trim-1', 'b1'),
      into('trim-1', 'b2'),
      into('oil', 'b2'),
      made('trim-2', 'b2'),
      // by the records a batch that is in itself
      into('trim-2', 'b3'),
      made('trim-3', 'b3'),
      into('trim-3', 'b2'),
      into('lye', 'b4'),
    ])
    keep(
      'traces',
      {
        bars: [
          { batch: 'b1', made: 60, sold: 40, kept: 20 },
          { batch: 'b2', made: 30, sold: 10, kept: 5 },
          { batch: 'b4', made: 10, kept: 3 },
        ],
      },
      {
        lot: ({ bars }) => recallSet(links, 'oil', bars),
        batch: ({ bars }) => recallSetOfBatch(links, 'b2', bars),
        ways: () => [holdersOfLot(links, 'trim-1'), sourcesOfBatch(links, 'b3'), holdersOfBatch(links, 'b1')],
      },
      [0, 0.5, 2],
    )
  })
})
