import fc from 'fast-check'
import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { type CalendarEvent, calendarText, escapeText, eventKey, foldLine } from '../../src/cure/icalendar.ts'

// Another reading of RFC 5545 (sections 3.1, 3.3.11, 3.6), written from the text of the standard as recalled.
interface Component {
  readonly name: string
  readonly properties: {
    readonly name: string
    readonly options: readonly string[]
    readonly value: string
  }[]
  readonly inside: Component[]
}

const unfold = (text: string): string[] => {
  expect(text.endsWith('\r\n')).toBe(true)
  const lines = text.slice(0, -2).split('\r\n')
  for (const line of lines) {
    expect(line).not.toMatch(/[\r\n]/)
    expect(Buffer.byteLength(line, 'utf8')).toBeLessThanOrEqual(75)
  }
  return text.slice(0, -2).replaceAll('\r\n ', '').split('\r\n')
}

const unescaped = (value: string): string => {
  let plain = ''
  for (let i = 0; i < value.length; i += 1) {
    const sign = value[i]
    if (sign !== '\\') {
      expect(sign).not.toMatch(/[;,]/)
      plain += sign
      continue
    }
    i += 1
    const next = value[i] ?? ''
    expect('\\;,nN').toContain(next)
    plain += next === 'n' || next === 'N' ? '\n' : next
  }
  return plain
}

const read = (text: string): Component => {
  const top: Component = { name: 'top', properties: [], inside: [] }
  const open = [top]
  for (const line of unfold(text)) {
    const colon = line.indexOf(':')
    const [name = '', ...options] = line.slice(0, colon).split(';')
    const value = line.slice(colon + 1)
    if (name === 'BEGIN') {
      const component: Component = { name: value, properties: [], inside: [] }
      open.at(-1)?.inside.push(component)
      open.push(component)
    } else if (name === 'END') {
      expect(open.pop()?.name).toBe(value)
    } else open.at(-1)?.properties.push({ name, options, value })
  }
  expect(open).toEqual([top])
  return top
}

const values = (component: Component | undefined, name: string): string[] =>
  (component?.properties ?? []).filter((one) => one.name === name).map(({ value }) => value)

const EVENT: CalendarEvent = { batch: '2027-03-14-hearth', task: 'cut', summary: 'Cut', date: '2027-03-15' }
const file = (...events: CalendarEvent[]) => ({ name: 'Shop', edition: '2027-03-01', sequence: 2, events })

describe('published: rfc5545, structure', () => {
  test('one calendar with version, product and events; each with name, stamp, start', () => {
    const calendar = read(calendarText(file(EVENT, { ...EVENT, task: 'turn' }))).inside[0]
    expect(calendar?.name).toBe('VCALENDAR')
    expect(values(calendar, 'VERSION')).toEqual(['2.0'])
    expect(values(calendar, 'PRODID')).toHaveLength(1)
    expect(calendar?.inside.map(({ name }) => name)).toEqual(['VEVENT', 'VEVENT'])
    for (const event of calendar?.inside ?? []) {
      for (const name of ['UID', 'DTSTAMP', 'DTSTART', 'DTEND', 'SUMMARY', 'SEQUENCE']) {
        expect(values(event, name), name).toHaveLength(1)
      }
      expect(values(event, 'DTSTAMP')).toEqual(['20270301T000000Z'])
      expect(values(event, 'SEQUENCE')).toEqual(['2'])
    }
  })

  test('an all-day event ends on the day after, over a leap day and a year end', () => {
    const of = (event: CalendarEvent) => read(calendarText(file(event))).inside[0]?.inside[0]
    const day = of(EVENT)
    expect(values(day, 'DTSTART')).toEqual(['20270315'])
    expect(values(day, 'DTEND')).toEqual(['20270316'])
    expect(day?.properties.find(({ name }) => name === 'DTSTART')?.options).toEqual(['VALUE=DATE'])
    expect(values(of({ ...EVENT, date: '2028-02-28', days: 2 }), 'DTEND')).toEqual(['20280301'])
    expect(values(of({ ...EVENT, date: '2027-12-31' }), 'DTEND')).toEqual(['20280101'])
  })

  test('a timed event floats: no zone, no Z; it may pass midnight', () => {
    const of = (minute: number, duration: number) =>
      read(calendarText(file({ ...EVENT, time: { minute, duration } }))).inside[0]?.inside[0]
    expect(values(of(545, 90), 'DTSTART')).toEqual(['20270315T090500'])
    expect(values(of(545, 90), 'DTEND')).toEqual(['20270315T103500'])
    expect(values(of(1410, 60), 'DTEND')).toEqual(['20270316T003000'])
    expect(values(of(545, 0), 'DTEND')).toEqual([])
  })

  test('the same event has the same name in every edition, and no two pairs share one', () => {
    expect(eventKey({ batch: 'a b', task: 'c' })).toBe('a%20b/c@kettle-and-kerf')
    expect(eventKey({ batch: 'a/b', task: 'c' })).not.toBe(eventKey({ batch: 'a', task: 'b/c' }))
    expect(calendarText(file(EVENT))).toBe(calendarText(file(EVENT)))
  })
})

