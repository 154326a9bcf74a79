/** Schema and decoder: what an editor underlines, and what the program refuses. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { kindOf } from '../../../src/schema/file-kinds.ts'
import { KIND_NAMES, type KindName, kindNamed, told, underlined } from './editor.ts'

const root = (folder: string): string => fileURLToPath(new URL(`../../../${folder}`, import.meta.url))

interface Read {
  readonly file: string
  readonly kind: KindName
  readonly text: string
}

/** Files of a maker's folder whose kind is known. */
const filesIn = (folder: string): Read[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
    .flatMap((entry) => {
      const path = join(entry.parentPath, entry.name)
      const below = relative(folder, path).replaceAll('\\', '/')
      const kind = kindOf(below)
      const name = KIND_NAMES.find((one) => kindNamed(one) === kind)
      return name ? [{ file: path, kind: name, text: readFileSync(path, 'utf8') }] : []
    })

const demo = filesIn(root('content'))
const small = filesIn(root('tests/diagnostics/base'))
const wrong = readdirSync(root('tests/diagnostics'))
  .filter((name) => name !== 'base')
  .flatMap((name) => filesIn(root(`tests/diagnostics/${name}/input`)))

describe('by hand: a right file is underlined nowhere', () => {
  test('not in the demo, nor in the small binder', () => {
    const files = [...demo, ...small]
    expect(files.length).toBeGreaterThan(25)
    expect(new Set(files.map(({ kind }) => kind)).size).toBe(KIND_NAMES.length)
    expect(files.flatMap(({ file, kind, text }) => told(kind, text).map((one) => `${file}: ${one}`))).toEqual(
      [],
    )
    expect(
      files.flatMap(({ file, kind, text }) => underlined(kind, text).map((one) => `${file}: ${one}`)),
    ).toEqual([])
  })

  test('nor in what is right of the files that have mistakes in them', () => {
    const right = wrong.filter(({ kind, text }) => told(kind, text).length === 0)
    expect(right.length).toBeGreaterThan(40)
    expect(
      right.flatMap(({ file, kind, text }) => underlined(kind, text).map((one) => `${file}: ${one}`)),
    ).toEqual([])
  })
})
