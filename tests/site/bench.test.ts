/** A batch sheet on a phone at the bench, in the real browser: what is ticked stays, and never on another sheet. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import type { Server } from 'node:http'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser } from 'puppeteer'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet, Step, Table, Wait } from '../../src/sheets/model.ts'
import { benchData } from '../../src/site/bench.ts'
import { forPrint, type Kept, keptOf } from '../../src/site/browser/bench/store.ts'
import {
  clockTime,
  inOrder,
  leftText,
  momentsOf,
  stateOf,
  type Timer,
} from '../../src/site/browser/bench/timers.ts'
import { frame } from '../sites/small-binder.ts'
import {
  type BenchSite,
  benchSheets,
  benchSite,
  DAYS,
  launchPhone,
  type Phone,
  type PhoneOptions,
  phoneAt,
  printed,
  served,
} from './bench-site.ts'

const MINUTE = 60_000
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

let sheets: readonly Sheet[]
let site: BenchSite
let profile: string
let browser: Browser
let server: Server
let url: string
const phones: Phone[] = []

beforeAll(async () => {
  sheets = benchSheets()
  site = benchSite()
  await site.write(sheets)
  profile = mkdtempSync(join(tmpdir(), 'bench-phone-'))
  browser = await launchPhone(profile)
  ;({ url, server } = await served(site.folder))
})
afterAll(async () => {
  await browser?.close()
  server?.close()
  site?.remove()
  rmSync(profile, { recursive: true, force: true })
})
afterEach(async () => {
  for (const { page, faults } of phones.splice(0)) {
    await page.evaluate(() => localStorage.clear()).catch(() => undefined)
    await page.close()
    expect(faults).toEqual([])
  }
})

const open = async (day: string = DAYS.first, options: PhoneOptions = {}): Promise<Phone> => {
  const phone = await phoneAt(browser, site.fileUrl(day), options)
  phones.push(phone)
  return phone
}
/** Its head is signed: this block may get hot. */
const openRead = async (): Promise<Phone> => {
  const phone = await open()
  expect(await phone.text('.bench-title')).toBe('First, before all steps')
  await phone.tick('read-1')
  return phone
}
const sheetOf = (day: string): Sheet => sheets.find(({ id }) => id === `batch/${day}`) as Sheet
const withStep = (sheet: Sheet, name: string, edit: (step: Step) => Step): Sheet => ({
  ...sheet,
  blocks: Object.fromEntries(
    Object.entries(sheet.blocks).map(([key, block]) => [
      key,
      block.kind === 'steps'
        ? { ...block, items: block.items.map((step) => (step.name === name ? edit(step) : step)) }
        : block,
    ]),
  ),
})
/** The same sheet with one word more in one step: another print. */
const reworded = (sheet: Sheet): Sheet =>
  withStep(sheet, 'seize', (step) => ({ ...step, text: { ...step.text, text: `${step.text.text} Both.` } }))
const stepsOf = (sheet: Sheet): Step[] =>
  Object.values(sheet.blocks).flatMap((block) => (block.kind === 'steps' ? block.items : []))

