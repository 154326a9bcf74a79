/** Who carries the kettle: the step says what the table of loads says. */
import { describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import { bindAndCompose, contentOf, editedFiles } from '../sites/small-binder.ts'

describe('by hand: the kettle with its oils', () => {
  test.each([
    ['10 kg', 'one person'],
    ['1 kg', 'two people, never one'],
  ])('hot and caustic loads of %s at most: carried by %s', (most, by) => {
    const content = contentOf(editedFiles(['shop.yaml', 'hot-lift: 10 kg', `hot-lift: ${most}`]))
    const { sheets } = bindAndCompose(content)
    const sheet = sheets.find(({ kind }) => kind === 'batch')
    const steps = Object.values(sheet?.blocks ?? {}).flatMap((block) =>
      block.kind === 'steps' ? block.items : [],
    )
    const step = steps.find(({ name }) => name === 'kettle' || name === 'kettle-off')
    expect(step && inlineWords(step.text)).toContain(`carried by ${by}.`)
    const loads = Object.values(sheet?.blocks ?? {}).flatMap((block) =>
      block.kind === 'table' ? block.rows : [],
    )
    const row = loads.find(
      ([load]) => load?.kind === 'words' && inlineWords(load.words).startsWith('Kettle with its oils'),
    )
    const lifted = row?.at(-1)
    expect(lifted?.kind === 'words' && inlineWords(lifted.words)).toBe(by)
  })
})
