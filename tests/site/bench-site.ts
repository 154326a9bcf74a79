/** Batch sheets of the small binder as a folder of pages, and a phone that opens them. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { dirname, extname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, ElementHandle, Page } from 'puppeteer'
import { withRevisions } from '../../src/papers/revisions.ts'
import { findBrowser, isRoot, launchArguments } from '../../src/print/find-browser.ts'
import { fontFiles } from '../../src/print/fonts.ts'
import { browserDriver } from '../../src/print/libraries.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { siteAssets } from '../../src/site/assets.ts'
import { buildPages, type Page as SitePage } from '../../src/site/build-pages.ts'
import { frameWords, siteData } from '../../src/site/site-data.ts'
import { bindAndCompose, contentOf, frame, smallBinderFiles } from '../sites/small-binder.ts'

const RECIPE = 'recipes/plain.yaml'
const BATCH = 'batches/2027-02-01-plain.yaml'

/** Days of its batches: one as it is, one like it, one of a recipe that was never tried, one that is stopped. */
export const DAYS = {
  first: '2027-02-01-plain',
  second: '2027-02-08-plain',
  held: '2027-02-15-new',
  stopped: '2027-02-22-bare',
} as const

/** With revision, code and fingerprint, as a binder has them. */
export const printed = (sheets: readonly Sheet[]): readonly Sheet[] =>
  withRevisions(frame, sheets, [], frameWords(frame), 'en').map(({ sheet }) => sheet)

export const benchSheets = (): readonly Sheet[] => {
  const files = smallBinderFiles()
  const batch = files.get(BATCH) ?? ''
  const recipe = files.get(RECIPE) ?? ''
  const of = (key: string, day: string): string =>
    batch.replace('recipe: plain', `recipe: ${key}`).replace('date: 2027-02-01', `date: ${day}`)
  files.set('batches/2027-02-08-plain.yaml', of('plain', '2027-02-08'))
  files.set('batches/2027-02-15-new.yaml', of('new', '2027-02-15'))
  files.set('batches/2027-02-22-bare.yaml', of('bare', '2027-02-22'))
  files.set('recipes/new.yaml', recipe.replace('Plain bar', 'New bar').replace(/^tried:.*$/m, ''))
  files.set(
    'recipes/bare.yaml',
    recipe.replace('Plain bar', 'Bare bar').replace('superfat: 6 %', 'superfat: 1 %'),
  )
  return printed(bindAndCompose(contentOf(files)).sheets.filter(({ id }) => id.startsWith('batch/')))
}

export interface BenchSite {
  readonly folder: string
  /** from the folder, as from a stick */
  readonly fileUrl: (day: string) => string
  readonly write: (sheets: readonly Sheet[]) => Promise<void>
  readonly remove: () => void
}

