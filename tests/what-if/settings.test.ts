/** Addresses and what is put there: what is meant, what is refused, and with which words. */
import { describe, expect, it } from 'vitest'
import { inputsOf } from '../../src/schema/inputs.ts'
import { asFolderFiles } from '../../src/schema/read-folder.ts'
import { type Setting, withSettings } from '../../src/what-if/settings.ts'
import { editedFiles } from '../sites/small-binder.ts'

const files = editedFiles(['shop.yaml', 'reach: write it here', 'reach: 1\n  - who: Neighbour\n    reach: 2'])
const inputs = inputsOf(asFolderFiles(files))

const set = (typed: string): Setting => {
  const at = typed.indexOf('=')
  return at < 0 ? { address: typed } : { address: typed.slice(0, at), value: typed.slice(at + 1) }
}
const applied = (...typed: readonly string[]) => withSettings(typed.map(set), inputs)
const plain = (node: unknown): unknown => JSON.parse(JSON.stringify(node))
const dataOf = (below: string, ...typed: readonly string[]): Record<string, unknown> => {
  const { refused, diagnostics, inputs: after } = applied(...typed)
  expect([refused, diagnostics]).toEqual([[], []])
  return plain(after.get(below)) as Record<string, unknown>
}
const asItIs = (below: string): Record<string, unknown> => plain(inputs.get(below)) as Record<string, unknown>

const BATCH = 'batches/2027-02-01-plain.yaml'
const MATERIALS = 'materials/all.yaml'

describe('by hand: what is set stands where its address says, and nothing else moves', () => {
  it.each([
    ['batch.2027-02-01-plain.date=2027-02-03', 'batches.2027-02-01-plain.date=2027-02-03'],
    ['fats.olive.kind=acid', 'materials.all.fats.olive.kind=acid'],
    ['fixture.small.grid.rows=3', 'fixtures.small.grid.rows=3'],
  ])('%s is %s', (short, long) => {
    expect(applied(short).inputs).toEqual(applied(long).inputs)
    expect(applied(short).inputs).not.toEqual(inputs)
  })

  it('takes the place of what is there', () => {
    expect(dataOf(BATCH, 'batch.2027-02-01-plain.date=2027-02-03')).toEqual({
      ...asItIs(BATCH),
      date: '2027-02-03',
    })
  })

  it('adds what is allowed and not given, with all that is above it', () => {
    expect(dataOf('shop.yaml', 'shop.hours.clock=12-hour')).toEqual({
      ...asItIs('shop.yaml'),
      hours: { clock: '12-hour' },
    })
  })

  it('takes a whole thing in braces, whose parts can be set afterwards', () => {
    const { scales } = dataOf(
      'shop.yaml',
      'shop.scales.fine={ capacity: 2 kg, division: 1 g }',
      'shop.scales.fine.division=0.1 g',
    )
    expect(scales).toEqual({
      bench: { capacity: '5 kg', division: '1 g' },
      fine: { capacity: '2 kg', division: '0.1 g' },
    })
  })

  it('puts a new thing of a section into the file that has the section', () => {
    const { alkalis } = dataOf(MATERIALS, 'alkalis.flakes={ name: Flakes, kind: NaOH, purity: 97 % }')
    expect(Object.keys(alkalis as object)).toEqual(['beads', 'flakes'])
  })

  it('adds and takes away whole files', () => {
    const { inputs: after, refused } = applied('recipe.new={ title: New }', 'batch.2027-02-01-plain')
    expect(refused).toEqual([])
    expect(plain(after.get('recipes/new.yaml'))).toEqual({ title: 'New' })
    expect(after.has(BATCH)).toBe(false)
  })

  it('counts entries of lists from one, adds one at the end, and takes one out', () => {
    const contacts = (...typed: readonly string[]) => dataOf('shop.yaml', ...typed).contacts
    expect(contacts('shop.contacts.2.reach=3')).toEqual([
      { who: 'Ambulance', reach: '1' },
      { who: 'Neighbour', reach: '3' },
    ])
    expect(contacts('shop.contacts.3={ who: Friend }')).toHaveLength(3)
    expect(contacts('shop.contacts.1')).toEqual([{ who: 'Neighbour', reach: '2' }])
  })

  it('begins a list that is not there', () => {
    const { 'weigh-ins': all } = dataOf(
      BATCH,
      'batch.2027-02-01-plain.weigh-ins.1={ date: 2027-02-20, weight: 100 g }',
    )
    expect(all).toEqual([{ date: '2027-02-20', weight: '100 g' }])
  })

  it('leaves one line out', () => {
    const { fill: _gone, ...others } = asItIs(BATCH)
    expect(dataOf(BATCH, 'batch.2027-02-01-plain.fill')).toEqual(others)
  })

  it('leaves what it was handed as it was', () => {
    const text = JSON.stringify([...inputs])
    applied('shop.contacts.2.reach=3', 'shop.contacts.1', 'batch.2027-02-01-plain.fill')
    expect(JSON.stringify([...inputs])).toBe(text)
  })
})

