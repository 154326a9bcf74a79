/** The folder help/: what stands in it, and that the demo has it. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import type { z } from 'zod'
import { FILE_KINDS } from '../../../src/schema/file-kinds.ts'
import { type Described, describedOf, partsOf } from '../../../src/schema/help/described.ts'
import { helpFiles } from '../../../src/schema/help/help-files.ts'
import { exampleFile, schemaLine } from '../../../src/schema/help/help-pages.ts'
import { jsonSchemaOf } from '../../../src/schema/help/json-schema.ts'
import { exampleOf } from '../../../src/schema/help/sentences.ts'
import { schemaAt } from '../../../src/schema/schema-walk.ts'
import { KIND_NAMES, kindNamed, told, underlined } from './editor.ts'

const demo = fileURLToPath(new URL('../../../content/', import.meta.url))
const files = helpFiles()

/** Every part of a file with where it stands. */
const walk = (part: Described, path: string): (readonly [string, Described])[] => [
  [path, part],
  ...partsOf(part).flatMap(([name, one]) => walk(one, `${path}/${name}`)),
]
const parts = KIND_NAMES.flatMap((name) => walk(describedOf(kindNamed(name).schema), name))

describe('recorded: the help of the demo', () => {
  test('is what the program would write; "npm run tidy" writes it', () => {
    const lying = new Map(
      readdirSync(`${demo}help`).map((name) => [name, readFileSync(`${demo}help/${name}`, 'utf8')] as const),
    )
    expect([...lying.keys()].sort()).toEqual([...files.keys()].sort())
    for (const [name, text] of files)
      expect(lying.get(name) === text, `help/${name} is of yesterday`).toBe(true)
  })

  test('is found from the first line of each file', () => {
    const lines = Object.values(FILE_KINDS).flatMap((kind) => {
      if (kind.name === 'printed') return []
      const { place } = kind
      const names =
        'file' in place
          ? [place.file]
          : readdirSync(demo + place.folder).map((name) => `${place.folder}/${name}`)
      return names
        .filter((name) => !readFileSync(demo + name, 'utf8').startsWith(`${schemaLine(kind)}\n`))
        .map((name) => name)
    })
    expect(lines).toEqual([])
  })
})

describe('by hand: help', () => {
  test.each(KIND_NAMES)('the example of %s is right to the program and to an editor', (name) => {
    const text = exampleFile(kindNamed(name))
    expect(files.get(`${name}.md`)).toContain(text.trimEnd())
    expect(told(name, text)).toEqual([])
    expect(underlined(name, text)).toEqual([])
  })

  test('leads from where a file lies to where its schema lies', () => {
    expect(schemaLine(FILE_KINDS.shop)).toBe('# yaml-language-server: $schema=help/shop.schema.json')
    expect(schemaLine(FILE_KINDS.recipe)).toBe('# yaml-language-server: $schema=../help/recipe.schema.json')
    for (const [, line = ''] of [...files.values()].join('\n').matchAll(/\$schema=(\S+)/g))
      expect(files.has(line.replace(/^(\.\.\/)?help\//, '')), line).toBe(true)
  })

  test('says of every field what it is', () => {
    // a form of a field, and what a list or the maker's names hold, are told of above
    const silent = parts.filter(
      ([path, { description = '' }]) =>
        !/\/(-|NAME|\d+|)$/.test(path) && !/^\S.{3,}[.!?]$/s.test(description),
    )
    expect(parts.length).toBeGreaterThan(600)
    expect(silent.map(([path]) => path)).toEqual([])
  })

  test('tells every key on the page of its kind', () => {
    const untold = KIND_NAMES.flatMap((name) =>
      walk(describedOf(kindNamed(name).schema), '').flatMap(([, { properties = {} }]) =>
        Object.entries(properties).flatMap(([key, { description = '' }]) =>
          files.get(`${name}.md`)?.includes(`- \`${key}\``) && files.get(`${name}.md`)?.includes(description)
            ? []
            : [`${name}: ${key}`],
        ),
      ),
    )
    expect(untold).toEqual([])
  })

  test('gives examples that the program reads', () => {
    const examples = KIND_NAMES.flatMap((name) =>
      walk(describedOf(kindNamed(name).schema), '').flatMap(([path, part]) => {
        const example = exampleOf(part)
        if (example === '') return []
        const way = path.split('/').filter((one) => one !== '')
        const field = schemaAt(
          kindNamed(name).schema,
          way.map((one) => (one === '-' ? 0 : one)),
          undefined,
        )
        return [
          [
            `${name}${path}: ${example}`,
            field !== undefined && (field as z.ZodType).safeParse(example).success,
          ] as const,
        ]
      }),
    )
    expect(examples.length).toBeGreaterThan(300)
    expect(examples.filter(([, isRead]) => !isRead)).toEqual([])
  })

  test('has the limits and the example in the words of a refusal', () => {
    const at = (path: string, keyword: string): string => {
      let schema = jsonSchemaOf(FILE_KINDS.shop) as Record<string, never>
      for (const name of path.split('/')) schema = schema[name] ?? ({} as Record<string, never>)
      return String(schema[keyword])
    }
    const [said, refused] = ['description', 'errorMessage'].map((keyword) =>
      at('properties/limits/properties/hot-lift', keyword),
    )
    const broken = FILE_KINDS.shop.schema.safeParse({ limits: { 'hot-lift': '99 kg' } }).error?.issues
    const advice = broken
      ?.map((issue) => String('params' in issue ? issue.params?.advice : ''))
      .find((one) => one.startsWith('Allowed'))
    expect(advice).toBe('Allowed from 1 kg up to 23 kg.')
    for (const words of [said, refused])
      expect(words).toContain('from 1 kg up to 23 kg, in g, kg, mg, oz or lb, for example')
  })

  test('names no place of this machine, and no address but that of the draft', () => {
    const addresses = [...files.values()].flatMap((text) =>
      [...text.matchAll(/https?:\/\/[^"\s)]+/g)].map(([one]) => one),
    )
    expect([...new Set(addresses)]).toEqual(['http://json-schema.org/draft-07/schema#'])
    expect([...files.values()].filter((text) => text.includes('/src/') || text.includes('"$id"'))).toEqual([])
  })
})
