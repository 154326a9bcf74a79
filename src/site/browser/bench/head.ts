/** What stands above the sheet: a hold or a stop first, ticks of another print, and what a phone is and is not. */
import { button, made, strongWords } from './elements.ts'
import type { Item } from './items.ts'
import type { Kept } from './store.ts'
import type { Bench } from './waits.ts'

export interface Shown {
  readonly kept: Kept
  readonly isRefused: boolean
  readonly items: readonly Item[]
  readonly clock: (moment: number) => string
  /** what was ticked on other prints */
  readonly forget: () => void
}

/** @param held the heading of a hold, empty where there is none */
export const headOf = (
  place: HTMLElement,
  said: Bench['said'],
  held: string,
  isStopped: boolean,
): { readonly element: HTMLElement; readonly show: (shown: Shown) => void } => {
  const changing = made('div')
  const element = made(
    'section',
    { class: 'bench-only bench-head', 'aria-label': said('onPhone') },
    ...(held === '' ? [] : [line('bench-first', said('held', { state: held }))]),
    ...(isStopped ? [line('bench-first', said('stopped'))] : []),
    changing,
    ...(isStopped ? [] : [line('', said('paper'))]),
  )
  place.after(element)
  return {
    element,
    show: (shown) =>
      changing.replaceChildren(
        ...(isStopped && shown.kept.timers.length > 0 ? [line('', said('stoppedTimers'))] : []),
        ...(shown.isRefused ? [line('bench-first', said('refused'))] : []),
        ...others(shown, said),
      ),
  }
}

const line = (name: string, words: string): HTMLElement =>
  made('p', name === '' ? {} : { class: name }, ...strongWords(words))

/** Never taken over: looked at, or cleared. */
const others = ({ kept, items, clock, forget }: Shown, said: Bench['said']): HTMLElement[] => {
  const ticks = kept.others
    .flatMap((other) => Object.entries(other.ticks))
    .sort(([, a], [, b]) => a.at - b.at)
  if (ticks.length === 0) return []
  const known = ticks.filter(([name]) => items.some((item) => item.name === name))
  const gone = ticks.length - known.length
  const list = made(
    'ul',
    {},
    ...known.map(([name, { at, what }]) => {
      const item = items.find((one) => one.name === name)
      const words = said('otherOne', { time: clock(at), what })
      return made('li', {}, made('a', { href: `#${item?.element.id ?? ''}` }, words))
    }),
    ...(gone > 0 ? [made('li', {}, said('otherGone', { count: gone }))] : []),
  )
  return [
    made(
      'div',
      { class: 'bench-first bench-other' },
      made('p', {}, said('other', { count: ticks.length })),
      made('details', {}, made('summary', {}, said('look')), list),
      button(said('clearOther'), { class: 'bench-quiet', 'data-key': 'other' }, forget),
    ),
  ]
}
