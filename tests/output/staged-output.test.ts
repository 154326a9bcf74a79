import { spawn, spawnSync } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { identityToText, ownIdentity } from '../../src/launch/process-identity.mjs'
import { MARKER } from '../../src/output/marker.ts'
import { OutputError } from '../../src/output/output-error.ts'
import { withStagedOutput } from '../../src/output/staged-output.ts'
import { canMount, onlyRead, smallDisk, withMounts } from './own-mounts.ts'

let base: string
let target: string

beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'staged-output-'))
  target = join(base, 'output')
  mkdirSync(join(base, 'temporary'))
  vi.stubEnv('TMPDIR', join(base, 'temporary'))
})
afterEach(() => {
  vi.unstubAllEnvs()
  rmSync(base, { recursive: true, force: true })
})

const put = (text: string) => async (staging: string) => writeFileSync(join(staging, 'page.html'), text)
const page = () => readFileSync(join(target, 'page.html'), 'utf8')
const beside = () => readdirSync(base).filter((name) => name !== 'temporary')
const workFolders = () =>
  readdirSync(join(base, 'temporary')).filter((name) => name.startsWith('kettle-and-kerf'))
const refusal = async (attempt: Promise<unknown>): Promise<string> => {
  const error = await attempt.then(
    () => undefined,
    (thrown: unknown) => thrown,
  )
  expect(error).toBeInstanceOf(OutputError)
  expect(error).toMatchObject({ exitCode: 2, plain: true })
  return (error as Error).message
}

