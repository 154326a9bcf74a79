import { spawn } from 'node:child_process'
import { describe, expect, test } from 'vitest'
import { identityFromText, identityToText, ownIdentity, stateOf } from '../../src/launch/process-identity.mjs'

const own = ownIdentity()
const linux = process.platform === 'linux'

describe('by hand', () => {
  test('there and back through a file name', () => {
    expect(identityFromText(identityToText(own))).toEqual(own)
    expect(identityToText(own)).toMatch(/^[0-9a-z-]+$/)
  })

  test.each(['', 'lock', '12', '12-13-a-b', '12-13-a-b-c-d', 'x-1-a-b-c'])('"%s" is no identity', (text) =>
    expect(identityFromText(text)).toBeUndefined(),
  )

  test('this process runs, or is unknown where the system does not say since when', () =>
    expect(stateOf(own)).toBe(linux ? 'running' : 'unknown'))

  test('the same number with another start is somebody who is gone', () =>
    expect(stateOf({ ...own, start: '1' })).toBe(linux ? 'gone' : 'unknown'))

  test('before the machine was started again: gone', () =>
    expect(stateOf({ ...own, boot: '0' })).toBe('gone'))

  test('another machine or another container: unknown', () => {
    expect(stateOf({ ...own, host: '0', boot: '0' })).toBe('unknown')
    expect(stateOf({ ...own, space: '0', pid: 1 })).toBe('unknown')
  })

  test('a system that does not say since when: unknown while the number is in use', () =>
    expect(stateOf({ ...own, start: 'x' })).toBe('unknown'))

  test('a process that has ended: gone', async () => {
    const child = spawn(process.execPath, ['-e', '0'])
    await new Promise((done) => child.on('close', done))
    expect(stateOf({ ...own, pid: child.pid ?? 0 })).toBe('gone')
  })
})
