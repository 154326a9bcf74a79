/**
 * No unsafe paper: batches by chance near every limit, judged again by code that shares nothing with the program.
 *
 * `npm test` tries some with a fixed seed, the soak as many as it has time for with another one each day. By hand:
 * `KETTLE_PAPER_BATCHES=100000 KETTLE_PAPER_SEED=1 npx vitest run --config tests/safe-paper/by-hand.config.ts`
 */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { calendarFile } from '../../src/sheets/cure/calendar-file.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { isSoak } from '../long.ts'
import { textsOf } from '../sites/sheet-texts.ts'
import { bindAndCompose, contentOf, editedFiles, frame } from '../sites/small-binder.ts'
import { timeLeft } from '../soak/minutes.ts'
import { type AnyFolder, foldersOfGroup } from './any-folder.ts'
import { blockFaults, judgeSheet, plainFolder, tryFolder } from './judged.ts'

/** What nobody asks the other code about: reasons to stop that are none of lye, superfat, vessel and temperature. */
const OTHER_REASONS = new Set([
  'mould-cleat-meets-soap', 'mould-rod-off-panel', 'mould-rods-cannot-hold', 'mould-rods-too-far-apart',
  'fragrance-over-limit', 'lift-too-heavy-for-two', 'lift-out-of-reach', 'no-safe-pour', 'premix-not-of-this-recipe',
  'fill-below-slices', 'no-whole-slice', 'scale-too-coarse', 'stock-weaker-than-batch', 'no-water-left-for-lye',
  'container-too-heavy-for-scale', 'container-too-small-for-scale', 'too-many-draws', 'draw-below-scale-minimum',
]) // biome-ignore format: a list

const asked = Number(process.env.KETTLE_PAPER_BATCHES ?? '0')
const SEED = Number(process.env.KETTLE_PAPER_SEED ?? (isSoak ? Math.floor(Math.random() * 1e6) : 20270301))
/** Folders of a group share what is weighed. */
const FOLDERS = isSoak ? 6 : 3

const counter = () => {
  const counts = new Map<string, number>()
  return {
    add: (what: string, by = 1): void => {
      counts.set(what, (counts.get(what) ?? 0) + by)
    },
    of: (what: string): number => counts.get(what) ?? 0,
    told: (): string => [...counts].map(([what, count]) => `${what} ${count}`).join(', '),
  }
}

/** As many as are asked for, else for a share of the soak, else a few. */
const goesOn = (share: number, few: number): ((done: number) => boolean) => {
  if (asked > 0) return (done) => done < asked
  if (!isSoak) return (done) => done < few
  const isTime = timeLeft(share)
  return isTime
}

describe('by hand: batches by chance, judged by other code', () => {
  test('whatever is printed keeps the rules of superfat, lye, vessels, mould and temperatures', () => {
    const counts = counter()
    const reasons = counter()
    const wrong: string[] = []
    let slowest = { took: 0, where: '' }
    const more = goesOn(0.05, 40)
    const began = performance.now()
    for (let group = SEED; more(counts.of('tried')); group += 1)
      for (const folder of foldersOfGroup(group, FOLDERS)) {
        if (!more(counts.of('tried'))) break
        const start = performance.now()
        const { refused, trials } = tryFolder(folder, folder.number === 0)
        const took = (performance.now() - start) / Math.max(1, trials.length)
        const where = `seed ${folder.seed}, folder ${folder.number}`
        if (took > slowest.took) slowest = { took, where }
        if (refused.length > 0) counts.add('folders refused')
        for (const { key, state, stops, verdict } of trials) {
          counts.add('tried')
          counts.add(state)
          if (state !== 'stop') {
            for (const one of [...verdict.unsafe, ...verdict.differs])
              wrong.push(`${where}, ${key} (${state}): ${one}`)
            continue
          }
          for (const code of stops) reasons.add(code)
          if (folder.number !== 0) continue
          counts.add('stopped and asked')
          if (verdict.unsafe.length === 0 && !stops.some((code) => OTHER_REASONS.has(code))) {
            counts.add('stopped without a reason found')
            console.info(`${where}, ${key}: stopped by ${stops.join(', ')}, and no reason is found`)
          }
        }
      }
    console.info(
      `Weighed out from seed ${SEED}: ${counts.told()} in ${Math.round((performance.now() - began) / 1000)} s, slowest ${Math.round(slowest.took)} ms each in ${slowest.where}.\nStops: ${reasons.told()}`,
    )
    expect(wrong).toEqual([])
    // a run that meets hardly any of one kind says nothing of it
    for (const state of ['go', 'hold', 'stop']) expect(counts.of(state), state).toBeGreaterThan(0)
    expect(counts.of('folders refused')).toBe(0)
  })

  test('a batch that is stopped shows no weight anywhere, and what is printed of others agrees with itself', () => {
    const counts = counter()
    const wrong: string[] = []
    const more = goesOn(0.05, 12)
    const most = asked > 0 ? asked / 20 : Number.POSITIVE_INFINITY
    const began = performance.now()
    for (let group = SEED + 500_002; more(counts.of('tried')) && counts.of('tried') < most; group += 1)
      for (const folder of foldersOfGroup(group, 1, isSoak ? 6 : 4)) {
        for (const one of composedFaults(folder, counts)) wrong.push(`seed ${folder.seed}: ${one}`)
      }
    console.info(
      `Composed from seed ${SEED + 500_002}: ${counts.told()} in ${Math.round((performance.now() - began) / 1000)} s.`,
    )
    expect(wrong).toEqual([])
    expect(counts.of('stop')).toBeGreaterThan(1)
    expect(counts.of('go') + counts.of('hold')).toBeGreaterThan(0)
  })
})

