/** Temperatures that a maker logs in one block, and what becomes of all blocks of that recipe. */
import { describe, expect, test } from 'vitest'
import { heatCase } from '../../src/batch/block-heat.ts'
import { runBlock } from '../../src/batch/block-heat-run.ts'
import { USUAL_RATE } from '../../src/batch/block-reaction.ts'
import { bind } from '../../src/binder/bind.ts'
import type { BoundBatch } from '../../src/binder/bind-batch.ts'
import { heatLogs } from '../../src/binder/heat-logs.ts'
import { blockHeatPlanner, blockRequest, isPlanned } from '../../src/binder/plan-block-heat.ts'
import type { Content } from '../../src/schema/content.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { leastProcessorTime } from '../processor-time.ts'
import { bindAndCompose, contentOf, type Edit, editedFiles, loadFiles } from '../sites/small-binder.ts'

const C = 273.15
const HOUR = 3600
const BATCH = 'batches/2027-02-01-plain.yaml'
const NEXT = 'batches/2027-03-01-plain.yaml'
const [first, second] = ['2027-02-01-plain', '2027-03-01-plain']

/** The small binder with its batch logged, a second batch of the same recipe, and one of another recipe. */
const filesWith = (log: string, ...edits: readonly Edit[]): Map<string, string> => {
  const files = editedFiles(...edits)
  const batch = files.get(BATCH) ?? ''
  files.set(NEXT, batch.replace('2027-02-01', '2027-03-01'))
  files.set('batches/2027-03-02-other.yaml', batch.replace('plain', 'other'))
  files.set('recipes/other.yaml', files.get('recipes/plain.yaml') ?? '')
  return files.set(BATCH, `${batch}${log}`)
}
const written = (log: readonly (readonly [hours: number, celsius: number])[]): string =>
  `core-temperatures:\n${log.map(([after, reads]) => `  - { after: ${after} h, reads: ${reads.toFixed(1)} C }\n`).join('')}`

const contentWith = (log: string, ...edits: readonly Edit[]): Content => contentOf(filesWith(log, ...edits))
const batchesOf = (content: Content): ReadonlyMap<string, BoundBatch> =>
  new Map(bind(content).binder.batches.map((batch) => [batch.key, batch]))

/** What a probe would read in the first block if its batter were so much faster. */
const logOf = (rate: number, hours: readonly number[] = [1, 2, 3, 4, 6, 8, 12, 24]): string => {
  const content = contentWith('')
  const batch = batchesOf(content).get(first)!
  const usual = heatCase(blockRequest({ shop: content.shop.value, weighed: batch, ...batch }), 'nominal')
  const { series } = runBlock({
    ...usual,
    whole: true,
    reaction: { ...usual.reaction, rate: usual.reaction.rate * rate },
  })
  return written(
    series
      .filter(({ time }) => hours.includes(time / HOUR))
      .map(({ time, core }) => [time / HOUR, core - C] as const),
  )
}
const NONSENSE = written([0, 2, 4, 6, 8, 10].map((hours) => [hours, hours % 4 === 0 ? 40 : 80] as const))

const batchSheet = (content: Content, key: string): Sheet =>
  bindAndCompose(content).sheets.find(({ id }) => id === `batch/${key}`)!
const wordsOf = (sheet: Sheet): string =>
  Object.values(sheet.blocks)
    .flatMap((block) => {
      switch (block.kind) {
        case 'facts':
          return block.items.flatMap(({ note }) => (note ? [note] : []))
        case 'cautions':
          return block.items
        case 'steps':
          return block.items.map(({ text }) => text)
        case 'figure':
          return [block.caption]
        default:
          return []
      }
    })
    .map(inlineWords)
    .join('\n')

describe('by hand: one log reckons for all batches of its recipe, and for no other', () => {
  const content = contentWith(logOf(1.6))
  const batches = batchesOf(content)
  const plain = batchesOf(contentWith(''))

  test('the rate that made the log is found again', () => {
    const { fits, findings } = heatLogs(content.shop.value, [...batches.values()])
    expect([...fits.keys()]).toEqual(['plain'])
    expect(fits.get('plain')?.map(({ key }) => key)).toEqual([first])
    expect((fits.get('plain')?.[0]?.rateFactor ?? 0) / 1.6).toBeCloseTo(1, 1)
    expect(findings.size).toBe(0)
  })

  test('both batches are sooner and better known, the other recipe is as it was', () => {
    const width = (batch: BoundBatch | undefined): number => {
      const { high, low } = batch!.blockHeat!.heat.peakTime
      return high / low
    }
    for (const key of [first, second]) {
      const [logged, estimated] = [batches.get(key), plain.get(key)]
      expect(logged!.blockHeat!.heat.peakTime.nominal).toBeLessThan(
        estimated!.blockHeat!.heat.peakTime.nominal,
      )
      expect(width(logged)).toBeLessThan(width(estimated) * 0.7)
      expect(logged!.blockHeat!.logged).toHaveLength(1)
    }
    expect(batches.get('2027-03-02-other')?.blockHeat).toEqual(plain.get('2027-03-02-other')?.blockHeat)
  })

  test('equal blocks are still one reckoning, also with a log', () =>
    expect(batches.get(first)?.blockHeat).toBe(batches.get(second)?.blockHeat))

  test('the sheet says by which block, and shows the readings as crosses', () => {
    const [own, next, other] = [first, second, '2027-03-02-other'].map((key) => batchSheet(content, key))
    expect(wordsOf(own!)).toMatch(/by the thermometer in the batch of 1\sFebruary\s2027/)
    expect(wordsOf(own!)).toContain('Crosses: what was read in this block.')
    expect(wordsOf(next!)).toMatch(/by the thermometer in the batch of 1\sFebruary\s2027/)
    expect(wordsOf(next!)).not.toContain('Crosses')
    expect(wordsOf(other!)).not.toContain('thermometer in the batch')
    const strokes = (sheet: Sheet): number => {
      const figure = sheet.blocks['block-curve']
      return figure?.kind === 'figure' ? figure.svg.split('M').length : 0
    }
    // eight readings, two strokes each
    expect(strokes(own!) - strokes(next!)).toBe(16)
  })

  test('somebody is awake from the earliest to the latest', () => {
    const { watch, heat, tooHot } = plain.get(first)!.blockHeat!
    // a batter that is fastest at the pour peaks before the fastest of the usual form
    expect(watch.from).toBeLessThanOrEqual(heat.peakTime.low)
    // most heat at the slowest rate peaks after every history that gets too hot
    const hot = Object.values(heat.runs).filter(({ peak }) => peak > tooHot)
    expect(watch.mayOverheat).toBe(true)
    expect(watch.to).toBeGreaterThan(Math.max(...hot.map(({ peakTime }) => peakTime)))
    // a log tells the form too: nothing is earlier than its own band
    const logged = batches.get(first)!.blockHeat!
    expect(logged.watch.from).toBe(Math.floor(logged.heat.peakTime.low / 1800) * 1800)
    expect(logged.watch.from).toBeGreaterThan(watch.from)
  })
})

