/** The drawings of trial frame and lever press: what they measure is what was designed, and moving things end where they should. */
import { describe, expect, test } from 'vitest'
import { type PressWords, pressDrawings, pressUse } from '../../src/drawing/lever-press/press-drawings.ts'
import { pressPose } from '../../src/drawing/lever-press/press-moment.ts'
import { smallItems } from '../../src/drawing/small/small-apart.ts'
import { TRIAL_NUMBERED, trialDrawings } from '../../src/drawing/trial-frame/trial-drawings.ts'
import { wireFromRight } from '../../src/drawing/trial-frame/trial-scene.ts'
import type { TrialWords } from '../../src/drawing/trial-frame/trial-words.ts'
import type { Drawing } from '../../src/drawing/types.ts'
import { designLeverPress } from '../../src/fixtures/lever-press/design.ts'
import { designTrialFrame } from '../../src/fixtures/trial-frame/design.ts'
import { loadWire } from '../../src/wires/loaded-wire.ts'
import { demoPressInput } from '../fixtures/lever-press-input.ts'
import { demoTrialInput } from '../fixtures/trial-frame-input.ts'

const trial = designTrialFrame(demoTrialInput)
const press = designLeverPress(demoPressInput)

/** Every word is its own key. */
const anyWords = new Proxy({}, { get: (_, key) => String(key) }) as Readonly<Record<string, string>>
const words = new Proxy(
  { face: anyWords, labels: anyWords, details: anyWords, use: anyWords },
  { get: (own, key) => own[key as keyof typeof own] ?? String(key) },
) as unknown as TrialWords & PressWords
const format = (metres: number) => ({ shown: (metres * 1000).toFixed(2) })
const options = {
  box: { width: 180, height: 220 },
  formatter: format,
  exact: format,
  projection: 'third-angle',
  words,
} as const

const size = (drawings: readonly Drawing[], drawing: string, name: string): number | undefined =>
  drawings.find((one) => one.name === drawing)?.dimensions.find((one) => one.name === name)?.value

describe('by hand: the trial frame', () => {
  const drawings = trialDrawings(trial, options)

  test('assembly: 140 + 2 · 3 by 120 + 2 · 30 mm inside, feet of 50, base of 74', () => {
    expect(size(drawings, 'trial.assembly', 'trial.inside-length')).toBeCloseTo(0.146, 9)
    expect(size(drawings, 'trial.assembly', 'trial.inside-width')).toBeCloseTo(0.18, 9)
    expect(size(drawings, 'trial.assembly', 'trial.feet')).toBeCloseTo(0.05, 9)
    expect(size(drawings, 'trial.assembly', 'trial.base')).toBeCloseTo(0.074, 9)
  })

  test('at its end a wire lies in its groove by as much as the design says', () => {
    expect(size(drawings, 'trial.in-groove', 'trial-detail.groove.depth')).toBeCloseTo(trial.groove.depth, 9)
    expect(size(drawings, 'trial.wire-end', 'trial-detail.peg.plane')).toBeCloseTo(trial.plane, 9)
  })

  test('a drawing of every part, and a number for each part, rod, peg and anchor', () => {
    for (const { key } of trial.parts) expect(drawings.map(({ name }) => name)).toContain(`part.${key}`)
    expect(smallItems(trial.parts, trial.rounds, TRIAL_NUMBERED).size).toBe(trial.parts.length + 3)
  })

  test('the drawn wire is the reckoned one: straight to the face, then a parabola', () => {
    const [reading] = trial.readings
    const wire = trial.wires[1]
    if (!reading || !wire) throw new Error('no wire')
    const { lagAt } = loadWire({ ...trial.strung, restTension: 120, load: reading.load })
    for (const extra of wireFromRight(trial, wire, reading.lag, 0))
      if (extra.kind === 'line')
        expect(extra.a.y - wire.height).toBeCloseTo(Math.abs(extra.a.x) < wire.half ? lagAt(extra.a.x) : 0, 5)
  })
})

describe('by hand: the lever press', () => {
  const last = press.geometry.steps.length - 1
  const { frame } = demoPressInput

  test('the frame is at its first touch when the first press begins, and at its end when the last one ends', () => {
    expect(pressPose(press, { hole: 0, swing: 1 }).frameTop).toBeCloseTo(frame.topAtStart, 3)
    expect(pressPose(press, { hole: last, swing: -1 }).frameTop).toBeCloseTo(frame.topAtEnd, 3)
  })

  test('it stands still while the pin is moved down', () =>
    expect(pressPose(press, { hole: 0, swing: -1 }).frameTop).toBeCloseTo(
      pressPose(press, { hole: 1, swing: 1 }).frameTop,
      6,
    ))

  test('hands stand above the floor where the steps say', () => {
    const { dimensions } = pressUse(press, words, { width: 170, format })
    const [first] = press.geometry.steps
    const found = dimensions.find(({ name }) => name === 'press-use.start.hands')
    expect(found?.value).toBeCloseTo(first?.hands.start ?? 0, 6)
  })

  test('assembly: pin to link and pin to hands', () => {
    const drawings = pressDrawings(press, options)
    expect(size(drawings, 'press.assembly', 'press.arm')).toBeCloseTo(press.geometry.arm, 9)
    expect(size(drawings, 'press.assembly', 'press.lever')).toBeCloseTo(press.geometry.lever, 9)
    for (const { key } of press.parts) expect(drawings.map(({ name }) => name)).toContain(`part.${key}`)
  })
})
