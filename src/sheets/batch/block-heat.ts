/** The block in its mould: how hot, who is awake, when it is stripped and cut. */

import type { BlockHeat } from '../../batch/block-heat.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { cutBelow } from '../../binder/caution-figures.ts'
import { type BlockHeatPlan, LOOK_EVERY } from '../../binder/plan-block-heat.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import { inlineWords, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Facts, Inline, NamedStep, Value, Wait } from '../model.ts'
import { linkToTrouble } from '../trouble/symptoms.ts'
import { coversOff, logStep } from './block-log.ts'
import { degrees } from './lye.ts'
import { waitHours, waitMinutes } from './waits.ts'

/** mm; between the margins of either paper, and high enough to read two degrees off */
const CHART = { width: 172, height: 74 } as const
const HOUR = 3600
/** s; the axis is at least as long as the first two nights */
const LEAST_SHOWN = 48 * HOUR
const TICK = 6 * HOUR

/** Less than this is not seen in a bar. */
const SEEN = 0.03
/** logged blocks that a note has room for */
const MOST_NAMED = 2

export const blockHeatFacts = (frame: Frame, { blockHeat }: BoundBatch): Block => {
  if (!blockHeat) return nothing
  const { say, show } = frame
  const { heat, loaf, logged, watch } = blockHeat
  const hours = (name: string, time: number): Value => show.hours(`block.${name}`, time)
  const items: Facts['items'][number][] = [
    {
      label: say('block.peak'),
      cell: number(show.temperature('block.peak', heat.peak.nominal)),
      note: say(logged.length > 0 ? 'block.peak-note-logged' : 'block.peak-note', {
        low: show.temperature('block.peak.low', heat.peak.low),
        high: show.temperature('block.peak.high', heat.peak.high),
        ...(logged.length > 0 ? { blocks: loggedWords(frame, logged) } : {}),
      }),
    },
    {
      label: say('block.peak-time'),
      cell: number(hours('peakTime', heat.peakTime.nominal)),
      note: say('block.peak-time-note', {
        low: hours('peakTime.low', heat.peakTime.low),
        high: hours('peakTime.high', heat.peakTime.high),
      }),
    },
    {
      label: say('block.awake'),
      cell: words(say('block.awake-span', { to: hours('watch.to', watch.to) })),
      note: say(watch.mayOverheat ? 'block.awake-note' : 'block.awake-note-cool', {
        from: hours('watch.from', watch.from),
        limit: show.temperature('block.tooHot', blockHeat.tooHot),
      }),
    },
    {
      label: say('block.gel'),
      cell: words(gelWords(frame, heat.gelled.nominal.share)),
      note: say('block.gel-note', {
        temperature: show.temperature('block.gelTemperature', heat.gelTemperature.nominal),
        low: show.percent('block.gelled.low', heat.gelled.low.share, 0),
        high: show.percent('block.gelled.high', heat.gelled.high.share, 0),
      }),
    },
    {
      label: say('block.strip'),
      cell: timeCell(frame, 'strip', heat.strip.nominal),
      note: say('block.strip-note', {
        spread: spread(frame, 'strip', heat.strip),
        floor: hours('stripNotBefore', blockHeat.stripNotBefore),
      }),
    },
    {
      label: say('block.cut'),
      cell: timeCell(frame, 'cut', heat.earliestCut.nominal),
      note: spread(frame, 'cut', heat.earliestCut),
    },
    {
      label: say('block.latest'),
      cell: number(hours('latest', heat.latestCut.nominal)),
      note: say('block.latest-note', {
        low: hours('latest.low', heat.latestCut.low),
        high: hours('latest.high', heat.latestCut.high),
      }),
    },
    {
      label: say('block.loaf'),
      cell: number(show.temperature('block.loaf.peak', loaf.peak)),
      note: say('block.loaf-note', {
        time: hours('loaf.peakTime', loaf.peakTime),
        cut: orNever(frame, 'loaf.cut', loaf.cut),
      }),
    },
  ]
  return { kind: 'facts', size: 'plain', items }
}

