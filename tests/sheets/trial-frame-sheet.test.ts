/** What the sheet of the demo's trial frame says: numbers that a hand can reckon, keys that the schema has, stop pages. */
import { beforeAll, describe, expect, test } from 'vitest'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, editedDemo, STATES, sheetOf } from '../sites/edited-demo.ts'
import { plain, saidOf } from './rows.ts'

const TRIAL = 'trial-frame/five-by-three'
const FIXTURE = 'fixtures/five-by-three.yaml'
const G = 9.80665
const inch = 0.0254

let sheet: Sheet
let wires: Sheet
beforeAll(async () => {
  const binder = await composeEdited({})
  sheet = sheetOf(binder, TRIAL)
  wires = sheetOf(binder, 'wires/five-by-three')
}, 120_000)

const value = (name: string, of = sheet) => Number(of.values.get(name)?.value)
const shown = (name: string, of = sheet) => plain(of.values.get(name)?.shown ?? '')

describe('by hand: what the scale will show', () => {
  // three wires in 4 1/2 in of soap: 0.3429 m
  test.each([
    ['fresh', 40, '1.4 kg'],
    ['usual', 100, '3.5 kg'],
    ['late', 400, '14.0 kg'],
  ])('%s: %d N/m · 0.3429 m / 9.80665: %s', (time, load, weighed) => {
    expect(value(`trial.${time}.shown`)).toBeCloseTo((load * 3 * 4.5 * inch) / G, 6)
    expect(shown(`trial.${time}.shown`)).toBe(weighed)
  })

  test('hands press the less by the frame’s weight', () =>
    expect(value('trial.usual.push')).toBeCloseTo(100 * 0.3429 - value('trial.frame.mass') * G, 1))

  test('the late one is beyond what the trial’s own wires bear, and the sheet says so', () => {
    expect(value('trial.stop.shown')).toBeLessThan(value('trial.late.shown'))
    expect(saidOf(sheet.blocks.predicted)).toContain('14.0 kg: stop before')
    expect(saidOf(sheet.blocks.push)).toContain(`At ${shown('trial.stop.shown')} stop`)
  })

  // 1.5911 g/m (tests/sheets/wires-sheet.test.ts), 6.8622 in and 3.375 mm from rod to rod: √(120/0.0015911) / (2 L)
  test('the note of a tuned wire', () => {
    const length = value('trial.inside.width') + 0.003375
    expect(value('trial.pitch')).toBeCloseTo(Math.sqrt(120 / 0.0015911) / (2 * length), -0.5)
    expect(shown('trial.note')).toBe('G5')
  })
})

describe('by hand: what is typed into the file is what the file takes', () => {
  test('its keys and the numbers of this trial are read without a word', async () => {
    const typed = saidOf(sheet.blocks.typed)
    const keys = ['cutting-trial:', 'readings:', 'frame-mass:', 'wires:', 'width:']
    for (const key of keys) expect(typed).toContain(key)
    expect(typed).toContain('frame-mass: | 0 g')
    const lines =
      'cutting-trial:\n  readings: [3.4 kg, 3.5 kg, 3.6 kg]\n  frame-mass: 0 g\n  wires: 3\n  width: 4 1/2 in\n'
    const { folder, remove } = editedDemo({
      [FIXTURE]: [['\n# Cut a test block', `\n${lines}\n# Cut a test block`]],
    })
    try {
      const { diagnostics } = loadContent((await readFolder(folder, 'shop', FILE_KINDS)).files, 'shop')
      expect(diagnostics).toEqual([])
    } finally {
      remove()
    }
  })

  test('typed in, its load stands on the sheet: 3.0667 kg and 0.79 of frame on 0.3429 m, 110.3 N/m', async () => {
    const key = Object.keys(STATES).find((name) => name.includes('a trial typed in')) as keyof typeof STATES
    const done = sheetOf(await composeEdited(STATES[key]), TRIAL)
    expect(value('trial.result.load', done)).toBeCloseTo(((9.2 / 3 + 0.79) * G) / 0.3429, 2)
    // the scale draws the frame down: other steps, and its own weight is typed in
    expect(saidOf(done.blocks.push)).toContain('Draw straight down')
    expect(saidOf(done.blocks.typed)).toContain('the weight of the frame')
  }, 60_000)
})

describe('by hand: sheets name each other', () => {
  test('the wire sheet sends its readers to the trial frame first', () => {
    const caption = wires.blocks.loaded?.kind === 'table' ? wires.blocks.loaded.caption : undefined
    expect(caption && inlineWords(caption)).toContain(`sheet ${sheet.number}`)
  })

  test('in order: mould, both cutters, wires, even bars, readings, trial', () =>
    expect([wires.number, sheet.number]).toEqual(['7.4', '7.7']))

  test('no finger goes where it is crushed, and nobody sits at the end of a wire', () => {
    expect(saidOf(sheet.blocks.cautions)).toMatch(/no finger goes round a lower edge/)
    expect(saidOf(sheet.blocks.cautions)).toMatch(/nobody who reads the scale sits at the end/)
  })
})

describe('by hand: what does not stand stops the sheet, with both numbers and its place', () => {
  test('a scale that is too small', async () => {
    const section = 'trial-frame:\n  scale: { capacity: 3 kg, division: 1 g }\n'
    const stopped = sheetOf(
      await composeEdited({ [FIXTURE]: [['\n# Cut a test block', `\n${section}\n# Cut a test block`]] }),
      TRIAL,
    )
    expect(stopped.stopped?.map(({ code }) => code)).toEqual(['trial-scale-too-small'])
    expect(saidOf(stopped.blocks.stop)).toContain('carries 3.0 kg')
    expect(saidOf(stopped.blocks.remedies)).toContain(FIXTURE)
    expect(stopped.values.has('trial.usual.shown')).toBe(false)
  }, 60_000)
})
