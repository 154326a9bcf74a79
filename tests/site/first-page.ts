/** The first page: what is due, by the clock of the reader's device. */
import type { Page } from 'puppeteer'
import { describe, expect, it } from 'vitest'
import { composeEdited, WHOLE_DEMO } from '../sites/edited-demo.ts'
import type { OpenSite } from './site-folder.ts'

/** A page that believes that it is another day. */
const setClock = (page: Page, day: string): Promise<unknown> =>
  page.evaluateOnNewDocument((moment) => {
    const Real = Date
    const ahead = new Real(moment).getTime() - Real.now()
    globalThis.Date = class extends Real {
      constructor(...given: unknown[]) {
        // biome-ignore lint/suspicious/noExplicitAny: whatever a date is made of
        super(...((given.length === 0 ? [Real.now() + ahead] : given) as [any]))
      }
    } as DateConstructor
  }, `${day}T07:30:00`)

interface Due {
  readonly told: string
  /** with what stands before them, of the open list */
  readonly days: readonly (readonly [string, string])[]
  readonly folded: readonly string[]
}

const dueOn = async ({ browser, address }: OpenSite, day: string): Promise<Due> => {
  const page = await browser.newPage()
  await setClock(page, day)
  await page.goto(address('index.html'))
  const due = await page.evaluate(() => ({
    told: (document.querySelector('.due-now') as HTMLElement).hidden
      ? ''
      : (document.querySelector('.due-now')?.textContent ?? ''),
    days: [...document.querySelectorAll<HTMLElement>('section > .days > .a-day')].map(
      (one) => [one.dataset.date ?? '', one.querySelector('.which')?.textContent ?? ''] as [string, string],
    ),
    folded: [...document.querySelectorAll('.other-days summary')].map((one) => one.textContent ?? ''),
  }))
  await page.close()
  return due
}

export const describeFirstPage = (open: () => OpenSite): unknown =>
  describe('by hand: the first page says what is due', () => {
    // the demo's batch of 14 March is poured on that day, its sides come off the next, it is weighed on the third
    it('with today and tomorrow named by the device', async () => {
      const { told, days, folded } = await dueOn(open(), '2027-03-14')
      expect(told).toBe('')
      expect(days.slice(0, 2)).toEqual([
        ['2027-03-14', 'Today'],
        ['2027-03-15', 'Tomorrow'],
      ])
      expect(days.slice(2).every(([date, which]) => date < '2027-03-21' && which === '')).toBe(true)
      expect(folded).toHaveLength(2)
    })

    it('on a day without work, and tells the next one', async () => {
      const { told, days } = await dueOn(open(), '2027-03-13')
      expect(told).toBe('Nothing is planned for today. The next day with work is Sun 14\u00a0Mar.')
      expect(days[0]).toEqual(['2027-03-14', 'Tomorrow'])
    })

    it('long before the plan and after its end', async () => {
      const before = await dueOn(open(), '2026-01-05')
      expect(before.days).toHaveLength(1)
      expect(before.told).toContain('The next day with work is')
      const after = await dueOn(open(), '2031-01-05')
      expect(after.days).toEqual([])
      expect(after.told).toContain('Every day of this plan is over.')
    })

    it('with every task of the plan, by script or without', async () => {
      const { browser, address } = open()
      const { days } = (await composeEdited(WHOLE_DEMO)).firstPage()
      const all = days.map(({ day, tasks }) => `${day.value} ${tasks.length}`)
      expect(all.length).toBeGreaterThan(20)
      expect([...days].map(({ day }) => day.value)).toEqual(days.map(({ day }) => day.value).sort())
      const page = await browser.newPage()
      const listed = (): Promise<string[]> =>
        page.evaluate(() =>
          [...document.querySelectorAll<HTMLElement>('.a-day')].map(
            (one) => `${one.dataset.date} ${one.querySelectorAll('li').length}`,
          ),
        )
      await page.goto(address('index.html'))
      expect(await listed()).toEqual(all)
      await page.setJavaScriptEnabled(false)
      await page.goto(address('index.html'))
      expect(await listed()).toEqual(all)
      expect(
        await page.$$eval('details, [role=status]:not([hidden]):not(:empty)', (found) => found.length),
      ).toBe(0)
      await page.close()
    })
  })
