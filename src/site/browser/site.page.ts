/** What every page of the site runs: the button that prints it alone, and boxes that scroll by keyboard. */
import { said } from './words.ts'

document.documentElement.classList.add('scripted')

/** Whether this browser sets words into the margins of pages: those that do not would print a sheet without its foot. */
const setsMargins = (): boolean => {
  try {
    const sheet = new CSSStyleSheet()
    sheet.replaceSync('@page { @bottom-left { content: "" } }')
    const [rule] = sheet.cssRules
    return rule !== undefined && 'cssRules' in rule && (rule as CSSGroupingRule).cssRules.length === 1
  } catch {
    return false
  }
}

const alone = document.querySelector<HTMLElement>('.print-alone')
if (alone && setsMargins()) {
  alone.hidden = false
  alone.querySelector('button')?.addEventListener('click', () => window.print())
}

/** Letters of a name that is read out before what it names. */
const LONGEST = 80

/** A box that scrolls is a place of its own for the keyboard and for those who listen; one that does not is none. */
const mark = (box: HTMLElement): void => {
  if (box.scrollWidth <= box.clientWidth + 1) {
    for (const name of ['tabindex', 'role', 'aria-label']) box.removeAttribute(name)
    return
  }
  const isDrawing = box.classList.contains('of-drawing')
  const name = said(isDrawing ? 'wideDrawing' : 'wideTable', { number: boxes.indexOf(box) + 1 })
  const named = isDrawing ? box.parentElement?.querySelector('figcaption') : box.querySelector('caption')
  const words = named?.textContent?.replace(/\s+/g, ' ').trim() ?? ''
  box.tabIndex = 0
  box.setAttribute('role', 'region')
  box.setAttribute(
    'aria-label',
    words === '' ? name : `${name}: ${words.length > LONGEST ? `${words.slice(0, LONGEST)}…` : words}`,
  )
}
const boxes = [...document.querySelectorAll<HTMLElement>('.scroller')]
const watching = new ResizeObserver((seen) => {
  for (const { target } of seen) mark(target as HTMLElement)
})
for (const box of boxes) watching.observe(box)
