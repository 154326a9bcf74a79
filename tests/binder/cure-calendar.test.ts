/** The calendar file of a binder, read back by an independent parser. */
import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { calendarFile } from '../../src/sheets/cure/calendar-file.ts'
import { frameOf } from '../../src/sheets/frame.ts'
import { showIn } from '../../src/sheets/shown.ts'
import { pageRoom } from '../../src/site/print-job.ts'
import { composeEdited, demo, editedDemo, WHOLE_DEMO } from '../sites/edited-demo.ts'

/** Events by the properties that a calendar program shows, as ical.js reads them. */
const read = (text: string): Map<string, string>[] =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((event) => {
    const value = (name: string): string => String(event.getFirstPropertyValue(name))
    return new Map(
      ['uid', 'summary', 'dtstart', 'dtend', 'sequence'].map((name) => [name.toUpperCase(), value(name)]),
    )
  })
/** Of a folder, without its sheets, which take long to draw. */
const calendarOf = async (folder: string): Promise<string> => {
  const content = loadContent((await readFolder(folder, 'shop', FILE_KINDS)).files, 'shop').content!
  const { units, hours, name, paper, edition } = content.shop.value
  const english = readCatalogue('en')
  const show = showIn({ ...units, denominator: 16, clock: hours?.clock ?? '24-hour' }, english.locale)
  const frame = frameOf(english, show, name, pageRoom(paper), edition, new Map())
  return calendarFile(frame, bind(content).binder, edition)
}

const text = await calendarOf(demo)
const events = read(text)
const of = (key: string) => events.filter((event) => event.get('UID')?.startsWith(key))

describe('by hand: the demo’s calendar, as ical.js 2.2.1 reads it', () => {
  test('the hearth bar is poured on 14 March 2027, all day, and the day after is its end', () => {
    const pour = of('2027-03-14-hearth/pour')[0]
    expect(pour?.get('DTSTART')).toBe('2027-03-14')
    expect(pour?.get('DTEND')).toBe('2027-03-15')
    // the lye cools for two hours and some minutes: with an hour and a half before it, to the half hour, four hours
    expect(pour?.get('SUMMARY')).toBe('Hearth bar: pour at 10 am; work begins at 6 am')
  })

  test('it is weighed on day 7, Sunday 21 March, and day 28, 11 April', () => {
    expect(of('2027-03-14-hearth/weigh-in-7')[0]?.get('DTSTART')).toBe('2027-03-21')
    expect(of('2027-03-14-hearth/weigh-in-28')[0]?.get('DTSTART')).toBe('2027-04-11')
  })

  test('a batch that is stopped has no date', () => {
    expect(text).not.toContain('2027-03-28-market')
    expect(of('2027-03-21-lather').length).toBeGreaterThan(5)
  })

  test('a cut that may be made from Monday to Tuesday 10:00 takes both days', () => {
    const cut = of('2027-03-14-hearth/cut')[0]
    expect(cut?.get('DTSTART')).toBe('2027-03-15')
    expect(cut?.get('DTEND')).toBe('2027-03-17')
    expect(cut?.get('SUMMARY')).toMatch(/latest Tue 16/)
  })

  test('every event is of whole days, none ends before it begins', () => {
    for (const event of events) {
      expect(event.get('DTSTART')).toMatch(/^\d{4}-\d\d-\d\d$/)
      expect(event.get('DTEND')! > event.get('DTSTART')!).toBe(true)
    }
  })

  test('every event has a name of its own', () => {
    const names = events.map((event) => event.get('UID'))
    expect(new Set(names).size).toBe(names.length)
    expect(names.length).toBeGreaterThan(20)
  })

  test('the same bytes in the binder; a later edition keeps the names and counts up', async () => {
    const written = (await composeEdited(WHOLE_DEMO)).outputFiles()
    expect(written.find(({ path }) => path === 'cure.ics')?.text()).toBe(text)
    const { folder, remove } = editedDemo(WHOLE_DEMO)
    const { readFileSync, writeFileSync } = await import('node:fs')
    const shop = `${folder}/shop.yaml`
    writeFileSync(shop, readFileSync(shop, 'utf8').replace('edition: 2027-03-01', 'edition: 2027-03-08'))
    const later = read(await calendarOf(folder))
    remove()
    expect(later.map((event) => event.get('UID'))).toEqual(events.map((event) => event.get('UID')))
    // a week
    expect(Number(later[0]?.get('SEQUENCE')) - Number(events[0]?.get('SEQUENCE'))).toBe(7)
  })
})
