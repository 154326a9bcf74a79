/** What the sheet of the demo's bar cutter says: numbers that a hand can reckon from the files. */
import { beforeAll, describe, expect, test } from 'vitest'
import { designBarCutter } from '../../src/fixtures/bar-cutter/design.ts'
import { woodBoxes } from '../../src/geometry/cells.ts'
import { placeBox } from '../../src/geometry/placement.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Block, Sheet } from '../../src/sheets/model.ts'
import { demoCutterInput } from '../fixtures/bar-cutter-input.ts'
import { composeEdited, sheetOf } from '../sites/edited-demo.ts'
import { bindAndCompose, contentOf, type Edit, editedFiles } from '../sites/small-binder.ts'
import { rowsOf } from './rows.ts'

const CUTTER = 'bar-cutter/five-by-three'

const stepsOf = (block: Block | undefined): string[] =>
  block?.kind === 'steps' ? block.items.map(({ text }) => inlineWords(text)) : []

describe('by hand: the demo', () => {
  let sheet: Sheet
  beforeAll(async () => {
    sheet = sheetOf(await composeEdited({}), CUTTER)
  })
  const value = (name: string) => Number(sheet.values.get(name)?.value)

  test('comes after its mould, which it names by its number', () => {
    expect(sheet.number).toMatch(/^7\.[23]$/)
    expect(inlineWords(sheet.fill.related as Parameters<typeof inlineWords>[0])).toContain('sheet 7.1')
  })

  test('seven wires of four lengths: three pairs and a single one at the trimmed end', () => {
    expect(value('wire.count')).toBe(7)
    expect(value('wire.lengths')).toBe(4)
    expect(value('wire.pairs')).toBe(3)
    expect(inlineWords(sheet.fill['odd-wire'] as Parameters<typeof inlineWords>[0])).toContain('trimmed end')
  })

  test('depths: 1/8 in; wire of 0.014 in = 0.3556 mm; 0.5 mm through, 2 mm for crumbs', () => {
    const mm = (name: string) => value(name) * 1000
    expect(mm('wire.depth')).toBeCloseTo(3.175, 6)
    expect(mm('groove.depth')).toBeCloseTo(3.175 + 0.1778 + 2, 6)
    // 76.2 − 3.175 + 4 − 1.2, which is 0.375 below the platform
    expect(mm('hinge.axis')).toBeCloseTo(75.825, 6)
    expect(mm('hinge.below-platform')).toBeCloseTo(0.375, 6)
    // a rule on top of the wire; the lag comes from the wires
    expect(mm('wire.reads')).toBeCloseTo(3.175 - 0.1778, 6)
    expect(mm('wire.reads-least')).toBeCloseTo(mm('wire.lag') + 0.5 - 0.1778, 6)
    expect(mm('wire.reads-most')).toBeCloseTo(3.175 + 1 - 0.1778, 6)
  })

  test('what the scale shows at the two pushes it has to stand: 60 N and 10 N', () => {
    expect(value('trial.press')).toBeCloseTo(60 / 9.80665, 9)
    expect(value('trial.knock')).toBeCloseTo(10 / 9.80665, 9)
  })

  test('every joint with its screws: as many as the list of things to buy has, less those of the hinge', () => {
    const joints = rowsOf(sheet.blocks.screws).map((row) => Number(row[3] || 0))
    const bought = rowsOf(sheet.blocks.hardware).filter((row) => row[0] === 'Flat-headed wood screws')
    const hinge = bought.find((row) => row[1]?.startsWith('#4'))
    const all = bought.reduce((sum, row) => sum + Number(row[2]), 0)
    expect(joints.reduce((sum, count) => sum + count, 0)).toBe(all - Number(hinge?.[2]))
    // a hinge of 366 mm with a screw in each leaf every 50 mm: 8 and 8
    expect(hinge?.[2]).toBe('16')
  })

  test('one number for a part on every list', () => {
    const parts = rowsOf(sheet.blocks.parts)
    expect(parts.map((row) => row[0])).toEqual(parts.map((_, index) => `${index + 1}`))
    const numbers = new Map(parts.map((row) => [row[1], row[0]]))
    for (const row of rowsOf(sheet.blocks.cuts)) expect(numbers.get(row[1])).toBe(row[0])
    expect(parts.slice(-5).map((row) => row[1])).toEqual([
      'Hinge', 'Tuning peg', 'Wire pin', 'Wire anchor', 'Wire',
    ]) // biome-ignore format: one line reads better
  })

  test('what stands without a dado has its place: risers, fence, braces, rests', () => {
    const placed = rowsOf(sheet.blocks.placed).map((row) => row[0])
    expect(placed.filter((name) => name === 'Riser')).toHaveLength(2)
    expect(new Set(placed)).toEqual(new Set(['Fence', 'Riser', 'Brace', 'Rest']))
    // ends of risers: arm of 45 mm and 4 mm of clearance
    expect(value('placed.cutter-riser-1.from-stop') * 1000).toBeCloseTo(49, 6)
    expect(value('placed.cutter-brace-1.from-back')).toBe(0)
  })

  test('what cannot be reached later comes first: braces, pins, the taped leaf; rests are glued when wires are measured', () => {
    const building = stepsOf(sheet.blocks.assembly)
    const at = (words: string) => building.findIndex((text) => text.includes(words))
    const stand = building[at('by the list of joints, each pilot')] ?? ''
    expect(stand.indexOf('braces to the back')).toBeGreaterThan(0)
    expect(stand.indexOf('braces to the back')).toBeLessThan(stand.indexOf('hinge post into'))
    expect(at('drive each pin')).toBeGreaterThan(0)
    expect(at('drive each pin')).toBeLessThan(at('Saw the hinge'))
    expect(at('double-sided tape')).toBe(at('Saw the hinge') + 1)
    // nothing swings before hooks and clamp are there
    expect(at('Screw a hook')).toBeLessThan(at('double-sided tape'))
    const lay = building[at('double-sided tape')] ?? ''
    expect(lay.indexOf('Clamp the base')).toBeGreaterThan(0)
    expect(lay.indexOf('Clamp the base')).toBeLessThan(lay.indexOf('lift the frame'))
    expect(building[at('double-sided tape')]).toContain('without glue')
    const stringing = stepsOf(sheet.blocks.stringing)
    const strung = (words: string) => stringing.findIndex((text) => text.includes(words))
    expect(strung('the rests for good')).toBe(strung('stand the steel rule on end') + 1)
  })

  test('pins and slots stand where the steps and lists say', () => {
    const mm = (name: string) => value(name) * 1000
    // end stop of 17.8 mm, 12 mm of platform beyond it; arm of 45 mm and 4 mm of clearance beyond that
    expect(mm('gauge.line')).toBeCloseTo(29.8, 6)
    expect(mm('gauge.stop')).toBeCloseTo(78.8, 6)
    // wires 1 1/8 in apart; half of 1/8 in and of 0.014 in beside them: in front all to the open end, behind turn about
    const beside = (3.175 + 0.3556) / 2
    const places = (rail: string) =>
      [1, 2, 3, 4, 5, 6, 7].map((pin) => mm(`part.cutter-${rail}-rail.pin-${pin}.u`) - 78.8 - pin * 28.575)
    expect(places('front')).toEqual([1, 1, 1, 1, 1, 1, 1].map((way) => expect.closeTo(way * beside, 6)))
    expect(places('back')).toEqual([1, -1, 1, -1, 1, -1, 1].map((way) => expect.closeTo(way * beside, 6)))
    expect(stepsOf(sheet.blocks.assembly).join(' ')).toContain('the second to the stop end. The single wire')
    // fence and platform are equally long: a slot and its groove are at one place
    for (const cut of [1, 4, 7])
      expect(mm(`part.cutter-fence.slot-${cut}.at`)).toBeCloseTo(29.8 + cut * 28.575, 6)
    expect(mm('part.cutter-platform.groove-4.at')).toBeCloseTo(29.8 + 4 * 28.575, 6)
  })

  test('a length of wire: let back for three turns, room for its eye above the head of a screw, first rounds at part of the pitch', () => {
    const mm = (name: string) => value(name) * 1000
    // 3 x 3.1416 x (6 + 0.3556)
    expect(mm('wire.let-back')).toBeCloseTo(59.9, 2)
    // wire of 0.014 in, 4 mm below the rail: two wires lower is the head of the screw that its eye hangs on
    expect(mm('anchor.out')).toBeCloseTo(4 + 2 * 0.3556, 6)
    // rail 76.2 - 3.175 + 4 above the bench, post to 1.8 - 15 below that; base of 17.8 mm, 5 mm of air
    expect(mm('clamp.jaw')).toBeCloseTo(77.025 - 13.2 - 17.8 - 5, 6)
    // the first is half of a pair
    expect(value('wire.first-costs')).toBe(3)
    // 60 N on 0.120 m of 0.78 g/m: 1153 Hz; the pitch goes with the root of the tension
    expect(value('wire.pitch-third')).toBeCloseTo(1153 / Math.sqrt(3), -1)
    expect(value('wire.pitch-two-thirds') / value('wire.pitch-third')).toBeCloseTo(Math.SQRT2, 9)
  })

  test('hands stop at one force, the same on the sheet of the wires', async () => {
    const wires = sheetOf(await composeEdited({}), 'wires/five-by-three')
    expect(wires.values.get('push.bar.most')).toEqual(sheet.values.get('push.bar.most'))
    expect(value('push.bar.most')).toBeLessThan(60)
  })

  test('the rear screws of the rests, 90 mm behind the front edge, come half of a driver of 40 mm past the bench', () => {
    expect(value('rests.over')).toBeCloseTo(0.09 + 0.02, 4)
  })

  test('a wire stretches by its tension over the stiffness of 0.014 in of steel, from its back pin to its post', () => {
    // 60 N / (205 GPa x .0993 mm2) = 2.95 mm/m; 120.3 from pin to pin, and 80 on to the post: .59; steel as listed to 5 %
    expect(value('wire.stretch')).toBeGreaterThan(0.00056)
    expect(value('wire.stretch')).toBeLessThan(0.00062)
  })

  test('the backing board reaches from the first cut to the last; a bit from the open rail over the fence', () => {
    const mm = (name: string) => value(name) * 1000
    // platform 29.8 + 218.4 + 20 long, six bars of 28.575 between first and last cut, 100 for block and lath
    const platform = 29.8 + 7 * 28.575 + 15.875 + 7 * 0.3556 + 20
    expect(mm('backing.length')).toBeCloseTo(platform + 6 * 28.575 + 100, 6)
    // blade 42.8625 + 5.3528 above the sled, hands 100 above it
    expect(mm('backing.height')).toBeCloseTo(42.8625 + 3.175 + 0.1778 + 2 + 100, 6)
    // rail from 2.5 on, 100 wide, 4 of room, lip of 4, loaf of 69.85, fence of 17.8; 15° from upright; 12.7 into the wood
    const front = 2.5 + 100 + 4 + 4 + 69.85 + 17.8
    expect(mm('hinge.bit')).toBeCloseTo(front / Math.cos(Math.PI / 12) + 12.7, 6)
  })

  test('a wire is bought as what it is tuned for, and of no other metal', () => {
    const wire = rowsOf(sheet.blocks.hardware).find((row) => row[0]?.startsWith('Wire,'))
    expect(wire?.[1]).toContain('music wire')
    expect(wire?.[1]).toContain('gauge 5')
    expect(rowsOf(sheet.blocks.parts).flat().join(' ')).not.toContain('stainless spring wire')
    expect(stepsOf(sheet.blocks.care).join(' ')).toContain('mineral oil')
  })

  test('the press that tips it is told for the ends of the handles, twice as far out as their middle', () => {
    expect(value('balance.press')).toBeCloseTo(2 * value('balance.press-end'), 6)
    expect(value('trial.press-tips')).toBeCloseTo(value('balance.press-end') / 9.80665, 9)
  })

  test('the steps name a hold before soap, and bars go up while the frame is down', () => {
    const using = stepsOf(sheet.blocks.using)
    const at = (words: string) => using.findIndex((text) => text.includes(words))
    expect(at('then the second hook')).toBeLessThan(at('Bring the frame down'))
    expect(at('trimmed end to the left')).toBeGreaterThan(at('both arms lie on their rests'))
    expect(at('bar by bar')).toBeLessThan(at('raise the frame with both hands, and hook'))
  })
})

