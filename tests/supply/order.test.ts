/** What stands in a list in some order keeps to it: of equals the first comes first, however long the list is. */
import { describe, expect, it } from 'vitest'
import { roundedTogether } from '../../src/supply/bar-cost.ts'
import { proposeLots } from '../../src/supply/first-expired.ts'
import { type Entry, ledgerOn } from '../../src/supply/ledger.ts'
import { choosePacks } from '../../src/supply/pack-choice.ts'
import { programmeText } from '../../src/supply/programme.ts'
import { rational } from '../../src/units/rational.ts'

describe('by hand: of equals the first comes first', () => {
  // 300 uses, on three days by turns
  const days = Array.from({ length: 300 }, (_, at) => 20 - 5 * (at % 3))
  /** places of the list, day by day: 2, 5, 8 … then 1, 4, 7 … then 0, 3, 6 … */
  const wanted = [2, 1, 0].flatMap((first) => Array.from({ length: 100 }, (_, at) => first + 3 * at))

  it('in an account', () => {
    const received: Entry = { kind: 'received', day: 1, lot: 'o1', material: 'olive', amount: 500 }
    const uses = days.map((day): Entry => ({ kind: 'used', day, lot: 'o1', amount: 1, batch: 'b' }))
    const { movements } = ledgerOn([...uses, received], 100)
    expect(movements.map(({ entry }) => entry)).toEqual([300, ...wanted])
  })

  it('among batches of one day', () => {
    const lot = { lot: 'o1', material: 'olive', left: 500, received: 1, expiry: undefined }
    const needs = days.map((day, at) => ({ batch: `${at}`, material: 'olive', day, amount: 1 }))
    expect(proposeLots([lot], needs).picks.map(({ batch }) => Number(batch))).toEqual(wanted)
  })

  it('where coins are missing: 100 thirds are 33 coins, and the first 33 have them', () => {
    const thirds = Array.from({ length: 100 }, () => rational(1n, 3n))
    expect(roundedTogether(thirds)).toEqual([...Array(33).fill(1), ...Array(67).fill(0)])
    // 4 halves and 5 thirds are 3 2/3, 4 coins: all halves before any third
    const mixed = [...thirds.slice(0, 5), ...Array.from({ length: 4 }, () => rational(1n, 2n))]
    expect(roundedTogether(mixed)).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 1])
  })
})

describe('by hand: lines of a programme', () => {
  it('hold 200 characters at most, and as many words as that takes', () => {
    // two characters and a space 66 times are 198: another two would make 201
    const short = Array.from(
      { length: 200 },
      (_, at) => `${'abcdefghijklmnopqrst'[Math.floor(at / 10)]}${at % 10}`,
    )
    const longer = Array.from({ length: 12 }, (_, size) =>
      Array.from({ length: 90 }, (_one, at) => `x${'0'.repeat(size + 1)}${at}`),
    )
    for (const names of [short, ...longer]) {
      const text = programmeText({
        objective: names.map((name) => [1, name]),
        rows: [],
        variables: names.map((name) => ({ name, from: 0, to: 1, whole: true })),
      })
      const lines = text.split('\n')
      const general = lines.slice(lines.indexOf('General') + 1, lines.indexOf('End'))
      expect(general.join('').trim().split(/ +/)).toEqual(names)
      const full = general.slice(0, -1).map((line, at) => {
        const [next = ''] = (general[at + 1] ?? '').trim().split(' ')
        return line.length <= 200 && line.length + 1 + next.length > 200
      })
      expect(full).toEqual(full.map(() => true))
      expect(full.length).toBeGreaterThan(0)
    }
  })
})

describe('by hand: a pack that holds just what is wanted', () => {
  it('is enough, whatever its decimals are as a double', () => {
    const most = Array.from({ length: 500 }, (_, at) => {
      const amount = (at + 1) / 100
      let text = ''
      const offer = { offer: 'a', supplier: 's', material: 'm', amount, price: 100, arrives: 1 }
      const need = { batch: 'b', material: 'm', day: 5, amount }
      // a third and two thirds of it, which are off by a digit now and then
      const parts = at % 2 === 0 ? [need] : [1, 2].map((part) => ({ ...need, amount: (amount * part) / 3 }))
      choosePacks({ offers: [offer], needs: parts }, (programme) => {
        text ||= programme
        return { optimal: true, objective: 100, bound: 100, values: new Map([['x0', 1]]) }
      })
      return / 0 <= x0 <= (\d+)/.exec(text)?.[1]
    })
    expect(most).toEqual(Array(500).fill('1'))
  })
})