describe('by hand: ticks of a batch sheet', () => {
  it('are still there when the page is opened again, from a folder', async () => {
    const phone = await open()
    await phone.tick('two')
    await phone.tick('fat.olive.draw.1')
    expect(await phone.isTicked('two')).toBe(true)
    await phone.reload()
    expect(await phone.isTicked('two')).toBe(true)
    expect(await phone.isTicked('fat.olive.draw.1')).toBe(true)
    expect(await phone.isTicked('wear')).toBe(false)
    // with the same shop's page in a second window
    const other = await open()
    await other.tick('wear')
    expect(await phone.isTicked('wear')).toBe(true)
  })

  it('are still there from a server, and when the browser was closed', async () => {
    const own = mkdtempSync(join(tmpdir(), 'bench-phone-'))
    const page = `${url}/sheets/batch-${DAYS.first}.html`
    try {
      const before = await launchPhone(own)
      const phone = await phoneAt(before, page)
      await phone.tick('two')
      await before.close()
      const after = await launchPhone(own)
      const again = await phoneAt(after, page)
      expect(await again.isTicked('two')).toBe(true)
      expect([...phone.faults, ...again.faults]).toEqual([])
      await after.close()
    } finally {
      rmSync(own, { recursive: true, force: true })
    }
  })

  it('never stand on another print of the sheet, which says so, and come back with their own', async () => {
    const phone = await open()
    for (const name of ['two', 'wear', 'fat.olive.draw.1']) await phone.tick(name)
    await site.write(printed([reworded(sheetOf(DAYS.first))]))
    try {
      await phone.reload()
      for (const name of ['two', 'wear', 'fat.olive.draw.1']) expect(await phone.isTicked(name)).toBe(false)
      expect(await phone.text('.bench-other')).toContain('Ticked on another print of this sheet: 3.')
      await phone.tap('.bench-other summary')
      expect(await phone.text('.bench-other ul')).toContain('2 Both wear full gear')
      await phone.tick('wear')
    } finally {
      await site.write(sheets)
    }
    await phone.reload()
    expect(await phone.isTicked('two')).toBe(true)
    expect(await phone.text('.bench-other')).toContain('Ticked on another print of this sheet: 1.')
    await phone.tap('.bench-other > button')
    await phone.reload()
    expect(await phone.page.$('.bench-other')).toBeNull()
    expect(await phone.isTicked('two')).toBe(true)
  })

  it('of two batches are apart', async () => {
    const first = await open()
    await first.tick('two')
    const second = await open(DAYS.second)
    expect(await second.isTicked('two')).toBe(false)
    expect(await second.page.$('.bench-other')).toBeNull()
  })

  it('are taken off by a second tap, which is told and can be undone', async () => {
    const phone = await open()
    await phone.tick('two')
    // all of the row is the tick, its words too
    await phone.tap('[data-step="two"] .action')
    expect(await phone.isTicked('two')).toBe(false)
    expect(await phone.text('.bench-told')).toContain('No longer ticked: 1 Two people here')
    await phone.tap('.bench-undo')
    expect(await phone.isTicked('two')).toBe(true)
    await phone.reload()
    expect(await phone.isTicked('two')).toBe(true)
  })

  it('are one for a wet glove that taps twice', async () => {
    const phone = await open()
    await phone.page.evaluate(() => {
      const action = document.querySelector('[data-step="two"] .action') as HTMLElement
      action.click()
      action.click()
    })
    expect(await phone.isTicked('two')).toBe(true)
  })

  it('stay for the time that the page is open where the phone keeps nothing, and it says so', async () => {
    const phone = await open(DAYS.first, { refusesStorage: true })
    expect(await phone.text('.bench-head')).toContain('This phone keeps nothing of this page')
    await phone.tick('two')
    await phone.tick('wear')
    expect(await phone.isTicked('two')).toBe(true)
    expect(await phone.isTicked('wear')).toBe(true)
    await phone.reload()
    expect(await phone.isTicked('two')).toBe(false)
    const plain = await open()
    expect(await plain.text('.bench-head')).not.toContain('This phone keeps nothing')
  })

  it('of all batches are cleared at once, when somebody says so', async () => {
    const first = await open()
    await first.tick('two')
    const second = await open(DAYS.second)
    await second.tick('two')
    second.page.once('dialog', (dialog) => dialog.dismiss())
    await second.tap('.bench-clear button')
    expect(await second.isTicked('two')).toBe(true)
    second.page.once('dialog', (dialog) => dialog.accept())
    await second.tap('.bench-clear button')
    expect(await second.isTicked('two')).toBe(false)
    await first.reload()
    expect(await first.isTicked('two')).toBe(false)
  })
})

