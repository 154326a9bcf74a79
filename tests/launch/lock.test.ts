import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { takeLock } from '../../src/launch/lock.mjs'
import { identityToText, ownIdentity } from '../../src/launch/process-identity.mjs'

let base: string
let path: string
let counter: string
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'lock-'))
  path = join(base, 'lock')
  counter = join(base, 'counter')
  writeFileSync(counter, '0')
})
afterEach(() => rmSync(base, { recursive: true, force: true }))

const HOLDER = fileURLToPath(new URL('lock-holder.ts', import.meta.url))
const SLOW = fileURLToPath(new URL('slow-newcomer.ts', import.meta.url))
const holder = (rounds: string) =>
  spawn(process.execPath, ['--import', 'tsx', HOLDER, path, counter, rounds], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
const ended = (child: ReturnType<typeof holder>) => new Promise((done) => child.on('close', done))

const leaveLock = (change: Partial<ReturnType<typeof ownIdentity>>) => {
  mkdirSync(path)
  const token = join(path, `${identityToText({ ...ownIdentity(), ...change })}+left`)
  writeFileSync(token, '')
  return token
}

describe('by hand', () => {
  test('held, refused with the holder’s number, released, held again', async () => {
    const first = await takeLock(path)
    expect(first.held).toBe(true)
    expect(await takeLock(path)).toMatchObject({ held: false, holder: { pid: process.pid } })
    if (first.held) first.release()
    const second = await takeLock(path)
    expect(second.held).toBe(true)
    if (first.held) first.release() // a second time: must not take the lock from its next holder
    expect(await takeLock(path)).toMatchObject({ held: false })
    if (second.held) second.release()
    expect(readdirSync(base)).toEqual(['counter'])
  })

  test('four processes, 25 rounds each: nothing is counted twice', async () => {
    const codes = await Promise.all(['25', '25', '25', '25'].map((rounds) => ended(holder(rounds))))
    expect(codes).toEqual([0, 0, 0, 0])
    expect(readFileSync(counter, 'utf8')).toBe('100')
    expect(readdirSync(base)).toEqual(['counter'])
  })

  test('a dead holder, eight newcomers at once: one gets it', async () => {
    leaveLock({ start: '1' })
    const locks = await Promise.all(Array.from({ length: 8 }, () => takeLock(path)))
    expect(locks.filter((lock) => lock.held)).toHaveLength(1)
  })

  test('a newcomer that still believes in the dead holder cannot take the lock from the next living one', async () => {
    leaveLock({ start: '1' })
    const slow = spawn(process.execPath, ['--import', 'tsx', SLOW, path], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    let said = ''
    const closed = new Promise((done) => slow.on('close', done))
    await new Promise<void>((done) =>
      slow.stdout.on('data', (part) => {
        said += part
        done()
      }),
    )
    const lock = await takeLock(path)
    expect(lock.held).toBe(true)
    await closed
    expect(said).toBe('seen\nrefused\n')
    expect(await takeLock(path)).toMatchObject({ held: false, holder: { pid: process.pid } })
  })

  test('a killed holder does not keep it', async () => {
    const child = holder('hold')
    await new Promise((done) => child.stdout.once('data', done))
    expect(await takeLock(path)).toMatchObject({ held: false, holder: { pid: child.pid } })
    child.kill('SIGKILL')
    await ended(child)
    expect(await takeLock(path)).toMatchObject({ held: true })
  })

  test('whoever waits is told once and gets it', async () => {
    const first = await takeLock(path)
    let told = 0
    const second = takeLock(path, {
      wait: 5_000,
      onWait: ({ pid }) => {
        told += 1
        expect(pid).toBe(process.pid)
      },
    })
    setTimeout(() => first.held && first.release(), 150)
    expect(await second).toMatchObject({ held: true })
    expect(told).toBe(1)
  })

  test('an empty lock, left by a kill while it was being released, is free', async () => {
    mkdirSync(path)
    expect(await takeLock(path)).toMatchObject({ held: true })
  })

  test('a holder elsewhere that is silent is taken over, one that shows signs of life is not', async () => {
    leaveLock({ host: '0' })
    expect(await takeLock(path, { silence: 200 })).toMatchObject({ held: true })
    rmSync(path, { recursive: true })
    const token = leaveLock({ host: '0' })
    let time = 1_000
    const beat = setInterval(() => utimesSync(token, time, time++), 60)
    expect(await takeLock(path, { silence: 1_000 })).toMatchObject({ held: false })
    clearInterval(beat)
  })

  test('a clock that is set while somebody waits takes no lock from a holder that shows signs of life', async () => {
    const token = leaveLock({ host: '0' })
    let time = 1_000
    const beat = setInterval(() => utimesSync(token, time, time++), 60)
    const real = Date.now
    let hours = 0
    // another day each time that it is asked, ahead or back
    Date.now = () => real() + 3_600_000 * (hours++ % 2 === 0 ? hours : -hours)
    try {
      expect(await takeLock(path, { silence: 1_000 })).toMatchObject({ held: false })
    } finally {
      Date.now = real
      clearInterval(beat)
    }
  })

  test('what a process that died while waiting had prepared is swept', async () => {
    mkdirSync(join(base, `lock~${identityToText({ ...ownIdentity(), start: '1' })}+left`))
    // of a machine that cannot be asked, by its age
    for (const [name, days] of [
      ['fresh', 0],
      ['old', -2],
      ['ahead', 4000],
    ] as const) {
      const prepared = join(base, `lock~${identityToText({ ...ownIdentity(), host: '0' })}+${name}`)
      mkdirSync(prepared)
      const time = Date.now() / 1000 + days * 24 * 3600
      utimesSync(prepared, time, time)
    }
    const lock = await takeLock(path)
    if (lock.held) lock.release()
    expect(readdirSync(base)).toEqual(['counter', expect.stringMatching(/^lock~.*\+fresh$/)])
  })

  test('a folder that is no lock is left alone', async () => {
    mkdirSync(path)
    writeFileSync(join(path, 'mine.txt'), '')
    await expect(takeLock(path)).rejects.toThrow('something else')
    expect(readdirSync(path)).toEqual(['mine.txt'])
  })
})