describe('by hand', () => {
  test('writes, then replaces, and leaves nothing beside', async () => {
    expect(await withStagedOutput(target, async (staging) => put('one')(staging).then(() => 7))).toBe(7)
    expect(page()).toBe('one')
    await withStagedOutput(target, async (staging) => writeFileSync(join(staging, 'other.html'), 'two'))
    expect(readdirSync(target).sort()).toEqual([MARKER, 'other.html'])
    expect(beside()).toEqual(['output'])
    expect(workFolders()).toEqual([])
  })

  test('both folders are empty at first, and the work folder is gone afterwards', async () => {
    let seen = ''
    await withStagedOutput(target, async (staging, work) => {
      expect(readdirSync(staging)).toEqual([MARKER])
      expect(readdirSync(work)).toEqual([])
      writeFileSync(join(work, 'scrap'), '')
      seen = work
    })
    expect(existsSync(seen)).toBe(false)
  })

  test('a failure leaves the output before as it was and comes through unchanged', async () => {
    await withStagedOutput(target, put('one'))
    const fault = new Error('fault in a sheet')
    const attempt = withStagedOutput(target, async (staging) => {
      await put('half')(staging)
      throw fault
    })
    await expect(attempt).rejects.toBe(fault)
    expect(page()).toBe('one')
    expect(beside()).toEqual(['output'])
  })

  test('the same pages give the same bytes, marker included', async () => {
    const marker = () => readFileSync(join(target, MARKER), 'utf8')
    await withStagedOutput(target, put('one'))
    const first = marker()
    await withStagedOutput(target, put('one'))
    expect(marker()).toBe(first)
  })

  test('two at once: the second is refused and the first ends well', async () => {
    let goOn = () => {}
    const held = new Promise<void>((done) => {
      goOn = done
    })
    let begun = () => {}
    const running = new Promise<void>((done) => {
      begun = done
    })
    const first = withStagedOutput(target, async (staging) => {
      begun()
      await held
      await put('first')(staging)
    })
    await running
    expect(await refusal(withStagedOutput(target, put('second')))).toContain(
      `another run (process ${process.pid})`,
    )
    goOn()
    await first
    expect(page()).toBe('first')
    expect(beside()).toEqual(['output'])
  })

  test('a used-again process number does not block', async () => {
    const lock = join(base, '.output.lock')
    mkdirSync(lock)
    // Our own number, running now, but with the start of somebody who is gone.
    writeFileSync(join(lock, `${identityToText({ ...ownIdentity(), start: '1' })}+abc`), '')
    await withStagedOutput(target, put('one'))
    expect(page()).toBe('one')
  })

  test('a lock from before the machine was started again does not block', async () => {
    const lock = join(base, '.output.lock')
    mkdirSync(lock)
    writeFileSync(join(lock, `${identityToText({ ...ownIdentity(), boot: '0000' })}+abc`), '')
    await withStagedOutput(target, put('one'))
    expect(page()).toBe('one')
  })

  test('killed between the two renames: the output before is put back, even when the next run fails', async () => {
    await withStagedOutput(target, put('one'))
    renameSync(target, join(base, '.output.previous'))
    await expect(withStagedOutput(target, () => Promise.reject(new Error('no')))).rejects.toThrow('no')
    expect(page()).toBe('one')
    expect(beside()).toEqual(['output'])
  })

  test('killed while the output before was being removed: half of it is never put back', async () => {
    await withStagedOutput(target, put('one'))
    renameSync(target, join(base, '.output.removing'))
    await expect(withStagedOutput(target, () => Promise.reject(new Error('no')))).rejects.toThrow('no')
    expect(beside()).toEqual([])
  })

  test('sweeps what dead runs left and nothing that only looks like it', async () => {
    for (const name of ['.output.building-1', '.output.building-2', '.output.building-notes'])
      mkdirSync(join(base, name))
    writeFileSync(join(base, '.output.building-2', 'mine.txt'), 'not made here')
    const dead = join(
      base,
      'temporary',
      `kettle-and-kerf-work+${identityToText({ ...ownIdentity(), start: '1' })}+x`,
    )
    const alive = join(base, 'temporary', `kettle-and-kerf-work+${identityToText(ownIdentity())}+x`)
    for (const folder of [dead, alive]) mkdirSync(folder)
    await withStagedOutput(target, put('one'))
    expect(beside().sort()).toEqual(['.output.building-2', '.output.building-notes', 'output'])
    expect([existsSync(dead), existsSync(alive)]).toEqual([false, true])
  })

  test('work folders of a machine that cannot be asked go after a day, by a clock that was set back, too', async () => {
    const day = 24 * 3600
    const now = Date.now() / 1000
    const folders = [
      ['fresh', 60, true],
      ['old', -2 * day, false],
      ['of days to come', 4000 * day, false],
    ] as const
    const of = (name: string) =>
      join(
        base,
        'temporary',
        `kettle-and-kerf-work+${identityToText({ ...ownIdentity(), host: '0' })}+${name}`,
      )
    for (const [name, age] of folders) {
      mkdirSync(of(name))
      utimesSync(of(name), now + age, now + age)
    }
    await withStagedOutput(target, put('one'))
    expect(folders.map(([name]) => existsSync(of(name)))).toEqual(folders.map(([, , stays]) => stays))
  })

  test('a folder for temporary files that is not there is said in words, and leaves the output before', async () => {
    await withStagedOutput(target, put('one'))
    vi.stubEnv('TMPDIR', join(base, 'none'))
    expect(await refusal(withStagedOutput(target, put('two')))).toBe(
      `Nothing was written: a folder for temporary files is needed in ${join(base, 'none')}, and there is no such folder. Make room there, or name another folder in TMPDIR.`,
    )
    expect(page()).toBe('one')
    expect(beside()).toEqual(['output'])
  })

  test.each([
    ['the disk of the output', 'a small disk', /output was not written: the disk is full\. What was there/],
    [
      'the disk of temporary files',
      'temporary',
      /output was not written: the disk is full, the one with \S+temporary\. What/,
    ],
    [
      'a place that can only be read',
      'only read',
      /output was not written: that place can only be read\. What was there/,
    ],
    [
      'a disk for the output',
      'a disk',
      /(output|shm) is a disk of its own, and the output folder is replaced as a whole\. Name a folder on it, for example/,
    ],
  ])('%s: plain words and 2, by a mount where the machine allows one', (_, manner, words) => {
    const small = join(base, 'small')
    mkdirSync(small)
    const temporary = join(base, 'temporary')
    const ways: Readonly<Record<string, readonly [mounts: string, refuses: string]>> = {
      'a small disk': [smallDisk(small, '100k'), `ENOSPC,${small}`],
      temporary: [smallDisk(temporary, '100k'), `ENOSPC,${temporary}`],
      'only read': [onlyRead(small), `EROFS,${small}`],
      'a disk': [`mkdir '${join(small, 'output')}'\n${smallDisk(join(small, 'output'), '100k')}`, ''],
    }
    const [mounts, refuses] = ways[manner] ?? ['', '']
    const isMounted = canMount()
    // the memory that processes share is a disk of its own on every machine
    const place = manner === 'a disk' && !isMounted ? '/dev/shm' : join(small, 'output')
    const writer = ['--import', 'tsx', WRITER, manner === 'temporary' ? 'scraps' : 'large', place]
    const [program = '', ...rest] = isMounted
      ? withMounts(mounts, [process.execPath, ...writer])
      : [process.execPath, '--import', REFUSING, ...writer]
    const { status, stderr } = spawnSync(program, rest, {
      encoding: 'utf8',
      env: { ...process.env, KETTLE_TEST_REFUSES: refuses },
    })
    expect(stderr).toMatch(words)
    expect(status).toBe(2)
    expect(readdirSync(small).filter((name) => name !== 'output')).toEqual([])
    expect(workFolders()).toEqual([])
  })

  test('refuses a folder that was not made here, and touches nothing in it', async () => {
    mkdirSync(target)
    writeFileSync(join(target, 'notes.txt'), 'mine')
    expect(await refusal(withStagedOutput(target, put('one')))).toContain('not made here')
    expect(readdirSync(target)).toEqual(['notes.txt'])
    expect(beside()).toEqual(['output'])
  })

  test('refuses to lose a file that somebody put into the output, at the start and at the end', async () => {
    await withStagedOutput(target, put('one'))
    writeFileSync(join(target, 'signed.pdf'), 'mine')
    expect(await refusal(withStagedOutput(target, put('two')))).toContain('signed.pdf')
    rmSync(join(target, 'signed.pdf'))
    const late = withStagedOutput(target, async (staging) => {
      await put('two')(staging)
      writeFileSync(join(target, 'late.pdf'), 'mine')
    })
    expect(await refusal(late)).toContain('late.pdf')
    expect(page()).toBe('one')
  })

  test('what a desktop leaves in a folder does not count', async () => {
    await withStagedOutput(target, put('one'))
    writeFileSync(join(target, '.DS_Store'), '')
    await withStagedOutput(target, put('two'))
    expect(page()).toBe('two')
  })

  test('an empty folder is taken', async () => {
    mkdirSync(target)
    await withStagedOutput(target, put('one'))
    expect(page()).toBe('one')
  })

  test('refuses a file, a link, a whole disk, the content and what holds it', async () => {
    writeFileSync(target, 'a file')
    expect(await refusal(withStagedOutput(target, put('one')))).toContain('is a file')
    const real = join(base, 'real')
    mkdirSync(real)
    symlinkSync(real, join(base, 'link'))
    expect(await refusal(withStagedOutput(join(base, 'link'), put('one')))).toContain('is a link')
    expect(await refusal(withStagedOutput('/', put('one')))).toContain('whole disk')
    expect(await refusal(withStagedOutput(real, put('one'), { content: real }))).toContain(
      'folder with your recipes',
    )
    expect(await refusal(withStagedOutput(base, put('one'), { content: real }))).toContain(
      'holds the folder with your recipes',
    )
    expect(await refusal(withStagedOutput(join(base, 'link'), put('one'), { content: real }))).toContain(
      'recipes',
    )
    await withStagedOutput(join(real, 'output'), put('one'), { content: real })
    expect(existsSync(join(real, 'output', 'page.html'))).toBe(true)
  })

  test('a path that leads through a file is refused in words', async () => {
    writeFileSync(join(base, 'file'), '')
    expect(await refusal(withStagedOutput(join(base, 'file', 'output'), put('one')))).toContain('is a file')
  })

  test('a full disk is said in words and leaves the output before', async () => {
    await withStagedOutput(target, put('one'))
    const full = Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
    expect(await refusal(withStagedOutput(target, () => Promise.reject(full)))).toContain('the disk is full')
    expect(page()).toBe('one')
  })

  test('a real limit on file size is said in words and leaves the output before', async () => {
    await withStagedOutput(target, put('one'))
    const { status, stderr } = runWriter('ulimit -f 40; exec "$0" "$@"', 'large', target)
    expect(stderr).toContain('a file grew larger than is allowed here')
    expect(status).toBe(2)
    expect(page()).toBe('one')
    expect(beside()).toEqual(['output'])
  })

  test('somebody else’s refusal is not taken for ours', async () => {
    const unreadable = Object.assign(new Error('EACCES'), {
      code: 'EACCES',
      path: join(base, 'recipes.yaml'),
    })
    await expect(withStagedOutput(target, () => Promise.reject(unreadable))).rejects.toBe(unreadable)
  })

  test.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
    ['SIGHUP', 129],
  ] as const)('%s tidies and ends with %i', async (signal, code) => {
    await withStagedOutput(target, put('one'))
    expect(await interrupted(signal)).toBe(code)
    expect(page()).toBe('one')
    expect(beside()).toEqual(['output'])
    expect(workFolders()).toEqual([])
  })
})

const REFUSING = new URL('refusing-place.mjs', import.meta.url).href
const WRITER = fileURLToPath(new URL('one-writer.ts', import.meta.url))

const runWriter = (shell: string, ...args: readonly string[]) =>
  spawnSync('sh', ['-c', shell, process.execPath, '--import', 'tsx', WRITER, ...args], { encoding: 'utf8' })

const interrupted = (signal: NodeJS.Signals): Promise<number | null> =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, ['--import', 'tsx', WRITER, 'hang', target], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    child.stdout.once('data', () => child.kill(signal))
    child.on('error', fail)
    child.on('close', (code) => done(code))
  })
