/** Wires while they cut: pull and lag, what gives first, how much the rails take. */
import type { BoundWires } from '../../binder/bind-wires.ts'
import { CUT_TIMES } from '../../binder/cutting-loads.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'
import { groupCell, groupColumn, right } from './groups.ts'

/** Pull and lag of each group at the three loads. */
/** @param trial number of the sheet of the trial frame, where there is one */
export const loadedTable = (
  frame: Frame,
  { groups, loads }: BoundWires,
  trial: string | undefined,
): Table => {
  const { say, show } = frame
  const onTrial = loads.from === 'estimate' && trial !== undefined
  return {
    kind: 'table',
    caption: onTrial
      ? say('wires.loaded.caption-estimate-on', { trial })
      : say(`wires.loaded.caption-${loads.from}`),
    columns: [
      groupColumn(frame),
      { head: say('wires.loaded.what'), align: 'left', width: 22 },
      right(frame, 'wires.loaded.rest', 12),
      ...CUT_TIMES.map((time) => ({
        head: say(`wires.loaded.${time}`, { load: show.perMetre(`load.${time}`, loads.at[time]) }),
        align: 'right' as const,
      })),
    ],
    rows: groups.flatMap((group): Cell[][] => {
      const name = (time: string, what: string) => `wire.${group.key}.${time}.${what}`
      const { loaded, tension, held } = group.chosen
      return [
        [
          groupCell(frame, group),
          words(say('wires.loaded.pull')),
          number(show.force(`wire.${group.key}.tension`, tension)),
          ...CUT_TIMES.map((time) => {
            const pull = show.force(name(time, 'pull'), loaded[time].tension)
            return loaded[time].load > held.load
              ? words(say('wires.loaded.too-much', { pull }))
              : number(pull)
          }),
        ],
        [
          empty,
          words(say('wires.loaded.lag')),
          number(show.millimetres(`wire.${group.key}.lag.rest`, 0)),
          ...CUT_TIMES.map((time) => number(show.millimetres(name(time, 'lag'), loaded[time].lag))),
        ],
      ]
    }),
  }
}

const LINKS = ['wire', 'peg', 'anchor', 'edge'] as const

/** What each link holds beside the pull at the usual load; the least margin is in the head. */
export const marginTable = (frame: Frame, { groups }: BoundWires): Table => {
  const { say, show } = frame
  const least = (link: string) => groups[0]?.chosen.margins.find((one) => one.link === link)?.least ?? 1
  return {
    kind: 'table',
    caption: say('wires.margin.caption'),
    columns: [
      groupColumn(frame),
      right(frame, 'wires.margin.pull', 13),
      ...LINKS.map((link) => ({
        head: say(`wires.margin.${link}`, { least: show.times(`margin.${link}.least`, least(link)) }),
        align: 'right' as const,
      })),
    ],
    rows: groups.map((group): Cell[] => {
      const name = (what: string) => `wire.${group.key}.${what}`
      const { margins, loaded } = group.chosen
      const cell = (link: (typeof LINKS)[number]): Cell => {
        const own = margins.find((one) => one.link === link)
        if (!own) return words(say('wires.margin.none'))
        return words(
          say('wires.margin.holds', {
            holds: show.force(name(`${link}.holds`), own.holds),
            margin: show.times(name(`${link}.margin`), own.margin),
          }),
        )
      }
      return [
        groupCell(frame, group),
        number(show.force(`wire.${group.key}.usual.pull`, loaded.usual.tension)),
        ...LINKS.map(cell),
      ]
    }),
  }
}

/** How far each group may be trusted: the hardest soap, the tensions it may be tuned to, the rails. */
export const limitTable = (frame: Frame, { groups }: BoundWires): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('wires.limit.caption'),
    columns: [
      groupColumn(frame),
      right(frame, 'wires.limit.held', 16),
      { head: say('wires.limit.first'), align: 'left', width: 16 },
      right(frame, 'wires.limit.range', 18),
      right(frame, 'wires.limit.bow'),
    ],
    rows: groups.map((group): Cell[] => {
      const name = (what: string) => `wire.${group.key}.${what}`
      const { held, range, bow } = group.chosen
      const between = (key: string, low: Inline['fill'][string], high: Inline['fill'][string]) =>
        words(say(key, { low, high }))
      return [
        groupCell(frame, group),
        number(show.perMetre(name('held'), held.load)),
        words(say(`wires.link.${held.link}`)),
        between(
          'wires.limit.between',
          show.force(name('tension.low'), range.low),
          show.force(name('tension.high'), range.high),
        ),
        between(
          'wires.limit.between',
          show.percent(name('bow.low'), bow.fixed.share, 0),
          show.percent(name('bow.high'), bow.pinned.share, 0),
        ),
      ]
    }),
  }
}
