import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { batchTasks } from '../../src/cure/batch-tasks.ts'
import { type BatchPlan, planCalendar } from '../../src/cure/calendar.ts'
import { planBack, soonestReady } from '../../src/cure/market.ts'
import { dateOf, dayNumber, minutesAt, weekday } from '../../src/units/civil-day.ts'
import { DURATIONS, hour, MEANS } from './a-shop.ts'

const batch = (name: string, date: string, minute: number, more: Partial<BatchPlan> = {}): BatchPlan => ({
  batch: name,
  pour: { date, minute },
  rules: batchTasks(DURATIONS),
  moulds: ['five-by-three'],
  mouldUntil: 'strip',
  bars: 60,
  racksFrom: 'slice',
  racksTo: 'label',
  ...more,
})

const times = (plan: ReturnType<typeof planCalendar>, index = 0): string[] =>
  (plan.batches[index]?.tasks ?? []).map(
    ({ task, at }) =>
      `${task} ${at.date} ${Math.floor(at.minute / 60)}:${String(at.minute % 60).padStart(2, '0')}`,
  )
const codes = (plan: { readonly findings: readonly { readonly code: string }[] }): string[] =>
  plan.findings.map(({ code }) => code)
/** Of moulds, racks and hours alone: two pours of one day meet the same hands besides. */
const withoutHands = <T extends { readonly code: string }>(findings: readonly T[] = []): T[] =>
  findings.filter(({ code }) => code !== 'two-at-once')

describe('by hand: three batches, one mould, two racks', () => {
  const plan = planCalendar(
    [batch('a', '2027-03-15', hour(9)), batch('b', '2027-03-16', hour(9)), batch('c', '2027-03-18', hour(9))],
    MEANS,
  )

  test('the dates of the first', () => {
    expect(times(plan)).toEqual([
      'pour 2027-03-15 9:00', // Monday
      'strip 2027-03-16 9:00', // 24 h
      'cut 2027-03-16 9:20', // stripping takes 20 min
      'slice 2027-03-16 9:50', // cutting takes 30 min
      'stamp 2027-03-17 9:50', // 24 h after slicing
      'turn-7 2027-03-22 8:00', // a week after the pour, at no hour: the shop opens at eight
      'weigh-in-0 2027-03-16 10:20', // due at the pour, done when it is sliced
      'weigh-in-7 2027-03-22 8:00',
      'release-test 2027-03-29 8:00', // 15 + 14 = 29 March
      'label 2027-04-12 8:00', // 28 days: 16 to the end of March, 12 more
      'sell-by 2028-03-14 9:00', // 365 days over 29 February 2028
    ])
    expect(plan.batches[0]).toMatchObject({
      mould: 'five-by-three',
      places: [{ rack: 'wall', bars: 60 }],
      findings: [],
    })
  })

  test('the second meets the first in the mould, till 9:20; the next half hour is 9:30', () => {
    expect(withoutHands(plan.batches[1]?.findings)).toEqual([
      {
        code: 'mould-occupied',
        severity: 'stop',
        values: {
          batch: 'b',
          mould: 'five-by-three',
          occupant: 'a',
          until: '2027-03-16',
          untilMinute: hour(9, 20),
        },
      },
    ])
    expect(plan.batches[1]?.nextFree).toEqual({ date: '2027-03-16', minute: hour(9, 30) })
    expect(plan.batches[1]?.mould).toBeUndefined()
    // 80 − 60 on the wall, 40 on the door
    expect(plan.batches[1]?.places).toEqual([
      { rack: 'wall', bars: 20 },
      { rack: 'door', bars: 40 },
    ])
  })

  test('the third finds no place until the first is labelled', () => {
    // a leaves the racks on 12 April, b on 13 April. 60 places on the wall are free from 13 April (Tuesday): slice then,
    // pour Monday 12 April. Poured on Saturday it would be cut and sliced on Monday, while a is still there.
    expect(plan.batches[2]?.mould).toBe('five-by-three')
    expect(plan.batches[2]?.places).toEqual([])
    expect(withoutHands(plan.batches[2]?.findings)).toMatchObject([
      { code: 'racks-full', severity: 'stop', values: { short: 60, day: '2027-03-19' } },
    ])
    expect(plan.batches[2]?.unplaced).toEqual({ bars: 60, from: '2027-03-19', to: '2027-04-15' })
    expect(plan.batches[2]?.nextFree).toEqual({ date: '2027-04-12', minute: hour(9) })
  })
})

