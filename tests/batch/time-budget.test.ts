import { describe, expect, test } from 'vitest'
import { timeBudget } from '../../src/batch/time-budget.ts'

const WORK = {
  colouring: 120,
  carrying: 60,
  jugs: 6,
  timePerJug: 30,
  blending: 150,
  longestRun: 60,
  rest: 30,
}

describe('by hand: time', () => {
  test('150 s of blending in runs of a minute rests twice: 210 + 120 + 60 + 180 = 570 s', () => {
    const budget = timeBudget({ ...WORK, timeToThick: { low: 600, nominal: 900, high: 1200 } })
    expect(budget).toEqual({ blending: 210, needed: 570, spare: { least: 30, usual: 330 }, findings: [] })
  })

  test('120 s rests once, no longest run never rests', () => {
    const tried = { low: 600, nominal: 900, high: 1200 }
    expect(timeBudget({ ...WORK, blending: 120, timeToThick: tried }).blending).toBe(150)
    const { longestRun: _, ...steady } = WORK
    expect(timeBudget({ ...steady, timeToThick: tried }).blending).toBe(150)
  })

  test('untried is held, thick too soon is held or stopped', () => {
    expect(timeBudget({ ...WORK, timeToThick: undefined }).findings[0]).toMatchObject({
      code: 'time-to-thick-untried',
      severity: 'hold',
    })
    const fast = timeBudget({ ...WORK, timeToThick: { low: 500, nominal: 600, high: 700 } })
    expect(fast.findings[0]).toMatchObject({ code: 'may-be-thick-before-poured', severity: 'hold' })
    const faster = timeBudget({ ...WORK, timeToThick: { low: 300, nominal: 500, high: 700 } })
    expect(faster.findings[0]).toMatchObject({ code: 'thick-before-poured', severity: 'stop' })
  })
})

describe('by hand: times that are just met', () => {
  // 570 s are needed
  const codes = (low: number, nominal: number) =>
    timeBudget({ ...WORK, timeToThick: { low, nominal, high: 900 } }).findings.map(({ code }) => code)

  test('just enough at the fast end, and just enough as usual', () => {
    expect(codes(570, 700)).toEqual([])
    expect(codes(569, 700)).toEqual(['may-be-thick-before-poured'])
    expect(codes(500, 570)).toEqual(['may-be-thick-before-poured'])
    expect(codes(500, 569)).toEqual(['thick-before-poured'])
  })

  test('a blender whose longest run is nothing is one that nobody has timed: it never rests', () =>
    expect(timeBudget({ ...WORK, longestRun: 0, timeToThick: undefined })).toMatchObject({
      blending: 150,
      needed: 510,
    }))

  test('no rest is said: runs follow one another', () => {
    const { rest: _, ...restless } = WORK
    expect(timeBudget({ ...restless, timeToThick: undefined }).blending).toBe(150)
  })

  test('one run, and one second more than one', () => {
    expect(timeBudget({ ...WORK, blending: 60, timeToThick: undefined }).blending).toBe(60)
    expect(timeBudget({ ...WORK, blending: 61, timeToThick: undefined }).blending).toBe(91)
    expect(timeBudget({ ...WORK, blending: 0, timeToThick: undefined }).blending).toBe(0)
  })
})