const WEIGHT = /\d[\d.  ]*[ \u00a0](?:g|kg|oz|lb)(?![a-z/²³])/g
const weightsIn = (sheet: Sheet): string[] => [
  ...(textsOf(sheet).match(WEIGHT) ?? []),
  ...[...sheet.values.values()].flatMap(({ name, unit, shown }) =>
    unit === 'kg' ? [`${name} ${shown}`] : [],
  ),
]

/** A remedy names the step of a finer scale, out of a list: which remedies help hangs on how much there is, the steps do not. */
const ofBatch = (sheet: Sheet): string[] => {
  const steps = [...sheet.values.values()].flatMap(({ name, shown }) =>
    /\bremedy\.\d+\.division$/.test(name) ? [` ${shown}`.replaceAll(/\s/g, ' ')] : [],
  )
  return weightsIn(sheet).filter((weight) => {
    const plain = ` ${weight}`.replaceAll(/\s/g, ' ')
    return !steps.some((step) => plain.endsWith(step))
  })
}

/** All that leaves the program of a binder: what is read on its sheets, and its calendar. */
const readOff = (content: ReturnType<typeof contentOf>) => {
  const { binder, sheets } = bindAndCompose(content)
  return { binder, sheets, calendar: calendarFile(frame, binder, '2027-01-04') }
}