export const benchSite = (): BenchSite => {
  const folder = mkdtempSync(join(tmpdir(), 'bench-site-'))
  const put = (path: string, content: string): void => {
    const file = join(folder, path)
    mkdirSync(dirname(file), { recursive: true })
    writeFileSync(file, content)
  }
  const built = new Map<readonly Sheet[], readonly SitePage[]>()
  mkdirSync(join(folder, 'assets/fonts'), { recursive: true })
  for (const { path, name } of fontFiles()) copyFileSync(path, join(folder, 'assets/fonts', name))
  return {
    folder,
    fileUrl: (day) => pathToFileURL(join(folder, `sheets/batch-${day}.html`)).href,
    write: async (sheets) => {
      let pages = built.get(sheets)
      if (!pages) {
        const all = await buildPages(siteData(frame, sheets, '', 'en'))
        pages = all.filter(({ path }) => path.startsWith('sheets/'))
        if (built.size === 0)
          for (const { path, content } of siteAssets(frame, sheets, pages)) put(path, content)
        // nothing is printed here
        for (const { anchor } of sheets) put(`assets/paper/${anchor}.css`, '')
        built.set(sheets, pages)
      }
      for (const { path, content } of pages) put(path, content)
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
}

/** The plainest of servers. */
export const served = async (folder: string): Promise<{ readonly url: string; readonly server: Server }> => {
  const server = createServer(({ url = '' }, answer) => {
    const path = join(folder, decodeURIComponent(new URL(url, 'http://here').pathname))
    try {
      const content = readFileSync(path)
      answer
        .writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' })
        .end(content)
    } catch {
      answer.writeHead(404).end()
    }
  })
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, server }
}

/** @param profile a folder that outlives the browser */
export const launchPhone = (profile: string): Promise<Browser> => {
  const found = findBrowser()
  if (!found.ok) throw new Error(found.message)
  return browserDriver().launch({
    executablePath: found.path,
    args: [...launchArguments({ root: isRoot() })],
    userDataDir: profile,
  })
}

export interface PhoneOptions {
  /** ms that its clock is ahead */
  readonly ahead?: number
  readonly refusesStorage?: boolean
  readonly script?: boolean
  readonly width?: number
}

export interface Phone {
  readonly page: Page
  /** what went wrong on the page, and what it asked for that lies elsewhere */
  readonly faults: readonly string[]
  readonly reload: (ahead?: number) => Promise<void>
  /** a step by its name, or a row */
  readonly tick: (name: string) => Promise<void>
  readonly tap: (selector: string) => Promise<void>
  /** long enough after a tap for the next one to be meant */
  readonly rested: () => Promise<void>
  readonly isTicked: (name: string) => Promise<boolean>
  readonly text: (selector: string) => Promise<string>
  /** later, without anybody touching it */
  readonly later: (ahead: number) => Promise<void>
}

/** ms; the page takes two taps within less for one: nobody waits for it here, its clock is set on */
const BETWEEN_TAPS = 500
/** ms from now to noon of this day: what a phone says of eighteen hours hangs on whether midnight is among them. */
const untilNoon = (): number => new Date().setHours(12, 0, 0, 0) - Date.now()

/** ms; until a browser has made a click of a tap */
const TAPPED = 80

export const phoneAt = async (browser: Browser, url: string, options: PhoneOptions = {}): Promise<Phone> => {
  const page = await browser.newPage()
  await page.setViewport({ width: options.width ?? 360, height: 740, isMobile: true, hasTouch: true })
  // smooth scrolling would be waited for
  await page.emulateMediaFeatures([{ name: 'prefers-reduced-motion', value: 'reduce' }])
  if (options.script === false) await page.setJavaScriptEnabled(false)
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(String(error)))
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text())
  })
  const origin = new URL(url)
  page.on('request', (request) => {
    const asked = new URL(request.url())
    if (asked.protocol !== origin.protocol || asked.host !== origin.host) faults.push(request.url())
  })
  if (options.refusesStorage)
    await page.evaluateOnNewDocument(() =>
      Object.defineProperty(globalThis, 'localStorage', {
        get: () => {
          throw new DOMException('refused', 'SecurityError')
        },
      }),
    )
  const toNoon = untilNoon()
  let clock: string | undefined
  const setClock = async (ahead: number): Promise<void> => {
    if (clock !== undefined) await page.removeScriptToEvaluateOnNewDocument(clock)
    clock = (
      await page.evaluateOnNewDocument((shift: number) => {
        const Real = Date
        const clocks = globalThis as unknown as { ahead: number; rested: number }
        clocks.ahead = shift
        clocks.rested = 0
        const now = performance.now.bind(performance)
        performance.now = () => now() + clocks.rested
        globalThis.Date = class extends Real {
          constructor(moment?: number) {
            super(moment ?? Real.now() + clocks.ahead)
          }
          static override now(): number {
            return Real.now() + clocks.ahead
          }
        } as DateConstructor
      }, toNoon + ahead)
    ).identifier
  }
  await setClock(options.ahead ?? 0)
  await page.goto(url)
  const found = async (selector: string): Promise<ElementHandle> => {
    const element = await page.$(selector)
    if (!element) throw new Error(`There is no ${selector} on the page.`)
    return element
  }
  const rested = (): Promise<void> =>
    page.evaluate((after) => {
      const clocks = globalThis as unknown as { rested: number }
      clocks.rested += after
    }, BETWEEN_TAPS)
  const tap = async (selector: string): Promise<void> => {
    const element = await found(selector)
    await element.evaluate((one) => one.scrollIntoView({ block: 'center' }))
    await element.tap()
    await new Promise((done) => setTimeout(done, TAPPED))
    await rested()
  }
  const itemOf = (name: string): string => `[data-step="${name}"], [data-row="${name}"]`
  return {
    page,
    faults,
    reload: async (ahead = 0) => {
      await setClock(ahead)
      await page.reload()
    },
    tap,
    rested,
    tick: (name) => tap(`:is(${itemOf(name)}) .bench-tick`),
    isTicked: async (name) =>
      (await found(`:is(${itemOf(name)}) .bench-check`)).evaluate((one) => (one as HTMLInputElement).checked),
    text: async (selector) =>
      (await found(selector)).evaluate((one) => (one.textContent ?? '').replace(/\s+/g, ' ').trim()),
    later: async (ahead) => {
      await page.evaluate((shift) => {
        Object.assign(globalThis, { ahead: shift })
      }, toNoon + ahead)
      // the page looks at its clock once a second
      await new Promise((done) => setTimeout(done, 1300))
    },
  }
}