describe('by hand: the next step', () => {
  it('stands in the bar, and after a tick in view with its caution', async () => {
    const phone = await openRead()
    expect(await phone.text('.bench-title')).toBe('Next: 1 of 35')
    for (const name of ['two', 'wear', 'water-runs', 'rinse', 'mould']) await phone.tick(name)
    expect(await phone.text('.bench-title')).toBe('Next: 6 of 35')
    expect(await phone.text('.bench-next .bench-caution')).toMatch(/^Warning With the batter in it/i)
    const place = await phone.page.evaluate(() => {
      const caution = document.querySelector('[data-step="stand"] .step-caution') as HTMLElement
      const bar = document.querySelector('.bench-bar') as HTMLElement
      const { top, bottom } = caution.getBoundingClientRect()
      const above = document.querySelector('.site-bar')?.getBoundingClientRect().bottom
      return {
        top,
        bottom,
        above,
        bar: bar.getBoundingClientRect().top,
        focus: document.activeElement?.tagName,
      }
    })
    expect(place.above).toBeGreaterThan(0)
    expect(place.top).toBeGreaterThanOrEqual(place.above ?? 0)
    expect(place.bottom).toBeLessThanOrEqual(place.bar)
    // what is heard: the tick, then the next step, its caution before its words
    expect(await phone.text('.bench-heard')).toMatch(
      /^Ticked: 5 The mould.*\. Next: 6 of 35\. WARNING With the batter.*\. 6 The mould stands on/i,
    )
    expect(await phone.page.$eval('.bench-heard', (one) => one.getAttribute('role'))).toBe('status')
  })

  it('does not take the keyboard along but when it is asked for', async () => {
    const phone = await openRead()
    await phone.page.focus('[data-step="two"] .bench-check')
    await phone.page.keyboard.press('Space')
    expect(await phone.isTicked('two')).toBe(true)
    const focused = () =>
      phone.page.evaluate(() => document.activeElement?.closest<HTMLElement>('[data-step]')?.dataset.step)
    expect(await focused()).toBe('two')
    await phone.tap('.bench-next')
    expect(await focused()).toBe('wear')
  })

  it('is the one that was left out, where one was', async () => {
    const phone = await openRead()
    for (const name of ['two', 'water-runs']) await phone.tick(name)
    expect(await phone.text('.bench-title')).toBe('Left out: 2 of 35')
    await phone.tick('wear')
    expect(await phone.text('.bench-title')).toBe('Next: 4 of 35')
  })

  it('of a table says what is weighed, and how much', async () => {
    const phone = await openRead()
    await phone.page.evaluate(() => {
      for (const item of document.querySelectorAll<HTMLElement>('[data-step]')) {
        if (Number(item.getAttribute('value')) > 11) break
        item.dataset.before = ''
      }
    })
    for (const item of await phone.page.$$('[data-before] .bench-check')) {
      await item.evaluate((one) => (one as HTMLInputElement).click())
      await phone.rested()
    }
    expect(await phone.text('.bench-title')).toMatch(/^Next: Weigh, 1 of \d+$/)
    const { rows } = sheetOf(DAYS.first).blocks.oils as Table
    const weighed = rows[0]?.flatMap((cell) =>
      cell.kind === 'value' && cell.value.unit === 'kg' ? [cell.value.shown] : [],
    )[0]
    expect(await phone.text('.bench-amount')).toBe(weighed?.replace(/\s/g, ' '))
  })

  it('after an open hold can be ticked, and says that the hold is open', async () => {
    const phone = await openRead()
    await phone.tick('scale-bench')
    expect(await phone.isTicked('scale-bench')).toBe(true)
    const words = 'Hold 10 is open. Nobody goes on past it.'
    expect(await phone.text('[data-step="scale-bench"] .bench-remark')).toBe(words)
    expect(await phone.text('.bench-told')).toContain(words)
    expect(await phone.text('.bench-heard')).toMatch(/^Hold 10 is open/)
    await phone.tick('ready')
    const isHidden = (): Promise<boolean> =>
      phone.page.$eval(
        '[data-step="scale-bench"] .bench-remark',
        (one) => (one as HTMLElement).hidden === true,
      )
    expect(await isHidden()).toBe(true)
    await phone.tick('ready')
    expect(await isHidden()).toBe(false)
  })
})

describe('by hand: a batch in several kettles', () => {
  it('takes off the ticks and hours of the steps that are done again, with a way back', async () => {
    await site.write([withStep(sheetOf(DAYS.first), 'tap', (step) => ({ ...step, again: 'together' }))])
    try {
      const phone = await open()
      for (const name of ['fats-warm', 'together', 'lye-in', 'pour']) await phone.tick(name)
      await phone.tap('[data-step="lye-in"] .bench-note')
      const button = '[data-step="tap"] .bench-below > .bench-start'
      expect(await phone.text(button)).toBe('Next kettle: take off the ticks of steps 22 to 26')
      await phone.tap(button)
      const ticked = () => Promise.all(['fats-warm', 'together', 'lye-in', 'pour'].map(phone.isTicked))
      expect(await ticked()).toEqual([true, false, false, false])
      expect(await phone.page.$('.bench-noted')).toBeNull()
      await phone.tap('.bench-undo')
      expect(await ticked()).toEqual([true, true, true, true])
      expect(await phone.page.$('.bench-noted')).not.toBeNull()
    } finally {
      await site.write(sheets)
    }
  })
})