describe('published: rfc5545, as ical.js 2.2.1 reads it', () => {
  const parsed = (...events: CalendarEvent[]) =>
    new ICAL.Component(ICAL.parse(calendarText(file(...events))))
      .getAllSubcomponents('vevent')
      .map((event) => new ICAL.Event(event))

  test('all-day events over a leap day and a year end: the end is the day after the last', () => {
    const [leap, year] = parsed(
      { ...EVENT, date: '2028-02-28', days: 2 },
      { ...EVENT, task: 'slice', date: '2027-12-31' },
    )
    expect([leap?.startDate.isDate, String(leap?.startDate), String(leap?.endDate)]).toEqual([
      true,
      '2028-02-28',
      '2028-03-01',
    ])
    expect([String(year?.startDate), String(year?.endDate)]).toEqual(['2027-12-31', '2028-01-01'])
    // 28 and 29 February
    expect(leap?.duration.toSeconds()).toBe(2 * 86400)
  })

  test('a timed event floats, also over the night on which clocks go forward', () => {
    const [night] = parsed({ ...EVENT, date: '2027-03-27', time: { minute: 1380, duration: 240 } })
    expect(night?.startDate.zone.tzid).toBe('floating')
    expect([String(night?.startDate), String(night?.endDate)]).toEqual([
      '2027-03-27T23:00:00',
      '2027-03-28T03:00:00',
    ])
  })

  test('any words come back', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 200 })
    fc.assert(
      fc.property(text, text, (summary, description) => {
        const [event] = parsed({ ...EVENT, summary, description })
        const plain = (wanted: string): string =>
          wanted.replace(/\r\n?/g, '\n').replace(/(?![\t\n])\p{Cc}/gu, '')
        expect(event?.summary).toBe(plain(summary))
        expect(event?.description).toBe(plain(description))
      }),
      { numRuns: 200 },
    )
  })
})

describe('by hand: text', () => {
  test('signs of the format are escaped, line ends written, control signs gone', () => {
    expect(escapeText('a, b; c\\d\r\ne\nf\u0007g')).toBe('a\\, b\\; c\\\\d\\ne\\nfg')
  })

  test('75 octets stay whole, 76 are folded; no letter is cut in two', () => {
    expect(foldLine('x'.repeat(75))).toBe('x'.repeat(75))
    expect(foldLine('x'.repeat(76))).toBe(`${'x'.repeat(75)}\r\n x`)
    // 74 + é (2 octets) passes 75, so é begins the next line
    expect(foldLine(`${'x'.repeat(74)}é`)).toBe(`${'x'.repeat(74)}\r\n é`)
    // a further line holds its space and 74 more
    expect(
      foldLine('x'.repeat(150))
        .split('\r\n')
        .map((line) => line.length),
    ).toEqual([75, 75, 2])
  })

  test('any text comes back by the other reading, in lines of at most 75 octets', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 200 })
    fc.assert(
      fc.property(text, text, text, (batch, summary, description) => {
        const event = read(calendarText(file({ ...EVENT, batch, summary, description }))).inside[0]?.inside[0]
        const plain = (wanted: string): string =>
          wanted.replace(/\r\n?/g, '\n').replace(/(?![\t\n])\p{Cc}/gu, '')
        expect(values(event, 'SUMMARY').map(unescaped)).toEqual([plain(summary)])
        expect(values(event, 'DESCRIPTION').map(unescaped)).toEqual([plain(description)])
        const name = values(event, 'UID')[0]?.replace('@kettle-and-kerf', '').split('/')[0] ?? ''
        expect(decodeURIComponent(name)).toBe(batch)
      }),
      { numRuns: 300 },
    )
  })

  test('half a character does not break the file', () => {
    expect(() => calendarText(file({ ...EVENT, batch: 'a\uD800', summary: '\uDC00b' }))).not.toThrow()
  })
})
