import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, test } from 'vitest'
import { compose } from '../src/commands/compose.ts'
import { renderDiagnostics } from '../src/diagnostics.ts'

const here = fileURLToPath(new URL('./diagnostics/', import.meta.url))
const src = fileURLToPath(new URL('../src/', import.meta.url))
const cases = readdirSync(here).filter((name) => name !== 'base')
const scratch = mkdtempSync(join(tmpdir(), 'diagnostics-'))
afterAll(() => rmSync(scratch, { recursive: true, force: true }))

/**
 * What `check` prints of the small good binder with some of its files replaced; a folder `text` stands for all words of
 * the program, where it is these that have a mistake.
 */
const printed = async (name: string): Promise<{ text: string; codes: string[] }> => {
  const folder = join(scratch, name)
  cpSync(join(here, 'base'), folder, { recursive: true })
  if (name !== 'base') cpSync(join(here, name, 'input'), folder, { recursive: true })
  const text = join(here, name, 'text')
  const { diagnostics, documents } = await compose(
    folder,
    'binder',
    undefined,
    existsSync(text) ? { text } : {},
  )
  return {
    text: renderDiagnostics(diagnostics, documents, { colour: false }),
    codes: diagnostics.map(({ code }) => code),
  }
}

describe('by hand: every mistake, its place, its words', () => {
  test('the small good binder has none', async () => {
    expect((await printed('base')).text).toBe('')
  })

  // Each expected.txt was read as a person would who does not program, not only kept.
  test.each(cases)('%s', async (name) => {
    const { text, codes } = await printed(name)
    const file = join(here, name, 'expected.txt')
    if (process.env.KETTLE_RECORD === '1' && !existsSync(file)) writeFileSync(file, text)
    expect(text).toBe(readFileSync(file, 'utf8'))
    if (name !== 'several-at-once') expect(codes).toContain(name)
  })

  test('every code of the program has its folder', () => {
    const codes = new Set<string>()
    for (const file of sources(src)) {
      const text = readFileSync(file, 'utf8')
      // `code: 'a'`, `code: short ? 'a' : 'b'`, and the calls of which it is the first text
      for (const [, words = ''] of text.matchAll(/\bcode: ([^,}\n]*)/g))
        for (const [, code = ''] of words.matchAll(/'([a-z0-9-]+)'/g)) codes.add(code)
      for (const [, code = ''] of text.matchAll(
        /\b(?:complain|say|refuse|refused|at|error)\((?:[^'()]*,)?\s*'([a-z0-9-]+)',/g,
      ))
        codes.add(code)
    }
    const without = [...codes].filter((code) => !cases.includes(code) && !Object.hasOwn(ELSEWHERE, code))
    expect(without.sort()).toEqual([])
    // neither does a folder or an exception outlive its code
    const coded = [...cases, ...Object.keys(ELSEWHERE)].filter((name) => name !== 'several-at-once')
    expect(coded.filter((name) => !codes.has(name))).toEqual([])
  })
})

/** Codes that no folder of files under version control can hold, and where they are tried instead. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  'lining-unnamed': 'said by upgrade only: tests/formats/formats.test.ts',
  'strips-unnamed': 'said by upgrade only: tests/formats/formats.test.ts',
  'no-longer-read': 'said by upgrade only: tests/formats/formats.test.ts',
  'batch-not-written-down': 'a finding of the binder: tests/binder/stock.test.ts',
  custom: 'zod’s own word for a check of ours, never printed',
  'file-missing': 'tests/schema/load.test.ts: a file left out',
  'link-leads-out': 'tests/schema/read-folder.test.ts: a link',
  'not-a-file': 'tests/schema/read-folder.test.ts: a folder in the place of a file',
  'not-a-folder': 'tests/schema/read-folder.test.ts: a file in the place of a folder',
  'cannot-read': 'tests/schema/read-folder.test.ts: a link to nothing',
  'file-too-large': 'tests/schema/read-folder.test.ts: a megabyte',
  'too-many-files': 'tests/schema/read-folder.test.ts: thousands of files',
  'yaml-syntax': 'the last resort of tests/schema/yaml.test.ts',
  'value-not-allowed': 'the last resort of tests/schema/decode.test.ts',
}

/** Files that make diagnostics; calculators have findings, which are another thing. */
function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) =>
      /\/(schema|units|commands)\/|own-page-sheet\.ts$|papers\/(check-records|kept-text)\.ts$|binder\/(bind|bind-stock|as-built-limits)\.ts$/.test(
        path,
      ),
    )
}
