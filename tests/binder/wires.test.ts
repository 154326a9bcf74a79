/** From a fixture's file to the wires of its cutters: one truth for lag, tension and load, and where a misfit stands. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import type { BoundWires } from '../../src/binder/bind-wires.ts'
import { placesOf } from '../../src/binder/finding-places.ts'
import type { WireGroup, WireGroupKey } from '../../src/binder/wire-groups.ts'
import { isStopped } from '../../src/findings.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { loadWire } from '../../src/wires/loaded-wire.ts'
import { pinGive } from '../../src/wires/rail.ts'
import { boardSection, compositeSection } from '../../src/wires/rail-section.ts'
import { wireFigures } from '../../src/wires/strength.ts'
import { demo } from '../sites/edited-demo.ts'
import { contentOf, loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

const inch = 0.0254
const FIXTURE = 'fixtures/five-by-three.yaml'

/** The demo, with texts of its fixture replaced and lines put at its end. */
const demoWith = async (edits: readonly (readonly [string, string])[] = [], more = '') => {
  const { files } = await readFolder(demo, 'content', FILE_KINDS)
  const edited = files.map((file) => {
    if (file.below !== FIXTURE) return file
    let text = new TextDecoder().decode(file.bytes)
    for (const [from, to] of edits) {
      if (text.split(from).length !== 2) throw new Error(`"${from}" does not stand once in ${FIXTURE}`)
      text = text.replace(from, to)
    }
    return { ...file, bytes: new TextEncoder().encode(text + more) }
  })
  const { content, diagnostics } = loadContent(edited, 'content')
  if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
  const { binder } = bind(content)
  const [grid, bar, wires] = [binder.gridCutters[0], binder.barCutters[0], binder.wires[0]]
  if (!grid || !bar || !wires) throw new Error('no cutters')
  return { grid, bar, wires }
}
const group = ({ groups }: BoundWires, key: WireGroupKey): WireGroup => {
  const found = groups.find((one) => one.key === key)
  if (!found) throw new Error(`no ${key}`)
  return found
}
const stops = ({ findings }: { readonly findings: BoundWires['findings'] }): string[] =>
  findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code)

const whole = await demoWith()
const wire20 = wireFigures({ material: 'music-wire', diameter: 0.02 * inch })

