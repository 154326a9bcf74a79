import { describe, expect, test } from 'vitest'
import { AIRFLOW_GAP, rackPlaces, rackWeeks } from '../../src/cure/racks.ts'

const RACK = { key: 'wall', length: 0.9, width: 0.3, shelves: 4, rating: 20 }
const BAR = { length: 0.075, width: 0.05, mass: 0.125 }

describe('by hand: places', () => {
  test('0.9 × 0.3 m, bars of 75 × 50 mm with 15 mm of air: 10 × 4 lengthways, 14 × 3 turned', () => {
    // lengthways ⌊0.915 / 0.09⌋ = 10, ⌊0.315 / 0.065⌋ = 4 → 40;  turned ⌊0.915 / 0.065⌋ = 14, ⌊0.315 / 0.09⌋ = 3 → 42
    expect(AIRFLOW_GAP).toBe(0.015)
    const places = rackPlaces(RACK, BAR)
    expect(places).toMatchObject({ along: 14, across: 3, lengthways: false, byRoom: 42, byLoad: 160 })
    expect(places.places).toBe(168)
    expect(places.shelfLoad).toBeCloseTo(5.25, 9)
    expect(places.rackLoad).toBeCloseTo(21, 9)
    expect(places.findings).toEqual([])
  })

  test('a shelf filled to the last millimetre keeps its bar: 10 · 90 − 15 = 885 mm', () => {
    expect(rackPlaces({ ...RACK, length: 0.885, width: 0.05 }, BAR)).toMatchObject({ along: 10, across: 1 })
    // 4 · 40 + 3 · 15 = 205 mm, where the division gives a hair less than 4
    const small = { length: 0.04, width: 0.04, mass: 0.1 }
    expect(rackPlaces({ ...RACK, length: 0.205, width: 0.04 }, small)).toMatchObject({ along: 4, across: 1 })
    expect(rackPlaces({ ...RACK, length: 0.884, width: 0.05 }, BAR)).toMatchObject({ along: 9, across: 1 })
  })

  test('a shelf that may carry 5 kg takes 40 bars of 125 g, not 42', () => {
    const weak = rackPlaces({ ...RACK, rating: 5 }, BAR)
    expect(weak.places).toBe(160)
    expect(weak.findings).toMatchObject([
      { code: 'shelf-full-by-load', severity: 'warn', values: { byRoom: 42, byLoad: 40 } },
    ])
  })

  test('a rating that nobody knows is held; a bar larger than the shelf has no place', () => {
    expect(rackPlaces({ ...RACK, rating: undefined }, BAR).findings).toMatchObject([
      { code: 'shelf-rating-unknown', severity: 'hold' },
    ])
    const small = rackPlaces({ ...RACK, length: 0.04 }, BAR)
    expect(small).toMatchObject({ places: 0, findings: [{ code: 'rack-takes-no-bar', severity: 'stop' }] })
  })
})

describe('by hand: weeks', () => {
  // 2027-03-15 is a Monday
  const stays = [
    { batch: 'a', bars: 60, from: '2027-03-17', to: '2027-03-30' },
    { batch: 'b', bars: 50, from: '2027-03-24', to: '2027-04-06' },
  ]

  test('60; 110 from Wednesday; 110 till Tuesday, then 50; 50', () => {
    const { weeks, findings } = rackWeeks(stays, 100)
    expect(weeks).toEqual([
      { week: '2027-03-15', bars: 60, day: '2027-03-17', free: 40 },
      { week: '2027-03-22', bars: 110, day: '2027-03-24', free: -10 },
      { week: '2027-03-29', bars: 110, day: '2027-03-29', free: -10 },
      { week: '2027-04-05', bars: 50, day: '2027-04-05', free: 50 },
    ])
    expect(findings.map(({ values }) => values)).toMatchObject([
      { week: '2027-03-22', day: '2027-03-24', short: 10 },
      { week: '2027-03-29', day: '2027-03-29', short: 10 },
    ])
  })

  test('both ends count: a stay that ends on the day before another begins does not meet it', () => {
    const apart = [
      { batch: 'a', bars: 60, from: '2027-03-17', to: '2027-03-23' },
      { batch: 'b', bars: 50, from: '2027-03-24', to: '2027-03-25' },
    ]
    expect(rackWeeks(apart, 60).findings).toEqual([])
    const meeting = apart.map((stay) => ({
      ...stay,
      from: stay.from === '2027-03-24' ? '2027-03-23' : stay.from,
    }))
    expect(rackWeeks(meeting, 60).findings).toMatchObject([{ values: { day: '2027-03-23', short: 50 } }])
    expect(rackWeeks([], 60)).toEqual({ weeks: [], findings: [] })
  })
})
