/** The readings: what is drawn, what is let pass, what was found, and what a little more would change. */
import type { BoundAsBuilt, Reading } from '../../binder/bind-as-built.ts'
import { blank, empty, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Table, Value } from '../model.ts'
import type { ReadingGroup } from './as-built-sheet.ts'
import { batchName } from './follows.ts'

/** kg; a cup of water that a scale shows */
const WATER_STEP = 0.1
/** kg; weights of bars and of oils in differences */
const TENTH_GRAM = 0.0001
const GRAM = 0.001
/** m; no rule of a shop reads inches as finely as millimetres, and what is typed is compared with these */
const STEP = 0.001
/** m; of a mould that came out a little too long */
const EXAMPLE = 0.0015

export const readingTable = (frame: Frame, bound: BoundAsBuilt, groups: readonly ReadingGroup[]): Table => {
  const { say, show } = frame
  const [batch] = bound.batches
  return {
    kind: 'table',
    style: 'log',
    caption: say('as-built.readings.caption', {
      of: batch ? say('as-built.readings.of', { batch: batchName(frame, batch) }) : '',
    }),
    columns: [
      { head: say('as-built.readings.letter'), align: 'left', width: 5.5 },
      { head: say('as-built.readings.what'), align: 'left' },
      { head: say('as-built.readings.drawn'), align: 'right', width: 8.5 },
      { head: say('as-built.readings.passes'), align: 'right', width: 13 },
      { head: say('as-built.readings.stands'), align: 'right', width: bound.isTyped ? 13 : 19 },
      { head: say('as-built.readings.found'), align: 'left', width: bound.isTyped ? 16 : 13 },
      {
        head: say('as-built.readings.more', { step: whole(show.millimetres('as-built.step', STEP)) }),
        align: 'left',
        width: bound.isTyped ? 20 : 21,
      },
    ],
    rows: groups.flatMap((group) =>
      group.readings.map((reading): Cell[] => [
        words({
          text: reading.number === undefined ? '[[letter]]' : '[[letter]] [[number]]',
          fill: { letter: group.letter, ...numberOf(frame, reading) },
        }),
        words(whatOf(frame, reading, groups)),
        number(inColumn(reading, sizeOf(frame, reading, `${nameOf(reading)}.drawn`, reading.drawn))),
        passesOf(frame, reading),
        standsOf(frame, reading, groups),
        foundOf(frame, reading),
        words(effectOf(frame, reading, groups)),
      ]),
    ),
  }
}

const nameOf = ({ key, number }: Reading): string =>
  `as-built.${key}${number === undefined ? '' : `-${number}`}`

const numberOf = ({ show }: Frame, reading: Reading): Readonly<Record<string, Value>> =>
  reading.number === undefined ? {} : { number: show.count(`${nameOf(reading)}.number`, reading.number) }

const letterOf = (groups: readonly ReadingGroup[], key: string): string =>
  groups.find((one) => one.key === key)?.letter ?? ''

/** All of a row are read alike: only the first says how. */
const whatOf = (frame: Frame, reading: Reading, groups: readonly ReadingGroup[]): Inline =>
  reading.number === undefined || reading.number === 1
    ? frame.say(`as-built.reading.${reading.key}`, {
        ...numberOf(frame, reading),
        below: letterOf(groups, 'water-below-rim'),
      })
    : frame.say('as-built.reading.next', numberOf(frame, reading))

const sizeOf = ({ show }: Frame, { unit }: Reading, name: string, size: number): Value =>
  unit === 'mass' ? show.kilograms(name, size) : show.millimetres(name, size)

/** Last digit that is printed [kg, m]. */
const DIGIT = { mass: 0.01, length: 0.0001 } as const

/** Between two sizes, or from one on, each rounded to the inside: what is printed is never let pass where it should not be. */
const between = (
  frame: Frame,
  reading: Reading,
  key: 'passes' | 'stands',
  { from, to }: { readonly from?: number; readonly to?: number },
): Cell => {
  const { say } = frame
  const digit = DIGIT[reading.unit]
  const shown = (end: string, size: number): Value =>
    sizeOf(frame, reading, `${nameOf(reading)}.${key}-${end}`, size * digit)
  const low = from === undefined ? undefined : Math.ceil(from / digit - 1e-6)
  const high = to === undefined ? undefined : Math.floor(to / digit + 1e-6)
  if (low !== undefined && high !== undefined)
    return words(
      say('as-built.between', {
        low: bare(shown('from', low)),
        high: bare(shown('to', high)),
      }),
    )
  if (low !== undefined) return words(say('as-built.at-least', { low: bare(shown('from', low)) }))
  return high === undefined ? empty : words(say('as-built.at-most', { high: bare(shown('to', high)) }))
}

