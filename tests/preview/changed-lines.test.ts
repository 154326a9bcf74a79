import { describe, expect, it } from 'vitest'
import { changedLines } from '../../src/commands/changed-lines.ts'
import type { FolderFile } from '../../src/schema/read-folder.ts'

const folder = (files: Readonly<Record<string, string>>): FolderFile[] =>
  Object.entries(files).map(([below, text]) => ({
    file: `shop/${below}`,
    below,
    bytes: new TextEncoder().encode(text),
  }))

describe('by hand: what was saved, in lines', () => {
  it.each([
    ['nothing of a remark', { 'a.yaml': 'x: 1 # one\n' }, { 'a.yaml': '# two\nx: 1\n' }, []],
    ['a value before and after', { 'a.yaml': 'x: { y: 1 1/8 in }' }, { 'a.yaml': 'x: { y: 1 1/4 in }' }, ['a.yaml: x, y: 1 1/8 in → 1 1/4 in']],
    ['what is new', { 'a.yaml': 'x: 1' }, { 'a.yaml': 'x: 1\ny: 2' }, ['a.yaml: y: 2 (new)']],
    ['what is gone', { 'a.yaml': 'x: 1\ny: 2' }, { 'a.yaml': 'x: 1' }, ['a.yaml: y: 2 (taken out)']],
    ['another order', { 'a.yaml': 'x: 1\ny: 2' }, { 'a.yaml': 'y: 2\nx: 1' }, ['a.yaml: in another order']],
    ['a whole file', { 'a.yaml': 'x: 1' }, { 'b.yaml': 'x: 1' }, ['a.yaml: taken out', 'b.yaml: a new file']],
    ['a page', { 'pages/n.md': 'One.' }, { 'pages/n.md': 'Two.' }, ['pages/n.md: other words']],
    ['a long text cut', { 'a.yaml': 'x: 1' }, { 'a.yaml': `x: ${'a'.repeat(99)}` }, [`a.yaml: x: 1 → ${'a'.repeat(59)}…`]],
  ])('%s', (_name, before, now, lines) => {
    expect(changedLines(folder(before as Record<string, string>), folder(now as Record<string, string>))).toEqual(lines)
  }) // biome-ignore format: cases read better in rows

  it('at most eight of many', () => {
    const many = (value: string): FolderFile[] =>
      folder({ 'a.yaml': Array.from({ length: 20 }, (_, index) => `k${index}: ${value}`).join('\n') })
    const lines = changedLines(many('1'), many('2'))
    expect(lines).toHaveLength(8)
    expect(lines[0]).toBe('a.yaml: k0: 1 → 2')
    expect(lines.at(-1)).toBe('and 13 more')
  })
})