describe('by hand: bars come out upwards, the frame closed', () => {
  const cutter = designBarCutter(demoCutterInput)
  const { loaf } = cutter

  test('nothing that swings is above the loaf, seen from above', () => {
    const boxes = cutter.parts
      .filter(({ key }) => cutter.swinging.includes(key))
      .flatMap((part) => part.placements.flatMap((at) => woodBoxes(part).map((box) => placeBox(at, box))))
    const metal = cutter.rounds.map(({ axis, centre, diameter, from, to }) => {
      const [x, y] = [centre[0], axis === 'z' ? centre[1] : from]
      const far = axis === 'z' ? centre[1] : to
      return {
        min: { x: x - diameter / 2, y: Math.min(y, far) - (axis === 'z' ? diameter / 2 : 0) },
        max: { x: x + diameter / 2, y: Math.max(y, far) + (axis === 'z' ? diameter / 2 : 0) },
      }
    })
    const over = [...boxes, ...metal].filter(
      ({ min, max }) => min.x < loaf.longest && max.x > 0 && min.y < loaf.to && max.y > loaf.from,
    )
    expect(boxes.length).toBeGreaterThan(5)
    expect(over).toEqual([])
  })

  test('there is room beside the loaf for a finger, and an arm in the way of a bar that slides on', () => {
    expect(cutter.platform.x[1] - loaf.longest).toBeCloseTo(0.02, 9)
    expect(cutter.frame.bottom - cutter.platform.top).toBeLessThan(loaf.height)
  })
})