describe('by hand: the demo', () => {
  const { wires, grid, bar } = whole

  test('4 short, 2 long and 7 slicing wires, and nothing forbids them', () => {
    expect(wires.groups.map(({ key, count }) => [key, count])).toEqual([
      ['grid-short', 4],
      ['grid-long', 2],
      ['bar', 7],
    ])
    expect(wires.findings.filter(({ severity }) => severity !== 'warn')).toEqual([])
    expect([isStopped(grid.findings), isStopped(bar.findings)]).toEqual([false, false])
  })

  test('the lag that the cutters are designed for is that of loadWire, on the rails as they are', () => {
    const short = group(wires, 'grid-short')
    // side: skirt of 0.2 · inside and 2 1/2 in above the wires, 17.8 mm thick; shelf 12.1 mm, 50 out
    const { inside } = grid.cutter
    const section = compositeSection(
      { width: 0.2 * inside.width + 2.5 * inch, depth: 0.0178 },
      { width: 0.0121, depth: 0.05 },
    )
    const places = grid.cutter.wires
      .filter(({ layer }) => layer === 'short')
      .map(({ at }) => at + inside.length / 2)
    const loaded = loadWire({
      // inside, and twice 0.1 mm and half a rod of 1/8 in
      length: inside.width + 0.0002 + inch / 8,
      soapWidth: 0.20955,
      axialStiffness: wire20.axialStiffness,
      restTension: 120,
      load: 100,
      endGive: pinGive({ rail: { length: inside.length, sections: [section] }, places }, 'pinned'),
    })
    expect(short.chosen.loaded.usual.lag).toBeCloseTo(loaded.lag, 9)
    expect(grid.cutter.input.wire.lag.short).toBe(short.chosen.loaded.usual.lag)
    expect(grid.cutter.input.wire.lag.long).toBe(group(wires, 'grid-long').chosen.loaded.usual.lag)
    expect(bar.cutter.input.wire.lag).toBe(group(wires, 'bar').chosen.loaded.usual.lag)
  })

  test('the bar cutter: pins of the finished frame, two rails of 100 by 17.8 mm between its arms', () => {
    const own = group(wires, 'bar')
    const { frame, wires: lines } = bar.cutter
    expect(own.length).toBeCloseTo(frame.frontPins - frame.backPins, 9)
    const from = frame.x[0] + 0.045
    const loaded = loadWire({
      length: own.length,
      soapWidth: 0.06985,
      axialStiffness: wireFigures({ material: 'music-wire', diameter: 0.014 * inch }).axialStiffness,
      restTension: 60,
      load: 100,
      endGive: pinGive(
        {
          rail: {
            length: frame.x[1] - 0.045 - from,
            sections: [boardSection({ width: 0.0178, depth: 0.1 })],
          },
          places: lines.map(({ x }) => x - from),
        },
        'pinned',
      ),
    })
    expect(own.chosen.loaded.usual.lag).toBeCloseTo(loaded.lag, 9)
  })

  test('tension is that of pins which stand: more than on rails that give', () => {
    const { length, soapWidth, chosen } = group(wires, 'grid-long')
    const wire = { length, soapWidth, axialStiffness: wire20.axialStiffness, restTension: 120, load: 100 }
    expect(chosen.loaded.usual.tension).toBeCloseTo(loadWire(wire).tension, 9)
  })

  test('the note: √(120 N / 1.591 g/m) / (2 · 291.2 mm) = 471.5 Hz, 20 cents above A#4', () => {
    const { chosen } = group(wires, 'grid-long')
    expect(chosen.pitch).toBeCloseTo(471.5, 0)
    expect(chosen.note.name).toBe('A#4')
    expect(chosen.note.cents).toBeCloseTo(1200 * Math.log2(chosen.pitch / 466.164), 2)
  })

  test('every tuned tension lies in its range, and both hold more soap than the usual', () => {
    for (const { tension, chosen } of wires.groups) {
      expect(tension).toBeGreaterThan(chosen.range.low)
      expect(tension).toBeLessThan(chosen.range.high)
      expect(chosen.held.load).toBeGreaterThan(100)
      expect(chosen.loaded.fresh.lag).toBeLessThan(chosen.loaded.usual.lag)
      expect(chosen.loaded.usual.lag).toBeLessThan(chosen.loaded.late.lag)
    }
    expect(wires.gridLoadOfGrooves).toBeGreaterThan(100)
  })

  test('tuning one wire slackens the others: two rounds where there are many, one for the two long wires', () =>
    expect(wires.groups.map(({ chosen }) => [chosen.tuning.order, chosen.tuning.passes])).toEqual([
      ['along', 2],
      ['along', 1],
      ['ends-in', 2],
    ]))

  test('stainless wire stands beside it: less strong, tuned lower, and holds less', () => {
    for (const { material, chosen, option } of wires.groups) {
      expect([material, chosen.material, option.material]).toEqual([
        'music-wire',
        'music-wire',
        'stainless-302',
      ])
      expect(option.figures.breakingLoad).toBeLessThan(chosen.figures.breakingLoad)
      expect(option.held.load).toBeLessThan(chosen.held.load)
      expect(option.range.findings).toEqual([])
      expect(option.tension).toBeGreaterThanOrEqual(option.range.low)
      expect(option.tension).toBeLessThanOrEqual(option.range.high)
    }
  })

  test('push: 100 N/m · (4 · 209.55 + 2 · 285.75 mm) less the frame, hands 18 in and those of the frame high', () => {
    const push = wires.gridPush
    expect(push?.at.usual.resistance).toBeCloseTo(140.97, 6)
    expect(push?.at.usual.push).toBeCloseTo(140.97 - 9.80665 * grid.cutter.mass, 6)
    expect(push?.handHeight).toBeCloseTo(0.4572 + grid.cutter.hands.start, 9)
    expect(push?.held.load).toBe(Math.min(...wires.groups.slice(0, 2).map(({ chosen }) => chosen.held.load)))
  })

  test('push at the handles: 48.9 N of soap at its arm, less the frame’s own moment', () => {
    const push = wires.barPush
    // 7 · 69.85 mm · 100 N/m
    expect(push?.at.usual.resistance).toBeCloseTo(48.895, 6)
    const { loaf, frame } = bar.cutter
    expect(push?.soapArm).toBeCloseTo((loaf.from + loaf.to) / 2, 12)
    expect(push?.handleArm).toBeCloseTo(frame.frontRail[1] + 0.06, 12)
    const moment = 48.895 * (push?.soapArm ?? 0) - (push?.at.usual.frameMoment ?? 0)
    expect(push?.at.usual.push).toBeCloseTo(moment / (push?.handleArm ?? 1), 9)
  })

  test('hands stop at one force: what the wires bear, below what tips it', () => {
    const push = wires.barPush
    const load = push?.held.load ?? 0
    // seven wires in 69.85 mm of soap; moments about the hinge
    const moment = 7 * 0.06985 * load * (push?.soapArm ?? 0) - (push?.at.usual.frameMoment ?? 0)
    expect(push?.stop.by).toBe('wires')
    expect(push?.stop.push).toBeCloseTo(moment / (push?.handleArm ?? 1), 9)
    expect(push?.stop.push).toBeLessThan(bar.cutter.balance.tippingPressEnd)
  })

  test('wire to buy: both kinds by their gauge, two spare of each layer, all lengths added up', () => {
    expect(wires.buy.map(({ material, gauge }) => [material, gauge])).toEqual([
      ['music-wire', '8'],
      ['music-wire', '5'],
    ])
    expect(wires.buy[0]?.pieces.map(({ group: of, count, spare }) => [of, count, spare])).toEqual([
      ['grid-short', 4, 2],
      ['grid-long', 2, 2],
    ])
    const [short, long] = grid.cutter.wireLengths
    expect(wires.buy[0]?.length).toBeCloseTo(6 * (short?.length ?? 0) + 4 * (long?.length ?? 0), 9)
    expect(wires.buy[1]?.pieces.map(({ lines, count, spare }) => [lines, count, spare])).toEqual([
      [2, 3, 2],
      [1, 1, 0],
    ])
  })
})

