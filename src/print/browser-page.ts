/** Starts the browser that prints, gives it one page that can reach nothing, and ends it; all use of its driver stands here. */
import { access, constants, rm } from 'node:fs/promises'
import type { Browser, Page } from 'puppeteer'
import { PrintGateError } from './gate-error.ts'
import type { PrintBrowser } from './job.ts'
import { browserDriver } from './libraries.ts'

/** Margin boxes on printed pages came with this version. (read) */
const OLDEST_BROWSER = 131
/** A browser that does not end by itself within this is ended. [ms] */
const CLOSE_LIMIT = 3000

/** A running browser; `end` leaves neither process nor profile folder behind. */
export interface OpenBrowser {
  readonly browser: Browser
  readonly version: string
  readonly end: () => Promise<void>
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
  try {
    // over a pipe, a program that cannot be run ends this process instead of rejecting
    await access(settings.path, constants.X_OK)
    browser = await browserDriver().launch({
      executablePath: settings.path,
      args: [...settings.arguments],
      userDataDir: settings.profileFolder,
      pipe: true,
      // Signals are for the command that runs us: it ends the browser and puts the output in order.
      handleSIGINT: false,
      handleSIGTERM: false,
      handleSIGHUP: false,
      headless: true,
      timeout: 60_000,
      protocolTimeout: 0,
      defaultViewport: { width: 1600, height: 1200, deviceScaleFactor: 1 },
    })
  } catch (error) {
    await removeFolder(settings.profileFolder)
    throw new PrintGateError(
      'browser',
      `The browser that prints did not start (${settings.path}): ${firstLine(error)}`,
    )
  }
  const end = async () => {
    const child = browser.process()
    const timer = setTimeout(() => child?.kill('SIGKILL'), CLOSE_LIMIT)
    await browser.close().catch(() => child?.kill('SIGKILL'))
    clearTimeout(timer)
    await removeFolder(settings.profileFolder)
  }
  const version = await browser.version()
  try {
    assertBrowserVersion(version)
  } catch (error) {
    await end()
    throw error
  }
  return { browser, version, end }
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

const removeFolder = (folder: string): Promise<void> =>
  rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 50 })

const firstLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n', 1)[0] ?? ''
