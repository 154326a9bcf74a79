/** What the scale and a ruler will show, what a reading means, and what of it is typed into the fixture's file. */
import type { BoundTrialFrame } from '../../binder/bind-trial-frame.ts'
import { blank, empty, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Table } from '../model.ts'

const TIMES = ['fresh', 'usual', 'late'] as const

const right = ({ say }: Frame, key: string, width?: number) => ({
  head: say(key),
  align: 'right' as const,
  ...(width === undefined ? {} : { width }),
})

/** Load at which the trial's own wires have no more than their margin. */
const ownLimit = ({ trial }: BoundTrialFrame) => trial.limits.find(({ key }) => key === 'trial-wire')

/** Foretold at the three estimates of what soap holds back with. */
export const predictedTable = (frame: Frame, bound: BoundTrialFrame): Table => {
  const { say, show } = frame
  const { trial } = bound
  const own = ownLimit(bound)
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('trial.predicted.caption'),
    columns: [
      { head: say('trial.predicted.soap'), align: 'left', width: 16 },
      right(frame, 'trial.predicted.load', 11),
      { ...right(frame, 'trial.predicted.shown', 16), main: true },
      right(frame, 'trial.predicted.push'),
      right(frame, 'trial.predicted.pull', 12),
      right(frame, 'trial.predicted.rise', 12),
      right(frame, 'trial.predicted.lag', 12),
    ],
    rows: trial.readings.map((reading, index): Cell[] => {
      const time = TIMES[index] ?? 'late'
      const name = (what: string) => `trial.${time}.${what}`
      const shown = show.heavy(name('shown'), reading.shown)
      const beyond = own !== undefined && reading.load > own.load
      return [
        words(say(`trial.predicted.${time}`)),
        number(show.perMetre(name('load'), reading.load)),
        beyond ? words(say('trial.predicted.beyond', { shown })) : number(shown),
        number(show.press(name('push'), reading.push)),
        number(show.force(name('pull'), reading.tension)),
        number(show.millimetres(name('rise'), reading.rise)),
        number(show.millimetres(name('lag'), reading.lag)),
      ]
    }),
  }
}

/** Readings beyond which something is not done, the lowest first. */
export const limitTable = (frame: Frame, { trial }: BoundTrialFrame): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('trial.limit.caption'),
    columns: [
      right(frame, 'trial.limit.shown', 15),
      right(frame, 'trial.limit.load', 15),
      { head: say('trial.limit.then'), align: 'left' },
    ],
    rows: trial.limits.map(({ key, load, shown, link }): Cell[] => [
      number(show.heavy(`trial.limit.${key}.shown`, shown)),
      number(show.perMetre(`trial.limit.${key}.load`, load)),
      words(say(`trial.limit.${key}`, link ? { link: say(`wires.link.${link}`) } : {})),
    ]),
  }
}

/** Lines of the log of pushes (common practice) */
const PUSHES = 6

export const readingLog = ({ say }: Frame): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('trial.log.caption'),
  columns: ['block', 'hours', 'quarter', 'half', 'three-quarters', 'rise', 'arc', 'remark'].map((key) => ({
    head: say(`trial.log.${key}`),
    align: 'left' as const,
  })),
  rows: Array.from({ length: PUSHES }, () => Array.from({ length: 8 }, () => empty)),
})

/** The section of the fixture's file, key by key as the file has them. */
export const typedTable = (frame: Frame, { trial }: BoundTrialFrame): Table => {
  const { say, show } = frame
  const { input } = trial
  const underBlock = input.scale.place === 'under-block'
  return {
    kind: 'table',
    caption: say('trial.type.caption'),
    columns: [
      { head: say('trial.type.key'), align: 'left', width: 24 },
      { head: say('trial.type.value'), align: 'left', width: 30 },
      { head: say('trial.type.what'), align: 'left' },
    ],
    rows: [
      [maker('cutting-trial:'), empty, words(say('trial.type.section'))],
      [maker('readings:'), maker('[ ____ kg, ____ kg, ____ kg ]'), words(say('trial.type.readings'))],
      underBlock
        ? [maker('frame-mass:'), maker('0 g'), words(say('trial.type.no-mass'))]
        : [maker('frame-mass:'), blank(), words(say('trial.type.mass'))],
      [maker('wires:'), number(show.count('trial.wires', input.wires)), words(say('trial.type.wires'))],
      [
        maker('width:'),
        number(show.inFiles.wholeSize('trial.block.width.typed', input.block.width)),
        words(say('trial.type.width')),
      ],
    ],
  }
}

/** What was typed in already, and which limits it reaches. */
export const resultBlock = (frame: Frame, { loads, trial }: BoundTrialFrame): Block => {
  if (loads.from !== 'trial' || !loads.trial) return nothing
  const { say, show } = frame
  const { load, low, high } = loads.trial
  const reached = trial.limits.filter((limit) => load >= limit.load)
  const items: Inline[] = [
    say('trial.result.load', {
      load: show.perMetre('trial.result.load', load),
      low: show.perMetre('trial.result.low', low),
      high: show.perMetre('trial.result.high', high),
    }),
    ...reached.map(({ key, link }) =>
      say(`trial.limit.${key}`, link ? { link: say(`wires.link.${link}`) } : {}),
    ),
  ]
  return { kind: 'cautions', signal: 'notice', heading: say('trial.result.heading'), items }
}

export const rulerTable = (frame: Frame, { ruler }: BoundTrialFrame): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('trial.ruler.caption'),
    columns: ['rise', 'arc', 'lag', 'load'].map((key) => ({
      ...right(frame, `trial.ruler.head.${key}`),
      ...(key === 'load' ? { main: true } : {}),
    })),
    rows: ruler.map(({ load, rise, arc, lag }): Cell[] => {
      const name = (what: string) => `trial.ruler.${load}.${what}`
      return [
        number(show.millimetres(name('rise'), rise)),
        number(show.millimetres(name('arc'), arc)),
        number(show.millimetres(name('lag'), lag)),
        number(show.perMetre(name('load'), load)),
      ]
    }),
  }
}
