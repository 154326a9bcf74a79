/** `check` sees what a build sees, and writes nothing. */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/check.ts'
import { BATCH, type Edits, editedDemo, MOULD, STATES } from '../sites/edited-demo.ts'
import { bytesBelow, type Ran, runCommand } from './run-command.ts'

const base = mkdtempSync(join(tmpdir(), 'check-test-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

const check = async (
  edits: Edits,
): Promise<Ran & { readonly before: string[]; readonly after: string[] }> => {
  const { folder, remove } = editedDemo(edits)
  try {
    const before = [...bytesBelow(folder).keys()]
    const ran = await runCommand(run, ['shop'], dirname(folder))
    return { ...ran, before, after: [...bytesBelow(folder).keys()] }
  } finally {
    remove()
  }
}

const TO_WRITE = `to write: shop/shop.yaml:38, 39, 42, 43  contacts: write your own number here before the first batch
to write: shop/materials/alkalis.yaml:9, 15  alkalis: write the lot from the drum
`

describe('by hand: check', () => {
  it('names what nobody wrote yet, once a file, and no more of it once it is written', async () => {
    const some = await check({
      'shop.yaml': [
        [
          / {2}- who: \{ en: Ambulance[\s\S]*?(?= {2}- who)/,
          '  - who: Ambulance\n    reach: 555 0100 # write your own number here before the first batch\n',
        ],
        [/ {2}- who: \{ en: Poison[\s\S]*?(?=\nroom:)/, ''],
      ],
      'materials/alkalis.yaml': [
        [/ {4}lot: \{ en: write[^\n]*\n(?= {2}potash)/, '    lot: N-1\n'],
        [/ {4}lot: \{ en: write[^\n]*\n(?=\n# A lye)/, ''],
      ],
    })
    expect(some.err).toBe('')
  })

  it('says that all is well, and writes nothing', async () => {
    const well = await check({})
    // of a demo that nobody should dial a number of
    expect(well).toMatchObject({ code: 0, err: TO_WRITE })
    expect(well.out).toMatch(/^shop: \d\d sheets, nothing wrong\.\n$/)
    expect(well.after).toEqual(well.before)
  })

  it('takes the demo when no folder is named', async () => {
    const well = await runCommand(run, [], base)
    expect(well.code).toBe(0)
    // the demo shows a batch that is stopped
    expect(well.out).toMatch(
      /: \d+ sheets, no mistakes; 1 stopped, see above; held for a test: 4\.3 \(Lather bar, .*\), 4\.5 \(.*\)\.\n$/,
    )
    expect(readdirSync(base)).toEqual([])
  })

  it('names a conflict of dates with its line, and ends with 0', async () => {
    const met = await check({
      'batches/2027-03-14-second.yaml':
        'recipe: hearth\nmould: five-by-three\ndate: 2027-03-14\npour-at: 3 pm\nfill: to the line\nlye: { ice: as needed }\n',
    })
    expect(met.code).toBe(0)
    expect(met.err).toMatch(
      /^conflict: cure\/plan {2}mould-occupied {2}.*Hearth bar \(4\.2\).*\(shop\/batches\/2027-03-14-second\.yaml:3\)$/m,
    )
    // one mould for two, and the second is past its hottest only at night
    expect(met.out).toMatch(/no mistakes; 2 stopped, 3 conflicts, see above\./)
  })

  it('ends with 1 and tells all mistakes in one run', async () => {
    const wrong = await check({
      'recipes/hearth.yaml': [['  olive: 38 %', '  oliv: 38 %']],
      'shop.yaml': [['elbow-height: 41 in', 'elbow-height: 41']],
    })
    expect(wrong.code).toBe(1)
    expect(wrong.out).toBe('')
    expect(wrong.err).toMatch(/shop\/recipes\/hearth\.yaml:\d+:\d+/)
    expect(wrong.err).toMatch(/shop\/shop\.yaml:\d+:\d+/)
    expect(wrong.after).toEqual(wrong.before)
  })

  it('ends with 0 for a stop, and names every sheet that it takes away', async () => {
    const stopped = await check(STATES['dado too deep'])
    expect(stopped.code).toBe(0)
    expect(stopped.err).toContain(`stopped: ${MOULD}  mould-dado-too-deep`)
    expect(stopped.err).toContain(`stopped: ${BATCH}  mould-dado-too-deep`)
  })

  it('ends with 1 for a page that names a value nothing shows', async () => {
    const wrong = await check({ 'pages/note.md': `# Note\n\nWe use [[${BATCH}: naoh.mas]].\n` })
    expect(wrong.code).toBe(1)
    expect(wrong.err).toMatch(/shop\/pages\/note\.md:3:\d+/)
    expect(wrong.err).toContain('naoh.mas')
  })

  it('has nowhere to write to, and says so with 2', async () => {
    const wrong = await runCommand(run, ['--out', 'x'], base)
    expect(wrong.code).toBe(2)
    expect(wrong.err).toContain('--out')
  })

  it('explains itself', async () => {
    const helped = await runCommand(run, ['-h'], base)
    expect(helped).toMatchObject({ code: 0, err: '' })
    expect(helped.out).toContain('Writes nothing.')
  })
})
