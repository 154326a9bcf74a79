/** What is ticked on a sheet, in the order of the paper: steps, rows that are weighed or fetched, what must be read first. */
import type { BenchData, BenchStep } from './data.ts'
import { copied, made, textOf } from './elements.ts'
import type { Bench } from './waits.ts'

export interface Item {
  /** known by it in the phone's store */
  readonly name: string
  readonly kind: 'step' | 'row' | 'read'
  readonly element: HTMLElement
  readonly check: HTMLInputElement
  /** nobody goes on before it is ticked */
  readonly isHold: boolean
  readonly step?: BenchStep
  /** of a row: what is done with it, its place in its table and how many there are */
  readonly place?: { readonly head: string; readonly row: number; readonly rows: number }
  /** in short, with its number */
  readonly what: string
  /** for the bar: what warns comes first */
  readonly caution: HTMLElement | null
  readonly content: () => (Node | string)[]
  /** below it: what is said when it was ticked past an open hold */
  readonly remark: HTMLElement
}

const SHORT = 90

export const itemsOf = (sheet: HTMLElement, data: BenchData, said: Bench['said']): Item[] =>
  [...sheet.querySelectorAll<HTMLElement>('[data-step], [data-row]')].flatMap((element, index) => {
    const { step, row } = element.dataset
    // what a maker names may hold anything, an id may not
    element.id ||= `bench-${index + 1}`
    if (step !== undefined) {
      const known = data.steps.find(({ name }) => name === step)
      return known ? [stepItem(element, known, said)] : []
    }
    if (row === undefined) return []
    return [element instanceof HTMLTableRowElement ? rowItem(element, row, said) : readItem(element, row)]
  })

const stepItem = (element: HTMLElement, step: BenchStep, said: Bench['said']): Item => {
  const { id } = element
  const action = element.querySelector('.action') as HTMLElement
  const number = made('span', { id: `${id}-number`, class: 'bench-number' }, String(step.number))
  action.id = `${id}-action`
  const { box, check } = tick(`${number.id} ${action.id}`, number)
  element.prepend(box)
  const remark = remarkBelow(element)
  return {
    name: `step/${step.name}`,
    kind: 'step',
    element,
    check,
    isHold: step.isHold,
    step,
    what: shortened(said('step', { number: String(step.number), text: textOf(action) })),
    caution: element.querySelector<HTMLElement>('.step-caution'),
    content: () => copied(action),
    remark,
  }
}

/** Its cells get the heads of their columns, since on a phone a row stands by itself. */
const rowItem = (element: HTMLTableRowElement, row: string, said: Bench['said']): Item => {
  const { id } = element
  const table = element.closest('table') as HTMLTableElement
  table.classList.add('bench-rows')
  const heads = [...table.querySelectorAll('thead th')].map(textOf)
  const cells = [...element.cells]
  for (const [index, cell] of cells.entries()) {
    cell.dataset.head = heads[index] ?? ''
    if (textOf(cell) === '' && !cell.querySelector('.tick-box')) cell.classList.add('bench-blank')
  }
  const what = cells.find((cell) => cell.matches('.cell-words, .cell-maker')) ?? cells[0]
  const main =
    cells.find((cell) => cell.matches('.first-value')) ??
    cells.find((cell) => cell.matches('.cell-value.right'))
  what?.classList.add('bench-what')
  main?.classList.add('bench-main')
  for (const [cell, part] of [
    [what, 'what'],
    [main, 'main'],
  ] as const)
    if (cell) cell.id = `${id}-${part}`
  const { box, check } = tick(`${what?.id ?? ''} ${main?.id ?? ''}`.trim())
  const place = cells.find((cell) => cell.matches('.cell-box'))
  place?.classList.add('bench-tick-cell')
  place?.append(box)
  const rows = [...table.querySelectorAll<HTMLElement>('tbody [data-row]')]
  // of the bar, in place of a row
  const remark = made('p', { class: 'bench-only bench-remark', hidden: '' })
  what?.append(remark)
  return {
    name: `row/${row}`,
    kind: 'row',
    element,
    check,
    isHold: false,
    place: { head: main?.dataset.head ?? '', row: rows.indexOf(element) + 1, rows: rows.length },
    what: shortened(said('row', { text: textOf(what), main: textOf(main) })),
    caution: null,
    content: () => [
      ...(what ? copied(what) : []),
      ' ',
      made('strong', { class: 'bench-amount' }, ...(main ? copied(main) : [])),
    ],
    remark,
  }
}

/** What the head of the sheet wants to be read and signed. */
const readItem = (element: HTMLElement, row: string): Item => {
  const { id } = element
  const words = made('span', { id: `${id}-action` }, ...[...element.childNodes].filter(isNoBox))
  element.append(words)
  const { box, check } = tick(words.id)
  element.prepend(box)
  element.classList.add('bench-read')
  return {
    name: `row/${row}`,
    kind: 'read',
    element,
    check,
    isHold: true,
    what: shortened(textOf(words)),
    caution: null,
    content: () => copied(words),
    remark: remarkBelow(element),
  }
}

const isNoBox = (node: Node): boolean => !(node instanceof Element && node.matches('.tick-box'))

const tick = (labelledBy: string, ...inside: readonly Node[]) => {
  const check = made('input', { type: 'checkbox', class: 'bench-check', 'aria-labelledby': labelledBy })
  const box = made(
    'span',
    { class: 'bench-only bench-tick' },
    check,
    made('span', { class: 'bench-box' }, ...inside),
  )
  return { box, check }
}

const remarkBelow = (element: HTMLElement): HTMLElement => {
  const remark = made('p', { class: 'bench-only bench-remark', hidden: '' })
  element.append(remark)
  return remark
}

const shortened = (text: string): string =>
  text.length <= SHORT ? text : `${text.slice(0, SHORT).replace(/\s+\S*$/, '')} …`

/** A row is wide, gloves are not exact: all of it is its tick, but what has a purpose of its own. */
export const whenTapped = (item: Item, tapped: () => void): void =>
  item.element.addEventListener('click', (event) => {
    const target = event.target as Element
    if (target.closest('a, button, input, summary, .bench-waits, .bench-moments')) return
    if ((getSelection()?.toString() ?? '') !== '') return
    tapped()
  })
