/** What pages of a preview run: they say what becomes of the folder, and load themselves again when they have changed. */

declare global {
  var kettlePreviewWords: Readonly<Record<string, string>> | undefined
}

interface Told {
  readonly phase: 'working' | 'read' | 'good' | 'wrong' | 'failed'
  readonly text: string
  /** of this page as it is now; missing where nobody knows yet */
  readonly mark?: string
}

const says = (name: string): string => globalThis.kettlePreviewWords?.[name] ?? ''
const made = (tag: string, name: string): HTMLElement => {
  const element = document.createElement(tag)
  element.className = name
  return element
}

const mark = document.querySelector<HTMLMetaElement>('meta[name="preview-page"]')?.content

/** Of a page that stands in for others nothing was ever good. */
const hasBinder = !document.body.classList.contains('stands-in')

const dock = made('section', 'preview-dock off-paper')
dock.setAttribute('aria-label', says('name'))
const now = made('p', 'preview-now')
now.setAttribute('role', 'status')
const thin = made('p', 'preview-thin')
thin.textContent = says('thin')
const what = made('details', 'preview-what') as HTMLDetailsElement
const summary = made('summary', '')
const lines = made('pre', 'preview-lines')
// it scrolls, so the keyboard must reach it
lines.tabIndex = 0
lines.setAttribute('role', 'region')
what.hidden = true
what.append(summary, lines)
dock.append(now, thin, what)
const skip = document.querySelector('.skip')
if (skip) skip.after(dock)
else document.body.prepend(dock)
new ResizeObserver(() =>
  document.documentElement.style.setProperty('--preview-dock', `${dock.offsetHeight}px`),
).observe(dock)

const head = (phase: string, words: string): void => {
  dock.dataset.phase = phase
  if (now.textContent !== words) now.textContent = words
}

const show = ({ phase, text, mark: newest }: Told): void => {
  // the browser keeps where the page was scrolled to
  if (newest !== undefined && mark !== undefined && newest !== mark) {
    location.reload()
    return
  }
  const state = phase === 'good' && text !== '' ? 'warned' : phase
  const stays = hasBinder && (phase === 'wrong' || phase === 'failed') ? ` ${says('stays')}` : ''
  head(state, `${says(state)}${stays}`)
  if (lines.textContent !== text) {
    lines.textContent = text
    what.open = text !== ''
  }
  summary.textContent = says(phase === 'read' ? 'saved' : 'what')
  lines.setAttribute('aria-label', summary.textContent)
  what.hidden = text === ''
}

let listening: EventSource | undefined
const listen = (): void => {
  listening?.close()
  listening = new EventSource(`/preview/events?page=${encodeURIComponent(location.pathname)}`)
  listening.onmessage = ({ data }) => show(JSON.parse(data))
  listening.onerror = () => head('lost', says('lost'))
}

// a browser keeps few connections to one place: pages that nobody sees give theirs back
document.addEventListener('visibilitychange', () => {
  if (document.hidden) {
    listening?.close()
    listening = undefined
  } else if (!listening) listen()
})
addEventListener('pagehide', () => listening?.close())
addEventListener('pageshow', ({ persisted }) => {
  if (persisted) listen()
})
if (!document.hidden) listen()
