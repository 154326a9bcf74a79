import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { embeddedBrowser, isUnpacked } from '../../src/launch/browser-folder.mjs'
import { type BrowserSearch, findBrowser, isRoot, launchArguments } from '../../src/print/find-browser.ts'

/** A made-up machine: paths that can be run, each with its version. */
const machine = (
  platform: string,
  programs: Readonly<Record<string, string>>,
  more: Partial<BrowserSearch> = {},
): BrowserSearch => {
  const separator = platform === 'win32' ? '\\' : '/'
  return {
    env: { PATH: '/usr/local/bin:/usr/bin' },
    platform,
    arch: 'x64',
    home: platform === 'win32' ? 'C:\\Users\\kim' : '/home/kim',
    canRun: (path) => path in programs,
    list: (folder) => {
      const inside = Object.keys(programs).filter((path) => path.startsWith(folder + separator))
      return [...new Set(inside.map((path) => path.slice(folder.length + 1).split(separator)[0] ?? ''))]
    },
    versionOf: (path) => programs[path],
    embedded: () => undefined,
    ...more,
  }
}

const NEW = 'Chromium 147.0.7727.0'
const OLD = 'Chromium 130.0.6723.0'
const chromium = '/usr/bin/chromium'
const chrome = '/usr/bin/google-chrome'

