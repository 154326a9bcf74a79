/** The same folder on machines in other places: the same words, the same numbers, the same days. */
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const SCRIPT = fileURLToPath(new URL('../sites/composed-hash.ts', import.meta.url))

const onMachine = (env: Readonly<Record<string, string>>): Promise<string> =>
  new Promise((done, fail) => {
    const { LANG: _lang, LC_ALL: _all, LANGUAGE: _language, TZ: _zone, ...rest } = process.env
    const child = spawn(process.execPath, ['--import', 'tsx', SCRIPT], { env: { ...rest, ...env } })
    let said = ''
    child.stdout.on('data', (part) => {
      said += part
    })
    child.stderr.on('data', (part) => {
      said += part
    })
    child.on('error', fail)
    child.on('close', () => done(said.trim()))
  })

describe('by hand: a folder on another machine', () => {
  it('gives the same sheets in Kiribati in German and on the Aleutians in Turkish', async () => {
    const german = await onMachine({ TZ: 'Pacific/Kiritimati', LANG: 'de_DE.UTF-8' })
    const turkish = await onMachine({ TZ: 'America/Adak', LC_ALL: 'tr_TR.UTF-8' })
    const [one, other] = [german.split(' '), turkish.split(' ')]
    expect(one[0]).toMatch(/^[0-9a-f]{64}$/)
    expect(Number(one[1])).toBeGreaterThan(100_000)
    expect(other.slice(0, 2)).toEqual(one.slice(0, 2))
    // these machines do differ: another day by the clock on the wall, the decimal mark of their languages
    expect(one[2]).not.toBe(other[2])
  }, 120_000)
})