describe('by hand: a log that cannot be used', () => {
  test.each([
    ['heat-log-not-matched', NONSENSE],
    ['heat-log-too-short', logOf(1.6, [2, 4, 6])],
    ['heat-log-tells-nothing', logOf(1.6, [48, 54, 60, 66])],
    // the room has 18 °C
    ['core-colder-than-room', `${logOf(1.6, [1, 2, 3, 4, 6, 8])}  - { after: 12 h, reads: 12 C }\n`],
  ])('%s: the estimate stays, and its batch says why, with the line of the file', (code, log) => {
    const content = contentWith(log)
    const batches = batchesOf(content)
    const plain = batchesOf(contentWith(''))
    expect(batches.get(first)?.findings.map((finding) => finding.code)).toContain(code)
    expect(batches.get(first)?.state).not.toBe('stop')
    expect(batches.get(first)?.blockHeat?.heat).toEqual(plain.get(first)?.blockHeat?.heat)
    expect(batches.get(second)?.findings.map((finding) => finding.code)).not.toContain(code)
    const said = wordsOf(batchSheet(content, first))
    expect(said).toContain(`In ${BATCH}, “core-temperatures”.`)
    expect(said).toContain('not used, for the reason that stands at the head of this sheet')
  })

  test('hotter than 130 °C, or before the pour, is refused by the file', () => {
    const codes = (log: string) =>
      loadFiles(filesWith(`core-temperatures: [${log}]\n`)).diagnostics.map(({ code, path }) => [code, path])
    expect(codes('{ after: 2 h, reads: 131 C }')).toEqual([['out-of-range', '/core-temperatures/0/reads']])
    expect(codes('{ after: -1 h, reads: 60 C }')).toEqual([['negative', '/core-temperatures/0/after']])
    expect(codes('{ after: 2 h, reads: 60 C }, { after: 2 h, reads: 61 C }')).toEqual([
      ['times-not-ascending', '/core-temperatures/1/after'],
    ])
  })
})

describe('by hand: a block that cannot be reckoned', () => {
  // no file can say 80 °C: the room is asked of a folder that is changed after it was read
  const content = contentWith('')
  const shop = { ...content.shop.value, room: { 'usual-temperature': C + 80 } }
  const hot: Content = { ...content, shop: { ...content.shop, value: shop } }

  test('its findings reach the batch, not a curve', () => {
    const batch = batchesOf(hot).get(first)!
    expect(batch.state).toBe('stop')
    expect(batch.blockHeat).toBeUndefined()
    expect(batch.findings).toContainEqual(
      expect.objectContaining({ code: 'room-hotter-than-gel', severity: 'stop' }),
    )
    expect(isPlanned(blockHeatPlanner()({ shop, weighed: batch, ...batch }))).toBe(false)
  })

  test('the stop page names the place in the shop file', () => {
    const sheet = batchSheet(hot, first)
    const reason = sheet.stopped?.find(({ code }) => code === 'room-hotter-than-gel')
    expect(reason?.place).toMatch(/shop\.yaml:\d+$/)
    expect(JSON.stringify(sheet.blocks)).not.toContain('<svg')
  })

  test('a room of 80 °C in the file is refused with its place', () => {
    const { diagnostics } = loadFiles(
      editedFiles(['shop.yaml', 'usual-temperature: 18 C', 'usual-temperature: 80 C']),
    )
    expect(diagnostics.map(({ code, path }) => [code, path])).toEqual([
      ['out-of-range', '/room/usual-temperature'],
    ])
  })
})

describe('by hand: a plan in time', () => {
  test('all of a batch’s histories, bands and bounds and ways out, in a quarter of a second', () => {
    const content = contentWith('', [
      'shop.yaml',
      '\nroom:',
      '\nblock: { insulation: 4 cm, cut-below: 25 C, walls-off: 3 days }\nroom:',
    ])
    const batch = batchesOf(content).get(first)!
    expect(batch.blockHeat?.ways.length).toBeGreaterThan(0)
    expect(USUAL_RATE.rate.nominal).toBe(1.8e-4)
    const took = leastProcessorTime(250, 12, () =>
      blockHeatPlanner()({ shop: content.shop.value, weighed: batch, ...batch }),
    )
    expect(took).toBeLessThan(250)
  })
})