describe('by hand: what a maker states', () => {
  test('loads of his own', async () => {
    const { wires } = await demoWith(
      [],
      '\ncutting-load: { fresh: 20 N/m, usual: 0.5 lbf/in, late: 300 N/m }\n',
    )
    expect(wires.loads.from).toBe('stated')
    // 4.4482216 N / 25.4 mm = 175.127 N/m
    expect(group(wires, 'bar').chosen.loaded.usual.load).toBeCloseTo(87.563, 3)
  })

  test('a trial on a luggage scale: (3 kg + 0.25 kg) g / (3 · 101.6 mm) = 104.57 N/m, and its interval', async () => {
    const { wires } = await demoWith(
      [],
      '\ncutting-trial: { readings: [2.9 kg, 3.1 kg, 29.41995 N], frame-mass: 250 g, wires: 3, width: 4 in }\n',
    )
    expect(wires.loads.from).toBe('trial')
    expect(wires.loads.at).toEqual({ fresh: 40, usual: wires.loads.trial?.load, late: 400 })
    expect(wires.loads.at.usual).toBeCloseTo(104.567, 2)
    // s = 0.1 kg: t(2) 4.303 · 0.98067 / 0.3048 / √3 = 7.993
    expect((wires.loads.trial?.high ?? 0) - wires.loads.at.usual).toBeCloseTo(7.993, 2)
    expect(group(wires, 'grid-long').chosen.loaded.usual.load).toBe(wires.loads.at.usual)
  })

  test('both are one too many, and the second is shown', () => {
    const files = smallBinderFiles()
    const file = 'fixtures/small.yaml'
    files.set(
      file,
      `${files.get(file)}cutting-load: { fresh: 40 N/m, usual: 100 N/m, late: 400 N/m }\ncutting-trial: { readings: [3 kg], frame-mass: 0 g, wires: 3, width: 100 mm }\n`,
    )
    expect(loadFiles(files).diagnostics.map(({ code, path }) => [code, path])).toEqual([
      ['more-than-one', '/cutting-trial'],
    ])
  })

  test('a reading that is neither a force nor a mass', () => {
    const files = smallBinderFiles()
    const file = 'fixtures/small.yaml'
    files.set(
      file,
      `${files.get(file)}cutting-trial: { readings: [3 mm], frame-mass: 0 g, wires: 3, width: 100 mm }\n`,
    )
    expect(loadFiles(files).diagnostics.map(({ code, path }) => [code, path])).toEqual([
      ['unit-wrong-kind', '/cutting-trial/readings/0'],
    ])
  })

  test('a higher stand, other tensions, stainless wire', async () => {
    const { wires } = await demoWith([
      [
        '  wire: 0.020 in\n',
        '  wire: 0.020 in\n  wire-material: stainless-302\n  stand-height: 24 in\n  tension: { short-wires: 90 N, long-wires: 105 N }\n',
      ],
    ])
    expect(wires.gridPush?.standHeight).toBeCloseTo(0.6096, 9)
    const long = group(wires, 'grid-long')
    expect([long.tension, long.tensionFrom, long.material, long.option.material]).toEqual([
      105, 'stated', 'stainless-302', 'music-wire',
    ]) // biome-ignore format: one line
    // stated for either
    expect(long.option.tension).toBe(105)
    expect(wires.buy.map(({ material }) => material)).toEqual(['stainless-302', 'music-wire'])
  })
})

