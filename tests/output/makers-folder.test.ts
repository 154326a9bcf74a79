/** A maker's folder is made, and changed, whole or not at all: killed before any file operation, or refused by the disk. */
import { spawn } from 'node:child_process'
import fs, {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeEach, describe, expect, it } from 'vitest'
import { writeNewFile, writeNewFolder } from '../../src/output/new-files.ts'
import { addToRecords } from '../../src/output/records-file.ts'
import {
  needsRecovery,
  recoverFolder,
  replaceFolder,
  whileNobodyElse,
} from '../../src/output/replace-folder.ts'
import { bytesBelow } from '../commands/run-command.ts'
import { CHANGED, NEW, RECORDED } from './change-texts.ts'

const base = mkdtempSync(join(tmpdir(), 'makers-folder-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))
let here = ''
let number = 0
beforeEach(() => {
  number += 1
  here = join(base, String(number))
  mkdirSync(here)
})

const SCRIPT = fileURLToPath(new URL('one-change.ts', import.meta.url))

/** @returns the signal that ended it, and how many operations it took when none did */
const change = (manner: string, target: string, killAt: number): Promise<{ killed: boolean; said: string }> =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, ['--import', 'tsx', SCRIPT, manner, target, String(killAt)])
    let said = ''
    child.stdout.on('data', (part) => {
      said += part
    })
    child.on('error', fail)
    child.on('close', (_, signal) => done({ killed: signal === 'SIGKILL', said }))
  })

const textsBelow = (folder: string): Record<string, string> =>
  Object.fromEntries([...bytesBelow(folder)].map(([name, bytes]) => [name, bytes.toString('utf8')]))

const hidden = (folder: string): string[] => readdirSync(folder).filter((name) => name.startsWith('.'))

/** A folder with things that the program knows and does not know. */
const madeBefore = (name: string): string => {
  const folder = join(here, name)
  mkdirSync(join(folder, 'notes'), { recursive: true })
  writeFileSync(join(folder, 'shop.yaml'), 'name: Old\n')
  writeFileSync(join(folder, 'notes', 'mine.txt'), 'mine')
  symlinkSync('mine.txt', join(folder, 'notes', 'link'))
  return folder
}

describe('by hand: a new folder', () => {
  it('is there with every file, and nothing beside it', () => {
    writeNewFolder(join(here, 'shop'), NEW)
    expect(textsBelow(join(here, 'shop'))).toEqual(Object.fromEntries(NEW))
    expect(readdirSync(here)).toEqual(['shop'])
  })

  it('takes the place of an empty folder, and of nothing else', () => {
    mkdirSync(join(here, 'empty'))
    writeNewFolder(join(here, 'empty'), NEW)
    expect(existsSync(join(here, 'empty', 'shop.yaml'))).toBe(true)
    const full = madeBefore('full')
    const before = textsBelow(full)
    expect(() => writeNewFolder(full, NEW)).toThrow('with something in it')
    expect(textsBelow(full)).toEqual(before)
    writeFileSync(join(here, 'file'), 'x')
    expect(() => writeNewFolder(join(here, 'file'), NEW)).toThrow('is no folder')
    expect(() => writeNewFolder(join(here, 'no', 'where'), NEW)).toThrow('There is no folder')
    expect(hidden(here)).toEqual([])
  })

  it('killed before any of its operations, is not there or whole, and the next run tidies up', async () => {
    const { said } = await change('folder', join(here, 'whole'), 0)
    const all = Number(said)
    expect(all).toBeGreaterThan(15)
    const moments = [3, Math.round(all / 2), all - 1, all]
    await Promise.all(
      moments.map(async (moment) => {
        const place = join(here, `at-${moment}`)
        mkdirSync(place)
        const { killed } = await change('folder', join(place, 'shop'), moment)
        expect(killed, `${moment}`).toBe(true)
        if (existsSync(join(place, 'shop')))
          expect(textsBelow(join(place, 'shop'))).toEqual(Object.fromEntries(NEW))
        else {
          writeNewFolder(join(place, 'shop'), NEW)
          expect(textsBelow(join(place, 'shop'))).toEqual(Object.fromEntries(NEW))
        }
        expect(readdirSync(place)).toEqual(['shop'])
      }),
    )
  }, 60_000)

  it('says in plain words that the disk is full, and leaves nothing', () => {
    const real = fs.writeSync
    Object.assign(fs, {
      writeSync: () => {
        throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
      },
    })
    syncBuiltinESMExports()
    try {
      expect(() => writeNewFolder(join(here, 'shop'), NEW)).toThrow('the disk is full')
      expect(() => writeNewFile(join(here, 'a.yaml'), 'title: A\n')).toThrow('the disk is full')
      const folder = madeBefore('old')
      const before = textsBelow(folder)
      expect(() => replaceFolder(folder, CHANGED, `${folder}-before`)).toThrow(
        'What was there before is unchanged',
      )
      expect(textsBelow(folder)).toEqual(before)
    } finally {
      Object.assign(fs, { writeSync: real })
      syncBuiltinESMExports()
    }
    expect(readdirSync(here)).toEqual(['old'])
  })
})

