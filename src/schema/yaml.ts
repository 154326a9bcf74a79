/** Reads a file of recipes, batches or fixtures: bytes to typed text in lists and maps, with the place of every part. */
import { EVENT_ID, getScalarValue, parseEvents, SCALAR_STYLE, YAMLException } from 'js-yaml'
import type { Diagnostic, SourceDocument, Span } from '../diagnostics.ts'
import { pointer } from '../diagnostics.ts'
import { decodeText } from './text-bytes.ts'
import { remarksOnPlainText, wordsForSyntaxError } from './yaml-words.ts'

/** Scalars stay as they were typed; undefined where nothing was typed after the colon or dash. */
export type YamlNode = string | undefined | readonly YamlNode[] | { readonly [name: string]: YamlNode }

export type ScalarStyle = 'plain' | 'quoted' | 'block'

export interface YamlDocument extends SourceDocument {
  readonly data: YamlNode
  /** how a text was written; undefined for lists, maps and unknown paths */
  styleOf(path: string): ScalarStyle | undefined
  /** paths with nothing, `~` or `null` after the colon or dash, in the order of the file */
  readonly emptyPaths: readonly string[]
}

export interface YamlRead {
  /** undefined if the text could not be taken apart at all */
  readonly document?: YamlDocument
  /** always there, so that diagnostics can show the text */
  readonly source: SourceDocument
  readonly diagnostics: Diagnostic[]
}

/**
 * Takes a YAML file apart without guessing what its values mean, and never throws.
 *
 * Only what a shop needs is let through: maps, lists and texts, names once each, one document, no tags, no anchors and
 * no aliases, at most 20 levels and 1 MB. All mistakes found are reported together, but of plain syntax errors only the
 * first of a file can be known.
 *
 * @param file   name to report
 * @param bytes  the whole file, UTF-8 with or without a byte-order mark
 * @returns data, places and what is wrong; use the document only if no diagnostic is an error
 * @source common practice
 */
export function readYaml(file: string, bytes: Uint8Array): YamlRead {
  const { text, diagnostics } = decodeText(file, bytes)
  const bare: SourceDocument = { file, text, placeOf: () => undefined }
  if (diagnostics.length > 0) return { source: bare, diagnostics }
  try {
    const events = parseEvents(text, { maxDepth: DEEPEST })
    if (events.length === 0) return { source: bare, diagnostics: [emptyFile(file)] }
    const walk = walkEvents(file, text, events)
    const { places } = walk
    const document: YamlDocument = {
      file,
      text,
      data: walk.data,
      placeOf: (path, at) => places.get(path)?.[at],
      styleOf: (path) => places.get(path)?.style,
      emptyPaths: walk.emptyPaths,
    }
    return { document, source: document, diagnostics: walk.diagnostics }
  } catch (error) {
    const mark = error instanceof YAMLException ? error.mark?.position : undefined
    const reason = error instanceof YAMLException ? error.reason : ''
    return { source: bare, diagnostics: [wordsForSyntaxError({ file, text, reason, position: mark ?? 0 })] }
  }
}

interface Place {
  value?: Span
  key?: Span
  style?: ScalarStyle
}

interface Walk {
  readonly data: YamlNode
  readonly places: ReadonlyMap<string, Place>
  readonly emptyPaths: readonly string[]
  readonly diagnostics: Diagnostic[]
}

type YamlEvent = ReturnType<typeof parseEvents>[number]
type ScalarEvent = Extract<YamlEvent, { valueStart: number }>

const DEEPEST = 20 // levels; a recipe has about five; common practice
const FORBIDDEN_NAMES: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])
const ODD_SPACE = /[\u00a0\u1680\u2000-\u200d\u202f\u205f\u3000\ufeff]/

