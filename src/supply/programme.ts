/** Integer programmes as text in the LP format, and what a solver answers. Whoever calls hands the solver in. */

/** factor · name */
export type Term = readonly [factor: number, name: string]

export interface Row {
  readonly terms: readonly Term[]
  readonly is: '>=' | '<=' | '='
  readonly than: number
}

export interface Variable {
  readonly name: string
  readonly from: number
  /** none is above all */
  readonly to?: number
  readonly whole: boolean
}

/** The least of a sum under rows. */
export interface Programme {
  readonly objective: readonly Term[]
  readonly rows: readonly Row[]
  readonly variables: readonly Variable[]
}

export interface Answer {
  readonly optimal: boolean
  readonly objective: number
  /** nothing is less than this, as the solver proved */
  readonly bound: number
  readonly values: ReadonlyMap<string, number>
}

/** Solves the text of a programme. */
export type Solve = (text: string) => Answer

/** characters; a line of the format holds at most 560 (from memory), and terms stand well below */
const LINE = 200

/**
 * Text of a programme.
 *
 *     Minimize … Subject To … Bounds … General … End; a line is at most 200 characters
 *
 * Validity: names of letters and digits that do not begin with e, numbers that need no exponent.
 * @param programme to be written
 * @returns its text
 * @source lp-format
 */
export function programmeText({ objective, rows, variables }: Programme): string {
  const wholes = variables.filter(({ whole }) => whole).map(({ name }) => name)
  return [
    'Minimize',
    ...wrapped([' cost:', ...sum(objective)]),
    'Subject To',
    ...rows.flatMap(({ terms, is, than }, index) =>
      wrapped([` r${index}:`, ...sum(terms), `${is} ${numeral(than)}`]),
    ),
    'Bounds',
    ...variables.map(({ name, from, to }) =>
      to === undefined ? ` ${name} >= ${numeral(from)}` : ` ${numeral(from)} <= ${name} <= ${numeral(to)}`,
    ),
    ...(wholes.length > 0 ? ['General', ...wrapped(wholes)] : []),
    'End',
    '',
  ].join('\n')
}

const sum = (terms: readonly Term[]): string[] =>
  terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${numeral(Math.abs(factor))} ${name}`)

/** Digits without exponent, at most six of them after the point: amounts are kept to that. */
const numeral = (value: number): string =>
  Number.isInteger(value) ? value.toFixed(0) : value.toFixed(6).replace(/0+$/, '')

const wrapped = (words: readonly string[]): string[] => {
  const lines: string[] = []
  let line = ''
  for (const word of words) {
    if (line !== '' && line.length + 1 + word.length > LINE) {
      lines.push(line)
      line = ''
    }
    line = line === '' && !word.startsWith(' ') ? ` ${word}` : line === '' ? word : `${line} ${word}`
  }
  return [...lines, line]
}