/** Without decimals that say nothing. */
const whole = (value: Value): Value => ({ ...value, shown: value.shown.replace(/[.,]0+(?=\D|$)/, '') })

/** Millimetres are told by the heading, kilograms by the one size that is drawn. */
const inColumn = ({ unit }: Reading, value: Value): Value => (unit === 'mass' ? value : bare(value))

/** Without its unit. */
const bare = (value: Value): Value => ({ ...value, shown: value.shown.replace(/\u00a0?[a-z]+$/, '') })

/** What is always typed in is never let pass. */
const passesOf = (frame: Frame, reading: Reading): Cell => {
  const { drawn, allowed, isAlwaysTyped } = reading
  return isAlwaysTyped
    ? words(frame.say('as-built.always'))
    : between(frame, reading, 'passes', { from: drawn - allowed, to: drawn + allowed })
}

/** A least that follows another reading is told by it: on paper that one is found on the same round. */
const standsOf = (frame: Frame, reading: Reading, groups: readonly ReadingGroup[]): Cell => {
  const { stands, follows } = reading
  if (!follows || stands?.from === undefined) return between(frame, reading, 'stands', stands ?? {})
  return words(
    frame.say('as-built.at-least-of', {
      letter: letterOf(groups, follows.key),
      less: bare(lessOf(frame, reading, follows.less)),
      low: bare(leastOf(frame, `${nameOf(reading)}.stands-from`, stands.from)),
    }),
  )
}

/** Rounded so that the least comes out no smaller than it is. */
const lessOf = ({ show }: Frame, reading: Reading, less: number): Value =>
  show.millimetres(`${nameOf(reading)}.less`, Math.floor(less / DIGIT.length + 1e-6) * DIGIT.length)

const leastOf = ({ show }: Frame, name: string, size: number): Value =>
  show.millimetres(name, Math.ceil(size / DIGIT.length - 1e-6) * DIGIT.length)

/**
 * The same as an example: the least of a frame for a mould that is a little longer than the one that holds.
 *
 * @returns sizes and letters for a phrase; undefined where no reading follows another
 */
export const exampleOf = (
  frame: Frame,
  { readings }: BoundAsBuilt,
): Readonly<Record<string, Value>> | undefined => {
  const one = readings.find(({ follows }) => follows)
  const mould = readings.find(({ key }) => key === one?.follows?.key)
  if (!one?.follows || !mould) return undefined
  const digit = DIGIT.length
  const size = Math.round(((mould.found ?? mould.drawn) + EXAMPLE) / digit) * digit
  const less = Math.floor(one.follows.less / digit + 1e-6) * digit
  return {
    size: frame.show.millimetres('as-built.example.mould', size),
    least: leastOf(frame, 'as-built.example.frame', size - less),
  }
}

const foundOf = (frame: Frame, reading: Reading): Cell => {
  const { say, show } = frame
  const { found, drawn, unit } = reading
  if (found === undefined) return blank()
  const name = nameOf(reading)
  const is =
    unit === 'mass' ? show.kilograms(`${name}.found`, found) : show.millimetres(`${name}.found`, found)
  if (unit === 'mass') return words(say('as-built.found-mass', { is }))
  return words(say('as-built.found', { is, by: show.signedHundredths(`${name}.by`, found - drawn) }))
}

/** A tape says what is poured only where no water did. */
const OILS: Readonly<Record<string, string>> = {
  'water-weighed': 'as-built.effect.oils-water',
  'inside-length': 'as-built.effect.oils-without',
  'inside-width': 'as-built.effect.oils-without',
}

