import { describe, expect, test } from 'vitest'
import { type ChartRequest, chart } from '../../src/drawing/chart.ts'
import { crosses, overlaps } from '../../src/drawing/lettering.ts'

const ticks = (from: number, to: number, step: number) =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => ({
    at: from + i * step,
    shown: `${from + i * step}`,
  }))
const rise = (height: number) =>
  Array.from({ length: 49 }, (_, h) => ({ x: h, y: 20 + height * Math.exp(-(((h - 8) / 10) ** 2)) }))

const request: ChartRequest = {
  name: 'heat',
  label: 'Temperatures',
  width: 170,
  height: 80,
  x: { title: 'hours after the pour', ticks: ticks(0, 48, 6) },
  y: { title: '°C', ticks: ticks(20, 90, 10) },
  band: { low: rise(35), high: rise(55) },
  curves: [
    { name: 'core', kind: 'visible', points: rise(45) },
    { name: 'corner', kind: 'hidden', points: rise(20) },
  ],
  levels: [{ at: 65, name: 'gels above' }],
  moments: [
    { at: 20, name: 'strip' },
    { at: 22, name: 'cut' },
    { at: 99, name: 'never' },
  ],
}
const drawn = chart(request)
const texts = drawn.marks.filter((mark) => mark.kind === 'text')

describe('by hand: a chart of 170 by 80 mm, 48 hours by 70 kelvins', () => {
  test('core at 8 h and 65 °C: 15 + 8/48 · 152 mm from the left, 11 + 45/70 · 64 mm up', () => {
    const core = drawn.marks.find((mark) => mark.kind === 'outline' && mark.class === 'visible')
    const point = core?.kind === 'outline' ? core.points[8] : undefined
    expect(point?.x).toBeCloseTo(15 + (8 / 48) * 152, 9)
    expect(point?.y).toBeCloseTo(11 + (45 / 70) * 64, 9)
  })

  test('no text covers another or leaves the paper', () => {
    texts.forEach((text, index) => {
      expect(text.box.x).toBeGreaterThanOrEqual(0)
      expect(text.box.x + text.box.width).toBeLessThanOrEqual(170)
      expect(text.box.y).toBeGreaterThanOrEqual(0)
      expect(text.box.y + text.box.height).toBeLessThanOrEqual(80)
      for (const other of texts.slice(index + 1)) expect(overlaps(text.box, other.box)).toBe(false)
    })
  })

  test('every curve, level and moment inside the axes has its name', () => {
    for (const name of ['core', 'corner', 'gels above', 'strip', 'cut', 'hours after the pour'])
      expect(drawn.svg).toContain(`>${name}</text>`)
    expect(drawn.svg).not.toContain('never')
  })

  test('the band is hatched between its curves: at 8 h from 55 to 75 °C', () => {
    const strokes = drawn.marks.filter(
      (mark) => mark.kind === 'line' && mark.class === 'hatch' && mark.a.x === mark.b.x,
    )
    const x = 15 + (8 / 48) * 152
    const near = strokes.reduce((a, b) =>
      a.kind === 'line' && b.kind === 'line' && Math.abs(b.a.x - x) < Math.abs(a.a.x - x) ? b : a,
    )
    if (near.kind !== 'line') throw new Error('no stroke')
    expect(near.a.y).toBeCloseTo(11 + (35 / 70) * 64, 0)
    expect(near.b.y).toBeCloseTo(11 + (55 / 70) * 64, 0)
  })

  test('no upright or level line runs through letters', () => {
    const onName = chart({
      ...request,
      moments: [{ at: 2, name: 'strip' }],
      levels: [{ at: 60, name: 'gels above' }],
    })
    for (const { marks } of [drawn, onName])
      for (const text of marks.filter((mark) => mark.kind === 'text'))
        for (const mark of marks)
          if (mark.kind === 'line') expect(crosses(mark.a, mark.b, text.box)).toBe(false)
  })

  test('a level on a line of the grid is the one that is drawn', () => {
    const level = chart({ ...request, levels: [{ at: 60, name: 'label' }] }).marks.filter(
      (mark) =>
        mark.kind === 'line' && mark.a.y === mark.b.y && Math.abs(mark.a.y - (11 + (40 / 70) * 64)) < 1e-6,
    )
    expect(new Set(level.map((mark) => mark.kind === 'line' && mark.class))).toEqual(new Set(['phantom']))
  })

  test('what is hotter than the axis is cut off at its end', () => {
    const hot = chart({ ...request, curves: [{ name: 'core', kind: 'visible', points: rise(100) }] })
    const core = hot.marks.find((mark) => mark.kind === 'outline' && mark.class === 'visible')
    expect(core?.kind === 'outline' && Math.max(...core.points.map(({ y }) => y))).toBeCloseTo(75, 9)
  })

  test('the same on every run, numbers plain', () => {
    expect(chart(request)).toEqual(drawn)
    expect(drawn.svg).not.toMatch(/NaN|Infinity|undefined|\d\.\d{4,}/)
  })
})
