/** What a phone at the bench knows of a sheet: its steps by their names, what they wait for, and its words. */
import { inlineWords } from '../sheets/compose.ts'
import type { Frame } from '../sheets/frame.ts'
import type { Sheet, Step, Value, Wait } from '../sheets/model.ts'
import type { BenchData, BenchStep, BenchWait, BenchWord, Duration } from './browser/bench/data.ts'

/** By the names that its script knows; without the words of a wait, which are its sheet's. */
const WORDS = {
  paper: 'bench.paper', refused: 'bench.refused', dark: 'bench.dark', awake: 'bench.awake', silent: 'bench.silent',
  held: 'bench.held', stopped: 'bench.stopped', stoppedTimers: 'bench.stopped-timers',
  other: 'bench.other', look: 'bench.look', clearOther: 'bench.clear-other', otherOne: 'bench.other-one', otherGone: 'bench.other-gone',
  next: 'bench.next', nextHold: 'bench.next-hold', leftOut: 'bench.left-out', leftOutHold: 'bench.left-out-hold', nextRow: 'bench.next-row', leftOutRow: 'bench.left-out-row', nextRead: 'bench.next-read',
  done: 'bench.done', holdOpen: 'bench.hold-open', readOpen: 'bench.read-open',
  ticked: 'bench.ticked', unticked: 'bench.unticked', undo: 'bench.undo', step: 'bench.step', row: 'bench.row',
  start: 'bench.start', startEvery: 'bench.start-every', noteFirst: 'bench.note-first', counts: 'bench.counts',
  left: 'bench.left', now: 'bench.now', nowOpen: 'bench.now-open', until: 'bench.until', between: 'bench.between', each: 'bench.each',
  seen: 'bench.seen', stop: 'bench.stop', timerStopped: 'bench.timer-stopped', timers: 'bench.timers', otherPrint: 'bench.other-print', more: 'bench.more',
  note: 'bench.note', noted: 'bench.noted', notedOther: 'bench.noted-other', earlier: 'bench.earlier', noteOff: 'bench.note-off',
  again: 'bench.again', clear: 'bench.clear', clearAsk: 'bench.clear-ask', onPhone: 'bench.on-phone', bar: 'bench.bar',
} as const satisfies Record<BenchWord, string> // biome-ignore format: a table reads better in rows

/** Names in `words.js` with keys of phrases. */
export const benchWords: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(WORDS).map(([name, key]) => [`bench/${name}`, key]),
)

export const benchData = (frame: Frame, sheet: Sheet): BenchData => ({
  store: `${frame.shopName}/${sheet.id}`,
  print: sheet.fingerprint ?? '',
  isStopped: sheet.stopped !== undefined,
  clock: frame.show.clock,
  steps: sheet.stopped ? [] : stepsOf(sheet),
})

/** @throws Error for a step without a name, or two with one: a tick would be found at the wrong step (a bug) */
const stepsOf = ({ id, blocks }: Sheet): BenchStep[] => {
  const steps = Object.values(blocks).flatMap((block) =>
    block.kind === 'steps' ? block.items.map((step, index) => stepOf(step, block.first + index)) : [],
  )
  const rows = Object.values(blocks).flatMap((block) => (block.kind === 'table' ? (block.names ?? []) : []))
  for (const names of [steps.map(({ name }) => name), rows, waitsOf(steps)])
    for (const [index, name] of names.entries())
      if (names.indexOf(name) !== index) throw new Error(`Two things on ${id} are named "${name}".`)
  return steps
}

const waitsOf = (steps: readonly BenchStep[]): string[] =>
  steps.flatMap(({ waits }) => waits.map(({ name }) => name))

const stepOf = ({ name, hold, waits = [], again }: Step, number: number): BenchStep => {
  if (name === undefined) throw new Error(`Step ${number} is followed at the bench and has no name.`)
  return {
    name,
    number,
    isHold: hold === true,
    waits: waits.map(waitOf),
    ...(again === undefined ? {} : { again }),
  }
}

const waitOf = ({ name, words, after, every, since }: Wait): BenchWait => ({
  name,
  words: inlineWords(words),
  after: after.map(durationOf),
  ...(every ? { every: durationOf(every) } : {}),
  ...(since === undefined ? {} : { since }),
})

const durationOf = ({ value, shown }: Value): Duration => ({ seconds: Number(value), shown })