describe('by hand: other cutters', () => {
  const FILE = 'fixtures/small.yaml'
  const PANELS = '{ base: birch, platform: birch, fence: birch, frame: birch, upright: birch }'
  /** The small block, 6 slices of 25 mm and 15 mm trimmed above them, with a bar cutter. */
  const small = (...edits: readonly (readonly [string, string])[]): Sheet => {
    const files = editedFiles(
      [FILE, 'strip-width: 50 mm', `strip-width: 50 mm\nbar-cutter: { panels: ${PANELS}, wire: 0.4 mm }`],
      ...edits.map(([from, to]): Edit => [FILE, from, to]),
    )
    return sheetOf(bindAndCompose(contentOf(files)), 'bar-cutter/small')
  }
  const odd = (sheet: Sheet) => inlineWords(sheet.fill['odd-wire'] as Parameters<typeof inlineWords>[0])

  test('an even number of wires has no single one', () => {
    // 5 cuts between 6 slices, and one for what is trimmed
    const sheet = small()
    expect(Number(sheet.values.get('wire.count')?.value)).toBe(6)
    expect(odd(sheet)).toBe('No wire is single.')
    expect(stepsOf(sheet.blocks.using).some((text) => text.includes('offcuts'))).toBe(true)
    expect(stepsOf(sheet.blocks.stringing).some((text) => text.startsWith('The single wire'))).toBe(false)
  })

  test('nothing trimmed: no end for the offcuts, and the single wire cuts bars', () => {
    const sheet = small(['trim: { top: 15 mm }', 'trim: { left: 5 mm }'])
    expect(Number(sheet.values.get('wire.count')?.value)).toBe(5)
    expect(odd(sheet)).not.toContain('trimmed')
    expect(stepsOf(sheet.blocks.using).some((text) => text.includes('offcuts'))).toBe(false)
  })

  test('stainless wire is bought as such, and not oiled', () => {
    const sheet = small(['wire: 0.4 mm', 'wire: 0.4 mm, wire-material: stainless-302'])
    const wire = rowsOf(sheet.blocks.hardware).find((row) => row[0]?.startsWith('Wire,'))
    expect(wire?.[1]).toContain('stainless spring wire')
    expect(stepsOf(sheet.blocks.care).join(' ')).not.toContain('oil')
  })

  test('bars too thin for a button each have anchors between', () => {
    // buttons of 20 mm with 5 mm for fingers go side by side at 25 mm, and not at 22 mm
    const close = (sheet: Sheet) =>
      stepsOf(sheet.blocks.stringing).some((text) => text.includes('too close for fingers'))
    expect(close(small())).toBe(false)
    expect(close(small(['thickness: 25 mm', 'thickness: 22 mm']))).toBe(true)
  })

  test('a mould that does not stand stops its bar cutter: a page without a size', () => {
    const sheet = small(['depth: 6 mm', 'depth: 20 mm'])
    expect(sheet.stopped?.map(({ code }) => code)).toContain('mould-dado-too-deep')
    expect([...sheet.values.keys()].filter((name) => /^(part|drawing|wire|hinge)\./.test(name))).toEqual([])
  })
})

describe('by hand: the sides that drawings name at the datum corner', () => {
  const words = readCatalogue('en')
  const named = (key: string) => words.phrase(`drawing.face.${key}`).split('datum: ')[1] ?? ''
  // x grows from the stop end to the open end, y from the back to the front
  const START = { '+x': 'stop end', '+y': 'back', '-x': '', '-y': '', '+z': 'foot', '-z': '' } as const

  test.each(designBarCutter(demoCutterInput).parts.filter(({ key }) => key !== 'cutter-rest'))(
    '$key',
    ({ key, placements }) => {
      for (const { u, v } of placements) {
        expect(named(key)).toContain(START[u])
        if (key !== 'cutter-arm') expect(named(key).split(', ')).toEqual([START[u], START[v]])
      }
    },
  )
})
