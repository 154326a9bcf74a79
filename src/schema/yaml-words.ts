/** Says in plain words what the YAML parser could not read, and warns of text that it reads otherwise than it was meant. */
import type { Diagnostic, Span } from '../diagnostics.ts'

interface SyntaxFault {
  readonly file: string
  readonly text: string
  /** the parser's own words */
  readonly reason: string
  /** [–] offset at which the parser gave up */
  readonly position: number
}

interface PlainText {
  readonly file: string
  readonly text: string
  readonly path: string
  readonly span: Span
  readonly value: string
}

interface Words {
  readonly code: string
  readonly message: string
  readonly advice: string
  readonly range: Span
}

/**
 * Plain words for the place where a file stops being YAML.
 *
 * @param fault  text, offset and the parser's reason
 * @returns one error with a range
 * @source common practice
 */
export function wordsForSyntaxError(fault: SyntaxFault): Diagnostic {
  const { file, text, reason, position } = fault
  const line = lineAround(text, position)
  const words = wordsForCharacter(text, position, reason) ??
    wordsForTab(text, line, reason) ??
    wordsForQuote(text, line, position, reason) ??
    wordsForDepth(reason, position) ??
    wordsForFlow(text, position, reason) ??
    wordsForLine(text, line, position) ?? {
      code: 'yaml-syntax',
      message: 'this part of the file cannot be read',
      advice:
        'Compare the marked line and the one before it with a file that works: names, colons, spaces, dashes, quotes.',
      range: [position, position + 1] as const,
    }
  return { severity: 'error', file, path: '', ...words }
}

/**
 * Remarks on unquoted text that YAML takes otherwise than a person would.
 *
 * @param plain  the text, its place and the whole file
 * @returns errors and warnings, often none
 * @source common practice
 */
export function remarksOnPlainText({ file, text, path, span, value }: PlainText): Diagnostic[] {
  const found: Diagnostic[] = []
  if (/^[\u201c\u201d\u201e\u2018\u2019\u00ab]/.test(value))
    found.push({
      severity: 'error',
      code: 'curly-quotes',
      file,
      path,
      message: 'the text begins with a curly quote, which would be printed',
      advice: `Use straight quotes, " or ', or none.`,
    })
  const typed = text.slice(...span)
  if (/[\r\n]\s*- /.test(typed))
    found.push({
      severity: 'error',
      code: 'list-indent',
      file,
      path,
      message: 'this text goes on with a dash in the next line, so the dash would be part of the text',
      advice: 'Put the dashes of one list exactly under each other.',
    })
  const after = text.slice(span[1], span[1] + 80).split(/[\r\n]/)[0] ?? ''
  const hash = /^[ \t]+#[^\s#]/.exec(after)
  if (hash !== null)
    found.push({
      severity: 'warning',
      code: 'hash-in-text',
      file,
      path,
      message: 'everything after # is taken as a remark and left out',
      advice:
        'If it belongs to the text, put quotes round the whole text. If it is a remark, put a space after the #.',
    })
  return found
}

/** Offsets of the line that holds a place, without its line end. */
function lineAround(text: string, position: number): Span {
  const start = Math.max(text.lastIndexOf('\n', position - 1), text.lastIndexOf('\r', position - 1)) + 1
  const rest = text.slice(start).search(/[\r\n]/)
  return [start, rest < 0 ? text.length : start + rest]
}

function wordsForCharacter(text: string, position: number, reason: string): Words | undefined {
  if (!/non-printable|null byte|valid JSON character/.test(reason)) return undefined
  const ahead = text.slice(position).search(/[^\P{Cc}\t\n\r\u0085]|[\ufffe\uffff]/u)
  const place = position + Math.max(0, ahead)
  const code = (text.codePointAt(place) ?? 0).toString(16).toUpperCase().padStart(4, '0')
  return {
    code: 'control-character',
    message: `there is a character here that cannot be printed (U+${code})`,
    advice: 'Delete it. It often comes along with copied text.',
    range: [place, place + 1],
  }
}

function wordsForTab(text: string, line: Span, reason: string): Words | undefined {
  const indent = /^[ ]*\t+/.exec(text.slice(...line))
  if (indent === null && !/tab characters/.test(reason)) return undefined
  const start = line[0] + (indent?.[0].indexOf('\t') ?? 0)
  return {
    code: 'tab-indent',
    message: 'this line is indented with a tab',
    advice: 'Use spaces instead, two for each level. Many editors can do that for the Tab key.',
    range: [start, start + 1],
  }
}

