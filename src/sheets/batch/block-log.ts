/** Where the helper writes down how warm the core is, beside what is expected of it. */
import type { HeatRun } from '../../batch/block-heat-run.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { BlockHeatPlan } from '../../binder/plan-block-heat.ts'
import { blank, empty, nothing, number, words } from '../compose.ts'
import { belowFolder } from '../file-places.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline, NamedStep, Value } from '../model.ts'
import { degrees } from './lye.ts'
import { waitHours } from './waits.ts'

const HOUR = 3600
/** h after the pour: close together while it heats, one when it has cooled (common practice) */
const LOG_AT = [2, 4, 6, 8, 12, 24] as const

export const blockLog = (frame: Frame, { blockHeat }: BoundBatch): Block => {
  if (!blockHeat) return nothing
  const { say, show } = frame
  return {
    kind: 'table',
    style: 'log',
    caption: say('block.log.caption', {
      limit: show.temperature('block.tooHot', blockHeat.tooHot),
      off: coversOff(frame, blockHeat),
    }),
    columns: [
      { head: say('block.log.after'), align: 'right', width: 16 },
      { head: say('block.log.expected'), align: 'left', width: 38 },
      { head: say('block.log.time'), align: 'left', width: 20 },
      { head: say('block.log.core'), align: 'left' },
    ],
    rows: LOG_AT.map((hours) => {
      const { low, high } = expectedAt(blockHeat, hours * HOUR)
      return [
        number(show.hours(`block.log.${hours}h`, hours * HOUR)),
        words(
          say('block.log.range', {
            low: show.temperature(`block.log.${hours}h.low`, low),
            high: show.temperature(`block.log.${hours}h.high`, high),
          }),
        ),
        empty,
        blank(degrees(frame)),
      ]
    }),
  }
}

/** What covers this block; foam is named only where there is some. */
export const coversOff = ({ say }: Pick<Frame, 'say'>, { insulation }: BlockHeatPlan): Inline =>
  say(insulation > 0 ? 'block.covers-off-foam' : 'block.covers-off')

/** Where the log goes, with its first line as the file wants it. */
export const logStep = (
  { say, show }: Frame,
  { file }: BoundBatch,
  { heat, room }: BlockHeatPlan,
): NamedStep => {
  const [first, ...later] = LOG_AT
  const example = show.degrees(coreAt(heat.runs.nominal, first * HOUR) ?? room)
  const after = (hours: number): Value => waitHours(show, `block.log.${hours}h`, hours * HOUR)
  return {
    name: 'log',
    text: say('block.log.keep', {
      file: belowFolder(file.document.file),
      after: `${first} h`,
      reads: `${show.plainNumber(example)} ${show.firstDegrees}`,
    }),
    waits: [
      {
        name: 'log',
        words: say('bench.wait.log'),
        after: [after(first), ...later.map(after)],
        since: 'poured',
      },
    ],
  }
}

/** A history that has ended by then has been cool enough to cut, and goes on towards the room. */
const expectedAt = ({ heat, room }: BlockHeatPlan, time: number): { low: number; high: number } => {
  const cores = Object.values(heat.runs).flatMap((run: HeatRun) => {
    const core = coreAt(run, time)
    return core === undefined ? [room, run.series.at(-1)?.core ?? room] : [core]
  })
  return { low: Math.min(...cores), high: Math.max(...cores) }
}

const coreAt = ({ series }: HeatRun, time: number): number | undefined =>
  series.find((row) => row.time >= time - 1)?.core