describe('by hand: what contradicts itself stops the cutter that it belongs to, with both values and its lines', () => {
  const placed = (
    { findings, file }: Pick<BoundWires, 'findings' | 'file'>,
    code: string,
  ): readonly (string | number)[] => {
    const finding = findings.find((one) => one.code === code)
    return finding ? placesOf(file, finding).map(({ key }) => key) : []
  }

  test('a peg beyond its rating once soap pulls: tuned to 120 N it bears, in soap 171 N are too much for 150', async () => {
    const { grid, bar, wires } = await demoWith([['  wire: 0.020 in\n', '  wire: 0.020 in\n  peg-rating: 150 N\n  tension: { short-wires: 90 N, long-wires: 120 N }\n']])
    const found = grid.findings.find(({ code }) => code === 'wire-peg-slips')
    expect(found?.values).toMatchObject({ one: 'wire-long', holds: 150, pullAllowed: 150 })
    expect(found?.values.pullNeeded).toBeCloseTo(170.7, 0)
    expect(placed(grid, 'wire-peg-slips')).toEqual([
      'grid-cutter: tension: long-wires',
      'grid-cutter: peg-rating',
    ])
    expect(isStopped(grid.findings)).toBe(true)
    expect(isStopped(wires.findings)).toBe(true)
    expect(isStopped(bar.findings)).toBe(false)
  }) // biome-ignore format: one edit a line

  test('a tuning that trails more than the grooves take', async () => {
    const { grid } = await demoWith([['  wire: 0.020 in\n', '  wire: 0.020 in\n  tension: { long-wires: 80 N }\n']])
    expect(stops(grid)).toEqual(['grid-long-groove-too-shallow', 'wire-tuned-out-of-range'])
    const found = grid.findings.find(({ code }) => code === 'wire-tuned-out-of-range')
    expect(found?.values).toMatchObject({ one: 'wire-long', tension: 80 })
    expect(Number(found?.values.tensionLow)).toBeCloseTo(100, 0)
    expect(placed(grid, 'wire-tuned-out-of-range')).toEqual(['grid-cutter: tension: long-wires', 'grid-cutter: wire'])
  }) // biome-ignore format: one edit a line

  test('soap for which no tension fits', async () => {
    const { grid } = await demoWith([], '\ncutting-load: { fresh: 40 N/m, usual: 250 N/m, late: 400 N/m }\n')
    expect(stops(grid)).toContain('wire-no-tension-fits')
    expect(placed(grid, 'wire-no-tension-fits')).toEqual([
      'grid-cutter: wire',
      'base: groove-depths',
      'cutting-load: usual',
    ])
  })

  test('rails of a bar cutter that bow: narrow ones, and thick wire', async () => {
    const { bar, grid } = await demoWith([
      ['  wire: 0.014 in', '  front-rail-width: 60 mm\n  back-rail-width: 60 mm\n  wire: 0.020 in'],
    ])
    expect(stops(bar)).toEqual(['rail-too-limber'])
    expect(bar.wires.groups[0]?.chosen.tuning.passes).toBeUndefined()
    expect(placed(bar, 'rail-too-limber')).toEqual([
      'bar-cutter: front-rail-width',
      'bar-cutter: back-rail-width',
      'bar-cutter: wire',
    ])
    expect(isStopped(grid.findings)).toBe(false)
  })

  test('a thin wire at a high tension breaks', async () => {
    const { bar } = await demoWith([
      ['  wire: 0.014 in', '  tension: 190 N\n  peg-rating: 400 N\n  wire: 0.014 in'],
    ])
    // 253 N of strength: in soap more than two thirds of it, and more than its eye and its bends bear
    expect(stops(bar)).toEqual([
      'wire-anchor-gives', 'wire-breaks', 'wire-breaks-at-edge', 'wire-tuned-out-of-range',
    ]) // biome-ignore format: one line
  })

  test('late soap wants a lever, and the sheet is held back', async () => {
    const { wires } = await demoWith(
      [],
      '\ncutting-load: { fresh: 100 N/m, usual: 1000 N/m, late: 1000 N/m }\n',
    )
    expect(wires.findings.filter(({ severity }) => severity === 'hold').map(({ code }) => code)).toEqual([
      'push-wants-lever',
    ])
  })

  test('grooves and sizes that no tape can have found are refused, not strung', () => {
    const files = smallBinderFiles()
    const file = 'fixtures/small.yaml'
    files.set(
      file,
      `${files.get(file)}as-built: { grooves-across-width: [2 m], grooves-across-length: [60 mm, 60.5 mm], inside-width: 1 mm }\ngrid-cutter: { panels: { side: birch, end: birch, shelf: birch }, wire: 0.5 mm }\n`,
    )
    const { diagnostics } = bind(contentOf(files))
    const paths = diagnostics.map(({ path }) => path)
    expect(paths).toContain('/as-built/inside-width')
    expect(paths.some((path) => path.startsWith('/as-built/grooves-across-width'))).toBe(true)
  })
})

describe('by hand: nothing to cut with', () => {
  test('a fixture without cutters has no wires', () =>
    expect(bind(contentOf(smallBinderFiles())).binder.wires).toEqual([]))
})
