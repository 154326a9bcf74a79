/** Phrases are found by the first word of their key: it leads to one file only, the same in every language. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const folder = fileURLToPath(new URL('../../src/text/en/phrases/', import.meta.url))

describe('by hand: the files of phrases', () => {
  it('keep all keys with one first word in one file', () => {
    const files = new Map<string, Set<string>>()
    for (const name of readdirSync(folder))
      for (const [, first = ''] of readFileSync(`${folder}${name}`, 'utf8').matchAll(/^"?([a-z][a-z-]*)\./gm))
        files.set(first, (files.get(first) ?? new Set()).add(name))
    expect(files.size).toBeGreaterThan(40)
    expect([...files].filter(([, names]) => names.size > 1)).toEqual([])
  })
})