/** The logged blocks by their days, or how many there are. */
const loggedWords = ({ say, show }: Frame, logged: BlockHeatPlan['logged']): Inline => {
  if (logged.length > MOST_NAMED)
    return say('block.logged.many', { count: show.count('block.logged', logged.length) })
  return logged
    .map(({ key, date }) => say('block.logged.one', { date: show.date(`block.logged.${key}`, date) }))
    .reduce((before, next) => say('block.logged.list', { before, next }))
}

const gelWords = ({ say, show }: Frame, share: number): Inline => {
  if (share < SEEN) return say('block.gel-none')
  if (share > 1 - SEEN) return say('block.gel-all')
  return say('block.gel-part', { share: show.percent('block.gelled', share, 0) })
}

const orNever = ({ say, show }: Frame, name: string, time: number | undefined): Inline | Value =>
  time === undefined ? say('block.not-in-time') : show.hours(`block.${name}`, time)

const timeCell = ({ say, show }: Frame, name: string, time: number | undefined) =>
  time === undefined ? words(say('block.not-in-time')) : number(show.hours(`block.${name}`, time))

const spread = (
  frame: Frame,
  name: string,
  { low, high }: { readonly low: number | undefined; readonly high: number | undefined },
): Inline =>
  frame.say('block.spread', {
    low: orNever(frame, `${name}.low`, low),
    high: orNever(frame, `${name}.high`, high),
  })

/** Core between its ends, and the corner: hours after the pour against the shop's degrees. */
export const blockHeatFigure = (frame: Frame, { blockHeat, coreLog }: BoundBatch): Block => {
  if (!blockHeat) return nothing
  const { say, show } = frame
  const named = (key: string): string => inlineWords(say(`block.chart.${key}`))
  const { heat } = blockHeat
  const { low, nominal, high } = heat.runs
  const crosses = (coreLog?.readings ?? []).map(({ time, temperature }) => ({
    x: time / HOUR,
    y: show.degrees(temperature),
  }))
  const shown = Math.max(
    LEAST_SHOWN,
    (heat.earliestCut.nominal ?? 0) + TICK,
    ...crosses.map(({ x }) => x * HOUR),
  )
  const last = Math.ceil(shown / TICK) * TICK
  const rows = [...low.series, ...nominal.series, ...high.series].filter(({ time }) => time <= last)
  const step = show.firstDegrees === 'F' ? 20 : 10
  const read = crosses.map(({ y }) => y)
  const coldest = show.degrees(Math.min(...rows.map(({ corner }) => corner)))
  const hottest = show.degrees(Math.max(...rows.map(({ core }) => core)))
  const bottom = Math.floor(Math.min(coldest, ...read) / step) * step
  const top = Math.ceil(Math.max(hottest, ...read) / step) * step
  const curve = (run: BlockHeatPlan['heat']['runs']['low'], of: 'core' | 'corner') =>
    run.series.map((row) => ({ x: row.time / HOUR, y: show.degrees(row[of]) }))
  const cores = { low: curve(low, 'core'), nominal: curve(nominal, 'core'), high: curve(high, 'core') }
  const all = [cores.low, cores.nominal, cores.high]
  const label = named('label')
  const drawn = chart({
    name: 'block-heat',
    label,
    ...CHART,
    x: { title: named('hours'), ticks: axisTicks(0, last / HOUR, TICK / HOUR, show.plainNumber) },
    y: {
      title: named(show.firstDegrees === 'F' ? 'fahrenheit' : 'celsius'),
      ticks: axisTicks(bottom, top, step, show.plainNumber),
    },
    band: {
      low: edge(all, Math.min),
      high: edge(all, Math.max),
    },
    curves: [
      { name: named('core'), kind: 'visible', points: cores.nominal },
      { name: named('corner'), kind: 'hidden', points: curve(nominal, 'corner') },
    ],
    crosses,
    levels: [{ at: show.degrees(heat.gelTemperature.nominal), name: named('gel') }],
    moments: [
      ...(heat.strip.nominal === undefined ? [] : [{ at: heat.strip.nominal / HOUR, name: named('strip') }]),
      ...(heat.earliestCut.nominal === undefined
        ? []
        : [{ at: heat.earliestCut.nominal / HOUR, name: named('cut') }]),
      { at: heat.latestCut.nominal / HOUR, name: named('latest') },
    ],
  })
  return { kind: 'figure', svg: drawn.svg, caption: captionWords(frame, blockHeat, coreLog), values: [] }
}

