/** When a folder is worked out again, by a clock and a folder that the test moves on itself. */
import { describe, expect, it } from 'vitest'
import { keepUp } from '../../src/preview/keep-up.ts'
import type { Outcome } from '../../src/preview/types.ts'

/** What a file says decides what becomes of the folder: `bad …` is a mistake. */
const outcomeOf = (text: string): Outcome => ({
  kind: text.startsWith('bad') ? 'wrong' : 'good',
  text,
  terminal: { out: '', err: '' },
})

interface Bench {
  /** what happened, in order */
  readonly seen: string[]
  readonly save: (text: string | undefined) => void
  /** what happens while the folder is worked out for the nth time, counted from 1 */
  readonly during: (nth: number, what: () => void) => void
  /** the same while something is waited for */
  readonly whileWaiting: (nth: number, what: () => void) => void
  readonly settled: () => Promise<void>
  readonly noticed: () => void
  /** saves without a word to whoever watches */
  readonly saveUntold: (text: string | undefined) => void
  readonly look: () => void
}

const bench = (first: string): Bench => {
  let text: string | undefined = first
  let saves = 0
  let made = 0
  let waits = 0
  const seen: string[] = []
  const during = new Map<number, () => void>()
  const whileWaiting = new Map<number, () => void>()
  const keeping = keepUp({
    stamp: async () => (text === undefined ? undefined : `${saves}`),
    make: async () => {
      const read = text ?? ''
      made += 1
      seen.push(`read ${read}`)
      await Promise.resolve()
      during.get(made)?.()
      return outcomeOf(read)
    },
    begin: () => void seen.push('working'),
    show: async ({ kind, text: said }) => void seen.push(`show ${kind} ${said}`),
    wait: async () => {
      waits += 1
      whileWaiting.get(waits)?.()
    },
    gone: () => ({ kind: 'failed', text: 'gone', terminal: { out: '', err: '' } }),
  })
  return {
    seen,
    save: (next) => {
      text = next
      saves += 1
      keeping.changed()
    },
    during: (nth, what) => during.set(nth, what),
    whileWaiting: (nth, what) => whileWaiting.set(nth, what),
    settled: keeping.settled,
    noticed: keeping.changed,
    saveUntold: (next) => {
      text = next
      saves += 1
    },
    look: keeping.look,
  }
}

const opened = async (first = 'one'): Promise<Bench> => {
  const on = bench(first)
  on.noticed()
  await on.settled()
  on.seen.length = 0
  return on
}

describe('by hand: a folder that is edited', () => {
  it('is worked out once at the start', async () => {
    const on = bench('one')
    on.noticed()
    await on.settled()
    expect(on.seen).toEqual(['working', 'read one', 'show good one'])
  })

  it('goes from good to a mistake and back', async () => {
    const on = await opened()
    on.save('bad two')
    await on.settled()
    on.save('three')
    await on.settled()
    expect(on.seen).toEqual([
      'working',
      'read bad two',
      'show wrong bad two',
      'working',
      'read three',
      'show good three',
    ])
  })

  it('is worked out once for several saves in a burst, and for those that come while it is waited for', async () => {
    const on = await opened()
    // of the start there was one wait
    on.whileWaiting(2, () => on.save('d'))
    on.whileWaiting(3, () => on.save('e'))
    for (const text of ['a', 'b', 'c']) on.save(text)
    await on.settled()
    expect(on.seen).toEqual(['working', 'read e', 'show good e'])
  })

  it('never shows what was read before a later save', async () => {
    const on = await opened()
    on.during(2, () => on.save('new'))
    on.save('old')
    await on.settled()
    expect(on.seen).toEqual(['working', 'read old', 'read new', 'show good new'])
  })

  it('sees by the folder itself what nobody told', async () => {
    const on = await opened()
    on.during(2, () => on.saveUntold('new'))
    on.save('old')
    await on.settled()
    expect(on.seen).toEqual(['working', 'read old', 'read new', 'show good new'])
    on.saveUntold('newest')
    on.look()
    await on.settled()
    expect(on.seen.at(-1)).toBe('show good newest')
  })

  it('is not worked out again for a save that it is told of late', async () => {
    const on = await opened()
    on.during(2, on.noticed)
    on.save('two')
    await on.settled()
    expect(on.seen).toEqual(['working', 'read two', 'show good two'])
  })

  it('does not tell a mistake of a file that is half written', async () => {
    const on = await opened()
    // the wait for quiet is the second, that after the mistake the third
    on.whileWaiting(3, () => on.save('whole'))
    on.save('bad half')
    await on.settled()
    expect(on.seen).toEqual(['working', 'read bad half', 'read whole', 'show good whole'])
  })

  it('is not worked out again where nothing changed', async () => {
    const on = await opened()
    on.noticed()
    await on.settled()
    expect(on.seen).toEqual([])
  })

  it('may be taken away and put back', async () => {
    const on = await opened()
    on.save(undefined)
    await on.settled()
    on.save('back')
    await on.settled()
    expect(on.seen).toEqual(['working', 'show failed gone', 'working', 'read back', 'show good back'])
  })

  it('is shown in the end although a file never comes to rest', async () => {
    const on = await opened()
    for (let nth = 2; nth < 12; nth += 1) on.during(nth, () => on.save(`line ${nth}`))
    on.save('line 1')
    await on.settled()
    const shown = on.seen.filter((line) => line.startsWith('show'))
    expect(shown.length).toBeGreaterThan(1)
    expect(shown.at(-1)).toBe('show good line 11')
  })
})