/** One walk over the flat events, which gives data, places and all complaints about structure. */
function walkEvents(file: string, text: string, events: readonly YamlEvent[]): Walk {
  const places = new Map<string, Place>()
  const emptyPaths: string[] = []
  const diagnostics: Diagnostic[] = []
  let next = 0
  let documents = 0
  /** end of the last name or text that was read, which is also the end of the list or map it closes */
  let lastEnd = 0
  let data: YamlNode

  const complain = (code: string, path: string, range: Span, message: string, advice: string): void => {
    diagnostics.push({ severity: 'error', code, file, path, range, message, advice })
  }
  const place = (path: string): Place => {
    const known = places.get(path) ?? {}
    places.set(path, known)
    return known
  }
  const checkExtras = (path: string, event: YamlEvent): void => {
    if ('tagStart' in event && event.tagStart >= 0)
      complain(
        'tag-not-allowed',
        path,
        [event.tagStart, event.tagEnd],
        'a word with ! in front cannot stand here',
        QUOTE_IT,
      )
    if ('anchorStart' in event && event.anchorStart >= 0) complainOfReference(path, event)
  }
  /** Once a file: whoever uses references uses many. */
  const complainOfReference = (path: string, event: { anchorStart: number; anchorEnd: number }): void => {
    if (!diagnostics.some(({ code }) => code === 'reference-not-allowed'))
      complain(
        'reference-not-allowed',
        path,
        [event.anchorStart - 1, event.anchorEnd],
        REFERENCE,
        REFERENCE_ADVICE,
      )
  }

  const scalar = (path: string, event: ScalarEvent): YamlNode => {
    const style = styleOf(event)
    if (event.valueStart < 0) {
      emptyPaths.push(path)
      return undefined
    }
    const span: Span = [event.valueStart, event.valueEnd]
    lastEnd = event.valueEnd
    Object.assign(place(path), { value: span, style })
    const value = getScalarValue(text, event)
    if (style !== 'plain') return value
    diagnostics.push(...remarksOnPlainText({ file, text, path, span, value }))
    if (value !== '~' && !/^null$/i.test(value)) return value
    emptyPaths.push(path)
    return undefined
  }

  const list = (path: string, start: number): YamlNode => {
    const items: YamlNode[] = []
    lastEnd = start + 1
    while (events[next]?.type !== EVENT_ID.POP) items.push(node(`${path}/${items.length}`))
    next += 1
    place(path).value = [start, lastEnd]
    return items
  }

  const map = (path: string, start: number): YamlNode => {
    const entries: Record<string, YamlNode> = Object.create(null)
    lastEnd = start + 1
    while (events[next]?.type !== EVENT_ID.POP) entry(path, entries)
    next += 1
    place(path).value = [start, lastEnd]
    return entries
  }

  const entry = (path: string, entries: Record<string, YamlNode>): void => {
    const event = events[next] as YamlEvent
    if (event.type !== EVENT_ID.SCALAR) {
      const range: Span = 'start' in event ? [event.start, event.start + 1] : [0, 0]
      complain('name-not-text', path, range, 'a list or map stands where a name belongs', NAME_ADVICE)
      skip()
      skip()
      return
    }
    next += 1
    checkExtras(path, event)
    const name = event.valueStart < 0 ? '' : getScalarValue(text, event)
    const range: Span = [Math.max(0, event.valueStart), Math.max(1, event.valueEnd)]
    const own = path + pointer([name])
    const fault = nameFault(name)
    const first = places.get(own)?.key
    if (fault !== undefined) complain(fault.code, NOWHERE, range, fault.message, fault.advice)
    else if (first !== undefined)
      diagnostics.push({
        severity: 'error',
        code: 'duplicate-name',
        file,
        path: NOWHERE,
        range,
        message: `"${name}" is given twice`,
        advice: 'Keep one of the two.',
        related: [{ file, path: own, message: 'first given here', at: 'key' }],
      })
    if (fault !== undefined || first !== undefined) {
      skip()
      return
    }
    place(own).key = range
    lastEnd = range[1]
    entries[name] = node(own)
  }

  const node = (path: string): YamlNode => {
    const event = events[next] as YamlEvent
    next += 1
    if (event.type === EVENT_ID.ALIAS) {
      complainOfReference(path, event)
      return undefined
    }
    checkExtras(path, event)
    if (event.type === EVENT_ID.SCALAR) return scalar(path, event)
    if (event.type === EVENT_ID.SEQUENCE) return list(path, event.start)
    return event.type === EVENT_ID.MAPPING ? map(path, event.start) : undefined
  }

  /** Passes over a part whose data is not wanted. */
  const skip = (): void => {
    let depth = 0
    do {
      const type = events[next]?.type
      next += 1
      if (type === EVENT_ID.POP) depth -= 1
      else if (type === EVENT_ID.SEQUENCE || type === EVENT_ID.MAPPING) depth += 1
    } while (depth > 0)
  }

  while (next < events.length) {
    documents += 1
    next += 1
    if (documents === 1) data = node('')
    else skipDocument()
    next += 1
  }
  return { data, places, emptyPaths, diagnostics }

  function skipDocument(): void {
    const start = events.slice(next).find((event) => 'start' in event || 'valueStart' in event)
    const from =
      start === undefined
        ? -1
        : 'start' in start
          ? start.start
          : 'valueStart' in start
            ? start.valueStart
            : -1
    const line = from < 0 ? text.lastIndexOf('---') : text.lastIndexOf('---', from)
    if (documents === 2)
      complain(
        'second-document',
        '',
        [Math.max(0, line), Math.max(0, line) + 3],
        SECOND,
        'Put it into a file of its own, or delete the line.',
      )
    skip()
  }
}

function styleOf(event: ScalarEvent): ScalarStyle {
  if (event.style === SCALAR_STYLE.PLAIN) return 'plain'
  return event.style === SCALAR_STYLE.LITERAL_BLOCK || event.style === SCALAR_STYLE.FOLDED_BLOCK
    ? 'block'
    : 'quoted'
}

function nameFault(name: string): { code: string; message: string; advice: string } | undefined {
  if (name === '')
    return { code: 'name-missing', message: 'no name stands before the colon', advice: NAME_ADVICE }
  if (FORBIDDEN_NAMES.has(name))
    return { code: 'name-forbidden', message: `"${name}" cannot be a name`, advice: 'Choose another name.' }
  if (ODD_SPACE.test(name))
    return {
      code: 'odd-space',
      message: 'a space that is not an ordinary one stands before the colon',
      advice: 'Delete the spaces of this line and type them again. They often come along with copied text.',
    }
  return undefined
}

/** A path that no document has, so that the given range is used. */
const NOWHERE = ''
const QUOTE_IT = 'Put quotes round the text if it begins with !, for example "!note".'
const REFERENCE = 'this would repeat another part of the file, which is not done here'
const REFERENCE_ADVICE =
  'Write the part out again. If the text is meant to begin with & or *, put quotes round it.'
const NAME_ADVICE = 'Write a name, a colon, a space and the value, for example "mass: 450 g".'
const SECOND = 'a second document begins at this line'

const emptyFile = (file: string): Diagnostic => ({
  severity: 'error',
  code: 'file-empty',
  file,
  path: '',
  message: 'there is nothing in this file',
  advice: 'Write its content, or delete the file. Lines that begin with # are remarks and do not count.',
})
