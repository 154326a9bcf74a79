/** What is wrong with a file, as data, and its rendering for a terminal. Knows text and places, nothing of the trade. */
import pc from 'picocolors'
import { codeFrame, lineStarts, placeInLines } from './diagnostics/frame.ts'
import { visibleText } from './diagnostics/visible.ts'

export type Span = readonly [start: number, end: number]

export interface SourceDocument {
  readonly file: string
  readonly text: string
  /** character offsets of a path's value or key; undefined if the path has none of its own */
  placeOf(path: string, at: 'value' | 'key'): Span | undefined
}

export interface RelatedPlace {
  readonly file: string
  readonly path: string
  readonly message: string
  readonly at?: 'value' | 'key'
}

export interface Diagnostic {
  readonly severity: 'error' | 'warning'
  /** kebab-case, one a mistake */
  readonly code: string
  readonly file: string
  /** JSON pointer such as `/fats/0/mass`; `''` for the whole file */
  readonly path: string
  /** states what is wrong */
  readonly message: string
  /** tells what to do */
  readonly advice: string
  /** whether the value (usual) or the name before the colon is marked */
  readonly at?: 'value' | 'key'
  /** character offsets, more exact than the place of the path */
  readonly range?: Span
  readonly related?: readonly RelatedPlace[]
}

/** What paints text on a terminal, or leaves it as it is. */
export type Colours = ReturnType<typeof coloursFor>

/** @param wanted by whoever reads */
export const coloursFor = (wanted: boolean) => pc.createColors(wanted)

/**
 * Writes diagnostics for a person to read, sorted by file and place, with the lines they are about.
 *
 * No control character or direction mark of a file reaches the terminal: all are shown as visible signs.
 *
 * @param diagnostics  in any order
 * @param sources      texts by file name; a file without one gets no frame
 * @param options      `colour`: whether to put colour codes in
 * @returns lines ending in a line feed, the last one a count; empty if there is nothing to say
 * @source common practice
 */
export function renderDiagnostics(
  diagnostics: readonly Diagnostic[],
  sources: ReadonlyMap<string, SourceDocument>,
  options: { readonly colour: boolean },
): string {
  if (diagnostics.length === 0) return ''
  const colours = coloursFor(options.colour)
  const starts = new Map<string, readonly number[]>()
  const locate = (file: string, path: string, at: 'value' | 'key', range?: Span): Located => {
    const source = sources.get(file)
    const span = source && spanOf(source, path, at, range)
    if (source === undefined || span === undefined) return { file, offset: -1, label: visibleText(file) }
    const lines = starts.get(file) ?? lineStarts(source.text)
    starts.set(file, lines)
    const { line, column } = placeInLines(source.text, lines, span[0])
    return {
      file,
      offset: span[0],
      label: `${visibleText(file)}:${line}:${column}`,
      frame: codeFrame(source.text, lines, span),
    }
  }
  const blocks = diagnostics
    .map((each) => ({ ...each, place: locate(each.file, each.path, each.at ?? 'value', each.range) }))
    .sort((a, b) => compareText(a.file, b.file) || a.place.offset - b.place.offset)
    .map(({ severity, code, message, advice, related = [], place }) => {
      const paint = severity === 'error' ? colours.red : colours.yellow
      const others = related.map((each) => {
        const there = locate(each.file, each.path, each.at ?? 'value')
        return `${there.label}  ${visibleText(each.message)}\n${there.frame === undefined ? '' : `\n${frameText(there.frame, colours.cyan)}\n`}`
      })
      return [
        `${colours.bold(place.label)}  ${paint(severity)}  ${visibleText(code)}\n${capitalised(visibleText(message))}\n`,
        place.frame === undefined ? '' : `${frameText(place.frame, paint)}\n`,
        advice === '' ? '' : `${advice.split('\n').map(visibleText).join('\n')}\n`,
        ...others,
      ]
        .filter((part) => part !== '')
        .join('\n')
    })
  return `${blocks.join('\n')}\n${countLine(diagnostics)}\n`
}

/** True when any diagnostic forbids going on. */
/** Line on which a path's name or value stands, counted from 1; undefined for what the document does not write. */
export const lineOf = (document: SourceDocument, path: string): number | undefined => {
  const span = document.placeOf(path, 'key') ?? document.placeOf(path, 'value')
  return span && placeInLines(document.text, lineStarts(document.text), span[0]).line
}

export const hasErrors = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some(({ severity }) => severity === 'error')

/**
 * JSON pointer of a path into a document.
 *
 * @param segments  names and list positions (from 0) from the top down
 * @returns for example `/fats/0/mass`; empty for no segments
 * @source common practice
 */
export const pointer = (segments: readonly PropertyKey[]): string =>
  segments.map((each) => `/${String(each).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')

const capitalised = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1)

interface Located {
  readonly file: string
  readonly offset: number
  readonly label: string
  readonly frame?: Frame
}

type Frame = ReturnType<typeof codeFrame>

const frameText = (frame: Frame, paint: (text: string) => string): string =>
  frame.map(({ text, marks }) => (marks ? paint(text) : text)).join('\n')

/** The given range, else the place of the path itself, else that of the closest parent with one. */
function spanOf(source: SourceDocument, path: string, at: 'value' | 'key', range?: Span): Span | undefined {
  if (range !== undefined) return range
  const other = at === 'key' ? 'value' : 'key'
  const own = path === '' ? undefined : (source.placeOf(path, at) ?? source.placeOf(path, other))
  if (own !== undefined) return own
  for (let up = path; up !== ''; ) {
    up = up.slice(0, up.lastIndexOf('/'))
    const place = up === '' ? undefined : (source.placeOf(up, 'key') ?? source.placeOf(up, 'value'))
    if (place !== undefined) return place
  }
  return undefined
}

/** By code unit, so that the order is the same on every machine. */
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

function countLine(diagnostics: readonly Diagnostic[]): string {
  const errors = diagnostics.filter(({ severity }) => severity === 'error').length
  const warnings = diagnostics.length - errors
  const counts = [counted(errors, 'error'), counted(warnings, 'warning')].filter((text) => text !== '')
  return `${counts.join(', ')}.${errors > 0 ? ' Nothing was written.' : ''}`
}

const counted = (count: number, noun: string): string =>
  count === 0 ? '' : `${count} ${noun}${count === 1 ? '' : 's'}`
