/** `what-if` as somebody types it: what it tells, what it refuses, and that nothing is written. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run as check } from '../../src/commands/check.ts'
import { run as printed } from '../../src/commands/printed.ts'
import { run } from '../../src/commands/what-if.ts'
import type { WhatIfData } from '../../src/what-if/as-data.ts'
import { bytesBelow, type Ran, runCommand } from './run-command.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
const here = mkdtempSync(join(tmpdir(), 'what-if-test-'))
const shop = join(here, 'shop')
const BATCH = 'batch.2027-02-01-plain'
const SHEET = 'batch/2027-02-01-plain'

const edit = (file: string, from: string, to: string): void => {
  const path = join(shop, file)
  const text = readFileSync(path, 'utf8')
  if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
  writeFileSync(path, text.replace(from, to))
}
beforeAll(() => {
  cpSync(base, shop, { recursive: true })
  edit('batches/2027-02-01-plain.yaml', 'fill: to the line', 'oils: 2 kg')
})
afterAll(() => rmSync(here, { recursive: true, force: true }))

const whatIf = (...args: readonly string[]): Promise<Ran> => runCommand(run, ['shop', ...args], here)
const told = async (...args: readonly string[]): Promise<string> => {
  const { code, out, err } = await whatIf(...args)
  expect([code, err]).toEqual([0, ''])
  return out
}
const data = async (...args: readonly string[]): Promise<WhatIfData> =>
  JSON.parse(await told(...args, '--json')) as WhatIfData

/** Names, bytes and times of all that is there. */
const folderNow = () => [
  readdirSync(here).sort(),
  ...[...bytesBelow(shop)].map(([name, bytes]) => [
    name,
    bytes.toString('latin1'),
    statSync(join(shop, name)).mtimeMs,
    statSync(join(shop, name)).ctimeMs,
  ]),
]

/** Of the folder as it is at first. */
let more: Promise<string>

