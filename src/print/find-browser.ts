/** Finds the browser that prints: what was set, then the one that comes with the program, then an installed one. */

import { execFileSync } from 'node:child_process'
import { accessSync, constants, readdirSync, statSync } from 'node:fs'
import { homedir } from 'node:os'
import { fileURLToPath } from 'node:url'
import { embeddedBrowser, isUnpacked } from '../launch/browser-folder.mjs'

export interface BrowserSearch {
  readonly env: Readonly<Record<string, string | undefined>>
  readonly platform: string
  readonly arch: string
  readonly home: string
  /** true when the path is a file that this user may run */
  readonly canRun: (path: string) => boolean
  /** names in a folder, empty when there is none */
  readonly list: (folder: string) => readonly string[]
  /** what the browser says of its version; undefined when it does not say */
  readonly versionOf: (path: string) => string | undefined
  /** the embedded browser, when it is unpacked */
  readonly embedded: () => string | undefined
}

export type FoundBrowser =
  | { readonly ok: true; readonly path: string; readonly kind: 'set' | 'installed' | 'embedded' }
  | { readonly ok: false; readonly message: string }

const OLDEST = 131 // Chromium's first with margin boxes in @page

/**
 * The browser to print with.
 *
 * The order is: the setting KETTLE_BROWSER, PUPPETEER_EXECUTABLE_PATH, the embedded one (x64 Linux), then what is
 * installed. The embedded one comes before installed ones because the same pages then come out on every such
 * machine, byte for byte. What was set by name is never passed over in silence.
 *
 * @param search  where to look; the machine itself when left out
 * @returns the path and where it comes from, or words that say what to do
 */
export const findBrowser = (search: Partial<BrowserSearch> = {}): FoundBrowser => {
  const on: BrowserSearch = { ...thisMachine, ...search }
  for (const name of ['KETTLE_BROWSER', 'PUPPETEER_EXECUTABLE_PATH']) {
    const path = on.env[name]
    if (path) return judgeSet(name, path, on)
  }
  const embedded = on.embedded()
  if (embedded !== undefined && on.canRun(embedded)) return { ok: true, path: embedded, kind: 'embedded' }
  const tooOld: string[] = []
  for (const path of candidates(on)) {
    if (!on.canRun(path)) continue
    const major = majorOf(path, on)
    if (major === undefined || major >= OLDEST) return { ok: true, path, kind: 'installed' }
    tooOld.push(`${path} is version ${major}`)
  }
  return { ok: false, message: noneFound(tooOld) }
}

/** What the browser is started with beyond what the driver adds. */
export const launchArguments = ({ root }: { readonly root: boolean }): readonly string[] => [
  '--font-render-hinting=none',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-domain-reliability',
  '--disable-sync',
  '--metrics-recording-only',
  '--no-first-run',
  '--no-pings',
  // The sandbox cannot be set up as root; for everybody else it stays.
  ...(root ? ['--no-sandbox'] : []),
]

/** True when this process runs as root. */
export const isRoot = (): boolean => process.getuid?.() === 0

const judgeSet = (name: string, path: string, on: BrowserSearch): FoundBrowser => {
  if (!on.canRun(path))
    return { ok: false, message: `${name} names ${path}, which is not a program that can be run here.` }
  const major = majorOf(path, on)
  if (major !== undefined && major < OLDEST)
    return {
      ok: false,
      message: `${name} names ${path}, version ${major}. Printing needs version ${OLDEST} or later.`,
    }
  return { ok: true, path, kind: 'set' }
}

const noneFound = (tooOld: readonly string[]): string =>
  [
    'No browser to print with was found.',
    ...tooOld.map((words) => `${words}; version ${OLDEST} or later is needed.`),
    'This command fetches one:',
    '',
    '  npx puppeteer browsers install chrome-headless-shell',
    '',
    'Or install Chrome, Chromium or Edge, or set KETTLE_BROWSER to the browser’s program file.',
  ].join('\n')

const majorOf = (path: string, on: BrowserSearch): number | undefined => {
  const found = /(\d+)\.\d+\.\d+/.exec(on.versionOf(path) ?? '')
  return found ? Number(found[1]) : undefined
}

/** Newest of the fetched ones first, then what people install, by operating system. */
const candidates = (on: BrowserSearch): readonly string[] => [...fetched(on), ...installed(on)]