function wordsForQuote(text: string, line: Span, position: number, reason: string): Words | undefined {
  if (/escape|hexadecimal/.test(reason))
    return {
      code: 'backslash',
      message: 'a backslash in double quotes has a special meaning, and this one has none',
      advice: `Use single quotes ('), or type the backslash twice.`,
      range: [Math.max(0, position - 1), position + 1],
    }
  const opened = openQuote(text, position)
  if (/quoted scalar/.test(reason) || (/deficient indentation/.test(reason) && opened !== undefined)) {
    const place = opened ?? position
    return {
      code: 'quote-not-closed',
      message: 'the quote that begins here does not end',
      advice: 'Put the same quote mark at the end of the text. For inches write "in".',
      range: [place, place + 1],
    }
  }
  const before = text.slice(line[0], position).trimEnd()
  if (/["']$/.test(before) && /:\s+["'].*["']$|- ["'].*["']$/.test(before))
    return {
      code: 'text-after-quote',
      message: 'there is more text after the closing quote',
      advice: 'Put the whole text between the quotes, or leave the quotes out.',
      range: [position, Math.max(position + 1, line[1])],
    }
  return undefined
}

/** The last value before a place that begins with a quote and does not end with it on its line. */
function openQuote(text: string, position: number): number | undefined {
  const begun = [...text.slice(0, position).matchAll(/(?:: +|- +|[[{,] *)(["'])/g)].at(-1)
  if (begun?.[1] === undefined) return undefined
  const place = begun.index + begun[0].length - 1
  return text.slice(place + 1, position).includes(begun[1]) ? undefined : place
}

const wordsForDepth = (reason: string, position: number): Words | undefined =>
  /maxDepth/.test(reason)
    ? {
        code: 'nested-too-deep',
        message: 'lists and maps are nested too deep here',
        advice: 'Check the indentation, and brackets such as [ and {.',
        range: [position, position + 1],
      }
    : undefined

function wordsForFlow(text: string, position: number, reason: string): Words | undefined {
  if (/missed comma/.test(reason))
    return {
      code: 'comma-missing',
      message: 'a comma is missing between two entries in brackets',
      advice: 'Put a comma and a space between them.',
      range: [position, position + 1],
    }
  if (!/flow collection|deficient indentation|node content/.test(reason)) return undefined
  const open = Math.max(text.lastIndexOf('[', position - 1), text.lastIndexOf('{', position - 1))
  const place = open < 0 ? position : open
  return {
    code: 'bracket-not-closed',
    message: 'the bracket that begins here does not end, or what stands in it is not a list',
    advice:
      'Close it with ] or }, with commas between the entries. If it belongs to a text, put quotes round the text.',
    range: [place, place + 1],
  }
}

/** What is wrong with a line whose parts do not fit together. */
function wordsForLine(text: string, line: Span, position: number): Words | undefined {
  const typed = text.slice(...line)
  const special = /^(\s*(?:- +)*(?:[^\s:#][^:]*: +)?)([@`%&*!|>])/.exec(typed)
  if (special !== null && special[1] !== undefined && special[2] !== undefined) {
    const place = line[0] + special[1].length
    return {
      code: 'quotes-needed',
      message: `a text cannot begin with ${special[2]} unless it is in quotes`,
      advice: 'Put quotes round the whole text.',
      range: [place, place + 1],
    }
  }
  const secondColon = /^\s*(?:- +)*[^\s:#"'][^:]*:\s+[^\s"'[{].*?(:)(?:\s|$)/.exec(typed)
  if (secondColon !== null) {
    const place = line[0] + secondColon[0].lastIndexOf(':')
    const curly = /:\s+([\u201c\u201d\u201e\u2018\u2019\u00ab])/.exec(typed)
    if (curly?.[1] !== undefined) {
      const quote = line[0] + curly.index + curly[0].length - 1
      return {
        code: 'curly-quotes',
        message: 'this text is in curly quotes, which do not count as quotes here',
        advice: `Use straight quotes, " or ', since there is a colon in the text.`,
        range: [quote, quote + 1],
      }
    }
    return {
      code: 'colon-in-text',
      message: 'this line has a second colon followed by a space',
      advice: 'If the colon belongs to the text, put quotes round the whole text.',
      range: [place, place + 1],
    }
  }
  const previous = line[0] > 0 ? lineAround(text, line[0] - 1) : undefined
  for (const each of [line, previous]) {
    const stuck = each && /^\s*(?:- +)?[\p{L}][\p{L}\d _-]*:(?=[^\s:/])/u.exec(text.slice(...each))
    if (each && stuck) {
      const place = each[0] + stuck[0].length - 1
      return { ...SPACE_MISSING, range: [place, place + 1] }
    }
  }
  for (const each of [line, previous]) {
    const words = text.slice(...(each ?? [0, 0]))
    if (each === undefined || !/^\s*(?:- +)?[^\s:#-][^:]*$/.test(words)) continue
    return {
      code: 'colon-missing',
      message: 'this line has no colon after a name',
      advice:
        'Write a name, a colon, a space and the value. A text over several lines needs quotes or deeper indentation.',
      range: [each[0] + (words.length - words.trimStart().length), each[1]],
    }
  }
  const start = line[0] + (typed.length - typed.trimStart().length)
  return {
    code: 'indentation',
    message: 'this line is not indented like the lines it belongs to',
    advice: 'Lines of one level begin exactly under each other, with two spaces more for each level below.',
    range: [Math.min(start, position), Math.max(position + 1, line[1])],
  }
}

const SPACE_MISSING = {
  code: 'space-after-colon',
  message: 'there is no space after the colon',
  advice: 'Put a space between the colon and the value, for example "mass: 450 g".',
}
