/** Bars that no cutter parts: `new` tries one turned, and asks for it again with all other answers kept, or refuses it. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/new.ts'
import { fakeTerminal } from './fake-terminal.ts'
import { runCommand } from './run-command.ts'

const here = mkdtempSync(join(tmpdir(), 'turned-test-'))
afterAll(() => rmSync(here, { recursive: true, force: true }))

describe('by hand: a bar of 80 by 60 mm in a block of 4 by 3 loaves', () => {
  it('is made turned, after it was asked for once more', async () => {
    const answers = ['Ridge Road', '', 'A4', '', '', '80 x 60 x 25 mm', '4x3x6', '2027-01-16']
    const terminal = fakeTerminal(...answers, '60 x 80 x 25 mm', '4x3x6')
    const { code, out } = await runCommand(
      (typed, context) => run(typed, context, terminal.asker),
      ['own'],
      here,
    )
    expect(out).toContain('Turned, 60 mm x 80 mm x 25 mm, the same bar can be made')
    expect(code).toBe(0)
    const fixture = readFileSync(join(here, 'own/fixtures/first-block.yaml'), 'utf8')
    expect(fixture).toMatch(/along-length: 60 mm/)
    expect(fixture).toMatch(/along-width: 80 mm/)
    expect(readFileSync(join(here, 'own/shop.yaml'), 'utf8')).toContain('Ridge Road')
  }, 300_000)
})

describe('by hand: eighteen loaves on end', () => {
  it('refuses a block that its cutters could not part, with the reasons, and writes nothing', async () => {
    const ran = await runCommand(run, ['large', '--yes', '--grid', '9x2x3', '--date', '2027-03-14'], here)
    expect(ran.code).toBe(2)
    expect(ran.err).toContain('Long wire')
    expect(ran.err).toContain('Nothing was written')
    expect(readdirSync(here).some((name) => name.includes('large'))).toBe(false)
  }, 60_000)
})