const captionWords = (frame: Frame, { logged }: BlockHeatPlan, coreLog: BoundBatch['coreLog']): Inline => {
  const { say } = frame
  const known =
    logged.length > 0
      ? say('block.chart.logged', { blocks: loggedWords(frame, logged) })
      : say('block.chart.estimated')
  if (!coreLog) return say('block.chart.caption', { known })
  const crosses = say(coreLog.isUsed ? 'block.chart.crosses' : 'block.chart.crosses-unused')
  return say('block.chart.caption', { known: say('block.chart.also', { known, crosses }) })
}

type Curve = readonly { readonly x: number; readonly y: number }[]

/** The lower or upper edge of curves that were reckoned at the same times, as far as all of them go. */
const edge = (curves: readonly Curve[], pick: (...values: readonly number[]) => number): Curve =>
  Array.from({ length: Math.min(...curves.map(({ length }) => length)) }, (_, index) => ({
    x: curves[0]?.[index]?.x ?? 0,
    y: pick(...curves.map((curve) => curve[index]?.y ?? 0)),
  }))

/** How its core is read without anybody reaching in: by a probe that was there before it got hot. */
export const probeStep = ({ say, show }: Pick<Frame, 'say' | 'show'>, { fill }: BoundBatch): NamedStep => ({
  name: 'probe',
  text: say('block.probe', {
    depth: show.length('block.probe.depth', fill.freeboard + fill.pourHeight.nominal / 2),
  }),
})

/** The first hours beside it, and what is done when it gets too hot. */
export const blockWatch = (frame: Frame, plan: BlockHeatPlan): NamedStep[] => {
  const { say, show } = frame
  const { watch, tooHot } = plan
  const limit = show.temperature('block.tooHot', tooHot)
  return [
    {
      name: 'watch',
      text: say(watch.mayOverheat ? 'block.watch' : 'block.watch-cool', {
        from: show.hours('block.watch.from', watch.from),
        to: show.hours('block.watch.to', watch.to),
        limit,
      }),
      why: say('block.watch-why'),
      blanks: [
        { label: say('block.core-hottest'), after: degrees(frame), reading: 'core-hottest' },
        { label: say('blank.time'), moment: 'core-hottest' },
        { label: say('block.last-look'), moment: 'last-look' },
        { label: say('block.relief') },
      ],
      waits: [
        {
          name: 'watch',
          words: say('bench.wait.watch'),
          after: [waitHours(show, 'block.watch.to', watch.to)],
          every: waitMinutes(show, 'block.watch.every', LOOK_EVERY),
          since: 'poured',
        },
      ],
    },
    {
      name: 'rise',
      text: say('block.rise', {
        limit,
        off: coversOff(frame, plan),
        rising: linkToTrouble('rising'),
        cracked: linkToTrouble('cracked-top'),
      }),
      caution: { signal: 'warning', words: say('block.rise-caution') },
    },
  ]
}

/** m; of the rod of the push test, and how deep it is pressed (common practice) */
const PUSH = { rod: 0.01, deep: 0.005 } as const

