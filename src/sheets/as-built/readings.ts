/** The readings: what is drawn, what is let pass, what was found, and what a little more would change. */
import type { BoundAsBuilt, Reading } from '../../binder/bind-as-built.ts'
import { blank, empty, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { spareOf } from '../grid-cutter/inspection.ts'
import type { Block, Cell, Inline, Table, Value } from '../model.ts'
import { INCH } from '../shown.ts'
import type { ReadingGroup } from './as-built-sheet.ts'

/** kg; a cup of water that a scale shows */
const WATER_STEP = 0.1
/** kg; weights of bars and of oils in differences */
const TENTH_GRAM = 0.0001
const GRAM = 0.001

/** m; a step of the shop's tape that one can see */
const stepOf = ({ show }: Frame): number => (show.lengthUnit === 'in' ? INCH / 32 : 0.001)

export const readingTable = (frame: Frame, bound: BoundAsBuilt, groups: readonly ReadingGroup[]): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    style: 'log',
    caption: say('as-built.readings.caption', {
      water: show.weight('as-built.step.water', WATER_STEP, GRAM),
    }),
    columns: [
      { head: say('as-built.readings.letter'), align: 'left', width: 6 },
      { head: say('as-built.readings.what'), align: 'left' },
      { head: say('as-built.readings.drawn'), align: 'right', width: 21 },
      { head: say('as-built.readings.passes'), align: 'right', width: 14 },
      { head: say('as-built.readings.found'), align: 'left', width: 15 },
      {
        head: say('as-built.readings.more', { step: show.size('as-built.step', stepOf(frame)) }),
        align: 'left',
        width: 20,
      },
    ],
    rows: groups.flatMap((group) =>
      group.readings.map((reading, index): Cell[] => [
        words({
          text: reading.number === undefined ? '[[letter]]' : '[[letter]] [[number]]',
          fill: { letter: group.letter, ...numberOf(frame, reading) },
        }),
        words(whatOf(frame, reading)),
        number(sizeOf(frame, reading, `${nameOf(reading)}.drawn`, reading.drawn)),
        passesOf(frame, bound, reading),
        foundOf(frame, reading),
        index === 0 ? words(effectOf(frame, reading)) : empty,
      ]),
    ),
  }
}

const nameOf = ({ key, number }: Reading): string =>
  `as-built.${key}${number === undefined ? '' : `-${number}`}`

const numberOf = ({ show }: Frame, reading: Reading): Readonly<Record<string, Value>> =>
  reading.number === undefined ? {} : { number: show.count(`${nameOf(reading)}.number`, reading.number) }

/** All of a row are read alike: only the first says how. */
const whatOf = (frame: Frame, reading: Reading): Inline =>
  reading.number === undefined || reading.number === 1
    ? frame.say(`as-built.reading.${reading.key}`, numberOf(frame, reading))
    : frame.say('as-built.reading.next', numberOf(frame, reading))

const sizeOf = ({ show }: Frame, { unit }: Reading, name: string, size: number): Value =>
  unit === 'mass' ? show.weight(name, size, GRAM) : show.exactLength(name, size)

const passesOf = (frame: Frame, { grid }: BoundAsBuilt, reading: Reading): Cell => {
  const { say, show } = frame
  if (reading.unit === 'mass') return empty
  // the clearance of a frame is promised to a block that bows: no smaller
  if (reading.key.startsWith('frame-') && grid)
    return words(
      say('as-built.passes-more', { more: show.millimetres('as-built.frame.more', spareOf(grid.cutter)) }),
    )
  return words(say('as-built.passes', { off: show.millimetres(`${nameOf(reading)}.off`, reading.allowed) }))
}

const foundOf = (frame: Frame, reading: Reading): Cell => {
  const { say, show } = frame
  const { found, drawn, unit } = reading
  if (found === undefined) return blank()
  const name = nameOf(reading)
  const is =
    unit === 'mass' ? show.weight(`${name}.found`, found, GRAM) : show.millimetres(`${name}.found`, found)
  if (unit === 'mass') return words(say('as-built.found-mass', { is }))
  return words(say('as-built.found', { is, by: show.signedHundredths(`${name}.by`, found - drawn) }))
}

