/** At each step: timers for what it waits for, and the times that are noted at it. */
import type { BenchWait, BenchWord } from './data.ts'
import { button, type Child, made, strongWords, textOf } from './elements.ts'
import type { Item } from './items.ts'
import type { Moment } from './store.ts'
import { leftText, stateOf, type Timer } from './timers.ts'

/** What the page does when something here is pressed, and what it knows. */
export interface Bench {
  readonly said: (word: BenchWord, fill?: Readonly<Record<string, string | number>>) => string
  /** on the shop's clock, as seen from now */
  readonly clock: (moment: number) => string
  readonly print: string
  readonly timers: () => readonly Timer[]
  readonly moments: () => Readonly<Record<string, Moment>>
  readonly begin: (wait: BenchWait) => void
  readonly acknowledge: (timer: Timer) => void
  readonly stop: (timer: Timer) => void
  readonly note: (name: string) => void
  readonly earlier: (name: string) => void
  readonly noteOff: (name: string) => void
  /** where a moment is noted */
  readonly itemOfMoment: (name: string) => Item | undefined
  readonly goTo: (item: Item) => void
  /** about sound and screen */
  readonly remark: () => string
}

/** What changes each second; made anew with what it stands in. */
export type Ticking = (now: number) => void

export const waitParts = (item: Item, bench: Bench, now: number): { nodes: Child[]; ticking: Ticking[] } => {
  const ticking: Ticking[] = []
  const nodes = (item.step?.waits ?? []).map((wait) => {
    const timer = bench.timers().find(({ name }) => name === wait.name)
    if (!timer) return made('div', { class: 'bench-wait' }, ...offer(wait, bench))
    const part = timerPart(timer, bench, now, 'step')
    ticking.push(...part.ticking)
    return part.element
  })
  return { nodes, ticking }
}

const offer = (wait: BenchWait, bench: Bench): Child[] => {
  const since = wait.since === undefined ? undefined : bench.moments()[wait.since]
  const name = made('span', { class: 'bench-wait-name' }, wait.words)
  if (wait.since !== undefined && !since) {
    const place = bench.itemOfMoment(wait.since)
    if (!place) return []
    return [
      name,
      button(
        bench.said('noteFirst', { number: place.step?.number ?? '' }),
        { class: 'bench-quiet', 'data-key': `wait:${wait.name}` },
        () => bench.goTo(place),
      ),
    ]
  }
  const words = wait.every
    ? bench.said('startEvery', { time: wait.every.shown })
    : bench.said('start', { time: durations(wait) })
  return [
    name,
    button(
      words,
      { class: 'bench-start', 'data-key': `wait:${wait.name}`, 'aria-label': `${words}: ${wait.words}` },
      () => bench.begin(wait),
    ),
    ...(since
      ? [made('span', { class: 'bench-small' }, bench.said('counts', { time: bench.clock(since.at) }))]
      : []),
  ]
}

/** Both ends of a window; of a series all that there are. */
const durations = ({ after }: BenchWait): string =>
  after.length === 2 ? `${after[0]?.shown}–${after[1]?.shown}` : after.map(({ shown }) => shown).join(', ')

/** @param where its buttons are told apart: the same timer stands at its step and in the bar */
export const timerPart = (
  timer: Timer,
  bench: Bench,
  now: number,
  where: 'step' | 'bar',
): { element: HTMLElement; ticking: Ticking[] } => {
  const { isRinging, next } = stateOf(timer, now)
  const left = made('strong', { class: 'bench-left' })
  const ticking: Ticking[] = []
  if (!isRinging && next !== undefined) {
    const show: Ticking = (at) => {
      const text = bench.said('left', { time: leftText(next - at) })
      if (left.textContent !== text) left.textContent = text
    }
    show(now)
    ticking.push(show)
  } else left.textContent = nowText(timer, bench, now)
  const act = isRinging
    ? button(bench.said('seen'), { class: 'bench-seen' }, () => bench.acknowledge(timer))
    : button(bench.said('stop'), { class: 'bench-quiet' }, () => bench.stop(timer))
  act.dataset.key = `${where === 'step' ? 'wait' : 'bar'}:${timer.name}`
  act.setAttribute('aria-label', `${act.textContent}: ${timer.words}`)
  const element = made(
    where === 'bar' ? 'li' : 'div',
    { class: `bench-wait bench-timer${isRinging ? ' bench-rings' : ''}` },
    made('span', { class: 'bench-wait-name' }, timer.words),
    left,
    act,
    made('span', { class: 'bench-small' }, whenText(timer, bench, now)),
    ...(timer.print === bench.print
      ? []
      : [made('span', { class: 'bench-small' }, bench.said('otherPrint'))]),
    ...(where === 'step' && bench.remark() !== ''
      ? [made('span', { class: 'bench-small' }, bench.remark())]
      : []),
  )
  return { element, ticking }
}

const isWindow = ({ after, every }: Timer): boolean => !every && after.length === 2

const nowText = (timer: Timer, bench: Bench, now: number): string => {
  const { since = now, next } = stateOf(timer, now)
  const time = bench.clock(since)
  return isWindow(timer) && next !== undefined
    ? bench.said('nowOpen', { time, until: bench.clock(next) })
    : bench.said('now', { time })
}

/** By the clock: both ends of a window, the end of what comes again, what comes next. */
const whenText = (timer: Timer, bench: Bench, now: number): string => {
  const { moments, next } = stateOf(timer, now)
  const last = bench.clock(moments.at(-1) ?? now)
  if (timer.every) return bench.said('each', { time: timer.every.shown, until: last })
  if (isWindow(timer))
    return bench.said('between', { from: bench.clock(moments[0] ?? now), until: last, to: last })
  return next === undefined ? '' : bench.said('until', { until: bench.clock(next) })
}

export const momentParts = (item: Item, bench: Bench): Child[] => {
  const blanks = [...item.element.querySelectorAll<HTMLElement>('.blank[data-moment]')]
  return blanks.flatMap((blank) => {
    const { moment: name = '' } = blank.dataset
    const label = textOf(blank)
    const noted = bench.moments()[name]
    const key = { 'data-key': `moment:${name}` }
    if (!noted) {
      const words = blanks.length === 1 ? bench.said('note') : `${bench.said('note')}: ${label}`
      return [
        made(
          'div',
          { class: 'bench-moment' },
          button(
            words,
            { class: 'bench-note', 'aria-label': `${bench.said('note')}: ${label}`, ...key },
            () => bench.note(name),
          ),
        ),
      ]
    }
    const time = bench.clock(noted.at)
    return [
      made(
        'div',
        { class: 'bench-moment' },
        made('span', { class: 'bench-wait-name' }, label),
        made(
          'span',
          { class: 'bench-noted' },
          ...strongWords(bench.said(noted.print === bench.print ? 'noted' : 'notedOther', { time })),
        ),
        button(
          bench.said('earlier'),
          { class: 'bench-quiet', 'aria-label': `${bench.said('earlier')}: ${label}`, ...key },
          () => bench.earlier(name),
        ),
        button(
          bench.said('noteOff'),
          { class: 'bench-quiet', 'aria-label': `${bench.said('noteOff')}: ${label}` },
          () => bench.noteOff(name),
        ),
      ),
    ]
  })
}
