/** The page on which a code of a paper is looked up: nothing is asked of anybody but the list beside it. */
import { type CodedSheet, lookUpCode } from './look-up.ts'
import { said } from './words.ts'

declare global {
  var kettleCodes: readonly CodedSheet[] | undefined
}

const form = document.querySelector<HTMLFormElement>('.look-up')
const field = document.querySelector<HTMLInputElement>('#code')
const answer = document.querySelector<HTMLElement>('.looked-up')

const line = (tag: 'p' | 'li', text: string): HTMLElement => {
  const element = document.createElement(tag)
  element.textContent = text
  return element
}

const answers = (typed: string): HTMLElement[] => {
  const found = lookUpCode(typed, globalThis.kettleCodes ?? [])
  if (found.kind === 'slip') {
    const { problem, at = 0, letter = '' } = found.slip
    return [line('p', said(`code-${problem}`, { at, letter }))]
  }
  if (found.kind === 'unknown') return [line('p', said('code-unknown'))]
  const { sheet, paper, code } = found
  const name = sheet.now ? `${sheet.now.number} ${sheet.title}` : sheet.title
  const lines = [line('p', said(`code-${found.kind}`, { sheet: name, code, now: sheet.now?.code ?? '' }))]
  if (found.kind === 'old') {
    if (paper?.changes === undefined) lines.push(line('p', said('code-not-kept')))
    else if (paper.changes.length > 0) {
      const list = document.createElement('ul')
      list.append(...paper.changes.map((change) => line('li', change)))
      lines.push(line('p', said('code-changed')), list)
    }
  }
  if (sheet.now) {
    const way = document.createElement('a')
    way.href = sheet.now.file
    way.textContent = said('code-open', { sheet: name })
    const paragraph = document.createElement('p')
    paragraph.append(way)
    lines.push(paragraph)
  }
  return lines
}

if (form && field && answer) {
  form.hidden = false
  form.addEventListener('submit', (event) => {
    event.preventDefault()
    answer.replaceChildren(...answers(field.value))
  })
}
