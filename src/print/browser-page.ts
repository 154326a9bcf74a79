/** Starts the browser that prints, gives it one page that can reach nothing, and ends it; all use of its driver stands here. */
import { access, constants, mkdir, rm, statfs } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, dirname } from 'node:path'
import type { Browser, Page } from 'puppeteer'
import { PrintGateError } from './gate-error.ts'
import type { PrintBrowser } from './job.ts'
import { browserDriver } from './libraries.ts'

/** Margin boxes on printed pages came with this version. (read) */
const OLDEST_BROWSER = 131
/** A browser that does not end by itself within this is ended. [ms] */
const CLOSE_LIMIT = 3000
/** One that does not answer within this did not start. [s] */
const START_LIMIT_SECONDS = 60
/** With less room than this for its temporary files, that is worth a word when it fails. [bytes] */
const LITTLE_ROOM = 50e6

/** A running browser; `end` leaves neither process nor profile folder behind. */
export interface OpenBrowser {
  readonly browser: Browser
  readonly version: string
  readonly end: () => Promise<void>
  /** when it has ended, or a page of it broke down, which no call to the driver is told of */
  readonly gone: Promise<unknown>
  /** what is said then, with what may be the reason */
  readonly lost: () => Promise<PrintGateError>
}

/** A page that shows one document. */
export interface OpenPage {
  readonly page: Page
  /** addresses that the document asked for; none of them was reached */
  readonly requests: readonly string[]
}

/**
 * Starts the browser over a pipe, so that it ends with us however we end.
 *
 * @throws PrintGateError `browser` when it does not start or is older than 131
 */
export async function openBrowser(settings: PrintBrowser): Promise<OpenBrowser> {
  let browser: Browser
  const start = new AbortController()
  // without a limit it would be waited for for ever: over a pipe the driver has none of its own
  const timer = setTimeout(() => start.abort(), (settings.startSeconds ?? START_LIMIT_SECONDS) * 1000)
  try {
    // over a pipe, a program that cannot be run ends this process instead of rejecting
    await access(settings.path, constants.X_OK)
    await mkdir(settings.profileFolder, { recursive: true })
    browser = await browserDriver().launch({
      signal: start.signal,
      env: environment(settings),
      executablePath: settings.path,
      args: [...settings.arguments],
      userDataDir: settings.profileFolder,
      pipe: true,
      // Signals are for the command that runs us: it ends the browser and puts the output in order.
      handleSIGINT: false,
      handleSIGTERM: false,
      handleSIGHUP: false,
      headless: true,
      // we open a page of our own: one that ends meanwhile would be waited for for ever
      waitForInitialPage: false,
      protocolTimeout: 0,
      defaultViewport: { width: 1600, height: 1200, deviceScaleFactor: 1 },
    })
  } catch (error) {
    clearTimeout(timer)
    const why = start.signal.aborted
      ? `it did not answer within ${settings.startSeconds ?? START_LIMIT_SECONDS} seconds.`
      : /Target closed|Connection closed/.test(firstLine(error))
        ? 'it ended at once.'
        : firstLine(error)
    const room = await littleRoom(settings.profileFolder)
    await removeFolder(settings.profileFolder)
    throw new PrintGateError(
      'browser',
      `The browser that prints did not start (${settings.path}): ${why}${room}`,
    )
  }
  const end = async () => {
    const closing = setTimeout(() => killAll(browser), CLOSE_LIMIT)
    await browser.close().catch(() => {})
    clearTimeout(closing)
    killAll(browser)
    await removeFolder(settings.profileFolder)
  }
  const lost = async () =>
    new PrintGateError(
      'browser',
      `The browser that prints ended before the paper was ready.${(await littleRoom(settings.profileFolder)) || ' It may have run out of memory: close other programs and start again.'}`,
    )
  const ended = new Promise((done) => browser.once('disconnected', done))
  try {
    const version = await browser.version()
    assertBrowserVersion(version)
    const gone = Promise.race([ended, ...(await brokenPage(browser))])
    return { browser, version, end, gone, lost }
  } catch (error) {
    const said = error instanceof PrintGateError ? error : await lost()
    await end()
    throw said
  } finally {
    clearTimeout(timer)
  }
}

/**
 * Its shared memory is files among temporary files, and stays there when it is killed: in the profile folder it goes
 * with that. Only for the browser without windows, since others put a socket there, whose path must be short.
 */
