/** Two versions of a folder's data: what is named as changed, and every mixture of the two. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareInputs, type InputNode, type Inputs, inputText } from '../../src/revisions/input-changes.ts'

const folder = (files: Record<string, InputNode>): Inputs => new Map(Object.entries(files))

const told = (before: Record<string, InputNode>, now: Record<string, InputNode>): string[] =>
  compareInputs(folder(before), folder(now)).changes.map(
    ({ file, path, kind, before: then, now: today }) =>
      `${kind} ${file} ${path.join('.')}: ${inputText(then)} > ${inputText(today)}`,
  )

describe('by hand: what was changed', () => {
  it('is named by file and names, as small as it can be', () => {
    expect(
      told(
        { 'materials/lye.yaml': { alkalis: { beads: { purity: '97 %', price: '3 USD' } } } },
        { 'materials/lye.yaml': { alkalis: { beads: { purity: '98 %', price: '3 USD' } } } },
      ),
    ).toEqual(['other materials/lye.yaml alkalis.beads.purity: 97 % > 98 %'])
  })

  it('is one added line where a line was put into a list, and one changed inside where one was changed', () => {
    const before = [{ lot: 'A' }, { lot: 'B', amount: '2 kg' }, { lot: 'C' }]
    expect(told({ s: before }, { s: [{ lot: 'N' }, ...before] })).toEqual(['added s 1:  > { lot: N }'])
    expect(
      told({ s: before }, { s: [{ lot: 'A' }, { lot: 'B', amount: '3 kg' }, { lot: 'C' }, { lot: 'D' }] }),
    ).toEqual(['other s 2.amount: 2 kg > 3 kg', 'added s 4:  > { lot: D }'])
    expect(told({ s: before }, { s: [{ lot: 'A' }, { lot: 'C' }] })).toEqual([
      'gone s 2: { lot: B, amount: 2 kg } > ',
    ])
  })

  it('is a whole file that came or went, and a name that came or went', () => {
    expect(told({ a: { x: '1' } }, { b: { x: '1' } })).toEqual([
      'gone a : { x: 1 } > ',
      'added b : { x: 1 } > '.replace(': { x: 1 } > ', ':  > { x: 1 }'),
    ])
    expect(told({ a: { x: '1', y: '2' } }, { a: { y: '2', z: '3' } })).toEqual([
      'gone a x: 1 > ',
      'added a z:  > 3',
    ])
  })

  it('is the order alone where only that changed, and nothing where nothing did', () => {
    expect(told({ a: { x: '1', y: '2' } }, { a: { y: '2', x: '1' } })).toEqual(['order a :  > '])
    expect(told({ a: { x: '1', y: ['2', undefined] } }, { a: { x: '1', y: ['2', undefined] } })).toEqual([])
  })

  it('is a text in place of a list or a map', () => {
    expect(told({ a: { x: ['1'] } }, { a: { x: '1' } })).toEqual(['other a x: [1] > 1'])
  })
})

const node = fc.letrec<{ node: InputNode }>((tie) => ({
  node: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constantFrom<InputNode>('1', '2', '3', undefined),
    fc.array(tie('node'), { maxLength: 4 }),
    fc
      .uniqueArray(fc.tuple(fc.constantFrom('a', 'b', 'c', 'd'), tie('node')), {
        selector: ([name]) => name,
        maxLength: 4,
      })
      .map((entries) => Object.fromEntries(entries)),
  ),
})).node

const inputs = fc
  .uniqueArray(fc.tuple(fc.constantFrom('a.yaml', 'b.yaml', 'c.yaml'), node), { selector: ([name]) => name })
  .map((entries): Inputs => new Map(entries))

/** Order of names counts: `toEqual` would not see it. */
const text = (all: Inputs): string =>
  JSON.stringify(
    [...all].sort(([a], [b]) => (a < b ? -1 : 1)),
    (_key, value: unknown) => value ?? null,
  )

describe('by hand: mixtures of two random folders', () => {
  it('are the one or the other where all changes are taken back, or none', () => {
    fc.assert(
      fc.property(inputs, inputs, (before, now) => {
        const { changes, without } = compareInputs(before, now)
        const all = without(new Set(changes))
        return text(without(new Set())) === text(now) && text(all) === text(before)
      }),
      { seed: 20270301, numRuns: 3000 },
    )
  })

  it('differ from now by each change that is taken back', () => {
    fc.assert(
      fc.property(inputs, inputs, (before, now) => {
        const { changes, without } = compareInputs(before, now)
        return changes.every((change) => text(without(new Set([change]))) !== text(now))
      }),
      { seed: 20270302, numRuns: 1000 },
    )
  })

  it('share what a longest common subsequence shares: a list with random lines taken out loses just these', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 5 }).map(String), { maxLength: 30 }),
        fc.array(fc.boolean(), { minLength: 30, maxLength: 30 }),
        (list, kept) => {
          const shorter = list.filter((_line, index) => kept[index])
          const { changes } = compareInputs(new Map([['s', list]]), new Map([['s', shorter]]))
          return changes.filter(({ kind }) => kind === 'gone').length === list.length - shorter.length
        },
      ),
      { seed: 20270303, numRuns: 500 },
    )
  })
})
