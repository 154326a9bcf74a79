/** What a batch takes and a shop has, as the tests of the calendar use it. */
import type { BatchDurations } from '../../src/cure/batch-tasks.ts'
import type { ShopMeans } from '../../src/cure/calendar.ts'

export const hour = (hours: number, minutes = 0): number => hours * 60 + minutes

export const DURATIONS: BatchDurations = {
  strip: { earliest: hour(24), latest: hour(72) },
  cut: { earliest: hour(24), latest: hour(48) },
  slice: { earliest: 0, latest: hour(24) },
  stamp: { earliest: hour(24), latest: hour(96) },
  turns: [7],
  weighIns: [0, 7],
  releaseTest: 14,
  label: 28,
  sellBy: 365,
  work: {
    prepare: 0,
    pour: 90,
    strip: 20,
    cut: 30,
    slice: 30,
    stamp: 30,
    turn: 15,
    weighIn: 10,
    releaseTest: 30,
    label: 60,
  },
}

// eight to six, Sundays free; Good Friday of 2027 is 26 March
export const MEANS: ShopMeans = {
  hours: { opens: hour(8), closes: hour(18), restDays: [6], holidays: ['2027-03-26'] },
  racks: [
    { key: 'wall', places: 80 },
    { key: 'door', places: 40 },
  ],
}