const composedFaults = (folder: AnyFolder, counts: ReturnType<typeof counter>): string[] => {
  const wrong: string[] = []
  const once = readOff(contentOf(folder.files))
  const { batches } = once.binder
  for (const { state } of batches) {
    counts.add('tried')
    counts.add(state)
  }

  // More of all that is stopped: whatever is read otherwise then, anywhere, hangs on a weight of it.
  const stopped = batches.filter(({ state }) => state === 'stop')
  const files = new Map(folder.files)
  let changed: string[] = []
  for (const { key } of stopped) {
    const path = `batches/${key}.yaml`
    const text = files.get(path) ?? ''
    const more = text.replace(/oils: ([\d.]+) (g|kg|oz)/, (_, amount: string, unit: string) => {
      const fuller = Number(amount) * 1.13
      return `oils: ${unit === 'g' ? Math.round(fuller) : fuller.toFixed(2)} ${unit}`
    })
    if (more === text) continue
    files.set(path, more)
    changed.push(key)
  }
  const codesOf = (one: (typeof batches)[number] | undefined): string =>
    (one?.findings ?? [])
      .filter(({ severity }) => severity === 'stop')
      .map(({ code }) => code)
      .sort()
      .join()
  let twice = changed.length > 0 ? readOff(contentOf(files)) : once
  const isStill = (key: string): boolean => {
    const [before, after] = [once, twice].map(({ binder }) => binder.batches.find((one) => one.key === key))
    return after?.state === 'stop' && codesOf(before) === codesOf(after)
  }
  const others = changed.filter((key) => !isStill(key))
  if (others.length > 0) {
    // those that are stopped by something else when there is more of them stay as they were
    for (const key of others) files.set(`batches/${key}.yaml`, folder.files.get(`batches/${key}.yaml`) ?? '')
    changed = changed.filter(isStill)
    twice = readOff(contentOf(files))
  }
  counts.add('stopped and made larger', changed.length)
  if (once.calendar !== twice.calendar) wrong.push('the calendar hangs on a batch that is stopped')
  for (const [index, sheet] of once.sheets.entries()) {
    const other = twice.sheets[index]
    const isOwn = stopped.some(({ key }) => sheet.id === `batch/${key}`)
    const [before, after] = [sheet, other].map((one) =>
      one
        ? (isOwn ? ofBatch(one) : [textsOf(one), ...[...one.values.values()].map(({ shown }) => shown)]).join(
            '\n',
          )
        : '',
    )
    if (before !== after || sheet.id !== other?.id)
      wrong.push(
        `${sheet.id} hangs on a weight of ${changed.join(', ')}: ${firstChange(before ?? '', after ?? '')}`,
      )
  }

  const plain = plainFolder(folder.files)
  for (const batch of batches) {
    const own = once.sheets.filter(({ id }) => id.split('/').includes(batch.key))
    if (batch.state === 'stop') {
      // the page that says why, and its card
      for (const { id, stopped: why } of own)
        if (!/^(batch|card\/stop)\/[^/]+$/.test(id) || (id.startsWith('batch/') && !why?.length))
          wrong.push(`${id} of a batch that is stopped`)
      continue
    }
    const sheet = own.find(({ id }) => id === `batch/${batch.key}`)
    if (!sheet) {
      wrong.push(`no sheet of ${batch.key}`)
      continue
    }
    const { unsafe, differs } = judgeSheet(plain, batch, sheet)
    for (const one of [...unsafe, ...differs, ...blockFaults(plain, batch, sheet)])
      wrong.push(`${batch.key} (${batch.state}): ${one}`)
    counts.add('sheets of batches', own.length)
    // cards, record and the like: what bears the same name is the same number
    for (const one of own)
      for (const { name, shown, unit } of one.values.values()) {
        const there = sheet.values.get(name)
        if (unit === 'kg' && there && there.shown !== shown)
          wrong.push(`${one.id} shows ${shown} as ${name}, the batch sheet ${there.shown}`)
      }
    // what is read as a weight on the batch sheet is a value of it, which the other code has seen
    const values = new Set(
      [...sheet.values.values()].map(({ shown }) => shown.replaceAll(/[\u00a0\u2009\u202f]/g, ' ')),
    )
    for (const weight of textsOf(sheet)
      .replaceAll(/[\u00a0\u2009\u202f]/g, ' ')
      .match(WEIGHT) ?? [])
      if (![...values].some((value) => value.includes(weight.trim())))
        wrong.push(`${sheet.id} says ${weight}, and no value of it does`)
  }
  return wrong
}

const firstChange = (before: string, after: string): string => {
  const [one, other] = [before.split('\n'), after.split('\n')]
  const at = one.findIndex((line, index) => line !== other[index])
  return `${one[at] ?? ''} → ${other[at] ?? ''}`
}

describe('by hand: a page that says why shows limits alone', () => {
  test('too much alkali, and a kettle that is too heavy for two: no weight of the batch, however large it is', () => {
    const pageOf = (oils: string): Sheet => {
      const files = editedFiles(
        ['batches/2027-02-01-plain.yaml', 'fill: to the line', `oils: ${oils}`],
        ['shop.yaml', 'capacity: 5 kg', 'capacity: 500 kg'],
        ['shop.yaml', 'volume: 12 l', 'volume: 400 l'],
        ['shop.yaml', 'volume: 3 l, empty-mass: 200 g', 'volume: 60 l, empty-mass: 200 g'],
        ['shop.yaml', 'volume: 1 l, empty-mass: 100 g', 'volume: 60 l, empty-mass: 100 g'],
      )
      const page = bindAndCompose(contentOf(files)).sheets.find(({ id }) => id.startsWith('batch/'))
      if (!page) throw new Error('no page')
      return page
    }
    const [one, other] = [pageOf('80 kg'), pageOf('93 kg')]
    expect((one.stopped ?? []).map(({ code }) => code)).toEqual(
      expect.arrayContaining(['alkali-too-much-by-hand', 'lift-too-heavy-for-two']),
    )
    // the limits are the same for both
    expect(weightsIn(one).length).toBeGreaterThan(0)
    expect(weightsIn(one)).toEqual(weightsIn(other))
  })
})

describe('by hand: the other code is another code', () => {
  test('it imports nothing of the program', () => {
    const folder = new URL('again/', import.meta.url)
    const files = readdirSync(folder)
    expect(files.length).toBeGreaterThan(4)
    const outside = files.flatMap((file) =>
      [...readFileSync(new URL(file, folder), 'utf8').matchAll(/(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g)]
        .map(([, target = '']) => `${file}: ${target}`)
        .filter((one) => !/: \.\/[a-z-]+\.ts$/.test(one)),
    )
    expect(outside).toEqual([])
  })
})