describe('by hand: rest days, holidays, nights', () => {
  test('poured on Saturday: strip and cut wait for Monday 8:00, still within the window, and it is said', () => {
    // window of the cut: Sunday 9:00 to Monday 9:00
    const plan = planCalendar([batch('a', '2027-03-20', hour(9))], MEANS)
    expect(times(plan).slice(1, 4)).toEqual([
      'strip 2027-03-22 8:00',
      'cut 2027-03-22 8:20',
      'slice 2027-03-22 8:50',
    ])
    // the strip's and the cut's
    expect(codes(plan)).toEqual(['window-opens-on-rest-day', 'window-opens-on-rest-day'])
    // the cut stands behind the strip, so that its window begins on Monday at 8:20
    expect(plan.batches[0]?.tasks[2]?.closes).toEqual({ date: '2027-03-22', minute: hour(9) })
  })

  test('the last hour of a cut that ends on a rest day is on the day before, so that it is over when the shop closes', () => {
    // poured on Thursday at 9:00, 24 to 72 h: till Sunday 9:00, a rest day; half an hour of work before 18:00 on Saturday
    const rules = batchTasks({ ...DURATIONS, cut: { earliest: hour(24), latest: hour(72) } })
    const plan = planCalendar([batch('a', '2027-03-18', hour(9), { rules })], MEANS)
    expect(plan.batches[0]?.tasks[2]?.closes).toEqual({ date: '2027-03-20', minute: hour(17, 30) })
    // 24 to 46 h from 15:00 on Monday: till 13:00 on Wednesday, when somebody is there
    const open = batchTasks({ ...DURATIONS, cut: { earliest: hour(24), latest: hour(46) } })
    const other = planCalendar([batch('a', '2027-03-15', hour(15), { rules: open })], MEANS)
    expect(other.batches[0]?.tasks[2]?.closes).toEqual({ date: '2027-03-17', minute: hour(13) })
  })

  test('poured before a holiday: the same on Saturday', () => {
    const plan = planCalendar([batch('a', '2027-03-25', hour(9))], MEANS)
    expect(times(plan)[1]).toBe('strip 2027-03-27 8:00')
  })

  test('a window that is over before anybody comes is a conflict: 24 to 40 h from Saturday 9:00 end on Monday 1:00', () => {
    const rules = batchTasks({ ...DURATIONS, cut: { earliest: hour(24), latest: hour(40) } })
    const plan = planCalendar([batch('a', '2027-03-20', hour(9), { rules })], MEANS)
    // poured at 16:30 the window is open till Monday 8:30: stripped 8:00, cut 8:20
    expect(plan.findings.find(({ code }) => code === 'window-on-rest-day')).toMatchObject({
      severity: 'stop',
      values: {
        task: 'cut',
        closes: '2027-03-22',
        closesMinute: hour(1),
      },
    })
    expect(plan.batches[0]?.nextFree).toEqual({ date: '2027-03-20', minute: hour(16, 30) })
  })

  test('poured at 15:00, cut after 12 to 16 h: 3:00 to 7:00, nobody is up; 12 to 20 h: 8:00 and a word', () => {
    const of = (latest: number) => {
      const rules = batchTasks({
        ...DURATIONS,
        strip: { earliest: hour(1), latest: hour(24) },
        cut: { earliest: hour(12), latest },
      })
      return planCalendar([batch('a', '2027-03-15', hour(15), { rules })], MEANS)
    }
    expect(of(hour(16)).findings.slice(0, 1)).toMatchObject([
      {
        code: 'window-at-night',
        severity: 'stop',
        values: { task: 'cut', date: '2027-03-16', minute: hour(3) },
      },
    ])
    expect(of(hour(20)).findings).toMatchObject([{ code: 'window-opens-at-night', severity: 'warn' }])
    expect(times(of(hour(20)))[2]).toBe('cut 2027-03-16 8:00')
    // poured an hour later the window is open till 8:00
    expect(of(hour(16)).batches[0]?.nextFree).toEqual({ date: '2027-03-15', minute: hour(16) })
  })

  test('a pour is not moved in silence', () => {
    expect(codes(planCalendar([batch('a', '2027-03-26', hour(9))], MEANS))).toContain('pour-on-rest-day')
    expect(codes(planCalendar([batch('a', '2027-03-21', hour(9))], MEANS))).toContain('pour-on-rest-day')
    // 17:00 + 90 min is after six
    expect(codes(planCalendar([batch('a', '2027-03-15', hour(17))], MEANS))).toContain('pour-outside-hours')
  })

  test('a turn and a weigh-in of one day stay together when they wait', () => {
    // poured on Friday 19 March; a week later is Good Friday: both on Saturday at 8:00
    const plan = planCalendar([batch('a', '2027-03-19', hour(9))], MEANS)
    expect(times(plan)).toContain('turn-7 2027-03-27 8:00')
    expect(times(plan)).toContain('weigh-in-7 2027-03-27 8:00')
  })

  describe('hottest from 4 to 11 h after the pour, somebody up from 6 to 23', () => {
    const rules = batchTasks({ ...DURATIONS, hottest: { earliest: hour(4), latest: hour(11) } })
    const means = { ...MEANS, hours: { ...MEANS.hours, awake: { from: hour(6), until: hour(23) } } }

    test('poured at 12:00 it is over at 23:00; at 12:30 it is not, and 12:00 is the nearest hour that will do', () => {
      expect(codes(planCalendar([batch('a', '2027-03-15', hour(12), { rules })], means))).toEqual([])
      const late = planCalendar([batch('a', '2027-03-15', hour(12, 30), { rules })], means)
      expect(late.findings).toMatchObject([
        {
          code: 'hottest-at-night',
          severity: 'warn',
          // 12:30 + 4 h, and + 11 h
          values: { date: '2027-03-15', minute: hour(16, 30), closesMinute: hour(23, 30) },
        },
      ])
      expect(late.batches[0]?.nextFree).toEqual({ date: '2027-03-15', minute: hour(12) })
    })

    test('past midnight nobody is up, whatever the clock shows: 15:00 to 2:00', () =>
      expect(codes(planCalendar([batch('a', '2027-03-15', hour(15), { rules })], means))).toEqual([
        'hottest-at-night',
      ]))

    test('on a rest day somebody is up all the same', () => {
      // Saturday 20 March 9:00, hottest from 24 to 30 h after: Sunday 9:00 to 15:00
      const long = batchTasks({ ...DURATIONS, hottest: { earliest: hour(24), latest: hour(30) } })
      const plan = planCalendar([batch('a', '2027-03-20', hour(9), { rules: long })], means)
      expect(codes(plan)).not.toContain('hottest-at-night')
    })
  })

  test('what is prepared before a pour takes hands too, also where the pour itself takes none', () => {
    const rules = batchTasks({ ...DURATIONS, work: { ...DURATIONS.work, prepare: 45, pour: 0 } })
    const { workSpans } = planCalendar([batch('a', '2027-03-16', hour(10), { rules })], MEANS)
    const ten = minutesAt({ date: '2027-03-16', minute: hour(10) })
    expect(workSpans.filter(({ task }) => task === 'pour')).toEqual([
      { batch: 'a', task: 'pour', from: ten - 45, to: ten },
    ])
  })

  test('a second mould takes what the first cannot', () => {
    const moulds = ['one', 'two']
    const plan = planCalendar(
      [batch('a', '2027-03-15', hour(9), { moulds }), batch('b', '2027-03-15', hour(13), { moulds })],
      MEANS,
    )
    expect(plan.batches.map(({ mould }) => mould)).toEqual(['one', 'two'])
    expect(codes(plan)).toEqual([])
  })

  describe('hands', () => {
    const moulds = ['one', 'two']
    const both = (minute: number) =>
      planCalendar(
        [
          batch('a', '2027-03-15', hour(9), { moulds, bars: 10 }),
          batch('b', '2027-03-15', minute, { moulds, bars: 10 }),
        ],
        MEANS,
      )

    test('a pour of 9:00 to 10:30 and one of 10:00: the same hands at once; at 10:30 the strips meet the slicing', () => {
      expect(both(hour(10)).batches[1]?.findings).toEqual([
        {
          code: 'two-at-once',
          severity: 'warn',
          values: {
            batch: 'b',
            task: 'pour',
            occupant: 'a',
            othersTask: 'pour',
            date: '2027-03-15',
            minute: hour(10),
          },
        },
      ])
      // a is stripped, cut and sliced from 9:00 to 10:20 on Tuesday: b's strip at 10:30 meets none of it
      expect(both(hour(10, 30)).findings).toEqual([])
      // poured at 10:30 by hands that begin half an hour before
      const early = batchTasks({ ...DURATIONS, work: { ...DURATIONS.work, prepare: 30 } })
      const plan = planCalendar(
        [
          batch('a', '2027-03-15', hour(9), { moulds, bars: 10 }),
          batch('b', '2027-03-15', hour(10, 30), { moulds, bars: 10, rules: early }),
        ],
        MEANS,
      )
      expect(codes(plan)).toEqual(['two-at-once'])
    })

    test('what is done some time of the day meets nothing', () => {
      // the test of a is on Monday 29 March, that of b, due on Sunday 4 April, on Monday the 5th, when a is turned
      const plan = planCalendar(
        [
          batch('a', '2027-03-15', hour(9), {
            moulds,
            bars: 10,
            rules: batchTasks({ ...DURATIONS, turns: [21] }),
          }),
          batch('b', '2027-03-22', hour(9), {
            moulds,
            bars: 10,
            rules: batchTasks({ ...DURATIONS, releaseTest: 13 }),
          }),
        ],
        MEANS,
      )
      expect(times(plan)).toContain('turn-21 2027-04-05 8:00')
      expect(times(plan, 1)).toContain('release-test 2027-04-05 8:00')
      expect(plan.findings).toEqual([])
    })
  })

  test('work that goes before a pour begins no sooner than the shop', () => {
    const rules = batchTasks({ ...DURATIONS, work: { ...DURATIONS.work, prepare: 90 } })
    const at = (minute: number) => codes(planCalendar([batch('a', '2027-03-15', minute, { rules })], MEANS))
    expect(at(hour(9))).toEqual(['pour-outside-hours'])
    expect(at(hour(9, 30))).toEqual([])
  })

  test('of two moulds that are taken the one that is free sooner is named', () => {
    const moulds = ['one', 'two']
    const plan = planCalendar(
      [
        batch('a', '2027-03-15', hour(13), { moulds, bars: 10 }),
        batch('b', '2027-03-15', hour(9), { moulds, bars: 10 }),
        batch('c', '2027-03-15', hour(14), { moulds, bars: 10 }),
      ],
      MEANS,
    )
    expect(withoutHands(plan.batches[2]?.findings)).toMatchObject([
      { code: 'mould-occupied', values: { mould: 'two', occupant: 'b', untilMinute: hour(9, 20) } },
    ])
  })

  test('a free date is free of what is planned for later, too', () => {
    // a is in the mould till Tuesday 9:20; b wants it on Monday. Tuesday 9:30 would do, but c pours on Tuesday at 10:00
    // and is in till Wednesday 10:20, and on Wednesday at 10:30 nobody is in
    const plan = planCalendar(
      [
        batch('a', '2027-03-15', hour(9), { bars: 10 }),
        batch('b', '2027-03-15', hour(12), { bars: 10 }),
        batch('c', '2027-03-16', hour(10), { bars: 10 }),
      ],
      MEANS,
    )
    expect(plan.batches[1]?.nextFree).toEqual({ date: '2027-03-17', minute: hour(12) })
    expect(withoutHands(plan.batches[2]?.findings)).toEqual([])
  })

  test('bars of another size take their share: 60 of 80 places are three quarters, which leaves 25 of 100', () => {
    const small = { places: { wall: 100, door: 50 } }
    const plan = planCalendar(
      [batch('a', '2027-03-15', hour(9)), batch('b', '2027-03-17', hour(9), { ...small, bars: 76 })],
      MEANS,
    )
    // 25 on the wall, 50 on the door: one has no place
    expect(plan.batches[1]?.places).toEqual([
      { rack: 'wall', bars: 25 },
      { rack: 'door', bars: 50 },
    ])
    expect(plan.batches[1]?.unplaced.bars).toBe(1)
    // 40 of 100 places leave six tenths of 80
    const after = planCalendar(
      [batch('a', '2027-03-15', hour(9), { ...small, bars: 40 }), batch('b', '2027-03-17', hour(9))],
      MEANS,
    )
    expect(after.batches[1]?.places).toEqual([
      { rack: 'wall', bars: 48 },
      { rack: 'door', bars: 12 },
    ])
  })

  test('a mould that two batches will hold is free when the later of them is out', () => {
    // a from Monday 9:00, b from Tuesday 9:30, each till the strip a day later; c wants it from Monday 12:00 to Wednesday
    const rules = batchTasks({ ...DURATIONS, strip: { earliest: hour(45), latest: hour(72) } })
    const plan = planCalendar(
      [
        batch('a', '2027-03-15', hour(9), { bars: 10 }),
        batch('b', '2027-03-16', hour(9, 30), { bars: 10 }),
        batch('c', '2027-03-15', hour(12), { bars: 10, rules }),
      ],
      MEANS,
    )
    expect(withoutHands(plan.batches[2]?.findings)[0]).toMatchObject({
      code: 'mould-occupied',
      values: { occupant: 'b', until: '2027-03-17', untilMinute: hour(9, 50) },
    })
  })
})