const environment = ({ path, profileFolder }: PrintBrowser): NodeJS.ProcessEnv =>
  process.platform === 'linux' && /^(chromium|chrome-headless-shell)$/.test(basename(path))
    ? { ...process.env, TMPDIR: profileFolder }
    : process.env

/** With all that it started: those that were stopped, too, would stay when only the first of them is ended. */
const killAll = (browser: Browser): void => {
  const child = browser.process()
  if (child?.pid === undefined) return
  try {
    // the driver makes it the first of a group
    if (process.platform === 'win32') child.kill('SIGKILL')
    else process.kill(-child.pid, 'SIGKILL')
  } catch {
    // all of them have ended
  }
}

/** A sentence on the disk where the browser keeps what is temporary, where that is nearly full. */
const littleRoom = async (folder: string): Promise<string> => {
  try {
    const { bavail, bsize } = await statfs(dirname(folder))
    const left = bavail * bsize
    return left < LITTLE_ROOM
      ? ` The disk for temporary files is full or nearly so: ${Math.round(left / 1e6)} MB are left in ${tmpdir()}. Make room there, or name another folder in TMPDIR.`
      : ''
  } catch {
    return ''
  }
}

/** @returns in a list, since it is not to be waited for here: a promise that is kept when a page breaks down */
const brokenPage = async (browser: Browser): Promise<readonly [Promise<unknown>]> => {
  const session = await browser.target().createCDPSession()
  const broken = new Promise((done) => session.once('Target.targetCrashed', done))
  await session.send('Target.setDiscoverTargets', { discover: true })
  return [broken]
}

/**
 * Does work with a browser.
 *
 * @throws PrintGateError `browser` as soon as the browser, or a page of it, is gone
 */
export async function whileItLives<T>(
  { browser, gone, lost }: Pick<OpenBrowser, 'browser' | 'gone' | 'lost'>,
  work: () => Promise<T>,
): Promise<T> {
  const working = work()
  working.catch(() => {})
  let result: readonly [T] | undefined
  try {
    result = await Promise.race([gone.then(() => undefined), working.then((done): [T] => [done])])
  } catch (error) {
    // its calls are told that it has gone sooner than we are
    throw error instanceof PrintGateError || browser.connected ? error : await lost()
  }
  if (!result) throw await lost()
  return result[0]
}

/**
 * @param version such as `HeadlessChrome/147.0.7727.0`
 * @throws PrintGateError `browser` when older than 131 or not readable
 */
export function assertBrowserVersion(version: string): void {
  const major = Number(/\/(\d+)\./.exec(version)?.[1] ?? Number.NaN)
  if (major >= OLDEST_BROWSER) return
  throw new PrintGateError(
    'browser',
    `The browser that prints is ${version}; it must be version ${OLDEST_BROWSER} or later, as older ones leave out the foot lines. Update it, or set the path of a newer one.`,
  )
}

/** Shows a document as it will be printed: no script of its own runs, nothing is fetched. */
export async function openPage(browser: Browser, html: string): Promise<OpenPage> {
  const page = await browser.newPage()
  const requests: string[] = []
  await page.setRequestInterception(true)
  page.on('request', (request) => {
    const address = request.url()
    if (address.startsWith('data:') || address === 'about:blank') {
      request.continue().catch(() => {})
      return
    }
    requests.push(address)
    request.abort('blockedbyclient').catch(() => {})
  })
  await page.setJavaScriptEnabled(false)
  await page.emulateMediaType('print')
  await page.setContent(html, { waitUntil: 'load', timeout: 0 })
  // a compiler may wrap inner functions of what is sent into the page by a helper of this name
  await page.evaluate('globalThis.__name = (value) => value; document.fonts.ready.then(() => 0)')
  return { page, requests }
}

/** Prints the page as it now stands. @param tagged with the structure that a screen reader follows; same pages, slower */
export function printPage(page: Page, tagged: boolean): Promise<Uint8Array> {
  return page.pdf({
    preferCSSPageSize: true,
    printBackground: true,
    tagged,
    outline: false,
    waitForFonts: false,
    timeout: 0,
  })
}

/** What cannot be removed stands in a folder that is swept later; it must not hide what went wrong. */
const removeFolder = (folder: string): Promise<void> =>
  rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 50 }).catch(() => {})

const firstLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n', 1)[0] ?? ''