/** What a little more of it changes; the note is no matter of kilograms. */
const effectOf = (frame: Frame, reading: Reading, groups: readonly ReadingGroup[]): Inline => {
  const { say, show } = frame
  const { effect, unit } = reading
  const name = `${nameOf(reading)}.more`
  const step = unit === 'mass' ? WATER_STEP : STEP
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
          say(OILS[reading.key] ?? 'as-built.effect.oils', {
            mass: show.weight(`${name}.oils`, effect.oils * step, GRAM),
            step: show.kilograms(`${name}.step`, step),
            water: letterOf(groups, 'water-weighed'),
          }),
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

/**
 * Which reading is worth the most care: what the worst bar gains if everything is off by what is let pass.
 *
 * A bar between two wires gains by both where they are off opposite ways; one at a face by its half of the mould.
 */
export const mostOf = (frame: Frame, groups: readonly ReadingGroup[]): Block => {
  const { say, show } = frame
  const ranked = groups
    .flatMap(({ letter, key, readings }) => {
      const [{ effect, allowed }] = readings
      const sides = Math.min(2, readings.length)
      return effect.bars ? [{ letter, key, mass: effect.bars.mass * allowed * sides }] : []
    })
    .toSorted((a, b) => b.mass - a.mass)
  const [first, ...rest] = ranked
  if (!first) return nothing
  const item = ({ letter, key, mass }: (typeof ranked)[number]): Inline =>
    say('as-built.most.item', { letter, mass: show.weight(`as-built.most.${key}`, mass, TENTH_GRAM) })
  const corner = ranked.filter(({ key }) => key.startsWith('inside-'))
  const [one, other] = corner
  return {
    kind: 'cautions',
    signal: 'notice',
    items: [
      say('as-built.most', {
        all: rest.reduce(
          (before: Inline, next) => say('as-built.most.and', { before, next: item(next) }),
          item(first),
        ),
        corner:
          one && other
            ? say('as-built.most.corner', {
                one: one.letter,
                other: other.letter,
                mass: show.weight('as-built.most.at-corner', one.mass + other.mass, TENTH_GRAM),
              })
            : '',
        first: first.letter,
      }),
    ],
  }
}

/** What is typed into the fixture's file: filled in with what is there already, or else with the drawing. */
export const typingTable = (
  frame: Frame,
  { file, isTyped }: BoundAsBuilt,
  groups: readonly ReadingGroup[],
): Table => ({
  kind: 'table',
  caption: frame.say(isTyped ? 'as-built.typing.caption-typed' : 'as-built.typing.caption', {
    file: fileName(file.document.file),
  }),
  columns: [
    { head: frame.say('as-built.typing.letter'), align: 'left', width: 6 },
    { head: frame.say('as-built.typing.line'), align: 'left' },
  ],
  rows: typedLines(frame, groups).map(({ letters, line }): Cell[] => [maker(letters), words(line)]),
})

const fileName = (path: string): string => path.replace(/^.*\/(?=fixtures\/)/, '')

interface TypedLine {
  readonly letters: string
  readonly line: Inline
}

/** Two spaces that a page keeps. */
const IN = '\u00a0\u00a0'

function typedLines(frame: Frame, groups: readonly ReadingGroup[]): readonly TypedLine[] {
  const plain = (text: string): TypedLine => ({ letters: '', line: { text: '[[text]]', fill: { text } } })
  const lines: TypedLine[] = [plain('as-built:')]
  const inFile = { ...frame, show: frame.show.inFiles }
  let before: readonly string[] = []
  for (const { letter, readings } of groups) {
    const steps = readings[0].path.split(': ')
    const key = steps.pop() ?? ''
    // sections that this line is the first of
    steps.forEach((section, depth) => {
      if (before[depth] !== section) lines.push(plain(`${IN.repeat(depth + 1)}${section}:`))
    })
    before = steps
    const fill = Object.fromEntries(
      readings.map((one, index) => [
        `size-${index}`,
        sizeOf(inFile, one, `${nameOf(one)}.typed`, one.found ?? one.drawn),
      ]),
    )
    const sizes = Object.keys(fill).map((name) => `[[${name}]]`)
    const value = readings[0].number === undefined ? sizes.join('') : `[[open]]${sizes.join(', ')}[[close]]`
    lines.push({
      letters: letter,
      line: {
        text: `[[key]]: ${value}`,
        fill: { key: `${IN.repeat(steps.length + 1)}${key}`, open: '[', close: ']', ...fill },
      },
    })
  }
  return lines
}
