/** Days and hours of batches from their files to the sheets: plan, months, racks, markets. */
import { describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import { calendarFile } from '../../src/sheets/cure/calendar-file.ts'
import type { Month, Sheet, Table } from '../../src/sheets/model.ts'
import { minutesAt } from '../../src/units/civil-day.ts'
import { bindAndCompose, contentOf, frame, loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

const BATCH = 'batches/2027-02-01-plain.yaml'
const HOURS = 'hours: { opens: 8:00, closes: 18:00, awake-until: 22:00, rest-days: [sunday] }\n'
/** A shelf of 50 by 25 cm: bars of 70 by 25 mm on edge, 15 mm apart, 6 along (515 / 85) and 6 across (265 / 40). */
const RACK = 'racks: { wall: { length: 50 cm, width: 25 cm, shelves: 1, shelf-carries: 8 kg } }\n'

interface Setting {
  readonly shop?: string
  readonly batch?: string
  readonly more?: Readonly<Record<string, string>>
}

const filesOf = ({ shop = HOURS, batch = '', more = {} }: Setting): Map<string, string> => {
  const files = smallBinderFiles()
  files.set('shop.yaml', `${files.get('shop.yaml')}${shop}`)
  files.set(BATCH, `${files.get(BATCH)}${batch}`)
  for (const [name, text] of Object.entries(more)) files.set(name, text)
  return files
}
const made = (setting: Setting) => bindAndCompose(contentOf(filesOf(setting)))

const sheetOf = (sheets: readonly Sheet[], id: string): Sheet => {
  const found = sheets.find((sheet) => sheet.id === id)
  if (!found) throw new Error(`no sheet ${id}`)
  return found
}
const codes = ({ conflicts = [] }: Sheet): string[] => conflicts.map(({ code }) => code)
const plain = (text: string): string => text.replaceAll('\u00a0', ' ')
const another = (date: string, rest = ''): string =>
  `recipe: plain\nmould: small\ndate: ${date}\nfill: to the line\nlye: { water-temperature: 8 C, ice: 40 % }\n${rest}`

describe('by hand: one batch of 36 bars, poured on Monday 1 February 2027', () => {
  const { binder, sheets } = made({})
  const [cure] = binder.cures
  const at = (name: string) => cure!.planned.tasks.find(({ task }) => task === name)?.at

  test('four weeks later it is tested, six weeks later labelled, a year later sold for the last time', () => {
    // the shop opens at 8:00; an hour and a half for mould, scales and oils, then the lye cools: to the next half hour
    const lead = Math.ceil((90 + (cure!.batch.lye.coolingTime ?? 0) / 60) / 30) * 30
    expect(at('pour')).toEqual({ date: '2027-02-01', minute: 480 + lead })
    expect(at('release-test')?.date).toBe('2027-03-01')
    expect(at('label')?.date).toBe('2027-03-15')
    expect(at('sell-by')?.date).toBe('2028-02-01')
  })

  test('strip and cut are not before what was reckoned of the block, to the next half hour', () => {
    const heat = cure!.batch.blockHeat!.heat
    const minutes = (heat.strip.nominal ?? 0) / 60
    const due = 480 + Math.ceil(minutes / 30) * 30
    const strip = at('strip')!
    const days = strip.date === '2027-02-01' ? 0 : 1440
    expect(strip.minute + days).toBeGreaterThanOrEqual(due)
    expect(at('cut')!.minute).toBeGreaterThanOrEqual(480)
  })

  test('weigh-ins in the log are those of the calendar, Sundays moved to Monday', () => {
    // day 3 is Thursday 4 February, day 7 Monday the 8th: no Sunday among 3, 7, 14 … from a Monday
    expect(cure!.plan.slice(0, 2).map(({ date }) => date)).toEqual(['2027-02-04', '2027-02-08'])
    const sunday = made({
      batch: '',
      more: { [BATCH]: another('2027-02-07') },
      shop: 'hours: { opens: 8:00, closes: 18:00, rest-days: [monday] }\n',
    })
    // poured on Sunday 7 February; day 8 is Monday the 15th, free; day 7 is Sunday the 14th
    expect(sunday.binder.cures[0]!.plan.map(({ date }) => date)).toContain('2027-02-14')
    const closed = made({ more: { [BATCH]: another('2027-02-06') } })
    // Saturday 6 February: day 8 … day 7 is Saturday, day 3 is Tuesday; with day 22 of March a Monday
    expect(closed.binder.cures[0]!.plan[0]?.date).toBe('2027-02-09')
  })

  test('somebody is awake from 6:00, of which the file says nothing, to 22:00, of which it does', () => {
    expect(binder.calendar.hours.awake).toEqual({ from: 360, until: 1320 })
  })

  test('the mould is free when the block was cut on its base, an hour after the cut began', () => {
    const cut = cure!.planned.tasks.find(({ task }) => task === 'cut')!
    expect(binder.calendar.plan.mouldStays[0]?.to).toBe(minutesAt(cut.at) + 60)
  })

  test('somebody is awake in the hours that the batch sheet names', () => {
    const { watch } = cure!.batch.blockHeat!
    const { opens, closes } = cure!.planned.tasks.find(({ task }) => task === 'hottest')!
    const poured = minutesAt(at('pour')!)
    expect([minutesAt(opens) - poured, minutesAt(closes!) - poured]).toEqual([watch.from / 60, watch.to / 60])
    const { values } = sheetOf(sheets, 'batch/2027-02-01-plain')
    expect(values.get('block.watch.to')?.value).toBe(watch.to)
    expect(values.get('clock.watch.to')?.value).toBe(
      `${closes!.date}T${String(Math.floor(closes!.minute / 60)).padStart(2, '0')}:${String(closes!.minute % 60).padStart(2, '0')}`,
    )
  })

  test('times of the recipe go before those of the shop, and those of the shop before the usual ones', () => {
    const files = filesOf({ shop: `${HOURS}cure: { test-after: 3 weeks, label-after: 8 weeks }\n` })
    files.set('recipes/plain.yaml', `${files.get('recipes/plain.yaml')}cure: { label-after: 5 weeks }\n`)
    const { tasks } = bindAndCompose(contentOf(files)).binder.cures[0]!.planned
    const day = (name: string) => tasks.find(({ task }) => task === name)?.at.date
    // 1 February and 21 days; 35 days; 365 days
    expect([day('release-test'), day('label'), day('sell-by')]).toEqual([
      '2027-02-22',
      '2027-03-08',
      '2028-02-01',
    ])
  })

  test('what was weighed is not planned again', () => {
    const weighed = made({ batch: 'weigh-ins: [{ date: 2027-02-08, weight: 105 g }]\n' })
    expect(weighed.binder.cures[0]!.plan.map(({ days }) => days)).toEqual([14, 21, 28, 35, 42, 56])
  })

  test('the month page has every day of February on its weekday, weeks from Monday', () => {
    const month = sheetOf(sheets, 'calendar/2027-02').blocks.month as Month
    expect(month.weekdays.map(inlineWords)[0]).toBe('Monday')
    // 1 February 2027 is a Monday and the month has 28 days: four full weeks
    expect(month.weeks).toHaveLength(4)
    expect(month.weeks.flat().map(({ day }) => day?.value)).toEqual(
      Array.from({ length: 28 }, (_, i) => i + 1),
    )
    expect(month.weeks.map((week) => week.map(({ note }) => note !== undefined))).toEqual(
      Array.from({ length: 4 }, () => [false, false, false, false, false, false, true]),
    )
    const first = month.weeks[0]?.[0]?.groups[0]
    // the plan is 6.1: its log is 6.2
    expect(inlineWords(first!.of)).toBe('Plain bar (4.1, 6.2)')
    expect(first!.tasks.slice(0, 2).map(inlineWords)).toEqual(['8:00 begin: oils, lye', '11:30 pour'])
  })

  test('weeks from Sunday: February 2027 then has five rows, the first with a Monday in its second place', () => {
    const { sheets: american } = made({
      shop: 'hours: { opens: 8 am, closes: 6 pm, week-begins: sunday }\n',
    })
    const month = sheetOf(american, 'calendar/2027-02').blocks.month as Month
    expect(month.weeks).toHaveLength(5)
    expect(month.weeks[0]?.map(({ day }) => day?.value)).toEqual([undefined, 1, 2, 3, 4, 5, 6])
    expect(plain(inlineWords(month.weeks[0]![1]!.groups[0]!.tasks[1]!))).toBe('11:30 pour')
  })

  test('months before the edition are not printed, nor months without a task', () => {
    const ids = sheets.filter(({ kind }) => kind === 'calendar').map(({ id }) => id)
    // poured in February, weighed last on day 56, 29 March
    expect(ids).toEqual(['calendar/2027-02', 'calendar/2027-03'])
    const late = filesOf({})
    late.set('shop.yaml', late.get('shop.yaml')!.replace('edition: 2027-01-04', 'edition: 2027-03-02'))
    const kept = bindAndCompose(contentOf(late)).sheets.filter(({ kind }) => kind === 'calendar')
    expect(kept.map(({ id }) => id)).toEqual(['calendar/2027-03'])
  })

  test('a block that is ready at night is a conflict, and at the hour that it names there is none', () => {
    const { nextFree: free } = cure!.planned
    expect(codes(sheetOf(sheets, 'cure/plan'))).toEqual(['window-opens-at-night'])
    const minute = `${Math.floor(free!.minute / 60)}:${String(free!.minute % 60).padStart(2, '0')}`
    const better = made({ more: { [BATCH]: another(free!.date, `pour-at: ${minute}\n`) } })
    const plan = sheetOf(better.sheets, 'cure/plan')
    expect(codes(plan)).toEqual([])
    const { conflicts } = plan.blocks
    expect(conflicts?.kind === 'cautions' && conflicts.signal).toBe('notice')
    // then it is ready when the shop is open
    const cut = better.binder.cures[0]!.planned.tasks.find(({ task }) => task === 'cut')!
    const due =
      minutesAt(free!) + Math.ceil((cure!.batch.blockHeat!.heat.earliestCut.nominal ?? 0) / 1800) * 30
    expect(due % 1440).toBeGreaterThanOrEqual(480)
    expect(due % 1440).toBeLessThanOrEqual(1080)
    expect(minutesAt(cut.at)).toBeGreaterThanOrEqual(due)
  })
})

describe('by hand: what meets', () => {
  test('a pour on a Sunday: named with its line and the next free day', () => {
    const { sheets } = made({ more: { [BATCH]: another('2027-02-07') } })
    const plan = sheetOf(sheets, 'cure/plan')
    expect(codes(plan)).toContain('pour-on-rest-day')
    const said = plan.conflicts!.find(({ code }) => code === 'pour-on-rest-day')!
    expect(said.place).toBe(`${BATCH}:3`)
    // Monday the 8th at 11:30, as soon as all is ready, meets nothing that stops it
    expect(plain(inlineWords(said.reason))).toMatch(/Sun 7 Feb.*Mon 8 Feb, 11:30/)
  })

  test('the same day, the same mould: the second is named with the first; two moulds take both', () => {
    const second = { 'batches/2027-02-01-twin.yaml': another('2027-02-01', 'pour-at: 9:00\n') }
    const { sheets } = made({ more: second })
    const plan = sheetOf(sheets, 'cure/plan')
    const said = plan.conflicts!.find(({ code }) => code === 'mould-occupied')!
    expect(said.place).toBe('batches/2027-02-01-twin.yaml:3')
    expect(inlineWords(said.reason)).toMatch(
      /Plain bar \(4\.2\): the mould “Small block” still holds Plain bar \(4\.1\)/,
    )
    const fixture = smallBinderFiles().get('fixtures/small.yaml')!
    const two = made({ more: { ...second, 'fixtures/small.yaml': `${fixture}how-many: 2\n` } })
    expect(codes(sheetOf(two.sheets, 'cure/plan'))).not.toContain('mould-occupied')
    const table = sheetOf(two.sheets, 'cure/plan').blocks.batches as Table
    expect(table.rows.map((row) => row[1]?.kind === 'words' && inlineWords(row[1].words))).toEqual([
      'Small block, no. 1',
      'Small block, no. 2',
    ])
  })

  test('an hour that nobody works: poured at 17:30, an hour of washing up does not end by 18:00', () => {
    const plan = sheetOf(made({ batch: 'pour-at: 17:30\n' }).sheets, 'cure/plan')
    expect(codes(plan)).toContain('pour-outside-hours')
    expect(plan.conflicts?.[0]?.place).toBe(`${BATCH}:6`)
  })

  test('walls that come off after three days, a block too hard after two: no day for the cut, nor for what follows', () => {
    const { binder, sheets } = made({ shop: `${HOURS}block: { walls-off: 3 days }\n` })
    expect(codes(sheetOf(sheets, 'cure/plan'))).toContain('no-cut-window')
    const shown = sheets
      .filter(({ kind }) => kind === 'calendar')
      .flatMap(({ values }) => [...values.keys()])
      .filter((name) => name.endsWith('.time'))
      .map((name) => name.replace('calendar.2027-02-01-plain.', ''))
    expect(shown).toEqual(['pour.time', 'hottest.time', 'strip.time'])
    expect(binder.cures[0]!.cutUnknown).toBe(true)
  })

  test('weigh-ins that cannot be: no day for a weighing or a label, all others stay', () => {
    const { binder, sheets } = made({ batch: 'label-weight: 300 g\n' })
    const text = calendarFile(frame, binder, '2027-01-04')
    const shown = sheets.filter(({ kind }) => kind === 'calendar').flatMap(({ values }) => [...values.keys()])
    for (const task of ['weigh-in', 'label']) {
      expect(shown.filter((name) => name.includes(`.${task}`))).toEqual([])
      expect(text).not.toContain(`/${task}`)
    }
    expect(text).toContain('/release-test@')
  })

  test('on its month page a conflict is marked', () => {
    const { sheets } = made({ more: { [BATCH]: another('2027-02-07') } })
    const month = sheetOf(sheets, 'calendar/2027-02').blocks.month as Month
    const entries = month.weeks
      .flat()
      .flatMap(({ groups }) => groups.flatMap(({ tasks }) => tasks.map(inlineWords)))
    expect(
      entries.filter((text) => text.startsWith('(!)')).map((text) => text.replace(/^\S+ \S+ /, '')),
    ).toContain('pour')
    expect(entries.filter((text) => !text.startsWith('(!)')).length).toBeGreaterThan(5)
  })

  test('the latest cut stands on its own day, too', () => {
    const { binder, sheets } = made({})
    const cut = binder.cures[0]!.planned.tasks.find(({ task }) => task === 'cut')!
    expect(cut.closes!.date > cut.at.date).toBe(true)
    const { weeks } = sheetOf(sheets, 'calendar/2027-02').blocks.month as Month
    const days = weeks
      .flat()
      .filter(({ groups }) =>
        groups.some(({ tasks }) => tasks.some((one) => /latest cut/.test(inlineWords(one)))),
      )
      .map(({ day }) => day?.value)
    expect(days).toEqual([Number(cut.closes!.date.slice(8))])
  })

  test('what is no longer sold has left the plan', () => {
    const rows = (edition: string) => {
      const files = filesOf({})
      files.set('shop.yaml', files.get('shop.yaml')!.replace('edition: 2027-01-04', `edition: ${edition}`))
      const { batches } = sheetOf(bindAndCompose(contentOf(files)).sheets, 'cure/plan').blocks
      return batches?.kind === 'table' ? batches.rows.length : 0
    }
    // sold until 1 February 2028
    expect([rows('2028-02-01'), rows('2028-02-02')]).toEqual([1, 0])
  })

  test('a stopped batch has no days, and its weight no place on the plan', () => {
    const files = filesOf({})
    files.set(
      'recipes/plain.yaml',
      files.get('recipes/plain.yaml')!.replace('superfat: 6 %', 'superfat: 1 %'),
    )
    const { binder, sheets } = bindAndCompose(contentOf(files))
    expect(binder.cures).toEqual([])
    expect(sheets.some(({ kind }) => kind === 'calendar')).toBe(false)
  })
})

describe('by hand: a rack of one shelf for 36 bars of 70 by 60 by 25 mm', () => {
  test('6 along and 6 across are 36: one batch fills it, and a second finds no place', () => {
    const { binder, sheets } = made({ shop: `${HOURS}${RACK}` })
    expect(binder.cures[0]!.racks[0]).toMatchObject({ along: 6, across: 6, places: 36 })
    expect(binder.calendar.weeks[0]).toMatchObject({ bars: 36, share: 1 })
    expect(codes(sheetOf(sheets, 'cure/plan'))).not.toContain('racks-full')
    const two = made({
      shop: `${HOURS}${RACK}`,
      more: { 'batches/2027-02-10-more.yaml': another('2027-02-10') },
    })
    const plan = sheetOf(two.sheets, 'cure/plan')
    const said = plan.conflicts!.find(({ code }) => code === 'racks-full')!
    expect(plain(inlineWords(said.reason))).toMatch(/no room for 36 of its 36 bars/)
    // the first leaves on 15 March but for its five marked bars, which are weighed to day 56, 29 March: a batch that is
    // poured on the 27th or 29th is sliced after that
    expect(plain(inlineWords(said.reason))).toMatch(/Poured on (Sat 27|Mon 29) Mar/)
    const weeks = sheetOf(two.sheets, 'cure/racks').blocks.weeks as Table
    const over = weeks.rows.map((row) => row[3]?.kind === 'words' && inlineWords(row[3].words))
    expect(over).toContain('36 too many')
  })

  test('labelled on Monday 15 March, five marked bars stay to day 56, Monday 29 March', () => {
    const { binder, sheets } = made({ shop: `${HOURS}${RACK}` })
    expect(binder.calendar.plan.rackStays).toMatchObject([
      { bars: 36, to: '2027-03-15' },
      { bars: 5, from: '2027-03-16', to: '2027-03-29' },
    ])
    expect(binder.calendar.weeks.map(({ bars }) => bars).slice(-3)).toEqual([36, 5, 5])
    // of the rack itself: 36 places less five
    const { values } = sheetOf(sheets, 'cure/racks')
    expect(values.get('racks.week.2027-03-29.wall.left')?.value).toBe(31)
  })

  test('a shelf that carries 1 kg takes no more than its load; one that nobody rated is named', () => {
    const weak = made({ shop: `${HOURS}${RACK.replace('8 kg', '1 kg')}` })
    // a bar of about 110 g: 9 to a kilogram
    expect(weak.binder.cures[0]!.racks[0]!.places).toBe(9)
    const notes = sheetOf(weak.sheets, 'cure/racks').blocks.notes
    expect(notes?.kind === 'cautions' && notes.items.map(inlineWords)[0]).toMatch(/has room for 36 bars/)
    const unrated = made({ shop: `${HOURS}${RACK.replace(', shelf-carries: 8 kg', '')}` })
    const said = sheetOf(unrated.sheets, 'cure/racks').blocks.notes
    expect(said?.kind === 'cautions' && said.items.map(inlineWords)[0]).toMatch(/Nobody has written down/)
  })

  test('no racks in the file: no sheet and no conflict; racks without a rack, and without a shelf: named', () => {
    expect(made({}).sheets.some(({ id }) => id === 'cure/racks')).toBe(false)
    const wrong = (racks: string) => loadFiles(filesOf({ shop: racks })).diagnostics
    expect(wrong('racks: {}\n')).toMatchObject([{ code: 'nothing-listed', path: '/racks' }])
    expect(wrong(RACK.replace('shelves: 1', 'shelves: 0'))).toMatchObject([
      { code: 'out-of-range', path: '/racks/wall/shelves' },
    ])
  })
})

describe('by hand: 40 bars for a market on Saturday 12 June 2027', () => {
  const market = (more = ''): Setting => ({
    more: {
      'markets/fair.yaml': `title: Fair\ndate: 2027-06-12\nready: 2 days\nmould: small\nbars: { plain: 40 }\n${more}`,
    },
  })

  test('36 bars less eleven make two batches; the last poured on Thursday 29 April', () => {
    // labelled by Thursday 10 June; 42 days before is 29 April
    const { binder, sheets } = made(market())
    const [item] = binder.markets[0]!.items
    expect(item).toMatchObject({ bars: 40, barsPoured: 36, barsPerBatch: 25 })
    expect(item!.back?.pours.map(({ pour }) => pour.date).at(-1)).toBe('2027-04-29')
    expect(item!.back?.pours).toHaveLength(2)
    const chain = sheetOf(sheets, 'market/fair').blocks.chain as Table
    const said = chain.rows.map((row) => row[2]?.kind === 'words' && plain(inlineWords(row[2].words)))
    expect(said).toContain('42 days after the pour')
    expect(said).toContain('2 days before the market, to leave time for packing')
    expect(said).toContain('bars would be labelled too late')
    // what no other sheet has of a batch that nobody has planned
    const { values } = sheetOf(sheets, 'market/fair')
    expect(values.get('market.plain.2.release-test')?.value).toBe('2027-05-27')
    expect(values.get('market.plain.2.label')?.value).toBe('2027-06-10')
  })

  test('bars that have too much to lose on day 42 are poured sooner, by the day on which they keep their label', () => {
    const label = made(market('label-weight: 95 g\n'))
    const item = label.binder.markets[0]!.items[0]!
    const wait = item
      .back!.pours.at(-1)!
      .reasons.find((one) => one.because === 'task' && one.task === 'label')
    expect(item.waitsFor).toBe(0.095)
    expect(wait?.because === 'task' && wait.wait / 1440).toBeGreaterThan(42)
  })

  test('a label that dried bars do not have: no day, and said so', () => {
    const { sheets } = made(market('label-weight: 108 g\n'))
    expect(codes(sheetOf(sheets, 'market/fair'))).toEqual(['market-label-too-heavy'])
  })

  test('too soon: said with what is short and the soonest day, on the sheet and on the terminal', () => {
    const { sheets } = made({
      more: { 'markets/fair.yaml': 'title: Fair\ndate: 2027-01-30\nmould: small\nbars: { plain: 25 }\n' },
    })
    const sheet = sheetOf(sheets, 'market/fair')
    expect(codes(sheet)).toEqual(['market-too-soon'])
    // edition Monday 4 January 8:00 and 42 days: Monday 15 February
    expect(plain(inlineWords(sheet.conflicts![0]!.reason))).toMatch(/1 of 1 .*Mon 15 Feb/)
    expect(sheet.conflicts![0]!.place).toBe('markets/fair.yaml')
  })

  test('bars that are wrapped count as what is left of them, however old; of a batch that is held back none does', () => {
    const wrappedIn = (more: string) =>
      made({
        more: {
          ...market().more,
          'stock/all.yaml':
            'entries:\n  - { date: 2026-10-01, received: O-1, material: olive, amount: 9 kg }\n',
          'batches/2026-11-02-old.yaml': another(
            '2026-11-02',
            `made:
  used: [{ lot: O-1, amount: 2 kg }]
  bars: { cut: 36, tests: 6, rejected: 1 }
  wrapped: { date: 2026-12-21, weights: [90 g] }
  went: [{ date: 2026-12-24, bars: 9, to: a fair }]
${more}`,
          ),
        },
      }).binder.markets[0]!.items[0]!.planned.find(({ batch }) => batch === '2026-11-02-old')
    // 36 − 6 − 1 − 9
    expect(wrappedIn('')).toMatchObject({ bars: 20, kept: 20, label: '2026-12-21', light: undefined })
    expect(wrappedIn('  release: { decision: released, date: 2026-12-22, by: R. Vale }\n')?.bars).toBe(20)
    expect(wrappedIn('  release: { decision: held, date: 2026-12-22, by: R. Vale }\n')).toBeUndefined()
  })

  test('a recipe that is stopped is said so, and gets no day', () => {
    const files = filesOf(market())
    files.set(
      'recipes/plain.yaml',
      files.get('recipes/plain.yaml')!.replace('superfat: 6 %', 'superfat: 1 %'),
    )
    const { sheets } = bindAndCompose(contentOf(files))
    const sheet = sheetOf(sheets, 'market/fair')
    expect(codes(sheet)).toEqual(['market-batch-stopped'])
    expect([...sheet.values.keys()].filter((name) => name.includes('pour'))).toEqual([])
  })

  test('what is planned already keeps its mould', () => {
    const { binder } = made({
      more: { ...market().more, 'batches/2027-04-28-more.yaml': another('2027-04-28') },
    })
    const days = binder.markets[0]!.items[0]!.back!.pours.map(({ pour }) => pour.date)
    expect(days).not.toContain('2027-04-28')
    expect(new Set(days).size).toBe(2)
  })

  test('two markets of one day share the mould: their pours are on four different days', () => {
    const { more } = market()
    const { binder } = made({ more: { ...more, 'markets/other.yaml': more!['markets/fair.yaml']! } })
    const days = binder.markets.flatMap(({ items }) => items[0]!.back!.pours.map(({ pour }) => pour.date))
    expect(days).toHaveLength(4)
    expect(new Set(days).size).toBe(4)
  })

  test('a batch that is planned counts as ready when it is labelled by then, and not a day later', () => {
    // 1 February + 42 days: 15 March
    const planned = (date: string) =>
      made({
        more: { 'markets/fair.yaml': `title: Fair\ndate: ${date}\nmould: small\nbars: { plain: 5 }\n` },
      }).binder.markets[0]!.items[0]!.planned
    // no weight is on its label: none is too light for it
    expect(planned('2027-03-16')).toEqual([
      {
        batch: '2027-02-01-plain',
        date: '2027-02-01',
        label: '2027-03-15',
        bars: 25,
        kept: 5,
        light: undefined,
      },
    ])
    expect(planned('2027-03-15')).toEqual([])
  })

  describe('of which 20 bars are covered by a batch of 1 February', () => {
    const covered = made({
      batch: 'label-weight: 90 g\n',
      more: {
        'markets/fair.yaml':
          'title: Fair\ndate: 2027-06-12\nready: 2 days\nmould: small\nbars: { plain: 20 }\n',
      },
    })
    const entriesOn = (date: string): string[] => {
      const { weeks } = sheetOf(covered.sheets, `calendar/${date.slice(0, 7)}`).blocks.month as Month
      return weeks
        .flat()
        .filter(({ day }) => day?.value === Number(date.slice(8)))
        .flatMap(({ groups }) => groups.flatMap(({ tasks }) => tasks.map((one) => plain(inlineWords(one)))))
    }

    test('the month says to decide on the day before the latest pour, and to keep them on the day of their label', () => {
      // as above: the latest pour on Thursday 29 April
      const [item] = covered.binder.markets[0]!.items
      expect(item).toMatchObject({ covered: true, decideBy: '2027-04-28', planned: [{ kept: 20 }] })
      expect(entriesOn('2027-04-28').join()).toMatch(/20 Plain.* promised to others, or test failed\?/)
      expect(entriesOn('2027-04-29').join()).not.toMatch(/promised/)
      expect(entriesOn('2027-03-15').join()).toMatch(/market: keep 20/)
    })

    test('a light bar has a day of its own, after the last weighing, that asks for less than the days before', () => {
      const [cure] = covered.binder.cures
      const { labelDays, label, planned } = cure!
      // labelled 15 March; weighed last 56 days after 1 February: Monday 29 March
      expect(planned.tasks.find(({ task }) => task === 'label')?.at.date).toBe('2027-03-15')
      expect(labelDays.slice(0, 2).map(({ which, date }) => `${which} ${date}`)).toEqual([
        'first 2027-03-15',
        'later 2027-03-29',
      ])
      const least = labelDays.map((day) => day.least!)
      expect(least).toEqual(least.toSorted((a, b) => b - a))
      expect(least[0]).toBe(label.leastOn(42))
      expect(least.at(-1)).toBeGreaterThanOrEqual(0.09)
      for (const { date } of labelDays.slice(1))
        expect(entriesOn(date).join()).toMatch(/too light: each \d+ g/)
    })
  })

  test('two batches of 25 good bars keep 25 and 15 of 40', () => {
    const { binder } = made({
      more: { ...market().more, 'batches/2027-02-08-more.yaml': another('2027-02-08') },
    })
    expect(binder.markets[0]!.items[0]!.planned.map(({ bars, kept }) => [bars, kept])).toEqual([
      [25, 25],
      [25, 15],
    ])
  })

  test('unknown names and a day past are told before anything is reckoned', () => {
    const wrong = (text: string) => loadFiles(filesOf({ more: { 'markets/fair.yaml': text } })).diagnostics
    expect(
      wrong('title: Fair\ndate: 2027-06-12\nmould: smal\nbars: { plane: 40 }\n').map(({ path }) => path),
    ).toEqual(['/bars/plane', '/mould'])
    expect(wrong('title: Fair\ndate: 2027-01-04\nmould: small\nbars: { plain: 40 }\n')).toMatchObject([
      { code: 'market-is-past', path: '/date' },
    ])
  })
})
