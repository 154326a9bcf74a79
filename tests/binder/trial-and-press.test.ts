/** From a fixture's file to its trial frame and its lever press: what they take from the cutter, and what is wrong where. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { placesOf } from '../../src/binder/finding-places.ts'
import { isStopped } from '../../src/findings.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { type Edits, editedDemo, pressOf } from '../sites/edited-demo.ts'

const inch = 0.0254
const G = 9.80665
const FIXTURE = 'fixtures/five-by-three.yaml'

const bound = async (edits: Edits = {}) => {
  const { folder, remove } = editedDemo(edits)
  try {
    const { content, diagnostics } = loadContent((await readFolder(folder, 'shop', FILE_KINDS)).files, 'shop')
    if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
    const { binder } = bind(content)
    const [trial, press, grid] = [binder.trialFrames[0], binder.leverPresses[0], binder.gridCutters[0]]
    if (!trial || !grid) throw new Error('no cutter')
    return { trial, press, grid }
  } finally {
    remove()
  }
}
const more = (text: string): Edits => ({
  [FIXTURE]: [['\n# Cut a test block', `\n${text}\n# Cut a test block`]],
})

describe('by hand: the trial frame of the demo', () => {
  test('is of the cutter’s boards, wire, tension, pegs and anchors, and stands', async () => {
    const { trial, grid } = await bound()
    const { input } = trial.trial
    expect(isStopped(trial.findings)).toBe(false)
    expect([input.peg, input.anchor]).toEqual([grid.cutter.input.peg, grid.cutter.input.anchor])
    expect(input.wire).toEqual({ material: 'music-wire', diameter: expect.closeTo(0.02 * inch, 9) })
    expect(input.restTension).toBe(grid.wires.groups[0]?.tension)
    expect(input.panels.top.material).toBe('birch-24')
    expect(input.panels.shelf.material).toBe('birch-12')
  })

  test('5 1/2 · 4 1/2 · 2 1/2 in of 1040 kg/m3: 61.875 cubic inches, 1.0545 kg', async () =>
    expect((await bound()).trial.trial.blockMass).toBeCloseTo(61.875 * inch ** 3 * 1040, 6))

  test('the bench scale of 5 kg ends too early: the floor scale of 60 kg, 20 g, is taken', async () => {
    const { trial } = await bound()
    expect(trial.scaleName).toBe('floor')
    expect(trial.trial.input.scale).toEqual({ place: 'under-block', capacity: 60, division: 0.02 })
  })

  test('what the grooves take stands among the limits', async () => {
    const { trial, grid } = await bound()
    const limit = trial.trial.limits.find(({ key }) => key === 'cutter-grooves')
    expect(limit?.load).toBeCloseTo(grid.wires.loadOfGrooves, 9)
    // three wires in 4 1/2 in of soap
    expect(limit?.shown).toBeCloseTo((grid.wires.loadOfGrooves * 3 * 4.5 * inch) / G, 9)
  })

  test('what a ruler finds comes back as the load', async () => {
    const { ruler, trial } = (await bound()).trial
    for (const { rise, arc, lag } of ruler) expect(rise + arc).toBeCloseTo(lag, 12)
    const own = trial.limits.find(({ key }) => key === 'trial-wire')?.load ?? 0
    expect(Math.max(...ruler.map(({ load }) => load))).toBeLessThanOrEqual(own)
  })
})

describe('by hand: what is wrong with a trial frame names both numbers and its place', () => {
  test.each([
    ['trial-scale-too-small', 'scale: { capacity: 3 kg, division: 1 g }', 'trial-frame: scale: capacity', { capacity: 3 }],
    // 40 diameters of 0.508 mm
    ['trial-wires-too-near', 'spacing: 15 mm', 'trial-frame: spacing', { is: 0.015, needed: 0.02032 }],
    ['trial-shelf-does-not-take-peg', 'panels: { shelf: birch-18 }', 'trial-frame: panels: shelf', { is: 0.0178, allowed: 0.016 }],
    ['trial-post-below-edge', 'panels: { top: birch-12 }', 'trial-frame: panels: top', { top: 0.0121 }],
  ] as const)('%s', async (code, section, key, values) => {
    const { trial } = await bound(more(`trial-frame:\n  ${section}\n`))
    const found = trial.findings.find((one) => one.code === code)
    expect(found?.severity).toBe('stop')
    for (const [name, value] of Object.entries(values))
      expect(found?.values[name]).toEqual(expect.closeTo(value, 6))
    expect(found && placesOf(trial.file, found)[0]?.key).toBe(key)
    expect(trial.proof).toBeUndefined()
  }) // biome-ignore format: a table
})

describe('by hand: the lever press', () => {
  test('none without a section of the file: its boards are measured, not guessed', async () =>
    expect((await bound()).press).toBeUndefined())

  test('is made for what the wires bear, where a late block would ask for more', async () => {
    const { press, grid } = await bound(pressOf('  alone: yes\n'))
    const held = grid.wires.push?.held
    expect(press?.late).toBe(400)
    expect(held?.load).toBeLessThan(400)
    expect(press?.load).toBe(held?.load)
    // 1.4097 m of wire in soap, less the frame's weight
    expect(press?.press.forces.push).toBeCloseTo((held?.load ?? 0) * 1.4097 - grid.cutter.mass * G, 2)
  })

  test('one alone wants it, two do not', async () => {
    expect((await bound(pressOf('  alone: yes\n'))).press?.press.need).toBe('one-alone')
    const { press } = await bound(pressOf())
    expect(press?.press.need).toBe('not-needed')
    expect(press?.findings.map(({ code }) => code)).toContain('press-not-needed')
  })

  test('short wires 4 · 8 1/4 in, long ones 2 · 11 1/4 in: stages by their lengths', async () => {
    const { press, grid } = await bound(pressOf())
    const load = press?.load ?? 0
    const [short, long] = press?.stages?.stages ?? []
    expect(short?.plan.push).toBeCloseTo(load * 33 * inch - grid.cutter.mass * G, 1)
    expect(long?.plan.push).toBeCloseTo(load * 22.5 * inch - grid.cutter.mass * G, 1)
  })

  test('lumber that is too weak is named with both depths and its place', async () => {
    const edits = pressOf('  alone: yes\n')
    const file = edits[FIXTURE]
    if (typeof file === 'string' || !file) throw new Error('edits')
    const weak = file.map(([from, to]) => [from, to.replace('width: 3 1/2 in', 'width: 50 mm')] as const)
    const thin = await bound({
      ...edits,
      [FIXTURE]: weak,
      'materials/panels.yaml': [
        [
          '  polyethylene-5:\n',
          '  lumber-38: { name: Lath, thickness: 5 mm, density: 450 kg/m3, source: plastics-recalled, grain: length }\n  hardboard-3: { name: Hardboard, thickness: 3 mm, density: 900 kg/m3, source: plastics-recalled, grain: none }\n  polyethylene-5:\n',
        ],
      ],
    })
    const found = thin.press?.findings.find(({ code }) => code === 'press-lever-too-weak')
    expect(found?.severity).toBe('stop')
    expect(found?.values.is).toBeCloseTo(0.05, 9)
    expect(Number(found?.values.needed)).toBeGreaterThan(0.05)
    expect(found && thin.press && placesOf(thin.press.file, found)[0]?.key).toBe('lever-press: lumber: width')
  })
})