describe('by hand: npm run what-if', () => {
  it('tells alkali in proportion to the oils, and writes nothing', async () => {
    const before = folderNow()
    const { numbers } = await data('--set', `${BATCH}.oils=3 kg`)
    // 70 % of 190 and 30 % of 256.5 mg KOH/g are 209.95 mg/g; by 39.9971/56.1056 as NaOH, 6 % superfat, 99 % pure:
    // 0.20995 · 0.712889 · 0.94 / 0.99 = 0.142112 kg for each kg of oils, 284.2 g for 2 kg, 426.3 g for 3 kg
    expect(numbers.find(({ sheet, name }) => sheet === SHEET && name === 'naoh.mass')).toMatchObject({
      unit: 'kg',
      before: expect.closeTo(0.2842, 3),
      beforeShown: expect.stringMatching(/^284\sg$/),
      after: expect.closeTo(0.4263, 3),
      afterShown: expect.stringMatching(/^426\sg$/),
      settings: [],
    })
    expect(numbers.find(({ sheet, name }) => sheet === SHEET && name === 'oils.mass')).toMatchObject({
      before: 2,
      after: 3,
    })
    expect(folderNow()).toEqual(before)
  })

  beforeAll(() => {
    more = told('--set', `${BATCH}.oils=3 kg`)
    return more
  })

  it('tells a number once with all of its sheets, by the sheet that has it first', async () => {
    const out = await more
    expect(out).toMatch(/^ {2}batch\.2027-02-01-plain\.oils: 2 kg → 3 kg$/m)
    expect(out).toMatch(/Sodium hydroxide.* 284\sg → 426\sg +also on .*\d+\.\d+/)
    expect(out.match(/284\sg → 426\sg/g)).toHaveLength(1)
    expect(out).toContain('Nothing was written.')
  })

  it('tells the most important forty, and with --all every one', async () => {
    const rows = (out: string): number => (out.match(/ → /g)?.length ?? 0) - 1
    const some = await more
    const { columns } = process.stdout
    process.stdout.columns = 58
    const all = await told('--set', `${BATCH}.oils=3 kg`, '--all')
    process.stdout.columns = columns
    expect(rows(some)).toBe(40)
    expect(rows(all)).toBeGreaterThan(80)
    expect(some).toContain('With --all every one is told.')
    expect(all).not.toContain('--all')
    expect(all.split('\n').filter((line) => [...line].length > 58)).toEqual([])
  })

  it('tells a stop with its reason before all numbers, and the sheets that go', async () => {
    const out = await told('--set', 'recipe.plain.superfat=1 %')
    expect(out).toMatch(
      /^What if\n.*\n\nWould be stopped:\n {2}\d\.\d Plain\sbar,\s1\sFebruary\s2027\n {4}– .*superfat/,
    )
    const { sheets } = await data('--set', 'recipe.plain.superfat=1 %')
    expect(sheets.find(({ id }) => id === SHEET)).toMatchObject({ before: 'good', after: 'stopped' })
    expect(sheets.find(({ id }) => id.startsWith('card/weigh/'))).toMatchObject({
      change: 'goes',
      after: null,
    })
  })

  it('tells what holds a batch, and what would hold it no longer', async () => {
    const out = await told('--leave-out', 'recipe.plain.tried')
    expect(out).toContain('Would be held:')
    edit('recipes/plain.yaml', 'tried:', '# tried:')
    const freed = await told(
      '--set',
      'recipe.plain.tried={ where: loaf 1, oils: 700 g, minutes-to-thick: 20, behaviour: calm }',
    )
    edit('recipes/plain.yaml', '# tried:', 'tried:')
    expect(freed).toContain('Would be held no longer:')
  })

  it('tells conflicts that come and go, and not those that only move', async () => {
    const second = 'recipe: plain, mould: small, date: 2027-02-01, oils: 2 kg, pour-at: 3 pm'
    const comes = await told('--set', `batch.2027-02-01-second={ ${second} }`)
    expect(comes).toMatch(/^New conflicts:\n {2}\d\.\d {2}\S/m)
    expect(comes).toMatch(/^New sheets \(\d+\):\n {2}\d\.\d Plain/m)

    const file = join(shop, 'batches/2027-02-01-second.yaml')
    writeFileSync(file, `{ ${second} }\n`)
    const goes = await data('--leave-out', 'batch.2027-02-01-second')
    const moves = await data('--set', 'batch.2027-02-01-second.pour-at=3:30 pm')
    rmSync(file)
    expect(new Set(goes.conflicts.map(({ change }) => change))).toEqual(new Set(['goes']))
    expect(moves.conflicts).toEqual([])
    // the plan says by which hours they meet
    expect(
      moves.numbers.some(
        ({ sheet, name }) => sheet === 'cure/plan' && name.startsWith('finding.two-at-once'),
      ),
    ).toBe(true)
  })

  it('tells which of several settings a number hangs on', async () => {
    const out = await told(
      ...['--set', 'alkalis.beads.purity=97 %', '--set', 'shop.limits.hot-lift=9 kg', '--set', 'shop.name=X'],
    )
    expect(out).toMatch(/^ {2}\[1\] Sodium hydroxide/m)
    expect(out).toMatch(/^ {2}\[2\] Alone, .* 10\.0\skg → 9\.0\skg/m)
    expect(out).toContain('No number was found to hang on [3].')
  })

  it('says that a value is as it is already, and that nothing hangs on another', async () => {
    const same = await told('--set', `${BATCH}.oils=2 kg`)
    expect(same).toContain('2 kg, as it is already')
    expect(same).toContain('On no sheet would anything read otherwise.')
    const unseen = await told('--set', 'shop.contacts.1.who={ en: Ambulance, es: Ambulancia }')
    expect(unseen).toContain('On no sheet would anything read otherwise.')
  })

  it('tells all mistakes of all settings in one run, each at its setting, and nothing else', async () => {
    const wrong = await whatIf(
      ...['--set', `${BATCH}.oil=9 kg`, '--set', `${BATCH}.oils=9`, '--set', 'recipe.plain.fats.olvie=1 %'],
      ...['--set', 'shop.scales.fine={ capacity: 2 kg, divisin: 1 g }', '--set', `${BATCH}.fill=to the line`],
    )
    expect([wrong.code, wrong.out]).toEqual([1, ''])
    for (const words of [
      `--set ${BATCH}.oil\n"oil" is not known`,
      `Did you mean ${BATCH}.oils?`,
      `--set ${BATCH}.oils  error  unit-missing\n"9" has no unit`,
      '--set recipe.plain.fats.olvie  error  unknown-name',
      '--set shop.scales.fine:1:19  error  name-unknown\n"divisin" is not known here',
    ])
      expect(wrong.err).toContain(words)
    expect(wrong.err).not.toContain('shop/')
  })

  it('shows a mistake between a setting and the file where the file has it', async () => {
    const shares = await whatIf('--set', 'recipe.plain.fats.olive=60 %')
    expect([shares.code, shares.out]).toEqual([1, ''])
    expect(shares.err).toContain('As the folder would be with what was set:')
    expect(shares.err).toMatch(/shop\/recipes\/plain\.yaml:3:1 {2}error {2}shares-not-100\n.*90 %/)
    const both = await whatIf('--set', `${BATCH}.fill=to the line`)
    expect(both.err).toContain(`--leave-out ${BATCH}.oils`)
    expect((await whatIf('--set', `${BATCH}.fill=to the line`, '--leave-out', `${BATCH}.oils`)).code).toBe(0)
  })

  it('tells mistakes of the folder itself as check does', async () => {
    edit('shop.yaml', 'hot-lift: 10 kg', 'hot-lift: 10')
    const wrong = await whatIf('--set', `${BATCH}.oils=3 kg`)
    const checked = await runCommand(check, ['shop'], here)
    edit('shop.yaml', 'hot-lift: 10', 'hot-lift: 10 kg')
    expect(wrong).toEqual(checked)
    expect(wrong.code).toBe(1)
  })

  it('names papers that hang and would be out of date', async () => {
    const ran = await runCommand(
      printed,
      ['shop', '--sheets', SHEET, '--where', 'wall', '--date', '2027-01-05'],
      here,
    )
    expect(ran.code).toBe(0)
    const out = await told('--set', `${BATCH}.oils=3 kg`)
    expect(out).toMatch(
      /^Papers that would be out of date \(1\):\n {2}\d\.\d Plain\sbar,\s1\sFebruary\s2027, wall$/m,
    )
    rmSync(join(shop, 'records'), { recursive: true })
  })

  it('says what is missing in what was typed', async () => {
    expect(await whatIf()).toMatchObject({ code: 2, out: '' })
    expect((await whatIf('--set', BATCH)).err).toContain(`Write --set "${BATCH}=VALUE"`)
    expect((await whatIf('--set', `'${BATCH}=1`)).err).toContain('single quote')
    expect((await whatIf('--sett', 'x=1')).err).toContain('--help')
    const helped = await runCommand(run, ['-h'], here)
    expect(helped).toMatchObject({ code: 0, err: '' })
    for (const shell of ['bash', 'PowerShell', 'cmd']) expect(helped.out).toContain(shell)
  })
})
