/** `printed` as somebody types it: what it writes down, what it refuses, and what the binder says of it afterwards. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { compose } from '../../src/commands/compose.ts'
import { run } from '../../src/commands/printed.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { fakeTerminal } from './fake-terminal.ts'
import { type Ran, runCommand } from './run-command.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
const here = mkdtempSync(join(tmpdir(), 'printed-test-'))
const shop = join(here, 'shop')
beforeAll(() => cpSync(base, shop, { recursive: true }))
afterAll(() => rmSync(here, { recursive: true, force: true }))

const printed = (...args: readonly string[]): Promise<Ran> => runCommand(run, ['shop', ...args], here)
const records = (): string => readFileSync(join(shop, 'records/printed.yaml'), 'utf8')
const edit = (file: string, from: string, to: string): void => {
  const path = join(shop, file)
  const text = readFileSync(path, 'utf8')
  if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
  writeFileSync(path, text.replace(from, to))
}
const now = async (causes = false) => {
  const { binder, diagnostics } = await compose(shop, 'shop', undefined, { causes })
  if (!binder) throw new Error(diagnostics.map(({ message }) => message).join('\n'))
  return binder
}

describe('by hand: npm run printed', () => {
  it('says what is missing, and what it does not know', async () => {
    expect((await printed()).err).toContain('Say which sheets')
    expect((await printed('--sheets', '2.1')).err).toContain('Say where')
    expect((await printed('--sheets', 'cautions/lie', '--where', 'tap')).err).toContain(
      'Did you mean "cautions/lye"?',
    )
    expect((await printed('--sheets', '2.1', '--where', 'x', '--date', '2027-02-30')).err).toContain(
      'is no day',
    )
    expect((await printed('--taken-down', '2.1')).err).toContain('no paper "2.1" hangs anywhere')
    expect((await printed('--sheets', '2.1', '--gone', '2.2', '--where', 'x')).err).toContain('one at a time')
  })

  it('writes papers down without changing a byte of any sheet', async () => {
    const before = await now()
    const ran = await printed('--sheets', 'cards,2.1,4.1', '--where', 'wall: "left"', '--date', '2027-01-05')
    expect(ran.code).toBe(0)
    const after = await now()
    expect(after.revised.filter(({ recorded }) => recorded).length).toBeGreaterThan(4)
    expect(after.revised.map(({ sheet, code }) => [sheet, code])).toEqual(
      before.revised.map(({ sheet, code }) => [sheet, code]),
    )
    expect(after.papers?.outOfDate).toEqual([])
  })

  it('asks at a terminal for what was not said, and again for what it does not know', async () => {
    const before = records()
    const hung = fakeTerminal('x', 'h', 'cautions/lie', '2.1', '', 'by the door', '', 'Ann')
    const ran = await runCommand(
      (args, context) => run(args, context, hung.asker),
      ['shop', '--date', '2027-01-05'],
      here,
    )
    expect(ran.code).toBe(0)
    for (const words of ['Type one of: h, t.', 'Did you mean "cautions/lye"?', 'Name the place'])
      expect(hung.screen()).toContain(words)
    expect(records().slice(before.length)).toMatch(
      /how: laminated\n {4}where: by the door\n {4}by: Ann\n {4}sheets:\n {6}- \{ sheet: [^\n]*\n$/,
    )
    const taken = fakeTerminal('t', '9.9', '2.1')
    const down = await runCommand(
      (args, context) => run(args, context, taken.asker),
      ['shop', '--date', '2027-01-05', '--where', 'by the door'],
      here,
    )
    expect(down.code).toBe(0)
    expect(taken.screen()).toContain('no paper "9.9" hangs at "by the door"')
    expect(records()).toContain('how: taken-down')
    writeFileSync(join(shop, 'records/printed.yaml'), before)
    const silent = await runCommand(
      (args, context) => run(args, context, fakeTerminal('h').asker),
      ['shop'],
      here,
    )
    expect(silent.code).toBe(2)
    expect(records()).toBe(before)
  })

  it('leaves comments and line ends of the maker where they are', async () => {
    writeFileSync(join(shop, 'records/printed.yaml'), `# mine\n${records()}# below`)
    const before = records()
    expect((await printed('--sheets', '2.2', '--where', 'tap', '--date', '2027-01-05')).code).toBe(0)
    expect(records().startsWith(`${before}\n  - date: 2027-01-05\n`)).toBe(true)
  })

  it('refuses a day before the last one', async () => {
    const ran = await printed('--sheets', '2.2', '--where', 'tap', '--date', '2027-01-04')
    expect(ran.code).toBe(2)
    expect(ran.err).toContain('order of their days')
  })

  it('is followed by the binder: what changed, why, and the next revision', async () => {
    edit('recipes/plain.yaml', 'superfat: ', 'superfat: 1')
    const binder = await now(true)
    const wrong = binder.papers?.outOfDate ?? []
    const batch = wrong.find(({ paper }) => paper.sheet.startsWith('batch/'))
    expect(batch?.now?.revision).toBe(2)
    expect(batch?.safety).toBe(true)
    const causes = new Set(
      [...(batch?.causes.values() ?? [])].flat().map(({ file, path }) => `${file} ${path.join(' ')}`),
    )
    expect([...causes]).toEqual(['recipes/plain.yaml superfat'])
    for (const { name, before, now: shown } of batch?.changes?.values ?? []) {
      expect(before).not.toBe(shown)
      const sheet = binder.sheets.find(({ id }) => id === batch?.paper.sheet)
      if (shown !== undefined) expect(sheet?.values.get(name)?.shown).toBe(shown)
    }
    const page = binder.sheets.find(({ kind }) => kind === 'printed')
    expect(page && [...page.values.values()].map(({ shown }) => shown)).toContain(batch?.now?.code)
    expect(page && inlineWords(page.revision)).toBe('new with each print')
  })

  it('goes on where what was shown is deleted', async () => {
    rmSync(join(shop, 'records/as-printed'), { recursive: true })
    const wrong = (await now(true)).papers?.outOfDate ?? []
    expect(wrong.length).toBeGreaterThan(0)
    expect(wrong.every(({ changes, safety }) => changes === undefined && safety)).toBe(true)
  })

  it('takes papers down, by number or code, and gives an old content its old revision again', async () => {
    const wrong = (await now()).papers?.outOfDate ?? []
    const code = wrong[0]?.paper.code ?? ''
    expect((await printed('--taken-down', code.toLowerCase(), '--date', '2027-01-06')).code).toBe(0)
    expect((await now()).papers?.outOfDate.map(({ paper }) => paper.code)).not.toContain(code)
    edit('recipes/plain.yaml', 'superfat: 1', 'superfat: ')
    const again = (await now()).revised.find((one) => one.code.code === code)
    expect(again).toMatchObject({ revision: 1, recorded: true })
  })

  it('leaves a list in brackets to the maker', async () => {
    writeFileSync(join(shop, 'records/printed.yaml'), 'entries: []\n')
    const ran = await printed('--sheets', '2.2', '--where', 'tap', '--date', '2027-01-06')
    expect(ran.code).toBe(2)
    expect(records()).toBe('entries: []\n')
  })
})