describe('by hand: timers at the bench', () => {
  const offered = (phone: Phone, step: string): Promise<string> =>
    phone.text(`[data-step="${step}"] .bench-waits`)

  it('go on over a reload, by the clock, and ring when they are over', async () => {
    const phone = await open()
    await phone.tap('[data-step="fats-warm"] .bench-start')
    expect(await phone.text('.bench-timers')).toMatch(/^Fats warm up \(estimate\)\s?(4:00|3:59) left/)
    // a phone that was off for a minute
    await phone.reload(MINUTE)
    expect(await phone.text('.bench-timers')).toMatch(/(3:00|2:5\d) left/)
    await phone.later(4 * MINUTE + 5_000)
    expect(await phone.text('.bench-rings')).toContain('Now! Since')
    expect(await phone.text('.bench-heard')).toContain('Fats warm up (estimate): Now!')
    await phone.reload(5 * MINUTE)
    expect(await phone.text('.bench-rings')).toContain('Now! Since')
    await phone.tap('.bench-bar .bench-seen')
    expect(await phone.page.$('.bench-timer')).toBeNull()
    await phone.reload(6 * MINUTE)
    expect(await phone.page.$('.bench-timer')).toBeNull()
  })

  it('sound and shake when they are over', async () => {
    const phone = await open()
    await phone.page.evaluate(() => {
      Object.assign(globalThis, { made: [] })
      const { made } = globalThis as unknown as { made: string[] }
      Object.assign(Navigator.prototype, { vibrate: () => made.push('shakes') })
      const start = OscillatorNode.prototype.start
      OscillatorNode.prototype.start = function (when) {
        made.push('beeps')
        start.call(this, when)
      }
    })
    await phone.tap('[data-step="fats-warm"] .bench-start')
    const made = () => phone.page.evaluate(() => (globalThis as unknown as { made: string[] }).made)
    expect(await made()).toEqual([])
    await phone.later(5 * MINUTE)
    expect(await made()).toEqual(['shakes', 'beeps', 'beeps', 'beeps'])
  })

  it('are several, by their names, the soonest first, and one that was stopped comes back', async () => {
    const phone = await open()
    await phone.tap('[data-step="lye-stands"] .bench-wait:nth-child(1) .bench-start')
    await phone.tap('[data-step="lye-stands"] .bench-wait:nth-child(2) .bench-start')
    await phone.tap('[data-step="fats-warm"] .bench-start')
    const names = () =>
      phone.page.$$eval('.bench-timers .bench-wait-name', (all) => all.map((one) => one.textContent))
    expect(await names()).toEqual(['Fats warm up (estimate)'])
    expect(await phone.text('[data-key="more"]')).toBe('+2')
    await phone.tap('[data-key="more"]')
    expect(await names()).toEqual([
      'Fats warm up (estimate)',
      'Lye cools with water in its tub (estimate)',
      'Lye cools in still air (estimate)',
    ])
    await phone.tap('.bench-timers li:first-child button')
    expect(await names()).toHaveLength(2)
    expect(await phone.text('.bench-told')).toContain('Timer stopped: Fats warm up (estimate)')
    await phone.tap('.bench-undo')
    expect(await names()).toHaveLength(3)
  })

  it('that count from the pour ask for its time first, and follow when it is put right', async () => {
    const phone = await open()
    expect(await offered(phone, 'strip')).toBe(
      'Sides off, not beforeCounts from the time at step 25: note it there first',
    )
    await phone.tap('[data-step="pour"] .bench-note')
    expect(await phone.text('[data-step="pour"] .bench-noted')).toMatch(
      /^\d+:\d\d noted\. Write it on the paper\.$/,
    )
    expect(await offered(phone, 'strip')).toContain('Start 18 h')
    await phone.reload(60 * MINUTE)
    await phone.tap('[data-step="strip"] .bench-start')
    // an hour of its eighteen is gone
    expect(await offered(phone, 'strip')).toMatch(/(17:00:0\d|16:59:\d\d) left/)
    await phone.tap('[data-step="pour"] [data-key="moment:poured"]')
    expect(await offered(phone, 'strip')).toMatch(/(16:55:0\d|16:54:\d\d) left/)
  })

  it('with two ends tell both, and what is looked at again and again rings each time', async () => {
    const phone = await open()
    await phone.tap('[data-step="pour"] .bench-note')
    await phone.tap('[data-step="cut"] .bench-start')
    expect(await offered(phone, 'cut')).toMatch(/from \S+ \d+:\d\d to \S+ \d+:\d\d/)
    await phone.tap('[data-step="watch"] .bench-start')
    expect(await offered(phone, 'watch')).toMatch(/(30:00|29:5\d) left.*every 30 min, until/)
    await phone.later(31 * MINUTE)
    await phone.tap('[data-step="watch"] .bench-seen')
    expect(await offered(phone, 'watch')).toMatch(/(29:00|28:5\d) left/)
    await phone.later(19 * 60 * MINUTE)
    expect(await offered(phone, 'cut')).toMatch(/From now \(.+\) until /)
  })
})