describe('by hand: one new file', () => {
  it('is never written over another', () => {
    const path = join(here, 'recipes', 'a.yaml')
    writeNewFile(path, 'title: A\n')
    expect(() => writeNewFile(path, 'title: B\n')).toThrow('is there already')
    expect(readFileSync(path, 'utf8')).toBe('title: A\n')
    expect(readdirSync(join(here, 'recipes'))).toEqual(['a.yaml'])
  })

  it('killed before any of its operations, is not there or whole', async () => {
    const all = Number((await change('file', join(here, 'whole.yaml'), 0)).said)
    await Promise.all(
      [all - 2, all].map(async (moment) => {
        const path = join(here, `at-${moment}.yaml`)
        expect((await change('file', path, moment)).killed).toBe(true)
        if (existsSync(path)) expect(readFileSync(path, 'utf8')).toBe(NEW.get('shop.yaml'))
        else await change('file', path, 0)
        // what the killed run left is gone after the next
        if (moment !== all) expect(hidden(here).filter((name) => name.includes(`at-${moment}`))).toEqual([])
      }),
    )
  }, 60_000)
})

/** Operations from the end of a run: the renames are among them, and the giving up of the lock. */
const LAST = [7, 6, 5, 4, 3, 2, 1, 0]

describe('by hand: a folder that is replaced by a changed copy', () => {
  it('has what changed, keeps what it does not know, and the folder as it was beside it', () => {
    const folder = madeBefore('shop')
    const before = textsBelow(folder)
    const kept = replaceFolder(folder, CHANGED, `${folder}-before`)
    expect(kept).toBe(`${folder}-before`)
    expect(textsBelow(kept)).toEqual(before)
    expect(textsBelow(folder)).toMatchObject({ ...Object.fromEntries(CHANGED), 'notes/mine.txt': 'mine' })
    expect(hidden(here)).toEqual([])
    // a second one takes no name that is taken
    expect(replaceFolder(folder, CHANGED, `${folder}-before`)).toBe(`${folder}-before-2`)
  })

  it('killed before any of its operations, is the old one or the new one, at once or after the next run', async () => {
    const first = madeBefore('whole')
    const old = textsBelow(first)
    const all = Number((await change('replace', first, 0)).said)
    const fresh = textsBelow(first)
    expect(all).toBeGreaterThan(10)
    await Promise.all(
      [3, Math.round(all / 2), ...LAST.map((before) => all - before)].map(async (moment) => {
        const place = join(here, `at-${moment}`)
        mkdirSync(place)
        cpSync(`${first}-before`, join(place, 'shop'), { recursive: true, verbatimSymlinks: true })
        const folder = join(place, 'shop')
        expect((await change('replace', folder, moment)).killed, `${moment}`).toBe(true)
        await whileNobodyElse(folder, async () => recoverFolder(folder, `${folder}-before`))
        const found = textsBelow(folder)
        expect([JSON.stringify(old), JSON.stringify(fresh)], `${moment}`).toContain(JSON.stringify(found))
        if (JSON.stringify(found) === JSON.stringify(fresh))
          expect(textsBelow(`${folder}-before`), `${moment}`).toEqual(old)
        expect(hidden(place), `${moment}`).toEqual([])
      }),
    )
  }, 60_000)

  it('is changed by one run at a time: the second is told who is at it, and touches nothing', async () => {
    const folder = madeBefore('busy')
    await whileNobodyElse(folder, async () => {
      const before = textsBelow(here)
      await expect(whileNobodyElse(folder, async () => 1)).rejects.toMatchObject({
        exitCode: 2,
        message: `${folder} is being upgraded by another run (process ${process.pid}). Wait until it has ended, then start again.`,
      })
      expect(textsBelow(here)).toEqual(before)
    })
    expect(hidden(here)).toEqual([])
  })

  it('is found again by a link to it, while it is away between the two renames', async () => {
    const folder = madeBefore('far')
    const before = textsBelow(folder)
    const link = join(here, 'link')
    symlinkSync('far', link)
    renameSync(folder, join(here, '.far.replaced'))
    expect(needsRecovery(link)).toBe(true)
    expect(recoverFolder(link, `${link}-before`)).toContain('is back as it was')
    expect(textsBelow(folder)).toEqual(before)
    expect(needsRecovery(link)).toBe(false)
  })
})

