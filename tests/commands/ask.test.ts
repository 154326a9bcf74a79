/** Questions at a terminal: the usual answer, the wrong one, and none. */
import { describe, expect, it } from 'vitest'
import { answerFault } from '../../src/schema/answers.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { fakeTerminal } from './fake-terminal.ts'

describe('by hand: a question', () => {
  it('takes what was typed without spaces round it, or what is usual for Enter alone', async () => {
    const terminal = fakeTerminal('  Alder Yard ', '', '')
    const asks = terminal.asker()
    expect(await asks.ask({ text: 'Name?', usual: 'Shed' })).toBe('Alder Yard')
    expect(await asks.ask({ text: 'Name?', usual: 'Shed' })).toBe('Shed')
    expect(await asks.ask({ text: 'Who?' })).toBe('')
    expect(terminal.screen()).toBe('Name? [Shed] Name? [Shed] Who? ')
    asks.close()
  })

  it('is asked again in the words of the decoder until it can be taken', async () => {
    const terminal = fakeTerminal('2 1/4', 'a foot', '2 1/4 in')
    const asks = terminal.asker()
    const check = (answer: string) => answerFault(FILE_KINDS.fixture, ['bar', 'thickness'], answer)
    expect(await asks.ask({ text: 'How thick?', check })).toBe('2 1/4 in')
    expect(terminal.screen().match(/How thick\?/g)).toHaveLength(3)
    expect(terminal.screen()).toContain('"2 1/4" has no unit')
    asks.close()
  })

  it('that nobody answers ends in plain words', async () => {
    const asks = fakeTerminal().asker()
    await expect(asks.ask({ text: 'Name?' })).rejects.toMatchObject({
      message: expect.stringContaining('There was no answer. Nothing was written.'),
      exitCode: 2,
      plain: true,
    })
  })

  it('is not asked for ever', async () => {
    const asks = fakeTerminal(...Array.from({ length: 50 }, () => 'no')).asker()
    await expect(asks.ask({ text: 'Name?', check: () => 'Not that.' })).rejects.toThrow('found no answer')
  })
})

describe('by hand: an answer and the field that it is for', () => {
  it('is taken as the file would take it', () => {
    const { shop, fixture, batch } = FILE_KINDS
    expect(answerFault(shop, ['name'], 'yes: "no" # {a}')).toBeUndefined()
    expect(answerFault(shop, ['name'], '')).toContain('there is no text here')
    expect(answerFault(shop, ['paper', 'size'], 'a4')).toContain('Did you mean "A4"')
    expect(answerFault(fixture, ['grid', 'columns'], '5')).toBeUndefined()
    expect(answerFault(fixture, ['grid', 'columns'], '5.5')).toContain('whole number')
    expect(answerFault(batch, ['date'], '2027-02-30')).toContain('the calendar does not have')
  })
})
