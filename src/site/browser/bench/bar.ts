/** The bar at the foot: what was just done, timers, and the next step with its caution first. */
import { button, made } from './elements.ts'
import type { Item } from './items.ts'
import { stateOf, type Timer } from './timers.ts'
import { type Bench, type Ticking, timerPart } from './waits.ts'

/** ms; then what was done is far enough back, and what stands below it has its room again */
const TOLD_FOR = 20_000

/** Timers that stand in it before it is unfolded, and those of them that ring: it must leave room for the sheet. */
const FEW = 1
const FEW_RINGING = 2

export interface BarShown {
  readonly items: readonly Item[]
  readonly next: Item | undefined
  /** the furthest that is ticked */
  readonly last: Item | undefined
  readonly timers: readonly Timer[]
  readonly bench: Bench
  readonly now: number
  /** is given what changes each second */
  readonly ticking: Ticking[]
}

export interface Bar {
  readonly element: HTMLElement
  readonly show: (shown: BarShown) => void
  /** what was done, with a way back */
  readonly tell: (
    words: string,
    undo: () => void,
    more?: {
      readonly hold?: { readonly words: string; readonly go: () => void } | undefined
      /** until the next thing is done: a slip is not always seen at once */
      readonly stays?: boolean
    },
  ) => void
  /** what was done no longer matters */
  readonly quiet: () => void
  readonly title: (next: Item, items: readonly Item[], isLeftOut: boolean) => string
}

export const barOf = (said: Bench['said']): Bar => {
  const told = made('div', { class: 'bench-told' })
  const list = made('div', { class: 'bench-timers' })
  const nextPlace = made('div', { class: 'bench-next-place' })
  const element = made(
    'section',
    { class: 'bench-only bench-bar', 'aria-label': said('bar') },
    told,
    list,
    nextPlace,
  )
  let isUnfolded = false
  let fading: ReturnType<typeof setTimeout> | undefined
  new ResizeObserver(() =>
    document.documentElement.style.setProperty('--bench-bar', `${element.offsetHeight}px`),
  ).observe(element)

  const title: Bar['title'] = (next, items, isLeftOut) => {
    if (next.kind === 'read') return said('nextRead')
    if (next.place) return said(isLeftOut ? 'leftOutRow' : 'nextRow', next.place)
    const fill = { number: next.step?.number ?? '', count: countOf(items) }
    if (next.isHold) return said(isLeftOut ? 'leftOutHold' : 'nextHold', fill)
    return said(isLeftOut ? 'leftOut' : 'next', fill)
  }

  const nextPart = ({ items, next, last, bench }: BarShown): Node[] => {
    if (items.length === 0) return []
    if (!next) return [made('p', { class: 'bench-done' }, said('done', { count: countOf(items) }))]
    const isLeftOut = last !== undefined && items.indexOf(next) < items.indexOf(last)
    const link = made(
      'a',
      {
        class: `bench-next${next.isHold ? ' bench-next-hold' : ''}`,
        href: `#${next.element.id}`,
        'data-key': 'next',
      },
      made('strong', { class: 'bench-title' }, title(next, items, isLeftOut)),
      ...(next.caution
        ? [made('span', { class: 'bench-caution' }, ...[...next.caution.cloneNode(true).childNodes])]
        : []),
      made('span', { class: 'bench-text' }, ...next.content()),
    )
    link.addEventListener('click', (event) => {
      event.preventDefault()
      bench.goTo(next)
    })
    return [link]
  }

  const timersPart = ({ timers, bench, now, ticking }: BarShown): Node[] => {
    const ringing = timers.filter((timer) => stateOf(timer, now).isRinging).length
    const shown = isUnfolded ? timers : timers.slice(0, Math.max(FEW, Math.min(FEW_RINGING, ringing)))
    const hidden = timers.length - shown.length
    const all = shown.map((timer) => timerPart(timer, bench, now, 'bar'))
    for (const part of all) ticking.push(...part.ticking)
    return timers.length === 0
      ? []
      : [
          made('ul', { 'aria-label': said('timers') }, ...all.map((part) => part.element)),
          ...(hidden > 0
            ? [
                button(
                  `+${hidden}`,
                  {
                    class: 'bench-quiet bench-more',
                    'aria-label': said('more', { count: hidden }),
                    'data-key': 'more',
                  },
                  () => {
                    isUnfolded = true
                    redraw()
                  },
                ),
              ]
            : []),
        ]
  }

  let redraw = (): void => {}
  return {
    element,
    title,
    show: (shown) => {
      redraw = () => list.replaceChildren(...timersPart(shown))
      redraw()
      nextPlace.replaceChildren(...nextPart(shown))
      element.hidden = shown.items.length === 0 && shown.timers.length === 0 && told.childElementCount === 0
    },
    quiet: () => told.replaceChildren(),
    tell: (words, undo, { hold, stays } = {}) => {
      clearTimeout(fading)
      if (!stays) fading = setTimeout(() => told.replaceChildren(), TOLD_FOR)
      told.replaceChildren(
        made(
          'p',
          {},
          hold ? button(hold.words, { class: 'bench-hold' }, hold.go) : made('span', {}, words),
          button(said('undo'), { class: 'bench-undo' }, () => {
            told.replaceChildren()
            undo()
          }),
        ),
      )
    },
  }
}

const countOf = (items: readonly Item[]): number => items.filter(({ kind }) => kind === 'step').length