describe('by hand', () => {
  test('the setting, then the variable, then the embedded one, then an installed one', () => {
    const programs = { '/set': NEW, '/variable': NEW, '/embedded': NEW, [chromium]: NEW }
    const find = (env: Record<string, string>, embedded?: string) =>
      findBrowser(machine('linux', programs, { env: { PATH: '/usr/bin', ...env }, embedded: () => embedded }))
    const variable = { PUPPETEER_EXECUTABLE_PATH: '/variable' }
    expect(find({ KETTLE_BROWSER: '/set', ...variable }, '/embedded')).toEqual({
      ok: true,
      path: '/set',
      kind: 'set',
    })
    expect(find(variable, '/embedded')).toEqual({ ok: true, path: '/variable', kind: 'set' })
    expect(find({}, '/embedded')).toEqual({ ok: true, path: '/embedded', kind: 'embedded' })
    expect(find({}, '/not-there')).toEqual({ ok: true, path: chromium, kind: 'installed' })
    expect(find({ KETTLE_BROWSER: '' })).toEqual({ ok: true, path: chromium, kind: 'installed' })
  })

  test('what was set and cannot be run, or is too old, is said and not passed over', () => {
    const find = (path: string) =>
      findBrowser(
        machine(
          'linux',
          { '/old': OLD, [chromium]: NEW },
          { env: { KETTLE_BROWSER: path, PATH: '/usr/bin' } },
        ),
      )
    expect(find('/gone')).toEqual({
      ok: false,
      message: expect.stringContaining('KETTLE_BROWSER names /gone, which'),
    })
    expect(find('/old')).toEqual({
      ok: false,
      message: expect.stringContaining('version 130. Printing needs version 131'),
    })
  })

  test('an installed one that is too old gives way to the next; one that does not say its version is tried', () => {
    expect(findBrowser(machine('linux', { [chrome]: OLD, [chromium]: NEW }))).toMatchObject({
      path: chromium,
    })
    expect(findBrowser(machine('linux', { [chrome]: 'hello', [chromium]: NEW }))).toMatchObject({
      path: chrome,
    })
    expect(findBrowser(machine('linux', { [chrome]: 'Chromium 131.0.0.0' }))).toMatchObject({ path: chrome })
    const onlyOld = findBrowser(machine('linux', { [chrome]: OLD }))
    expect(onlyOld).toEqual({ ok: false, message: expect.stringContaining(`${chrome} is version 130`) })
  })

  test('none: the one command that gets one', () => {
    for (const platform of ['linux', 'darwin', 'win32']) {
      const found = findBrowser(machine(platform, {}))
      expect(found).toEqual({
        ok: false,
        message: expect.stringContaining('\n  npx puppeteer browsers install chrome-headless-shell\n'),
      })
    }
  })

  test.each([
    [
      'linux',
      '/home/kim/.cache/puppeteer/chrome-headless-shell/linux-148.0.1.2/chrome-headless-shell-linux64/chrome-headless-shell',
    ],
    [
      'darwin',
      '/home/kim/.cache/puppeteer/chrome-headless-shell/mac_arm-148.0.1.2/chrome-headless-shell-mac-arm64/chrome-headless-shell',
    ],
    [
      'win32',
      'C:\\Users\\kim\\.cache\\puppeteer\\chrome-headless-shell\\win64-148.0.1.2\\chrome-headless-shell-win64\\chrome-headless-shell.exe',
    ],
  ])('%s: what that command fetched is found, the newest first', (platform, path) => {
    const older = path.replace('148.0.1.2', '99.0.0.0')
    const found = findBrowser(machine(platform, { [older]: NEW, [path]: NEW, [chromium]: NEW }))
    expect(found).toEqual({ ok: true, path, kind: 'installed' })
  })

  test('a cache folder that was set elsewhere', () => {
    const path = '/big/chrome/linux-148.0.1.2/chrome-linux64/chrome'
    expect(
      findBrowser(machine('linux', { [path]: NEW }, { env: { PUPPETEER_CACHE_DIR: '/big' } })),
    ).toMatchObject({ path })
  })

  test.each([
    [
      'linux',
      [
        '/usr/bin/google-chrome-stable',
        '/usr/local/bin/chromium',
        '/usr/bin/microsoft-edge',
        '/snap/bin/chromium',
      ],
    ],
    [
      'darwin',
      [
        '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
        '/Applications/Chromium.app/Contents/MacOS/Chromium',
        '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
        '/home/kim/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      ],
    ],
    [
      'win32',
      [
        'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
        'C:\\Users\\kim\\AppData\\Local\\Chromium\\Application\\chrome.exe',
        'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
      ],
    ],
  ])('%s: each on its own is found, together the first of them', (platform, paths) => {
    const env = {
      PATH: '/usr/local/bin:/usr/bin',
      PROGRAMFILES: 'C:\\Program Files',
      'PROGRAMFILES(X86)': 'C:\\Program Files (x86)',
      LOCALAPPDATA: 'C:\\Users\\kim\\AppData\\Local',
    }
    for (const path of paths)
      expect(findBrowser(machine(platform, { [path]: NEW }, { env }))).toMatchObject({ path })
    const all = Object.fromEntries(paths.map((path) => [path, NEW]))
    expect(findBrowser(machine(platform, all, { env }))).toMatchObject({ path: paths[0] })
  })

  test('the sandbox goes only for root; nothing switches web security off', () => {
    expect(launchArguments({ root: false })).not.toContain('--no-sandbox')
    expect(launchArguments({ root: true })).toContain('--no-sandbox')
    for (const root of [true, false]) {
      const typed = launchArguments({ root }).join(' ')
      expect(typed).toContain('--font-render-hinting=none')
      expect(typed).not.toMatch(/disable-web-security|single-process|insecure/)
    }
    expect(isRoot()).toBe(process.getuid?.() === 0)
  })
})

describe('by hand: the embedded browser', () => {
  let root: string
  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), 'find-browser-'))
    mkdirSync(join(root, 'node_modules/@sparticuz/chromium'), { recursive: true })
    writeFileSync(join(root, 'node_modules/@sparticuz/chromium/package.json'), '{"version": "1.2.3"}')
  })
  afterAll(() => rmSync(root, { recursive: true, force: true }))

  test('only x64 Linux, only when installed, only when unpacked to the end', () => {
    expect(embeddedBrowser(root, 'linux', 'arm64')).toBeUndefined()
    expect(embeddedBrowser(root, 'darwin', 'x64')).toBeUndefined()
    expect(embeddedBrowser(join(root, 'elsewhere'), 'linux', 'x64')).toBeUndefined()
    const browser = embeddedBrowser(root, 'linux', 'x64')
    expect(browser?.path).toBe(join(root, 'node_modules/.browser-1.2.3/chromium'))
    if (!browser) return
    expect(isUnpacked(browser)).toBe(false)
    mkdirSync(browser.folder)
    writeFileSync(browser.path, 'whole')
    expect(isUnpacked(browser)).toBe(false)
    writeFileSync(browser.sizeFile, '5')
    expect(isUnpacked(browser)).toBe(true)
    writeFileSync(browser.path, 'hal')
    expect(isUnpacked(browser)).toBe(false)
  })

  test('a real program that can be run, a real folder and a file without permission', () => {
    const browser = join(root, 'browser')
    writeFileSync(browser, '#!/bin/sh\necho Chromium 150.0.1.2\n')
    const find = (path: string) => findBrowser({ env: { KETTLE_BROWSER: path } }).ok
    chmodSync(browser, 0o644)
    expect(find(browser)).toBe(false)
    chmodSync(browser, 0o755)
    expect(find(browser)).toBe(true)
    expect(find(root)).toBe(false)
    expect(execFileSync(browser, { encoding: 'utf8' })).toContain('150')
  })
})
