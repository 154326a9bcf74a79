/** Small faults that somebody might have made in a calculator: where they can be, and what the text would be with them. */
import { parseAst } from 'vitest/node'

export const MUTATORS = ['literal', 'plus', 'times', 'comparison', 'term', 'arguments'] as const
export type Mutator = (typeof MUTATORS)[number]

export const MUTATOR_NAMES: Readonly<Record<Mutator, string>> = {
  literal: 'literal × 1.01',
  plus: '+ to −',
  times: '× to ÷',
  comparison: '< to ≤',
  term: 'dropped term',
  arguments: 'swapped arguments',
}

export interface Mutant {
  readonly mutator: Mutator
  /** what of the text is replaced, and by what */
  readonly start: number
  readonly end: number
  readonly put: string
  /** the functions or constants that it stands in, outermost first; nothing of it moves with its line */
  readonly place: string
  /** one line each: the text around it as it is and as it would be */
  readonly before: string
  readonly after: string
}

interface Node {
  readonly type: string
  readonly start: number
  readonly end: number
  readonly [key: string]: unknown
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string'

/** What is computed although it stands in a type's clothes. */
const CLOTHED = ['TSAsExpression', 'TSSatisfiesExpression', 'TSNonNullExpression']
const COMPARISONS: Readonly<Record<string, string>> = { '<': '<=', '<=': '<', '>': '>=', '>=': '>' }
const SUMS = ['+', '-']
const PRODUCTS = ['*', '/']
/** Of these every order is the same, so a swap would be no fault. */
const ORDERLESS = /^Math\.(min|max|hypot)$/
const MOST_SHOWN = 70

export const bySource = (one: Mutant, other: Mutant): number => one.start - other.start || other.end - one.end

/** Every mutant of a text, by its place in it. Types are left alone: they are gone when a calculator runs. */
export const mutantsOf = (text: string): Mutant[] => {
  const found: Mutant[] = []
  const of = (node: Node): string => text.slice(node.start, node.end)

  const add = (mutator: Mutator, node: Node, put: string, around: readonly Node[], place: string): void => {
    const shown = [...around, node].find((each) => each.end - each.start <= MOST_SHOWN) ?? node
    const line = (middle: string): string =>
      (text.slice(shown.start, node.start) + middle + text.slice(node.end, shown.end)).replace(/\s+/g, ' ')
    found.push({
      mutator,
      start: node.start,
      end: node.end,
      put,
      place,
      before: line(of(node)),
      after: line(put),
    })
  }

  const visit = (node: Node, above: readonly Node[], names: readonly string[]): void => {
    if (node.type === 'ImportDeclaration') return
    if (node.type.startsWith('TS') && !CLOTHED.includes(node.type)) return
    const parent = above.at(-1)
    const place = names.join('.')
    // the next ones around it, wider first, but nothing wider than a statement
    const around = above.slice(-2)
    const make = (mutator: Mutator, put: string, target = node): void =>
      add(mutator, target, put, around, place)

    if (node.type === 'Literal' && typeof node.value === 'number' && node.value !== 0) {
      const isName = parent?.type === 'Property' && parent.key === node && parent.computed !== true
      if (!isName) make('literal', String(Number((node.value * 1.01).toPrecision(15))))
    }
    if (node.type === 'BinaryExpression') binary(node, make)
    if (node.type === 'AssignmentExpression') assignment(node, make)
    if (node.type === 'CallExpression' || node.type === 'NewExpression') call(node, around, place)

    const name = nameOf(node)
    const inner = name === undefined ? names : [...names, name]
    for (const [key, value] of Object.entries(node))
      for (const child of Array.isArray(value) ? value : [value])
        if (isNode(child) && !(key === 'id' && node.type === 'VariableDeclarator'))
          visit(child, [...above, node], inner)
  }

  const binary = (node: Node, make: (mutator: Mutator, put: string) => void): void => {
    const { operator, left, right } = node as unknown as { operator: string; left: Node; right: Node }
    const [a, b] = [of(left), of(right)]
    const to = COMPARISONS[operator]
    if (to !== undefined) make('comparison', `(${a}) ${to} (${b})`)
    const family = [SUMS, PRODUCTS].find((each) => each.includes(operator))
    if (!family || makesText(node)) return
    const isChain = (side: Node): boolean =>
      side.type === 'BinaryExpression' && family.includes(side.operator as string)
    if (operator === '+') make('plus', `(${a}) - (${b})`)
    if (operator === '*') make('times', `(${a}) / (${b})`)
    // one term at a time: of a chain the left side is a chain of its own
    if (!isChain(right)) make('term', a)
    // 1 / b is 1 / b without its 1, too
    if (!isChain(left) && !(family === PRODUCTS && left.type === 'Literal' && left.value === 1))
      make('term', { '+': b, '-': `-(${b})`, '*': b, '/': `1 / (${b})` }[operator] ?? b)
  }

  const assignment = (node: Node, make: (mutator: Mutator, put: string) => void): void => {
    const { operator, left, right } = node as unknown as { operator: string; left: Node; right: Node }
    if (!['+=', '-=', '*=', '/='].includes(operator) || makesText(right)) return
    const [a, b] = [of(left), of(right)]
    if (operator === '+=') make('plus', `${a} -= ${b}`)
    if (operator === '*=') make('times', `${a} /= ${b}`)
    make('term', a)
  }

  const call = (node: Node, around: readonly Node[], place: string): void => {
    const list = node.arguments as Node[]
    if (ORDERLESS.test(of(node.callee as Node))) return
    const [head, last] = [list[0], list.at(-1)]
    if (!head || !last) return
    // of three there are two swaps in one place, so the place is the whole list
    const whole = { type: 'Arguments', start: head.start, end: last.end }
    for (const [index, one] of list.entries()) {
      const other = list[index + 1]
      if (!other || !mayChange(one, other) || of(one) === of(other)) continue
      const swapped = of(other) + text.slice(one.end, other.start) + of(one)
      const put = text.slice(whole.start, one.start) + swapped + text.slice(other.end, whole.end)
      add('arguments', whole, put, [...around, node], place)
    }
  }

  visit(parseAst(text, { lang: 'ts' }) as unknown as Node, [], [])
  return found.sort(bySource)
}

/** Text is joined by + too, and is no sum. */
const makesText = (node: Node): boolean =>
  node.type === 'TemplateLiteral' ||
  (node.type === 'Literal' && typeof node.value === 'string') ||
  (node.type === 'BinaryExpression' &&
    node.operator === '+' &&
    (makesText(node.left as Node) || makesText(node.right as Node)))

/** A function for a number, or text for a list, is found by the types before anything runs. */
const mayChange = (one: Node, other: Node): boolean => {
  const [first, second] = [kindOf(one), kindOf(other)]
  if (first === 'spread' || second === 'spread') return false
  if (first === second) return true
  return [first, second].includes('any') && ![first, second].includes('function')
}

const kindOf = (node: Node): string => {
  if (node.type === 'SpreadElement') return 'spread'
  if (node.type === 'ArrowFunctionExpression' || node.type === 'FunctionExpression') return 'function'
  if (node.type === 'ObjectExpression') return 'record'
  if (node.type === 'ArrayExpression') return 'list'
  if (node.type === 'TemplateLiteral') return 'string'
  if (node.type === 'Literal') return typeof node.value
  if (node.type === 'BinaryExpression') return makesText(node) ? 'string' : 'any'
  return 'any'
}

const nameOf = (node: Node): string | undefined => {
  const named =
    node.type === 'FunctionDeclaration' ||
    node.type === 'ClassDeclaration' ||
    node.type === 'VariableDeclarator'
      ? node.id
      : node.type === 'MethodDefinition'
        ? node.key
        : undefined
  return isNode(named) && typeof named.name === 'string' ? named.name : undefined
}