const FETCHED = ['chrome-headless-shell', 'chrome'] as const

/** What `npx puppeteer browsers install` puts into its cache: NAME/PLATFORM-VERSION/NAME-PLATFORM/program. */
const fetched = (on: BrowserSearch): readonly string[] => {
  const cache = on.env.PUPPETEER_CACHE_DIR || joined(on, on.home, '.cache', 'puppeteer')
  return FETCHED.flatMap((name) =>
    [...on.list(joined(on, cache, name))].sort(newestFirst).flatMap((release) => {
      const folder = joined(on, cache, name, release)
      return on.list(folder).map((inner) => joined(on, folder, inner, programName(name, on.platform)))
    }),
  )
}

const programName = (name: (typeof FETCHED)[number], platform: string): string => {
  if (platform === 'win32') return `${name}.exe`
  if (platform === 'darwin' && name === 'chrome')
    return 'Google Chrome for Testing.app/Contents/MacOS/Google Chrome for Testing'
  return name
}

const newestFirst = (a: string, b: string): number => b.localeCompare(a, 'en', { numeric: true })

const installed = (on: BrowserSearch): readonly string[] => {
  if (on.platform === 'darwin') {
    return ['/Applications', `${on.home}/Applications`].flatMap((folder) =>
      ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
        (name) => `${folder}/${name}.app/Contents/MacOS/${name}`,
      ),
    )
  }
  if (on.platform === 'win32') {
    const folders = [on.env.PROGRAMFILES, on.env['PROGRAMFILES(X86)'], on.env.LOCALAPPDATA].filter(
      (folder) => folder,
    )
    return ['Google\\Chrome', 'Chromium', 'Microsoft\\Edge'].flatMap((name) =>
      folders.map(
        (folder) => `${folder}\\${name}\\Application\\${name.endsWith('Edge') ? 'msedge' : 'chrome'}.exe`,
      ),
    )
  }
  const names = [
    'google-chrome-stable',
    'google-chrome',
    'chromium',
    'chromium-browser',
    'microsoft-edge-stable',
    'microsoft-edge',
  ]
  const folders = (on.env.PATH ?? '').split(':').filter((folder) => folder !== '')
  return [
    ...names.flatMap((name) => folders.map((folder) => `${folder}/${name}`)),
    '/opt/google/chrome/chrome',
    '/opt/microsoft/msedge/msedge',
    '/snap/bin/chromium',
  ]
}

/** Paths of the system that is looked at, which in a test is not the one the test runs on. */
const joined = (on: BrowserSearch, ...parts: readonly string[]): string =>
  parts.join(on.platform === 'win32' ? '\\' : '/')

const PATIENCE = 10_000 // [ms] for a browser to say its version

const versions = new Map<string, string | undefined>()

const askVersion = (path: string): string | undefined => {
  if (!versions.has(path))
    versions.set(path, process.platform === 'win32' ? versionBeside(path) : versionSaid(path))
  return versions.get(path)
}

const versionSaid = (path: string): string | undefined => {
  try {
    return execFileSync(path, ['--version'], {
      encoding: 'utf8',
      timeout: PATIENCE,
      killSignal: 'SIGKILL',
      stdio: ['ignore', 'pipe', 'ignore'],
    })
  } catch {
    return undefined
  }
}

/** On Windows the question would open a window; there a folder named for the version lies beside the program. */
const versionBeside = (path: string): string | undefined =>
  [...listOrNothing(path.slice(0, path.lastIndexOf('\\')))]
    .filter((name) => /^\d+(\.\d+){3}$/.test(name))
    .sort(newestFirst)[0]

const listOrNothing = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder)
  } catch {
    return []
  }
}

const isRunnable = (path: string): boolean => {
  try {
    accessSync(path, constants.X_OK)
    return statSync(path).isFile()
  } catch {
    return false
  }
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

const thisMachine: BrowserSearch = {
  env: process.env,
  platform: process.platform,
  arch: process.arch,
  home: homedir(),
  canRun: isRunnable,
  list: listOrNothing,
  versionOf: askVersion,
  embedded: () => {
    const browser = embeddedBrowser(ROOT)
    return browser && isUnpacked(browser) ? browser.path : undefined
  },
}