describe('by hand: records', () => {
  const add = (folder: string): Promise<void> =>
    addToRecords(folder, RECORDED, {
      name: 'printed.yaml',
      text: (before) => `${before ?? 'entries:\n'}- one more\n`,
    })

  it('killed before any of their operations, are the old ones or the new ones, and the next run leaves nothing', async () => {
    const whole = join(here, 'whole')
    await add(whole)
    const old = textsBelow(whole)
    await add(whole)
    const fresh = textsBelow(whole)
    const all = Number((await change('records', join(here, 'counted'), 0)).said)
    expect(all).toBeGreaterThan(25)
    const moments = Array.from({ length: 9 }, (_, index) => 2 + Math.floor(((all - 2) * index) / 8))
    await Promise.all(
      moments.map(async (moment) => {
        const folder = join(here, `at-${moment}`)
        mkdirSync(folder)
        writeFileSync(join(folder, 'printed.yaml'), old['printed.yaml'] ?? '')
        expect((await change('records', folder, moment)).killed, `${moment}`).toBe(true)
        const list = readFileSync(join(folder, 'printed.yaml'), 'utf8')
        expect([old['printed.yaml'], fresh['printed.yaml']], `${moment}`).toContain(list)
        // what the list names is there
        if (list === fresh['printed.yaml']) expect(textsBelow(folder), `${moment}`).toMatchObject(fresh)
        // the next run keeps something else, and finds no half of a file by its own name
        await addToRecords(folder, new Map([['as-printed/other.yaml', 'x']]), {
          name: 'printed.yaml',
          text: (before) => `${before}- another\n`,
        })
        const left = readdirSync(folder, { recursive: true, encoding: 'utf8' })
        expect(
          left.filter((name) => /(^|\/)\.|\.new$/.test(name)),
          `${moment}`,
        ).toEqual([])
      }),
    )
  }, 60_000)

  it('that find the disk full stay as they are, with nothing half beside them', async () => {
    const folder = join(here, 'full')
    await add(folder)
    rmSync(join(folder, 'as-printed'), { recursive: true })
    const before = textsBelow(folder)
    const real = fs.fsyncSync
    Object.assign(fs, {
      fsyncSync: () => {
        throw Object.assign(new Error('ENOSPC: no space left on device, fsync'), { code: 'ENOSPC' })
      },
    })
    syncBuiltinESMExports()
    try {
      await expect(add(folder)).rejects.toThrow('the disk is full')
    } finally {
      Object.assign(fs, { fsyncSync: real })
      syncBuiltinESMExports()
    }
    expect(textsBelow(folder)).toEqual(before)
  })
})
