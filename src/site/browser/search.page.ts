/** The box for searching: its list is loaded when somebody begins to type, so that a page at the bench is there at once. */
import { type Found, searcher } from './search.ts'
import type { SearchData } from './search-data.ts'
import { said } from './words.ts'

declare global {
  var kettleSearch: SearchData | undefined
}

/** Places that are listed. */
const MOST = 30
/** ms after the last letter until those who listen are told how many there are */
const QUIET = 400

const box = document.querySelector<HTMLElement>('.site-search')
const input = box?.querySelector('input')
const count = box?.querySelector<HTMLElement>('.found-count')
const list = box?.querySelector<HTMLElement>('.found')

if (box && input && count && list) {
  const up = box.dataset.up ?? ''
  box.hidden = false
  input.placeholder = said('searchHint')

  let find: ((query: string) => readonly Found[]) | undefined
  let asked = false
  const load = (): void => {
    if (asked) return
    asked = true
    const script = document.createElement('script')
    script.src = `${up}assets/search-index.js`
    script.onload = () => {
      if (!globalThis.kettleSearch) return
      find = searcher(globalThis.kettleSearch, said('searchSame'))
      look()
    }
    script.onerror = () => {
      asked = false
      count.textContent = said('searchMissing')
    }
    document.head.append(script)
  }

  const rowOf = (found: Found): HTMLElement => {
    const row = document.createElement('li')
    const link = document.createElement('a')
    link.href = `${up}${found.href}`
    const title = document.createElement('span')
    title.className = 'found-title'
    title.textContent = found.heading === '' ? found.title : `${found.title}: ${found.heading}`
    const place = document.createElement('span')
    place.className = 'found-place'
    place.textContent = said('inSection', { section: found.section, number: found.number })
    const snippet = document.createElement('span')
    snippet.className = 'found-line'
    snippet.append(
      ...found.snippet.map((piece, index) => {
        if (index % 2 === 0) return piece
        const mark = document.createElement('mark')
        mark.textContent = piece
        return mark
      }),
    )
    link.append(title, place, snippet)
    row.append(link)
    return row
  }

  let telling: ReturnType<typeof setTimeout> | undefined
  const tell = (words: string): void => {
    clearTimeout(telling)
    telling = setTimeout(() => {
      count.textContent = words
    }, QUIET)
  }

  const look = (): void => {
    const query = input.value.trim()
    if (!find || query.length < 2) {
      list.replaceChildren()
      list.hidden = true
      clearTimeout(telling)
      if (asked) count.textContent = ''
      return
    }
    const all = find(query)
    list.replaceChildren(...all.slice(0, MOST).map(rowOf))
    list.hidden = all.length === 0
    list.scrollTop = 0
    tell(
      all.length === 0
        ? said('foundNone', { query })
        : all.length === 1
          ? said('foundOne')
          : all.length > MOST
            ? said('foundFirst', { count: MOST, all: all.length })
            : said('found', { count: all.length }),
    )
  }

  const close = (): void => {
    input.value = ''
    look()
  }

  input.addEventListener('focus', load)
  input.addEventListener('input', () => {
    load()
    look()
  })

  const links = (): HTMLAnchorElement[] => [...list.querySelectorAll('a')]
  box.addEventListener('keydown', (event) => {
    const all = links()
    const at = all.indexOf(document.activeElement as HTMLAnchorElement)
    if (event.key === 'Escape') {
      if (at >= 0) input.focus()
      else close()
    } else if (event.key === 'Enter' && at < 0) {
      all[0]?.click()
    } else if (event.key === 'ArrowDown') {
      all[Math.min(at + 1, all.length - 1)]?.focus()
    } else if (event.key === 'ArrowUp') {
      if (at <= 0) input.focus()
      else all[at - 1]?.focus()
    } else return
    event.preventDefault()
  })
  // a place on this very page: the list is out of the way
  list.addEventListener('click', () => setTimeout(close))

  document.addEventListener('keydown', (event) => {
    const { target } = event
    if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey) return
    if (target instanceof HTMLElement && target.closest('input, textarea, select, [contenteditable]')) return
    event.preventDefault()
    input.focus()
    input.select()
  })
}
