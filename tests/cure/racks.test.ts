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
  // 2027-03-15 is a Monday; room for 100 bars
  const stays = [
    { batch: 'a', bars: 60, share: 0.6, from: '2027-03-17', to: '2027-03-30' },
    { batch: 'b', bars: 50, share: 0.5, from: '2027-03-24', to: '2027-04-06' },
  ]
  const shown = (list: Parameters<typeof rackWeeks>[0]): string[] =>
    rackWeeks(list).map(
      ({ week, day, bars, share }) => `${week} ${day} ${bars} ${(share * 100).toFixed(0)} %`,
    )

  test('60; 110 from Wednesday; 110 till Tuesday, then 50; 50', () =>
    expect(shown(stays)).toEqual([
      '2027-03-15 2027-03-17 60 60 %',
      '2027-03-22 2027-03-24 110 110 %',
      '2027-03-29 2027-03-29 110 110 %',
      '2027-04-05 2027-04-05 50 50 %',
    ]))

  test('both ends count: a stay that ends on the day before another begins does not meet it', () => {
    const apart = [
      { batch: 'a', bars: 60, share: 1, from: '2027-03-17', to: '2027-03-23' },
      { batch: 'b', bars: 50, share: 0.8, from: '2027-03-24', to: '2027-03-25' },
    ]
    expect(shown(apart)).toEqual(['2027-03-15 2027-03-17 60 100 %', '2027-03-22 2027-03-22 60 100 %'])
    const meeting = apart.map((stay) => ({ ...stay, from: stay.batch === 'b' ? '2027-03-23' : stay.from }))
    expect(shown(meeting)[1]).toBe('2027-03-22 2027-03-23 110 180 %')
    expect(shown([])).toEqual([])
  })

  test('a week between two stays is empty, and stands there', () =>
    expect(
      shown([
        { batch: 'a', bars: 10, share: 0.1, from: '2027-03-15', to: '2027-03-15' },
        { batch: 'b', bars: 20, share: 0.2, from: '2027-03-29', to: '2027-03-29' },
      ])[1],
    ).toBe('2027-03-22 2027-03-22 0 0 %'))
})
