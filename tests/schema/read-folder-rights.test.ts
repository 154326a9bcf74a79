import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'

// Refused by a stand-in: whoever runs tests as the owner of the machine may read everything.
const closed = vi.hoisted(() => new Map<string, string>())
vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>()
  const guarded =
    <Rest extends unknown[], Out>(call: (path: string, ...rest: Rest) => Promise<Out>) =>
    (path: string, ...rest: Rest): Promise<Out> => {
      const code = closed.get(path)
      return code === undefined
        ? call(path, ...rest)
        : Promise.reject(Object.assign(new Error(`${code}: ${path}`), { code }))
    }
  return { ...real, readFile: guarded(real.readFile), readdir: guarded(real.readdir) }
})
afterEach(() => closed.clear())

const base = fileURLToPath(new URL('../diagnostics/base', import.meta.url))

describe('by hand: what the machine does not let one read', () => {
  test.each([
    ['EACCES', 'you may not read it'],
    ['EPERM', 'you may not read it'],
    ['EIO', 'it cannot be opened'],
    ['EMFILE', 'it cannot be opened'],
  ])('%s is said once for each, with the reason', async (code, reason) => {
    closed.set(join(base, 'fixtures'), code)
    closed.set(join(base, 'materials', 'all.yaml'), code)
    closed.set(join(base, 'shop.yaml'), code)
    const { files, diagnostics } = await readFolder(base, 'binder', FILE_KINDS)
    const all = [...diagnostics, ...loadContent(files, 'binder').diagnostics]
    expect(all.map(({ file, message }) => `${file} ${message}`)).toEqual([
      `binder/fixtures This folder cannot be read: ${reason}`,
      `binder/materials/all.yaml This file cannot be read: ${reason}`,
      `binder/shop.yaml This file cannot be read: ${reason}`,
    ])
  })
})