describe('by hand: 80 bars for a market on Saturday 1 May 2027', () => {
  const { pour: _, ...rules } = batch('market', '', 0, { bars: 40 })
  const wish = {
    bars: 80,
    barsPerBatch: 40,
    market: '2027-05-01',
    ready: 2,
    until: 'label',
    plan: rules,
    notBefore: '2027-03-01',
  }

  test('two batches: Thursday 1 April 16:30, and before it Wednesday 31 March 15:00', () => {
    // ready on Thursday 29 April; 28 days before is 1 April. 90 min of pouring end at six when begun at 16:30.
    // The other must be stripped, cut and sliced by 16:30 on 1 April, when the same hands pour: that takes 80 min, from
    // 15:10 at the latest; 15:00 is the last half hour.
    const back = planBack(wish, MEANS)
    expect(back.batches).toBe(2)
    expect(back.pours.map(({ batch: name, pour }) => ({ name, ...pour }))).toEqual([
      { name: 'market-1', date: '2027-03-31', minute: hour(15) },
      { name: 'market-2', date: '2027-04-01', minute: hour(16, 30) },
    ])
    expect(back.plan.findings).toEqual([])
    expect(back.pours[1]?.reasons).toEqual([
      { because: 'market', date: '2027-05-01' },
      { because: 'ready-before-market', date: '2027-04-29', days: 2 },
      {
        because: 'task',
        task: 'label',
        after: 'pour',
        at: { date: '2027-04-29', minute: hour(8) },
        wait: 28 * 1440,
        moved: 0,
      },
      {
        because: 'task',
        task: 'pour',
        after: undefined,
        at: { date: '2027-04-01', minute: hour(16, 30) },
        wait: 0,
        moved: 0,
      },
      { because: 'later-fails', date: '2027-04-02', code: 'ready-too-late' },
    ])
    expect(back.pours[0]?.reasons.at(-1)).toEqual({
      because: 'later-fails',
      date: '2027-04-01',
      code: 'mould-occupied',
    })
  })

  test('81 bars want a third batch; too late a beginning leaves some without', () => {
    expect(planBack({ ...wish, bars: 81 }, MEANS).batches).toBe(3)
    const late = planBack({ ...wish, notBefore: '2027-04-01' }, MEANS)
    expect(late.pours).toHaveLength(1)
    expect(late.pours[0]?.pour).toEqual({ date: '2027-04-01', minute: hour(16, 30) })
  })

  test('two batches from 1 March on: the second waits for the mould, 28 days after the later pour', () => {
    // Monday 1 March 8:00, stripped Tuesday 8:00 to 8:20; the next half hour is 8:30: 2 + 28 days are 30 March
    expect(soonestReady(wish, MEANS)).toBe('2027-03-30')
    expect(soonestReady({ ...wish, bars: 40 }, MEANS)).toBe('2027-03-29')
    expect(soonestReady(wish, { ...MEANS, racks: [{ key: 'wall', places: 30 }] })).toBeUndefined()
  })

  test('of one day an hour without a warning is taken before a later one with a warning', () => {
    // Hottest 4 to 6 h after the pour, somebody up till 21:00: 15:00 is the last hour that will do, 16:30 would be
    // in time but leaves the block alone from 21:00 to 22:30.
    const rules = batchTasks({ ...DURATIONS, hottest: { earliest: hour(4), latest: hour(6) } })
    const means = { ...MEANS, hours: { ...MEANS.hours, awake: { from: hour(6), until: hour(21) } } }
    const back = planBack({ ...wish, bars: 40, plan: { ...wish.plan, rules } }, means)
    expect(back.pours[0]?.pour).toEqual({ date: '2027-04-01', minute: hour(15) })
  })

  test('batches that are planned already keep their mould', () => {
    const other = batch('other', '2027-04-01', hour(9), { bars: 10 })
    const back = planBack({ ...wish, bars: 40 }, MEANS, [other])
    // The mould is taken from 1 April 9:00; the pour must be stripped by then: 31 March 8:30, stripped 8:30 to 8:50. Its cut
    // meets the other's pour at 9:00, but 80 min before that the shop has not opened: it is said.
    expect(back.pours[0]?.pour).toEqual({ date: '2027-03-31', minute: hour(8, 30) })
    expect(back.plan.findings).toMatchObject([
      { code: 'two-at-once', severity: 'warn', values: { batch: 'market-1', task: 'cut', minute: hour(9) } },
    ])
  })
})

