import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, test } from 'vitest'
import { readOptions, UsageError } from '../../src/commands/options.ts'

const cwd = mkdtempSync(join(tmpdir(), 'options-'))
mkdirSync(join(cwd, 'my shop', 'inside'), { recursive: true })
writeFileSync(join(cwd, 'my shop', 'shop.yaml'), '')
afterAll(() => rmSync(cwd, { recursive: true, force: true }))

const root = fileURLToPath(new URL('../../', import.meta.url))
const read = (...args: string[]) => readOptions(args, { cwd }, true)
/** The words of the refusal; fails where nothing is refused. */
const refusal = async (args: string[], withOut = true): Promise<string> => {
  const error = await readOptions(args, { cwd }, withOut).then(
    () => undefined,
    (reason: unknown) => reason,
  )
  expect(error).toBeInstanceOf(UsageError)
  expect(error).toMatchObject({ plain: true, exitCode: 2 })
  return (error as UsageError).message
}

describe('by hand: what stands after a command', () => {
  test('nothing means the demo, with its binder beside the program', async () => {
    expect(await read()).toMatchObject({
      help: false,
      folder: join(root, 'content'),
      out: join(root, 'output'),
    })
  })

  test('a folder is named as it was typed, and holds its binder itself', async () => {
    const options = {
      help: false,
      folder: join(cwd, 'my shop'),
      shown: 'my shop',
      out: join(cwd, 'my shop', 'output'),
    }
    expect(await read('my shop')).toEqual(options)
    expect(await read('./my shop/')).toEqual(options)
    expect(await read(join(cwd, 'my shop'))).toEqual(options)
    expect(await readOptions(['.'], { cwd: join(cwd, 'my shop') }, true)).toEqual(options)
    expect(await readOptions(['..'], { cwd: join(cwd, 'my shop', 'inside') }, true)).toEqual(options)
  })

  test('--out is where the person stands, whatever the folder', async () => {
    expect((await read('my shop', '--out', 'b')).out).toBe(join(cwd, 'b'))
    expect((await read('--out=b', 'my shop')).out).toBe(join(cwd, 'b'))
    expect((await read('--out', '/b')).out).toBe('/b')
  })

  test('help is given even for a folder that is not there', async () => {
    expect(await read('--help')).toMatchObject({ help: true })
    expect(await read('gone', '-h')).toMatchObject({ help: true })
  })

  test('a folder that is not there, and a file', async () => {
    expect(await refusal(['gone'])).toBe('There is no folder gone. Name the folder that holds shop.yaml.')
    expect(await refusal(['my shop/shop.yaml'])).toBe(
      'my shop/shop.yaml is a file. Name the folder that holds shop.yaml.',
    )
    expect(await refusal(['a\0b'])).toContain('Name the folder that holds shop.yaml.')
  })

  test('two folders, which is what spaces without quotes make', async () => {
    expect(await refusal(['my', 'shop'])).toBe(
      'Name one folder, not 2. A folder with spaces in its name goes in quotes.',
    )
  })

  test('what is empty is not taken for something else', async () => {
    expect(await refusal([''])).toBe('The name of the folder is empty. Name the folder that holds shop.yaml.')
    expect(await refusal(['my shop', '--out='])).toBe(
      'Nothing is given after --out. Name the folder to write to.',
    )
  })

  test.each([['--force'], ['-x'], ['--out'], ['--help=yes'], ['--out', '--help']])(
    '%s is refused',
    async (...args) => {
      const words = await refusal(args)
      expect(words).toContain('Add --help to see what can be said.')
      expect(words).toContain(args[0]?.split('=')[0])
    },
  )

  test('a command that writes nothing takes no --out', async () => {
    expect(await refusal(['--out', 'b'], false)).toBe(
      'This command writes nothing, so --out means nothing here.',
    )
  })
})
