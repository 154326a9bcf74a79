/** The page of a batch sheet at the bench: ticks that stay, the next step in view, timers. Paper stays the record. */
import { allowSound, isAwake, isSilent, keepAwake, ring } from './bench/alarm.ts'
import { barOf } from './bench/bar.ts'
import type { BenchData, BenchWait } from './bench/data.ts'
import { button, made, textOf } from './bench/elements.ts'
import { headOf } from './bench/head.ts'
import { type Item, itemsOf, whenTapped } from './bench/items.ts'
import { type Kept, openStore, type Tick } from './bench/store.ts'
import { clockTime, inOrder, stateOf, type Timer } from './bench/timers.ts'
import { type Bench, momentParts, type Ticking, waitParts } from './bench/waits.ts'
import { said as siteSaid } from './words.ts'

/** ms; a wet glove taps twice */
const BOUNCE = 400
/** ms from one sound to the next while nobody has seen a timer */
const RINGS_EVERY = 15_000
/** ms before a timer's moment from which on the screen stays on: a battery does not last a day */
const AWAKE_BEFORE = 3_600_000
const FIVE_MINUTES = 300_000

const start = (place: HTMLElement, sheet: HTMLElement): void => {
  const data = JSON.parse(place.dataset.bench ?? '') as BenchData
  const { print } = data
  const language = document.documentElement.lang
  const store = openStore(data.store, print)
  const items = itemsOf(sheet, data, said)
  const clock = (moment: number): string => clockTime(moment, Date.now(), { clock: data.clock, language })
  const tickOf = (item: Item): Tick | undefined => store.now().ticks[item.name]
  const openHoldBefore = (item: Item): Item | undefined =>
    items.slice(0, items.indexOf(item)).find((one) => one.isHold && !tickOf(one))
  const holdWords = (hold: Item): string =>
    hold.step ? said('holdOpen', { number: hold.step.number }) : said('readOpen')

  const heard = made('div', { class: 'bench-only bench-heard', role: 'status' })
  const hear = (words: string): void => {
    heard.textContent = words
  }
  const bar = barOf(said)
  const head = headOf(place, said, textOf(sheet.querySelector('[data-hold] .stamp-heading')), data.isStopped)

  const bench: Bench = {
    said,
    clock,
    print,
    timers: () => store.now().timers,
    moments: () => store.now().moments,
    begin: (wait) => begin(wait),
    acknowledge: (timer) => acknowledge(timer),
    stop: (timer) => removed(timer, said('timerStopped', { what: timer.words })),
    note: (name) => {
      bar.quiet()
      change((kept) => withMoment(kept, name, { at: Date.now(), print }))
    },
    earlier: (name) =>
      change((kept) => {
        const noted = kept.moments[name]
        return noted ? withMoment(kept, name, { ...noted, at: noted.at - FIVE_MINUTES }) : kept
      }),
    noteOff: (name) => change((kept) => ({ ...kept, moments: without(kept.moments, name) })),
    itemOfMoment: (name) =>
      items.find(({ element }) => element.querySelector(`[data-moment="${CSS.escape(name)}"]`)),
    goTo: (item) => goTo(item),
    remark: () => (isSilent() ? said('silent') : isAwake() ? said('awake') : said('dark')),
  }

  const change = (edit: (kept: Kept) => Kept): void => {
    store.change(edit)
    render()
  }

  const setTick = (item: Item, tick: Tick | undefined): void =>
    change((kept) => ({
      ...kept,
      ticks: tick ? { ...kept.ticks, [item.name]: tick } : without(kept.ticks, item.name),
    }))

  /** The first that is not ticked after one of them, or from the beginning. */
  const openAfter = (item: Item): Item | undefined => {
    const at = items.indexOf(item)
    return [...items.slice(at + 1), ...items.slice(0, at)].find((one) => !tickOf(one))
  }

  const toggle = (item: Item): void => {
    const before = tickOf(item)
    setTick(item, before ? undefined : { at: Date.now(), what: item.what })
    const words = before ? said('unticked', { what: item.what }) : said('ticked', { what: item.what })
    const hold = before ? undefined : openHoldBefore(item)
    const next = before || hold ? undefined : openAfter(item)
    bar.tell(
      words,
      () => {
        setTick(item, before)
        bring(item.element)
      },
      {
        hold: hold && { words: holdWords(hold), go: () => goTo(hold) },
        stays: before !== undefined,
      },
    )
    const nextWords = next ? [bar.title(next, items, false), textOf(next.caution), next.what] : []
    const sentences = [hold ? holdWords(hold) : '', words, ...nextWords].filter((one) => one !== '')
    hear(sentences.map((one) => one.replace(/[.…\s]*$/, '.')).join(' '))
    if (next) bring(next.element)
    // what was said below it stands in view, too
    if (hold) bring(item.element)
  }

  const begin = (wait: BenchWait): void => {
    allowSound()
    bar.quiet()
    const since = wait.since === undefined ? undefined : store.now().moments[wait.since]
    const timer: Timer = { ...wait, start: since?.at ?? Date.now(), seen: 0, print }
    change((kept) => ({ ...kept, timers: [...kept.timers.filter(({ name }) => name !== wait.name), timer] }))
    hear(`${wait.words}: ${clock(stateOf(timer, Date.now()).next ?? timer.start)}`)
  }

  const acknowledge = (timer: Timer): void => {
    const { passed, moments } = stateOf(timer, Date.now())
    if (passed >= moments.length) removed(timer, `${said('seen')}: ${timer.words}`)
    else
      change((kept) => ({
        ...kept,
        timers: kept.timers.map((one) => (one.name === timer.name ? { ...one, seen: passed } : one)),
      }))
  }

  const removed = (timer: Timer, words: string): void => {
    change((kept) => ({ ...kept, timers: kept.timers.filter(({ name }) => name !== timer.name) }))
    bar.tell(words, () => change((kept) => ({ ...kept, timers: [...kept.timers, timer] })), { stays: true })
    hear(words)
  }

  /** For the next kettle: the same steps once more. */
  const again = (first: Item, last: Item): void => {
    const before = store.now()
    const some = items.slice(items.indexOf(first), items.indexOf(last) + 1)
    const names = some.flatMap(({ element }) =>
      [...element.querySelectorAll<HTMLElement>('[data-moment]')].map(({ dataset }) => dataset.moment ?? ''),
    )
    change((kept) => ({
      ...kept,
      ticks: without(kept.ticks, ...some.map(({ name }) => name)),
      moments: without(kept.moments, ...names),
    }))
    const words = againWords(first, last)
    bar.tell(words, () => change((kept) => ({ ...kept, ticks: before.ticks, moments: before.moments })), {
      stays: true,
    })
    hear(words)
    bring(first.element)
  }
  const againWords = (first: Item, last: Item): string =>
    said('again', { from: first.step?.number ?? '', to: last.step?.number ?? '' })

  const bring = (element: HTMLElement): void => {
    const { top, bottom } = element.getBoundingClientRect()
    // the bar of the site stands above what is read
    const covered = Number.parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) || 0
    if (top >= covered && bottom <= innerHeight - bar.element.offsetHeight) return
    const still = matchMedia('(prefers-reduced-motion: reduce)').matches
    element.scrollIntoView({ block: 'start', behavior: still ? 'auto' : 'smooth' })
  }

  /** Asked for: so the keyboard goes there, too. */
  const goTo = (item: Item): void => {
    bring(item.element)
    item.check.focus({ preventScroll: true })
  }

  const parts = new Map(
    items
      .filter(({ kind }) => kind === 'step')
      .map((item) => {
        const below = made('div', { class: 'bench-only bench-below' })
        item.remark.before(below)
        return [item, below] as const
      }),
  )
  let ticking: Ticking[] = []

  const renderItem = (item: Item, now: number): void => {
    const isTicked = tickOf(item) !== undefined
    item.check.checked = isTicked
    item.element.classList.toggle('bench-ticked', isTicked)
    const hold = isTicked ? openHoldBefore(item) : undefined
    item.remark.hidden = hold === undefined
    item.remark.textContent = hold ? holdWords(hold) : ''
    const below = parts.get(item)
    if (!below) return
    const waits = data.isStopped ? { nodes: [], ticking: [] } : waitParts(item, bench, now)
    ticking.push(...waits.ticking)
    const moments = momentParts(item, bench)
    const first = items.find(({ step }) => step !== undefined && step.name === item.step?.again)
    below.replaceChildren(
      ...(moments.length > 0 ? [made('div', { class: 'bench-moments' }, ...moments)] : []),
      ...(waits.nodes.length > 0 ? [made('div', { class: 'bench-waits' }, ...waits.nodes)] : []),
      ...(first ? [button(againWords(first, item), { class: 'bench-start' }, () => again(first, item))] : []),
    )
  }

  const render = (): void => {
    const now = Date.now()
    const kept = store.now()
    ticking = []
    // what had the focus is made anew: it has it still
    const { activeElement } = document
    const key = activeElement instanceof HTMLElement ? activeElement.dataset.key : undefined
    for (const item of items) renderItem(item, now)
    bar.show({
      items,
      next: items.find((item) => !tickOf(item)),
      last: items.findLast((item) => tickOf(item)),
      timers: inOrder(kept.timers, now),
      bench,
      now,
      ticking,
    })
    head.show({ kept, isRefused: store.isRefused(), items, clock, forget: () => change(withoutOthers) })
    if (key !== undefined && !activeElement?.isConnected)
      document.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true })
    watch()
  }

  let rung = 0
  /** once a second: what is left, and whether something rings that did not ring before */
  let ringing = ''
  const ringingNow = (now: number): string =>
    store
      .now()
      .timers.map((timer) => ({ timer, state: stateOf(timer, now) }))
      .filter(({ state }) => state.isRinging)
      .map(({ timer, state }) => `${timer.name} ${state.passed}`)
      .join()
  const watch = (): void => {
    const now = Date.now()
    const { timers } = store.now()
    const soon = timers.some((timer) => {
      const { isRinging, next } = stateOf(timer, now)
      return isRinging || (next !== undefined && next - now < AWAKE_BEFORE)
    })
    keepAwake(soon, render)
    ringing = ringingNow(now)
    if (ringing !== '' && now - rung >= RINGS_EVERY) {
      rung = now
      ring()
    }
  }
  const eachSecond = (): void => {
    const now = Date.now()
    if (ringingNow(now) === ringing) {
      for (const show of ticking) show(now)
      watch()
      return
    }
    const isNew = ringingNow(now) !== ''
    if (isNew) rung = 0
    render()
    const first = inOrder(store.now().timers, now)[0]
    if (isNew && first)
      hear(`${first.words}: ${said('now', { time: clock(stateOf(first, now).since ?? now) })}`)
  }

  let tapped = -BOUNCE
  for (const item of items) {
    item.check.addEventListener('change', () => {
      // the store decides what is ticked
      item.check.checked = tickOf(item) !== undefined
      if (!isBounce()) toggle(item)
    })
    whenTapped(item, () => {
      if (!isBounce()) toggle(item)
    })
  }
  const isBounce = (): boolean => {
    const now = performance.now()
    const isTooSoon = now - tapped < BOUNCE
    if (!isTooSoon) tapped = now
    return isTooSoon
  }

  const clear = button(said('clear'), { class: 'bench-quiet' }, () => {
    if (!confirm(said('clearAsk'))) return
    store.clear()
    render()
  })
  sheet.after(made('p', { class: 'bench-only bench-clear' }, clear))
  document.body.append(heard, bar.element)
  document.body.classList.add('bench-on')
  for (const kind of ['pointerdown', 'keydown'])
    addEventListener(kind, () => {
      if (store.now().timers.length === 0 || !isSilent()) return
      allowSound()
    })
  store.whenElsewhereChanged(render)
  document.addEventListener('visibilitychange', render)
  render()
  setInterval(eachSecond, 1000)
}

const without = <Thing>(
  all: Readonly<Record<string, Thing>>,
  ...names: readonly string[]
): Readonly<Record<string, Thing>> =>
  Object.fromEntries(Object.entries(all).filter(([name]) => !names.includes(name)))

const withoutOthers = (kept: Kept): Kept => ({ ...kept, others: [] })

/** Timers that count from it follow when it is put right. */
const withMoment = (kept: Kept, name: string, moment: Kept['moments'][string]): Kept => ({
  ...kept,
  moments: { ...kept.moments, [name]: moment },
  timers: kept.timers.map((timer) => (timer.since === name ? { ...timer, start: moment.at } : timer)),
})

/** Words of the catalogue, by the names that `site/bench.ts` gives them. */
const said: Bench['said'] = (word, fill) => siteSaid(`bench/${word}`, fill)

const place = document.getElementById('bench')
const sheet = document.querySelector<HTMLElement>('section.sheet')
if (place && sheet) start(place, sheet)
