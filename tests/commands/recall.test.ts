/** `recall` as somebody types it who has never seen it: what it writes, and what it says when nothing can be written. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/recall.ts'
import { editedDemo, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { bytesBelow, type Ran, runCommand } from './run-command.ts'

const { folder, remove } = editedDemo(WHOLE_DEMO)
const here = dirname(folder)
const elsewhere = mkdtempSync(join(tmpdir(), 'recall-test-'))
afterAll(() => {
  remove()
  rmSync(elsewhere, { recursive: true, force: true })
})

/** ms; the whole shop is reckoned first */
const PRINTING = 120_000

const recall = (...args: readonly string[]): Promise<Ran> => runCommand(run, [...args], here)

describe('by hand: recall', () => {
  it(
    'writes one page beside the binder, and leaves the binder as it is',
    async () => {
      mkdirSync(join(folder, 'output'))
      writeFileSync(join(folder, 'output/binder.json'), '{}')
      const before = bytesBelow(join(folder, 'output'))
      const ran = await recall('N-88', 'shop')
      expect(ran.code).toBe(0)
      // 105 cut, 6 tests, 2 rejected, 24 gone
      expect(ran.out).toContain(
        'Lot N-88: one batch (2027-01-10-hearth), 97 bars fit for sale, 24 gone, 73 in the shop.',
      )
      const written = bytesBelow(join(folder, 'recall/N-88'))
      expect([...written.keys()].filter((name) => !name.startsWith('.'))).toEqual([
        'index.html',
        'recall.pdf',
      ])
      expect(written.get('recall.pdf')?.subarray(0, 5).toString()).toBe('%PDF-')
      const page = written.get('index.html')?.toString() ?? ''
      for (const words of ['Tallgate Chemical', 'Hillside farm stand', 'HH-0214', 'window rack'])
        expect(page).toContain(words)
      expect(bytesBelow(join(folder, 'output'))).toEqual(before)
    },
    PRINTING,
  )

  it('refuses to take the place of a binder', async () => {
    const ran = await recall('N-88', 'shop', '--out', 'shop/output')
    expect(ran.code).toBe(2)
    expect(ran.err).toContain('holds a binder')
  })

  it(
    'writes where it is told, of a lot that nothing used',
    async () => {
      const ran = await recall('C-1187', '--out', join(elsewhere, 'page'), 'shop')
      expect(ran.code).toBe(0)
      expect(ran.out).toContain('Lot C-1187: by the records no batch holds any of it.')
      expect(readdirSync(join(elsewhere, 'page'))).toContain('recall.pdf')
    },
    PRINTING,
  )

  it.each([
    [
      'a lot that is misspelt',
      ['N-8', 'shop'],
      'There is no lot, no batch and no code "N-8". Did you mean "N-88"?',
    ],
    ['no lot', [], 'Name what is called back'],
    ['a folder in place of a lot', [folder], 'That is a folder: name the lot before it'],
    ['a folder that is not there', ['N-88', 'shed'], 'There is no folder shed.'],
    ['an option that there is not', ['N-88', '--lot', 'x'], 'Add --help to see what can be said.'],
  ])('says in plain words what is wrong: %s', async (_what, args, expected) => {
    const ran = await recall(...args)
    expect(ran.code).toBe(2)
    expect(ran.err).toContain(expected)
    expect(ran.out).toBe('')
  })

  it('ends with 1 when the folder has a mistake', async () => {
    writeFileSync(
      join(folder, 'stock/more.yaml'),
      'entries:\n  - { date: 2027-02-30, lost: N-88, amount: 1 g }\n',
    )
    const ran = await recall('N-88', 'shop')
    rmSync(join(folder, 'stock/more.yaml'))
    expect(ran.code).toBe(1)
    expect(ran.err).toContain('not-a-date')
  })
})