/** What a little more of it changes; the note is no matter of kilograms. */
const effectOf = (frame: Frame, reading: Reading): Inline => {
  const { say, show } = frame
  const { effect, unit } = reading
  const name = `${nameOf(reading)}.more`
  const step = unit === 'mass' ? WATER_STEP : stepOf(frame)
  const parts: Inline[] = [
    ...(effect.bars
      ? [
          say(`as-built.effect.${effect.bars.which}`, {
            mass: show.weight(`${name}.bars`, effect.bars.mass * step, TENTH_GRAM),
          }),
        ]
      : []),
    ...(effect.oils === undefined
      ? []
      : [
          // a deeper reading of the same water is a larger mould: less height for it
          say('as-built.effect.oils', { mass: show.weight(`${name}.oils`, effect.oils * step, GRAM) }),
        ]),
    ...(effect.length === undefined
      ? []
      : [
          say('as-built.effect.note', {
            cents: show.cents(`${name}.cents`, -1200 * Math.log2(1 + effect.length * step)),
          }),
        ]),
    ...(effect.room === undefined
      ? []
      : [say('as-built.effect.room', { room: show.millimetres(`${name}.room`, effect.room * step) })]),
  ]
  const [first, ...rest] = parts
  if (!first) return say('as-built.effect.size')
  return rest.reduce((before, next) => say('as-built.effect.and', { before, next }), first)
}

/** Which reading is worth the most care: what lets pass is let pass by it, and a bar changes most. */
export const mostOf = (frame: Frame, { readings }: BoundAsBuilt): Block => {
  const { say, show } = frame
  const ranked = readings
    .flatMap((reading) =>
      reading.effect.bars ? [{ reading, mass: reading.effect.bars.mass * reading.allowed }] : [],
    )
    .toSorted((a, b) => b.mass - a.mass)
  const [first] = ranked
  const last = ranked.at(-1)
  if (!first || !last) return nothing
  return {
    kind: 'cautions',
    signal: 'notice',
    items: [
      say('as-built.most', {
        first: say(`as-built.most.${first.reading.key}`),
        most: show.weight('as-built.most.first', first.mass, TENTH_GRAM),
        last: say(`as-built.most.${last.reading.key}`),
        least: show.weight('as-built.most.last', last.mass, TENTH_GRAM),
      }),
    ],
  }
}

/** What is typed into the fixture's file, to be filled in by hand. */
export const typingTable = (frame: Frame, groups: readonly ReadingGroup[]): Table => ({
  kind: 'table',
  caption: frame.say('as-built.typing.caption'),
  columns: [
    { head: frame.say('as-built.typing.letter'), align: 'left', width: 8 },
    { head: frame.say('as-built.typing.line'), align: 'left' },
  ],
  rows: typedLines(groups).map(({ letters, text }): Cell[] => [maker(letters), maker(text)]),
})

interface TypedLine {
  readonly letters: string
  readonly text: string
}

/** Two spaces that a page keeps. */
const IN = '\u00a0\u00a0'
const GAP = '……'

function typedLines(groups: readonly ReadingGroup[]): readonly TypedLine[] {
  const lines: TypedLine[] = [{ letters: '', text: 'as-built:' }]
  let before: readonly string[] = []
  for (const { letter, readings } of groups) {
    const [{ path, unit }] = readings
    const steps = path.split(': ')
    const key = steps.pop() ?? ''
    // sections that this line is the first of
    steps.forEach((section, depth) => {
      if (before[depth] === section) return
      lines.push({ letters: '', text: `${IN.repeat(depth + 1)}${section}:` })
    })
    before = steps
    const measure = `${GAP} ${unit === 'mass' ? 'kg' : 'mm'}`
    const list = readings[0].number !== undefined
    const value = list ? `[${readings.map(() => measure).join(', ')}]` : measure
    lines.push({ letters: letter, text: `${IN.repeat(steps.length + 1)}${key}: ${value}` })
  }
  return lines
}