describe('by hand: an address that leads nowhere is told what was meant, and what is known', () => {
  it.each([
    ['bach.x.oils=1 kg', 'Nothing here is called "bach"', 'Did you mean batch.x.oils?'],
    ['batch.2027-02-01-plan.oils=1 kg', 'There is no batch', 'Did you mean batch.2027-02-01-plain.oils?'],
    ['batch.2027-02-01-plain.oil=1 kg', '"oil" is not known', 'Did you mean batch.2027-02-01-plain.oils?'],
    ['batch=1', 'Which batch is meant', 'Known there: 2027-02-01-plain.'],
    ['shop=1', 'What of shop.yaml is meant', 'Write shop.NAME.'],
    ['fats=1', 'Which of the fats is meant', 'Known there: olive, coconut.'],
    ['fats.oliv.kind=acid', 'There is no "oliv" among the fats', 'Did you mean fats.olive.kind?'],
    ['shop.scales.benhc.division=1 g', '"benhc" is not known', 'Did you mean shop.scales.bench.division?'],
    ['shop.name.first=1', 'shop.name holds one value', 'Set shop.name itself'],
    ['shop.contacts.4.reach=1', 'is no entry', 'Its entries are 1 to 2. 3 adds one at its end.'],
    ['shop.contacts.0.reach=1', 'is no entry', 'Its entries are 1 to 2.'],
    ['shop.contacts.one.reach=1', 'is no entry', 'Its entries are 1 to 2.'],
    ['shop..name=1', 'no name before or after one of its dots', 'Write, for example'],
    ['pages.note=1', 'Pages are text', 'Begin with one of'],
    ['printed.entries=1', 'Nothing here is called "printed"', 'Known there: shop'],
    ['shop.limits.least', 'is not known', 'Did you mean shop.limits.least-superfat?'],
    ['batch.2027-02-01-plain.oils', 'is not given', 'Known there: recipe, mould'],
    ['batch.2027-02-09-plain', 'There is no batch', 'Did you mean batch.2027-02-01-plain?'],
    ['shop.contacts.3', 'is no entry', 'Its entries are 1 to 2.'],
    ['shop.name= ', 'Nothing is given after "="', '--leave-out'],
  ])('%s', (typed, message, advice) => {
    const { refused, inputs: after } = applied(typed)
    expect(refused).toHaveLength(1)
    expect(refused[0]?.refusal.message).toContain(message)
    expect(refused[0]?.refusal.advice).toContain(advice)
    if (!typed.endsWith(' ')) expect(after).toEqual(inputs)
  })

  it('does not take one address twice', () => {
    const { refused } = applied('shop.name=A', 'shop.name=B')
    expect(refused.map(({ refusal }) => refusal.message)).toEqual(['This is set twice'])
  })

  it('tells what is wrong with the value itself at its setting', () => {
    const { diagnostics } = applied('shop.scales.fine={ capacity: 2 kg')
    expect(diagnostics.map(({ file }) => file)).toEqual(['--set shop.scales.fine'])
  })
})