/** What is done at the block until it is cut, in the order of the clock. */
export const blockSteps = (frame: Frame, batch: BoundBatch): NamedStep[] => {
  const { blockHeat } = batch
  if (!blockHeat) return []
  const { say, show } = frame
  const { heat, lidOff, insulationOff } = blockHeat
  const takenOff = [
    ...(insulationOff === undefined ? [] : [{ what: 'insulation', at: insulationOff }]),
    ...(lidOff === undefined ? [] : [{ what: 'lid', at: lidOff }]),
  ].sort((a, b) => a.at - b.at)
  return [
    ...takenOff.map(({ what, at }) => ({
      name: `off-${what}`,
      text: say(`block.off.${what}`, { time: show.hours(`block.off.${what}`, at) }),
      blanks: [{ label: say('blank.time'), moment: `off-${what}` }],
      waits: [afterPour(frame, `off-${what}`, waitHours(show, `block.off.${what}`, at))],
    })),
    {
      name: 'strip',
      text: stripWords(frame, blockHeat),
      blanks: [{ label: say('blank.time'), reading: 'sides-off', moment: 'sides-off' }],
      ...stripWait(frame, blockHeat),
    },
    {
      name: 'push',
      text: say('block.push', {
        rod: show.length('block.push.rod', PUSH.rod),
        deep: show.length('block.push.deep', PUSH.deep),
      }),
      why: say('block.push-why'),
      blanks: [
        { label: say('block.push-reads'), after: say('blank.grams'), reading: 'push' },
        { label: say('blank.time'), moment: 'push' },
      ],
    },
    {
      name: 'cut',
      text: cutWords(frame, heat, cutBelow(batch.shopFile.value)),
      blanks: [
        { label: say('block.set-height'), reading: 'set-height' },
        { label: say('blank.time'), reading: 'cut', moment: 'cut' },
      ],
      waits: cutWaits(frame, heat),
    },
    logStep(frame, batch, blockHeat),
  ]
}

/** From the pour, as the step says. */
const afterPour = ({ say }: Frame, name: string, ...after: Wait['after']): Wait => ({
  name,
  words: say(`bench.wait.${name}`),
  after,
  since: 'poured',
})

/** The hour that the step names. */
const stripWait = (frame: Frame, { heat, ways }: BlockHeatPlan): Pick<NamedStep, 'waits'> => {
  const time = heat.strip.nominal
  if (time === undefined) return {}
  const sooner = ways.find(({ way }) => way === 'strip-when-held')?.strip
  const shown =
    sooner === undefined || sooner >= time
      ? waitHours(frame.show, 'block.strip', time)
      : waitHours(frame.show, 'block.held', sooner)
  return { waits: [afterPour(frame, 'strip', shown)] }
}

/** Both ends of the window, with a probe and without one, or the end alone where it never opens in time. */
const cutWaits = (frame: Frame, { earliestCut, latestCut }: BlockHeat): Wait[] => {
  const latest = waitHours(frame.show, 'block.latest', latestCut.nominal)
  const { nominal, high } = earliestCut
  if (nominal === undefined || nominal > latestCut.nominal) return [afterPour(frame, 'hard', latest)]
  return [
    afterPour(frame, 'cut', waitHours(frame.show, 'block.cut', nominal), latest),
    ...(high === undefined || high > latestCut.nominal
      ? []
      : [afterPour(frame, 'cut-blind', waitHours(frame.show, 'block.cut.high', high), latest)]),
  ]
}

const stripWords = ({ say, show }: Frame, { heat, ways }: BlockHeatPlan): Inline => {
  const time = heat.strip.nominal
  if (time === undefined) return say('block.strip-late')
  const strip = show.hours('block.strip', time)
  const sooner = ways.find(({ way }) => way === 'strip-when-held')?.strip
  return sooner === undefined || sooner >= time
    ? say('block.strip-step', { strip })
    : say('block.strip-sooner', { strip, held: show.hours('block.held', sooner) })
}

/** A window that never opens, or opens after it has shut, is not written as one. */
const cutWords = ({ say, show }: Frame, { earliestCut, latestCut }: BlockHeat, below: number): Inline => {
  const latest = show.hours('block.latest', latestCut.nominal)
  const from = earliestCut.nominal
  if (from === undefined) return say('block.cut-late', { latest })
  const cut = show.hours('block.cut', from)
  if (from > latestCut.nominal) return say('block.cut-hard', { cut, latest })
  const { high } = earliestCut
  return say('block.cut-step', {
    cut,
    latest,
    below: show.temperature('block.cutBelow', below),
    blind:
      high === undefined || high > latestCut.nominal
        ? say('block.cut-blind-never')
        : say('block.cut-blind', { late: show.hours('block.cut.high', high) }),
  })
}
