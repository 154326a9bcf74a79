/** A folder that is edited, in the browser that shows it: saves, mistakes, a page that goes, a folder that goes. */
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Page } from 'puppeteer'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { compose } from '../../src/commands/compose.ts'
import { previewMaker } from '../../src/commands/preview-maker.ts'
import { renderDiagnostics } from '../../src/diagnostics.ts'
import { type Preview, startPreview } from '../../src/preview/preview.ts'
import { goneFailure } from '../../src/preview/types.ts'
import type { OpenBrowser } from '../../src/print/browser-page.ts'
import { isLeftAlone } from '../../src/schema/read-folder.ts'
import { bytesBelow } from '../commands/run-command.ts'
import { startBrowser } from '../print/kitchen-sink/shared-browser.ts'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

const base = mkdtempSync(join(tmpdir(), 'preview-test-'))
const folder = join(base, 'shop')
cpSync(fileURLToPath(new URL('../diagnostics/base', import.meta.url)), folder, { recursive: true })
const NOTE = 'pages/note.md'
const note = (words: string): string => `# Note\n\n${'A line that fills the page.\n\n'.repeat(60)}${words}\n`
cpSync(join(folder, 'recipes'), join(folder, 'pages'), {
  recursive: true,
  filter: (path) => !path.endsWith('.yaml'),
})
writeFileSync(join(folder, NOTE), note('First words.'))

const begin = (): Promise<Preview> =>
  startPreview({
    folder,
    isLeftAlone,
    maker: previewMaker({ folder, shown: 'shop', colour: false }),
    same: async () => undefined,
    where: { host: '127.0.0.1', port: 0, names: ['127.0.0.1'] },
    report: () => undefined,
    gone: () => goneFailure('shop'),
  })

let preview: Preview | undefined
let browser: OpenBrowser | undefined
let page: Page | undefined

beforeAll(async () => {
  const [started, opened] = await Promise.all([begin(), startBrowser()])
  preview = started
  browser = opened
  page = await opened.browser.newPage()
  await page.setViewport({ width: 1000, height: 700 })
})
afterAll(async () => {
  preview?.end()
  await browser?.end()
  rmSync(base, { recursive: true, force: true })
})

const shown = (): Page => {
  if (!page) throw new Error('There is no page.')
  return page
}
const address = (path = ''): string => `http://127.0.0.1:${preview?.port}/${path}`

/** Waits for what holds on the page, however often it is loaded again meanwhile. */
const until = async (holds: (text: string) => boolean, text: string): Promise<void> => {
  for (let tried = 0; tried < 600; tried += 1) {
    if (
      await shown()
        .evaluate(holds, text)
        .catch(() => false)
    )
      return
    await new Promise((done) => setTimeout(done, 25))
  }
  throw new Error(`The page never had "${text}".`)
}
const untilSays = (text: string): Promise<void> =>
  until((wanted) => document.querySelector('main')?.textContent?.includes(wanted) === true, text)
const untilPhase = (phase: string): Promise<void> =>
  until((wanted) => document.querySelector<HTMLElement>('.preview-dock')?.dataset.phase === wanted, phase)
/** Remembers all that stands above the page from now on, as long as it is not loaded again. */
const watchDock = (): Promise<void> =>
  shown().evaluate(() => {
    const dock = document.querySelector<HTMLElement>('.preview-dock')
    const seen: string[] = []
    Object.assign(globalThis, { seen })
    const look = (): void => {
      const lines = dock?.querySelector('.preview-lines')?.textContent
      seen.push([dock?.dataset.phase, dock?.querySelector('summary')?.textContent, lines].join('|'))
    }
    if (dock) new MutationObserver(look).observe(dock, { attributes: true, childList: true, subtree: true })
  })
const untilSeen = (line: string): Promise<void> =>
  until((wanted) => (globalThis as unknown as { seen: string[] }).seen.includes(wanted), line)
const panel = (): Promise<string | null | undefined> =>
  shown().evaluate(() => document.querySelector('.preview-lines')?.textContent)
const isPanelSeen = (): Promise<boolean> =>
  shown().evaluate(() => (document.querySelector('.preview-lines')?.getBoundingClientRect().height ?? 0) > 20)

const save = (file: string, text: string): void => writeFileSync(join(folder, file), text)
const read = (file: string): string => readFileSync(join(folder, file), 'utf8')

/** As `npm run check` has it. */
const asOnTheTerminal = async (): Promise<string> => {
  const { diagnostics, documents } = await compose(folder, 'shop')
  return renderDiagnostics(diagnostics, documents, { colour: false })
}

const sheet = 'sheets/page-note.html'
const shop = read('shop.yaml')

