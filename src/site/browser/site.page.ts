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

/** A box that scrolls is a place of its own for the keyboard and for those who listen; one that does not is none. */
const mark = (box: HTMLElement): void => {
  const name = said(box.classList.contains('drawing') ? 'wideDrawing' : 'wideTable')
  const words = box.querySelector('caption, figcaption')?.textContent?.trim()
  if (box.scrollWidth > box.clientWidth + 1) {
    box.tabIndex = 0
    box.setAttribute('role', 'region')
    box.setAttribute('aria-label', words ? `${name}: ${words}` : name)
  } else {
    box.removeAttribute('tabindex')
    box.removeAttribute('role')
    box.removeAttribute('aria-label')
  }
}
const boxes = [...document.querySelectorAll<HTMLElement>('.scroller')]
const watching = new ResizeObserver((seen) => {
  for (const { target } of seen) mark(target as HTMLElement)
})
for (const box of boxes) watching.observe(box)