describe('by hand: what stands first, and what does not stand there', () => {
  it('is a hold', async () => {
    const phone = await open(DAYS.held)
    const first = await phone.page.$eval('.bench-head', (one) => one.firstElementChild?.textContent)
    expect(first).toContain('This batch first: Hold for a test')
  })

  it('is a stop, with nothing to tick and nothing to begin', async () => {
    const phone = await open(DAYS.stopped)
    expect(await phone.text('.bench-head')).toContain('This batch is stopped.')
    for (const none of ['.bench-check', '.bench-start', '.bench-waits', '.bench-timer', '.bench-next'])
      expect(await phone.page.$(none), none).toBeNull()
  })

  it('is once that paper is the record', async () => {
    const phone = await open()
    const text = await phone.page.$eval('body', (one) => one.textContent ?? '')
    expect(text.split('Paper stays the record').length).toBe(2)
    expect(await phone.page.$$('main input:not([type="checkbox"]), main textarea')).toHaveLength(0)
  })
})

describe('by hand: the page at the bench', () => {
  const TOUCH = 56

  it('has room for a glove, and does not scroll sideways', async () => {
    const phone = await open()
    await phone.tap('[data-step="fats-warm"] .bench-start')
    await phone.tap('[data-step="pour"] .bench-note')
    for (const width of [360, 430, 768]) {
      await phone.page.setViewport({ width, height: 740, isMobile: true, hasTouch: true })
      const found = await phone.page.evaluate(() => ({
        wide: document.documentElement.scrollWidth,
        // a tick stands beside its words, not on them
        covered: [...document.querySelectorAll('[data-step], [data-row]')].flatMap((item) => {
          const words = item.querySelector('.action:not(.bench-read), .bench-what, [id$="-action"]')
          const box = item.querySelector('.bench-tick')?.getBoundingClientRect()
          const range = document.createRange()
          range.selectNodeContents(words as Element)
          const text = range.getBoundingClientRect()
          if (!box || text.width < 20) return [item.id]
          return box.right <= text.left || box.left >= text.right ? [] : [item.id]
        }),
        targets: [...document.querySelectorAll('.bench-tick, .bench-only button, .bench-next')].map((one) => {
          const box = one.getBoundingClientRect()
          return { what: one.textContent, height: box.height, width: box.width }
        }),
      }))
      expect(found.wide).toBeLessThanOrEqual(width)
      expect(found.targets.length).toBeGreaterThan(50)
      expect(found.covered).toEqual([])
      expect(found.targets.filter((one) => one.height < TOUCH || one.width < TOUCH)).toEqual([])
    }
  })

  it('is clean for those who listen', async () => {
    const phone = await open()
    await phone.tick('two')
    await phone.tick('scale-bench')
    await phone.tap('[data-step="fats-warm"] .bench-start')
    await phone.tap('[data-step="pour"] .bench-note')
    await phone.page.evaluate(axe)
    const found = await phone.page.evaluate(async () => {
      const checker = (globalThis as unknown as { axe: typeof import('axe-core') }).axe
      const { violations } = await checker.run(document, { preload: false })
      return violations.map(({ id, nodes }) => ({
        id,
        nodes: nodes.map(({ html, failureSummary }) => `${html}: ${failureSummary}`),
      }))
    })
    expect(found).toEqual([])
    const names = await phone.page.$$eval('.bench-check', (all) =>
      all.map((one) =>
        (one.getAttribute('aria-labelledby') ?? '')
          .split(' ')
          .map((id) => document.getElementById(id)?.textContent?.trim())
          .join(' '),
      ),
    )
    expect(names.filter((name) => name.length < 6 || name.includes('undefined'))).toEqual([])
    expect(names[1]).toMatch(/^1 Two people here/)
  })

  it('reads without script as it did before, and on paper too', async () => {
    const plain = await open(DAYS.first, { script: false })
    // biome-ignore lint/performance/useDomNodeTextContent: only what is shown
    const bare = await plain.page.$eval('main', (one) => (one as HTMLElement).innerText)
    expect(bare).toContain('Put a weight that you trust on the bench scale')
    const phone = await open()
    await phone.tick('two')
    await phone.tap('[data-step="fats-warm"] .bench-start')
    await phone.page.emulateMediaType('print')
    await plain.page.emulateMediaType('print')
    const shown = (one: Phone): Promise<unknown> =>
      one.page.$eval('section.sheet', (sheet) => [
        // biome-ignore lint/performance/useDomNodeTextContent: only what is shown
        (sheet as HTMLElement).innerText,
        [...sheet.querySelectorAll('.step, tr, .tick-box')].map((each) => {
          const { left, width, height } = each.getBoundingClientRect()
          return [left, width, height]
        }),
      ])
    expect(await shown(phone)).toEqual(await shown(plain))
    expect(await phone.page.$eval('.bench-bar', (one) => one.getClientRects().length)).toBe(0)
  })
})

