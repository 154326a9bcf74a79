import { describe, expect, test } from 'vitest'
import { keptByInput, keptOrMade } from '../src/kept-or-made.ts'

describe('by hand: what is kept', () => {
  test('an equal input is answered from before, another one never', () => {
    let made = 0
    const sum = keptByInput(3, (input: { readonly of: readonly number[] }) => {
      made += 1
      return { sum: input.of.reduce((all, one) => all + one, 0) }
    })
    const first = sum({ of: [1, 2] })
    expect(first).toEqual({ sum: 3 })
    expect(sum({ of: [1, 2] })).toBe(first)
    expect(sum({ of: [1, 2.000000000000001] }).sum).not.toBe(3)
    expect(sum({ of: [2, 1] })).not.toBe(first)
    expect(made).toBe(3)
  })
  test('no more are kept than was said: the oldest goes first', () => {
    let made = 0
    const counted = keptByInput(2, (input: string) => {
      made += 1
      return { input }
    })
    for (const one of ['a', 'b', 'c', 'b', 'c']) expect(counted(one)).toEqual({ input: one })
    expect(made).toBe(3)
    counted('a')
    expect(made).toBe(4)
  })
  test('what could not be made is not kept', () => {
    const kept = new Map<string, number>()
    const fail = (): number => {
      throw new Error('not this time')
    }
    expect(() => keptOrMade(kept, 2, 'one', fail)).toThrow('not this time')
    expect(keptOrMade(kept, 2, 'one', () => 7)).toBe(7)
  })
})
