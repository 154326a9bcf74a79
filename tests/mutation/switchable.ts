/** One text with all of its mutants in it, each chosen by its number while it runs: nothing is compiled once more. */
import { parseAst } from 'vitest/node'
import { bySource, type Mutant } from './mutators.ts'

/** Name of the function that is asked whether a mutant is chosen. */
export const CHOSEN = '__chosen'

interface Place {
  readonly start: number
  readonly end: number
  readonly mutants: { readonly put: string; readonly number: number }[]
  readonly isArguments: boolean
  readonly inner: Place[]
}

/** @param first number of its first mutant */
export const switchable = (text: string, mutants: readonly Mutant[], first: number): string => {
  const top: Place = { start: 0, end: text.length, mutants: [], isArguments: false, inner: [] }
  const open: Place[] = [top]
  for (const { mutant, number } of mutants
    .map((mutant, index) => ({ mutant, number: first + index }))
    .sort((one, other) => bySource(one.mutant, other.mutant))) {
    while ((open.at(-1) as Place).end < mutant.end || (open.at(-1) as Place).end <= mutant.start) open.pop()
    const around = open.at(-1) as Place
    const here = { start: mutant.start, end: mutant.end }
    const isArguments = mutant.mutator === 'arguments'
    if (around !== top && around.start === here.start && around.end === here.end) {
      around.mutants.push({ put: mutant.put, number })
      continue
    }
    const place: Place = { ...here, mutants: [{ put: mutant.put, number }], isArguments, inner: [] }
    around.inner.push(place)
    open.push(place)
  }
  return written(text, top, statementsOf(text))
}

const written = (text: string, place: Place, statements: ReadonlySet<number>): string => {
  let [at, out] = [place.start, '']
  for (const inner of place.inner) {
    out += text.slice(at, inner.start) + written(text, inner, statements)
    at = inner.end
  }
  out += text.slice(at, place.end)
  if (place.mutants.length === 0) return out
  // a swap within a list of arguments is spread, so that what is called, and whether, stays as it is
  const [open, close] = place.isArguments ? ['[', ']'] : ['(', ')']
  const choice = place.mutants
    .map(({ put, number }) => `${CHOSEN}(${number}) ? ${open}${put}${close} : `)
    .join('')
  if (place.isArguments) return `...(${choice}[${out}])`
  // a line that begins with a parenthesis would go on with the line before
  return `${statements.has(place.start) ? 'void ' : ''}(${choice}(${out}))`
}

/** Where a statement begins with what is assigned to. */
const statementsOf = (text: string): Set<number> => {
  const starts = new Set<number>()
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) for (const each of value) visit(each)
    else if (typeof value === 'object' && value !== null) {
      const node = value as { type?: string; start?: number; expression?: { type: string } }
      if (node.type === 'ExpressionStatement' && node.expression?.type === 'AssignmentExpression')
        starts.add(node.start as number)
      for (const each of Object.values(value)) visit(each)
    }
  }
  visit(parseAst(text, { lang: 'ts' }))
  return starts
}