describe('by hand: whatever is planned', () => {
  const wishes = fc.array(
    fc.record({
      day: fc.integer({ min: 0, max: 40 }),
      minute: fc.integer({ min: 0, max: 1439 }),
      bars: fc.integer({ min: 1, max: 90 }),
      moulds: fc.constantFrom(['one'], ['two'], ['one', 'two'], ['two', 'one']),
      until: fc.constantFrom('strip', 'cut', 'slice'),
    }),
    { minLength: 1, maxLength: 7 },
  )
  const start = dayNumber('2027-12-10')
  const plans = wishes.map((list) =>
    list.map(({ day, minute, bars, moulds, until }, i) =>
      batch(`b${i}`, dateOf(start + day), minute, { bars, moulds, mouldUntil: until }),
    ),
  )

  test('no two batches are in one mould at once, and no rack holds more than its places', () => {
    fc.assert(
      fc.property(plans, (list) => {
        const { mouldStays, rackStays } = planCalendar(list, MEANS)
        for (const [i, one] of mouldStays.entries()) {
          for (const other of mouldStays.slice(i + 1)) {
            if (one.mould === other.mould) expect(one.to <= other.from || other.to <= one.from).toBe(true)
          }
        }
        for (const { key, places } of MEANS.racks) {
          const own = rackStays.filter(({ rack }) => rack === key)
          for (const { from } of own) {
            const then = own.filter((stay) => stay.from <= from && from <= stay.to)
            expect(then.reduce((sum, { bars }) => sum + bars, 0)).toBeLessThanOrEqual(places)
          }
        }
      }),
      { numRuns: 60 },
    )
  })

  test('work is done in open hours and within its window, or the batch is stopped; a named free date is free', () => {
    fc.assert(
      fc.property(plans, (list) => {
        const plan = planCalendar(list, MEANS)
        for (const [i, { tasks, findings }] of plan.batches.entries()) {
          if (!findings.some(({ severity }) => severity === 'stop')) {
            for (const { task, at, closes, work } of tasks) {
              if (task === 'sell-by') continue
              expect(at.minute).toBeGreaterThanOrEqual(hour(8))
              expect(at.minute + work).toBeLessThanOrEqual(hour(18))
              expect(weekday(dayNumber(at.date))).not.toBe(6)
              if (closes) expect(minutesAt(at)).toBeLessThanOrEqual(minutesAt(closes))
            }
            continue
          }
          const { nextFree } = plan.batches[i] ?? {}
          if (!nextFree) continue
          // alone it meets nothing, and beside the others a mould and its places are free
          const alone = planCalendar([{ ...list[i]!, pour: nextFree }], MEANS)
          expect(alone.findings.filter(({ severity }) => severity === 'stop')).toEqual([])
          const stay = alone.mouldStays[0]!
          const free = list[i]!.moulds.filter((mould) =>
            plan.mouldStays.every(
              (other) =>
                other.mould !== mould ||
                other.batch === stay.batch ||
                other.to <= stay.from ||
                stay.to <= other.from,
            ),
          )
          expect(free.length).toBeGreaterThan(0)
          const { from, to } = alone.rackStays[0]!
          for (let day = dayNumber(from); day <= dayNumber(to); day += 1) {
            const then = plan.rackStays.filter(
              (other) => other.batch !== stay.batch && other.from <= dateOf(day) && dateOf(day) <= other.to,
            )
            expect(then.reduce((sum, { bars }) => sum + bars, list[i]!.bars)).toBeLessThanOrEqual(80 + 40)
          }
        }
      }),
      { numRuns: 25 },
    )
  })
})