describe('by hand: what a phone knows of a sheet', () => {
  it('is each step by a name that stays when steps before it come or go', () => {
    const [first, second] = [DAYS.first, DAYS.held].map((day) => benchData(frame, sheetOf(day)))
    const names = first?.steps.map(({ name }) => name) ?? []
    expect(new Set(names).size).toBe(names.length)
    expect(names.length).toBe(stepsOf(sheetOf(DAYS.first)).length)
    expect(names.filter((name) => /^\d*$/.test(name))).toEqual([])
    expect(second?.steps.map(({ name }) => name)).toEqual(names)
    // without ice one step less, and all others by their names
    const iceless = benchData(frame, {
      ...sheetOf(DAYS.first),
      blocks: Object.fromEntries(
        Object.entries(sheetOf(DAYS.first).blocks).map(([key, block]) => [
          key,
          block.kind === 'steps'
            ? { ...block, items: block.items.filter(({ name }) => name !== 'ice') }
            : block,
        ]),
      ),
    })
    expect(iceless.steps.map(({ name }) => name)).toEqual(names.filter((name) => name !== 'ice'))
    expect(first?.print).toMatch(/^[0-9a-f]{16}$/)
    expect(second?.print).not.toBe(first?.print)
  })

  it('is a mistake of ours where a step has none, or two have one', () => {
    const named = (names: readonly (string | undefined)[]): Sheet => ({
      ...sheetOf(DAYS.first),
      blocks: {
        ready: {
          kind: 'steps',
          first: 1,
          items: names.map((name) => ({
            text: { text: 'x', fill: {} },
            ...(name === undefined ? {} : { name }),
          })),
        },
      },
    })
    expect(() => benchData(frame, named(['a', 'b']))).not.toThrow()
    expect(() => benchData(frame, named(['a', undefined]))).toThrow('Step 2')
    expect(() => benchData(frame, named(['a', 'a']))).toThrow('named "a"')
  })

  it('are waits as long as the sheet says, in numbers that stand on it', () => {
    const waits = stepsOf(sheetOf(DAYS.first)).flatMap(({ waits: some = [] }): readonly Wait[] => some)
    expect(waits.map(({ name }) => name)).toEqual([
      ...['lye-in-air', 'lye-in-bath', 'fats-warm', 'too-thick', 'watch', 'strip', 'cut'],
      ...(waits.some(({ name }) => name === 'cut-blind') ? ['cut-blind'] : []),
      'log',
    ])
    const seconds = (shown: string): number =>
      [...shown.matchAll(/([\d.]+)\s(min|h|days?|weeks?)/g)].reduce(
        (sum, [, count, unit = '']) =>
          sum +
          Number(count) *
            ({ min: 60, h: 3600, d: 86400, w: 604800 }[unit[0] === 'm' ? 'min' : (unit[0] ?? '')] ??
              Number.NaN),
        0,
      )
    for (const { name, after, every } of waits) {
      for (const { name: of, value, shown } of after) {
        expect(sheetOf(DAYS.first).values.get(of)?.shown, name).toBe(shown)
        expect(value, `${name}: ${shown}`).toBe(seconds(shown))
      }
      if (every) expect(every.value).toBe(1800)
    }
    // the half hour between two looks stands in words
    const watch = stepsOf(sheetOf(DAYS.first)).find(({ name }) => name === 'watch')
    expect(inlineWords(watch?.text ?? { text: '', fill: {} })).toContain('Every half hour')
  })
})

