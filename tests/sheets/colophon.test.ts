import { describe, expect, it } from 'vitest'
import { madeWith, madeWithIn } from '../../src/made-with/made-with.ts'
import { colophonSheet } from '../../src/sheets/colophon-sheet.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { frame } from '../sites/small-binder.ts'

const LOCK = JSON.stringify({
  name: 'a-binder',
  lockfileVersion: 3,
  packages: {
    '': { version: '1.2.3', license: 'MIT', dependencies: { b: '1.0.0', a: '2.0.0' }, optionalDependencies: { c: '3.0.0' } },
    'node_modules/a': { version: '2.0.0', license: 'ISC' },
    'node_modules/b': { version: '1.0.0', license: 'MIT' },
    'node_modules/b/node_modules/a': { version: '1.9.0', license: 'MIT' },
    'node_modules/c': { version: '3.0.0', license: 'OFL-1.1', optional: true },
    'node_modules/t': { version: '9.0.0', license: 'MPL-2.0', dev: true },
  },
}) // biome-ignore format: a lock file reads better in rows

describe('by hand: the colophon', () => {
  const made = madeWithIn(LOCK)

  it('lists what is asked for by name, and counts all but what only tests want', () => {
    expect(made).toEqual({
      program: { name: 'a-binder', version: '1.2.3', licence: 'MIT' },
      libraries: [
        { name: 'a', version: '2.0.0', licence: 'ISC' },
        { name: 'b', version: '1.0.0', licence: 'MIT' },
        { name: 'c', version: '3.0.0', licence: 'OFL-1.1' },
      ],
      licences: [
        { licence: 'MIT', packages: 2 },
        { licence: 'ISC', packages: 1 },
        { licence: 'OFL-1.1', packages: 1 },
      ],
    })
  })

  it('a package without a licence is no longer counted on', () => {
    const { packages, ...rest } = JSON.parse(LOCK)
    const { license: _gone, ...bare } = packages['node_modules/b']
    const lock = JSON.stringify({ ...rest, packages: { ...packages, 'node_modules/b': bare } })
    expect(() => madeWithIn(lock)).toThrow('no licence of node_modules/b')
  })

  it('says how many there are in all, and each with its licence', () => {
    const sheet = colophonSheet({ ...frame, madeWith: made }, { id: 'colophon', number: '13.2' })
    expect(inlineWords(sheet.title)).toBe('What this binder was made with')
    expect(sheet.values.get('colophon.packages')?.shown).toBe('4')
    expect(sheet.values.get('colophon.MIT')?.shown).toBe('2')
    expect(sheet.blocks.libraries).toMatchObject({
      rows: [[{ text: 'a' }, { text: '2.0.0' }, { text: 'ISC' }], {}, {}],
    })
  })

  it('knows each library of this program', () => {
    const { program, libraries, licences } = madeWith()
    expect(program).toMatchObject({ name: 'kettle-and-kerf', licence: 'MIT' })
    expect(libraries.map(({ name }) => name)).toContain('@fontsource/noto-sans')
    expect(licences.length).toBeGreaterThan(5)
  })
})
