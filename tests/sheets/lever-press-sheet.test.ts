/** What the sheet of a lever press says: forces by the law of the lever, heights of hands, other words for one alone. */
import { beforeAll, describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, pressOf, sheetOf } from '../sites/edited-demo.ts'
import { saidOf } from './rows.ts'

const PRESS = 'lever-press/five-by-three'
const FIXTURE = 'fixtures/five-by-three.yaml'

let sheet: Sheet
let wires: Sheet
let forTwo: Sheet
beforeAll(async () => {
  const binder = await composeEdited(pressOf('  alone: yes\n'))
  sheet = sheetOf(binder, PRESS)
  wires = sheetOf(binder, 'wires/five-by-three')
  forTwo = sheetOf(await composeEdited(pressOf()), PRESS)
}, 240_000)

const value = (name: string) => Number(sheet.values.get(name)?.value)

describe('by hand: the law of the lever', () => {
  test('hands: push · arm / lever, a tenth lost at dry pins', () =>
    expect(value('press.hand')).toBeCloseTo(
      (value('press.push') * value('press.arm')) / value('press.lever') / 0.9,
      6,
    ))

  test('posts are pulled up with what the hands do not press', () =>
    expect(value('press.uplift')).toBeCloseTo(
      value('press.push') * (1 - value('press.arm') / value('press.lever')),
      6,
    ))

  test('the frame resists with what the wires bear on 1.4097 m of soap', () =>
    expect(value('press.resistance')).toBeCloseTo(value('press.load') * 1.4097, 2))

  test('pin, shear and bolts carry half as much again', () => {
    for (const key of ['pin-in-posts', 'pin-in-lever', 'post-end', 'post-bolts'])
      expect(value(`press.check.${key}.needed`), key).toBeCloseTo(1.5 * value('press.uplift'), 6)
    expect(value('press.check.link-bolts.needed')).toBeCloseTo(1.5 * value('press.push'), 6)
  })

  test('holes are as far apart as the frame goes in a step, and hands sink by as much from hole to hole', () => {
    const pitch = value('press.step.1.pin') - value('press.step.2.pin')
    expect(value('press.step.1.travel')).toBeCloseTo(pitch, 9)
    expect(value('press.step.1.start') - value('press.step.2.start')).toBeCloseTo(pitch, 9)
    expect(value('press.step.3.travel')).toBeCloseTo(3 * pitch, 9)
  })
})

describe('by hand: words', () => {
  test('why one wants it, and that the wires end what it may press', () => {
    const need = sheet.fill.need
    expect(typeof need === 'object' && 'text' in need && inlineWords(need)).toContain(
      'nobody is there to help',
    )
    expect(saidOf(sheet.blocks.using)).toContain('harder soap than the wires bear')
  })

  test('one alone is not told of another who moves the pin; two are', () => {
    expect(saidOf(sheet.blocks.using)).not.toContain('The other one')
    expect(saidOf(forTwo.blocks.using)).toContain('The other one draws the pin')
    expect(saidOf(forTwo.blocks.said)).toContain('A lever press is not needed')
  })

  test('never a foot under it, no pin drawn under load', () => {
    expect(saidOf(sheet.blocks.cautions)).toMatch(/never a foot or a knee under it/)
    expect(saidOf(sheet.blocks.cautions)).toMatch(/flies up when its pin is drawn/)
  })

  test('in the cut in two stages no wire goes up through soap', () => {
    const steps = saidOf(sheet.blocks['stage-steps']).split('\n')
    expect(steps).toHaveLength(10)
    expect(steps.findIndex((one) => one.includes('endways'))).toBeLessThan(
      steps.findIndex((one) => one.includes('Lift the empty frame')),
    )
  })

  test('the wire sheet names its number', () =>
    expect(saidOf(wires.blocks.harder)).toContain(`lever press of sheet ${sheet.number}`))
})

describe('by hand: what does not stand stops the sheet', () => {
  test('a cutter that does not stand takes its press with it', async () => {
    const edits = pressOf('', '  peg-rating: 150 N\n')
    const stopped = sheetOf(await composeEdited(edits), PRESS)
    expect(stopped.stopped?.map(({ code }) => code)).toContain('wire-peg-slips')
    expect(stopped.values.has('press.hand')).toBe(false)
  }, 60_000)

  test('a stand that is too high: hands above the shoulder, with both heights and the line', async () => {
    const stopped = sheetOf(await composeEdited(pressOf('  stand-top: 1.1 m\n')), PRESS)
    expect(stopped.stopped?.map(({ code }) => code)).toContain('press-hands-too-high')
    // 0.818 · 1.65 m
    expect(saidOf(stopped.blocks.stop)).toContain('(1 350 mm)')
    expect(saidOf(stopped.blocks.remedies)).toContain(FIXTURE)
  }, 60_000)
})
