/** The calendar file of a binder, read back by a reader of this test's own. */
import { describe, expect, test } from 'vitest'
import { compose } from '../../src/commands/compose.ts'
import { demo, editedDemo, WHOLE_DEMO } from '../sites/edited-demo.ts'

/** RFC 5545: lines unfolded, properties by name, events in their order. */
const read = (text: string): Map<string, string>[] => {
  const lines = text.replace(/\r\n[ \t]/g, '').split('\r\n')
  const events: Map<string, string>[] = []
  for (const line of lines) {
    if (line === 'BEGIN:VEVENT') events.push(new Map())
    const colon = line.indexOf(':')
    events
      .at(-1)
      ?.set(line.slice(0, colon).replace(/;.*/, ''), line.slice(colon + 1).replace(/\\([\\;,])/g, '$1'))
  }
  return events
}
const calendarOf = async (folder: string): Promise<string> => (await compose(folder, 'shop')).binder!.calendar

const text = await calendarOf(demo)
const events = read(text)
const of = (key: string) => events.filter((event) => event.get('UID')?.startsWith(key))

describe('by hand: the demo’s calendar', () => {
  test('the hearth bar is poured on 14 March 2027, all day, and the day after is its end', () => {
    const pour = of('2027-03-14-hearth/pour')[0]
    expect(pour?.get('DTSTART')).toBe('20270314')
    expect(pour?.get('DTEND')).toBe('20270315')
    expect(pour?.get('SUMMARY')).toBe('Hearth bar: Pour, 10 am')
  })

  test('it is weighed on day 7, Sunday 21 March, and day 28, 11 April', () => {
    expect(of('2027-03-14-hearth/weigh-in-7')[0]?.get('DTSTART')).toBe('20270321')
    expect(of('2027-03-14-hearth/weigh-in-28')[0]?.get('DTSTART')).toBe('20270411')
  })

  test('a batch that is stopped has no date', () => {
    expect(text).not.toContain('2027-03-28-market')
    expect(of('2027-03-21-lather').length).toBeGreaterThan(5)
  })

  test('every event has a name of its own', () => {
    const names = events.map((event) => event.get('UID'))
    expect(new Set(names).size).toBe(names.length)
    expect(names.length).toBeGreaterThan(20)
  })

  test('the same bytes again; a later edition keeps the names and counts up', async () => {
    expect(await calendarOf(demo)).toBe(text)
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
