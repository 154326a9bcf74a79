/** What is due, seen from today: the plan has its days, only the reader's device knows which of them is now. */
import { said } from './words.ts'

/** Days from now on that stand open; all others wait behind a heading. */
const AHEAD = 7

const two = (number: number): string => String(number).padStart(2, '0')
const dateOf = (day: Date): string => `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`
const inDays = (count: number): string => {
  const now = new Date()
  return dateOf(new Date(now.getFullYear(), now.getMonth(), now.getDate() + count))
}

const list = document.querySelector<HTMLElement>('.days')
const told = document.querySelector<HTMLElement>('.due-now')

/** Days out of sight, behind a heading that counts them. */
const folded = (name: string, days: readonly HTMLElement[]): HTMLElement => {
  const details = document.createElement('details')
  details.className = 'other-days'
  const summary = document.createElement('summary')
  summary.textContent = said(name, { count: days.length })
  const inside = document.createElement('ol')
  inside.className = 'days'
  inside.append(...days)
  details.append(summary, inside)
  return details
}

const arrange = (days: readonly HTMLElement[]): void => {
  if (!list || !told) return
  const [today, tomorrow, end] = [inDays(0), inDays(1), inDays(AHEAD)]
  const of = (day: HTMLElement): string => day.dataset.date ?? ''
  for (const old of document.querySelectorAll('.other-days')) old.remove()
  for (const day of days) {
    const which = of(day) === today ? 'today' : of(day) === tomorrow ? 'tomorrow' : undefined
    day.classList.toggle('is-today', which === 'today')
    const place = day.querySelector('.which')
    if (place) place.textContent = which ? said(which) : ''
  }
  const earlier = days.filter((day) => of(day) < today)
  const coming = days.filter((day) => of(day) >= today)
  const near = coming.filter((day, index) => of(day) < end || (index === 0 && of(day) >= end))
  const later = coming.filter((day) => !near.includes(day))
  list.replaceChildren(...near)
  list.hidden = near.length === 0
  if (earlier.length > 0) list.before(folded('earlier', earlier))
  if (later.length > 0) list.after(folded('later', later))
  const next = near[0]
  const shown = next?.querySelector('.value')?.textContent ?? ''
  told.hidden = next !== undefined && of(next) === today
  told.textContent = !next
    ? said('planOver')
    : of(next) === today
      ? ''
      : `${said('nothingToday')} ${said('nextDay', { day: shown })}`
}

if (list) {
  const days = [...list.querySelectorAll<HTMLElement>('.a-day')]
  let since = inDays(0)
  arrange(days)
  // a page that is left open over midnight
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || inDays(0) === since) return
    since = inDays(0)
    arrange(days)
  })
}