describe('by hand: timers', () => {
  const timer = (after: readonly number[], more: Partial<Timer> = {}): Timer => ({
    name: 'a',
    words: 'A',
    after: after.map((seconds) => ({ seconds, shown: '' })),
    start: 1_000_000,
    seen: 0,
    print: 'p',
    ...more,
  })

  it('have their moments by the clock', () => {
    expect(momentsOf(timer([60]))).toEqual([1_060_000])
    expect(momentsOf(timer([60, 90]))).toEqual([1_060_000, 1_090_000])
    // each half hour until 1 h 40: 0:30, 1:00, 1:30, 1:40
    const every = { seconds: 1800, shown: '' }
    expect(momentsOf(timer([6000], { every })).map((at) => (at - 1_000_000) / MINUTE)).toEqual([
      30, 60, 90, 100,
    ])
    // a last one that is a whole turn comes once
    expect(momentsOf(timer([3600], { every }))).toHaveLength(2)
  })

  it('ring from each moment until somebody has seen it', () => {
    const two = timer([60, 90])
    expect(stateOf(two, 1_059_999)).toMatchObject({ passed: 0, isRinging: false, next: 1_060_000 })
    expect(stateOf(two, 1_060_000)).toMatchObject({ passed: 1, isRinging: true, since: 1_060_000 })
    expect(stateOf({ ...two, seen: 1 }, 1_061_000)).toMatchObject({ isRinging: false, next: 1_090_000 })
    expect(stateOf({ ...two, seen: 1 }, 1_091_000)).toMatchObject({ isRinging: true, next: undefined })
  })

  it('stand in order: what rings, then what is over soonest', () => {
    const [late, soon, over] = [timer([90]), timer([60]), timer([10])]
    expect(inOrder([late, soon, over], 1_020_000)).toEqual([over, soon, late])
  })

  it('say what is left up to the second', () => {
    expect([0, 1, 59_001, 60_000, 3_599_000, 3_600_000, 37_230_000].map(leftText)).toEqual([
      '0:00', '0:01', '1:00', '1:00', '59:59', '1:00:00', '10:20:30',
    ]) // biome-ignore format: in one row
  })

  it('say an hour of another day with its weekday', () => {
    const now = new Date(2027, 2, 14, 23, 30).getTime()
    const clock = { clock: '24-hour', language: 'en' } as const
    expect(clockTime(now + 5 * MINUTE, now, clock)).toBe('23:35')
    // 14 March 2027 is a Sunday
    expect(clockTime(now + 45 * MINUTE, now, clock)).toBe('Mon 0:15')
    expect(clockTime(now, now, { clock: 'am-pm', language: 'en' })).toMatch(/^11:30\sPM$/)
  })
})

describe('by hand: what a phone keeps', () => {
  const tick = { at: 1, what: '1 x' }
  const kept: Kept = { print: 'p', ticks: { 'step/x': tick }, moments: {}, timers: [], others: [] }

  it('belongs to the print that it was made on', () => {
    expect(forPrint(kept, 'p')).toBe(kept)
    const other = forPrint(kept, 'q')
    expect(other.ticks).toEqual({})
    expect(other.others).toEqual([{ print: 'p', ticks: { 'step/x': tick } }])
    expect(forPrint(other, 'p')).toEqual(kept)
    expect(forPrint({ ...kept, ticks: {} }, 'q').others).toEqual([])
  })

  it.each(['', 'null', '[]', '{}', '{"print":1}', '{"print":"p","ticks":{"a":1}}', 'x'])(
    'is not read from what is none: %s',
    (text) => {
      expect(keptOf(text)).toBeUndefined()
      expect(keptOf(JSON.stringify(kept))).toEqual(kept)
    },
  )
})
