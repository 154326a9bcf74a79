import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Entry } from '../../src/supply/ledger.ts'
import {
  holdersOfBatch,
  holdersOfLot,
  recallSet,
  recallSetOfBatch,
  sourcesOfBatch,
  traceLinks,
} from '../../src/supply/trace.ts'

const into = (lot: string, batch: string): Entry => ({ kind: 'used', day: 10, lot, amount: 1, batch })
const bought = (lot: string, madeBy?: string): Entry => ({
  kind: 'received',
  day: 1,
  lot,
  material: 'm',
  amount: 9,
  madeBy,
})
const names = (traced: readonly { readonly name: string }[]): string[] => traced.map(({ name }) => name)

/** Oil into a premix, the premix and lye into b1, its trim into b2 with other oil, which leaves trim of its own for b3; b4 apart. */
const SHOP: readonly Entry[] = [
  bought('oil'),
  bought('lye'),
  bought('oil-2'),
  bought('scent'),
  into('oil', 'premix'),
  bought('premixed', 'premix'),
  into('premixed', 'b1'),
  into('lye', 'b1'),
  bought('trim-1', 'b1'),
  into('trim-1', 'b2'),
  into('oil-2', 'b2'),
  bought('trim-2', 'b2'),
  into('trim-2', 'b3'),
  into('scent', 'b4'),
  into('oil-2', 'b4'),
]

describe('by hand: trace both ways', () => {
  it('goes from a lot through premix, trim and rebatch to the last batch', () => {
    const { batches, lots } = holdersOfLot(traceLinks(SHOP), 'oil')
    expect(names(batches)).toEqual(['premix', 'b1', 'b2', 'b3'])
    expect(names(lots)).toEqual(['premixed', 'trim-1', 'trim-2'])
    expect(batches[1]?.way).toEqual(['oil', 'premix', 'premixed', 'b1'])
    expect(names(holdersOfLot(traceLinks(SHOP), 'oil-2').batches)).toEqual(['b2', 'b4', 'b3'])
    expect(holdersOfLot(traceLinks(SHOP), 'nobody')).toEqual({ lots: [], batches: [] })
  })

  it('goes from a batch back to everything that was bought', () => {
    const { batches, lots } = sourcesOfBatch(traceLinks(SHOP), 'b3')
    expect(names(lots)).toEqual(['trim-2', 'oil-2', 'trim-1', 'lye', 'premixed', 'oil'])
    expect(names(batches)).toEqual(['b2', 'b1', 'premix'])
    expect(lots.at(-1)?.way).toEqual(['b3', 'trim-2', 'b2', 'trim-1', 'b1', 'premixed', 'premix', 'oil'])
    expect(names(sourcesOfBatch(traceLinks(SHOP), 'b4').lots)).toEqual(['oil-2', 'scent'])
  })

  it('calls a batch back with all that its trim went into', () => {
    expect(names(holdersOfBatch(traceLinks(SHOP), 'b2').batches)).toEqual(['b3'])
    const { batches, lots, made, sold, unrecorded } = recallSetOfBatch(traceLinks(SHOP), 'b1', [
      { batch: 'b1', made: 100, sold: 40, kept: 60 },
      { batch: 'b3', made: 50 },
      { batch: 'b4', made: 90, sold: 90 },
    ])
    expect(names(batches)).toEqual(['b1', 'b2', 'b3'])
    expect(names(lots)).toEqual(['trim-1', 'trim-2'])
    // b4 has none of it; nobody counted b2, and nobody wrote down what left of b3
    expect([made, sold]).toEqual([150, 40])
    expect(unrecorded).toEqual(['b2', 'b3'])
  })

  it('takes a lot and a batch of one name for two things', () => {
    expect(names(holdersOfLot(traceLinks([into('7', '7'), bought('8', '7')]), '7').lots)).toEqual(['8'])
  })

  it('ends where records go round', () => {
    const ring = [...SHOP, into('trim-2', 'b1')]
    expect(names(holdersOfLot(traceLinks(ring), 'oil').batches)).toEqual(['premix', 'b1', 'b2', 'b3'])
    expect(recallSet(traceLinks(ring), 'oil', []).findings).toEqual([
      { code: 'trace-ring', severity: 'warn', values: { batch: 'b1', lot: 'oil' } },
      { code: 'trace-ring', severity: 'warn', values: { batch: 'b2', lot: 'oil' } },
    ])
    expect(recallSet(traceLinks(SHOP), 'oil', []).findings).toEqual([])
  })
})

describe('by hand: a recall', () => {
  it('counts bars of all batches in question, and names those nobody counted', () => {
    const set = recallSet(traceLinks(SHOP), 'lye', [
      { batch: 'b1', made: 40, sold: 31, kept: 9 },
      { batch: 'b2', made: 20, sold: 5 },
      { batch: 'b4', made: 99, sold: 99 },
    ])
    expect(set.bars.map(({ batch }) => batch)).toEqual(['b1', 'b2', 'b3'])
    // 40 + 20; 31 + 5; 9
    expect(set).toMatchObject({ made: 60, sold: 36, kept: 9, unrecorded: ['b3'], findings: [] })
  })

  it('says where more bars went out than were made', () => {
    expect(
      recallSet(traceLinks(SHOP), 'scent', [{ batch: 'b4', made: 10, sold: 8, kept: 3 }]).findings,
    ).toEqual([
      { code: 'bars-more-than-made', severity: 'warn', values: { batch: 'b4', made: 10, sold: 8, kept: 3 } },
    ])
  })

  it('finds a lot in a batch exactly when it finds the batch in the lot, rings or none', () => {
    const entry = fc.tuple(fc.boolean(), fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 }))
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 20 }), (pairs) => {
        const entries = pairs.map(([use, lot, batch]) =>
          use ? into(`l${lot}`, `b${batch}`) : bought(`l${lot}`, `b${batch}`),
        )
        // beside it: reach by Warshall's table (from memory)
        const at = (kind: 'l' | 'b', of: number): number => (kind === 'l' ? of : 7 + of)
        const table = Array.from({ length: 14 }, () => new Array<boolean>(14).fill(false))
        const row = (from: number): boolean[] => table[from] ?? []
        for (const [use, lot, batch] of pairs)
          if (use) row(at('l', lot))[at('b', batch)] = true
          else row(at('b', batch))[at('l', lot)] = true
        for (let k = 0; k < 14; k += 1)
          for (let i = 0; i < 14; i += 1)
            for (let j = 0; j < 14; j += 1) if (row(i)[k] && row(k)[j]) row(i)[j] = true
        for (let lot = 0; lot < 7; lot += 1) {
          const held = names(holdersOfLot(traceLinks(entries), `l${lot}`).batches)
          for (let batch = 0; batch < 7; batch += 1) {
            const there = row(at('l', lot))[at('b', batch)]
            expect(held.includes(`b${batch}`)).toBe(there)
            expect(names(sourcesOfBatch(traceLinks(entries), `b${batch}`).lots).includes(`l${lot}`)).toBe(
              there,
            )
          }
          const inRing = held.filter(
            (batch) => row(at('b', Number(batch.slice(1))))[at('b', Number(batch.slice(1)))],
          )
          expect(
            recallSet(traceLinks(entries), `l${lot}`, []).findings.map(({ values }) => values.batch),
          ).toEqual(inRing)
        }
      }),
      { seed: 20270303, numRuns: 200 },
    )
  })
})
