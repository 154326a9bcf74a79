/** The demo built twice: every file of the two binders is the same. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/build.ts'
import { bytesBelow, runCommand } from '../commands/run-command.ts'

const base = mkdtempSync(join(tmpdir(), 'same-bytes-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

describe('by hand: a binder that is built again', () => {
  it('is the same, byte by byte', async () => {
    const [once, again] = [join(base, 'once'), join(base, 'again')]
    for (const out of [once, again]) {
      const { code, err } = await runCommand(run, ['--out', out], base)
      expect(code, err).toBe(0)
    }
    const [first, second] = [bytesBelow(once), bytesBelow(again)]
    expect(first.size).toBeGreaterThan(50)
    expect([...second.keys()]).toEqual([...first.keys()])
    const different = [...first].filter(([name, bytes]) => !bytes.equals(second.get(name) as Buffer))
    expect(different.map(([name]) => name)).toEqual([])
  })
})