describe('by hand: a preview in a browser', () => {
  it('says at once that it works, then shows the binder by itself', async () => {
    // asked while the first binder is still worked out, or just after
    await shown().goto(address())
    await untilPhase('good')
    await untilSays('Alder Yard')
    expect(await panel()).toBe('')
    expect(await isPanelSeen()).toBe(false)
    // paper comes with a build
    expect(
      await shown().$$eval('a', (links) => links.filter(({ href }) => href.includes('.pdf')).length),
    ).toBe(0)
  })

  it('shows what was saved, on the open page, where it was scrolled to', async () => {
    await shown().goto(address(sheet))
    await untilPhase('good')
    await shown().evaluate(() => scrollTo(0, 900))
    save(NOTE, note('Second words.'))
    await untilSays('Second words.')
    await untilPhase('good')
    expect(shown().url()).toBe(address(sheet))
    expect(Math.abs((await shown().evaluate(() => scrollY)) - 900)).toBeLessThan(40)
  })

  it('does not load a page again that a save left as it was', async () => {
    await shown().evaluate(() => {
      document.body.dataset.before = 'yes'
    })
    await watchDock()
    save('recipes/plain.yaml', `${read('recipes/plain.yaml')}\n# a remark\n`)
    await untilSeen('read|What was saved|')
    await untilSeen('good|What is wrong|')
    expect(await shown().evaluate(() => document.body.dataset.before)).toBe('yes')
  })

  it('tells what was saved before it has worked it out, and keeps the page until then', async () => {
    await watchDock()
    const recipe = read('recipes/plain.yaml')
    save('recipes/plain.yaml', recipe.replace('superfat: 6 %', 'superfat: 7 %'))
    await untilSeen('read|What was saved|recipes/plain.yaml: superfat: 6 % → 7 %')
    await untilSeen('good|What is wrong|')
    save('recipes/plain.yaml', recipe)
    await untilSeen('read|What was saved|recipes/plain.yaml: superfat: 7 % → 6 %')
    await untilPhase('good')
  })

  it('shows a mistake in the words of the terminal above the last good page, and takes it away once it is mended', async () => {
    // what a file says is text, whatever it looks like
    save('shop.yaml', `${shop}\n<img/src=x onerror=alert(1)>: "<b>1</b>"\n`)
    save(NOTE, note('Third words.'))
    await untilPhase('wrong')
    const wrong = await asOnTheTerminal()
    expect(wrong).toContain('<img/src=x')
    expect(await panel()).toBe(wrong)
    expect(await isPanelSeen()).toBe(true)
    expect(await shown().$$eval('.preview-dock :is(img, b)', (made) => made.length)).toBe(0)
    await untilSays('Second words.')
    // one that comes now sees the same
    await shown().goto(address(sheet))
    await untilPhase('wrong')
    await untilSays('Second words.')
    expect(await panel()).toBe(wrong)
    await shown().evaluate(axe)
    const found = await shown().evaluate(async () => {
      const { run } = (globalThis as unknown as { axe: { run: (where: unknown) => Promise<unknown> } }).axe
      const { violations, passes } = (await run(document)) as {
        violations: { id: string }[]
        passes: unknown[]
      }
      return { violations: violations.map(({ id }) => id), passes: passes.length }
    })
    expect(found.violations).toEqual([])
    expect(found.passes).toBeGreaterThan(15)
    save('shop.yaml', shop)
    await untilSays('Third words.')
    await untilPhase('good')
    expect(await isPanelSeen()).toBe(false)
  })

  it('keeps up with an editor that writes a file beside and renames it, and with one that empties it first', async () => {
    save('pages/note.md~new', note('Fourth words.'))
    renameSync(join(folder, 'pages/note.md~new'), join(folder, NOTE))
    await untilSays('Fourth words.')
    save('shop.yaml', '')
    await new Promise((done) => setTimeout(done, 20))
    save('shop.yaml', shop)
    save(NOTE, note('Fifth words.'))
    await untilSays('Fifth words.')
    await untilPhase('good')
  })

  it('says that a page is gone, leads home, and shows it again when it is back', async () => {
    const text = read(NOTE)
    rmSync(join(folder, NOTE))
    await until(
      (wanted) => document.querySelector('h1')?.textContent === wanted,
      'This page is not in the binder',
    )
    expect(await shown().$$eval('main a', (links) => links.map(({ href }) => href))).toEqual([address()])
    save(NOTE, text)
    await untilSays('Fifth words.')
  })

  it('says so when the folder is gone, and goes on when it is back', async () => {
    renameSync(folder, `${folder}-away`)
    await untilPhase('failed')
    expect(await panel()).toBe(goneFailure('shop').text)
    await untilSays('Fifth words.')
    renameSync(`${folder}-away`, folder)
    await untilPhase('good')
    save(NOTE, note('Sixth words.'))
    await untilSays('Sixth words.')
  })

  it('writes nothing into the folder', async () => {
    await preview?.settled()
    const files = bytesBelow(folder)
    const before = bytesBelow(fileURLToPath(new URL('../diagnostics/base', import.meta.url)))
    expect([...files.keys()].filter((name) => !before.has(name))).toEqual([NOTE])
    for (const [name, bytes] of before)
      if (name !== 'recipes/plain.yaml') expect(files.get(name)?.equals(bytes), name).toBe(true)
  })

  it('says so when it has ended', async () => {
    // a page that was loaded again a moment ago is told by its script, which must have come
    await untilPhase('good')
    preview?.end()
    await untilPhase('lost')
    await untilSays('Sixth words.')
  })
})

describe('by hand: a preview of a folder that was never good', () => {
  it('shows the mistakes alone, and the binder once they are mended', async () => {
    save('shop.yaml', '')
    const own = await begin()
    try {
      await shown().goto(`http://127.0.0.1:${own.port}/${sheet}`)
      await untilPhase('wrong')
      await untilSays('The binder cannot be shown yet')
      expect(await panel()).toBe(await asOnTheTerminal())
      save('shop.yaml', shop)
      await untilSays('Sixth words.')
    } finally {
      own.end()
    }
  })
})
