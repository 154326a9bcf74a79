/** Checks a file's content against a zod schema and puts every complaint into plain words at its place. */
import type { z } from 'zod'
import type { Diagnostic } from '../diagnostics.ts'
import { pointer } from '../diagnostics.ts'
import { didYouMean } from '../units/spelling.ts'
import { exampleOf, namesAllowedAt, schemaAt, valueBelow } from './schema-walk.ts'
import type { YamlDocument, YamlNode } from './yaml.ts'

export interface Decoded<Value> {
  /** undefined as soon as there is one error */
  readonly value?: Value
  readonly diagnostics: Diagnostic[]
}

/**
 * Turns a file's text into checked values; all mistakes are reported in one run.
 *
 * @param document  from readYaml
 * @param schema    built from fields.ts; maps as z.strictObject so that unknown names are found
 * @returns the value, or what is wrong with it
 * @source common practice
 */
export function decode<Value>(document: YamlDocument, schema: z.ZodType<Value>): Decoded<Value> {
  const result = schema.safeParse(document.data)
  const issues = result.success ? [] : result.error.issues
  const found = issues.flatMap((issue) => explain({ document, schema }, issue, issue.path))
  const unknown = found.filter(({ code }) => code === 'name-unknown').map(({ path }) => path)
  const empty = document.emptyPaths
    .filter((path) => !unknown.some((above) => path === above || path.startsWith(`${above}/`)))
    .map((path) => nothingGiven({ document, schema }, path))
  const diagnostics = [...found, ...empty]
  return result.success && diagnostics.length === 0 ? { value: result.data, diagnostics } : { diagnostics }
}

type Issue = z.core.$ZodIssue
type Path = readonly PropertyKey[]

interface Context {
  readonly document: YamlDocument
  readonly schema: z.ZodType
}

interface Words {
  readonly code: string
  readonly message: string
  readonly advice: string
}

function explain(context: Context, issue: Issue, path: Path): Diagnostic[] {
  const { document } = context
  const error = (words: Words, place: Path = path, at: 'value' | 'key' = 'value'): Diagnostic[] => [
    { severity: 'error', file: document.file, path: pointer(place), at, ...words },
  ]
  const given = nodeAt(document.data, path)
  if (given === undefined && issue.code !== 'custom') {
    // Nothing after the colon is reported from the list of empty places, a refused part by readYaml, a misspelt
    // name as unknown.
    if (isPresent(document.data, path) || isMisspelt(context, path)) return []
    return error(missing(context, path), path.slice(0, -1), 'key')
  }
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.flatMap((key) => error(unknownName(context, path, key), [...path, key], 'key'))
    case 'invalid_type':
      return error(wrongShape(context, path, issue.expected, given))
    case 'invalid_value':
      return typeof given === 'string'
        ? error(notOneOf(given, issue.values.map(String)))
        : error(wrongShape(context, path, 'string', given))
    case 'too_small':
    case 'too_big':
      // Texts have a length too, but theirs is checked by their own fields: here the shape is what is wrong.
      return typeof given === 'string' ? [] : error(wrongCount(issue, given))
    case 'invalid_key':
      return error(ofCustom(issue.issues[0], context, path), path, 'key')
    case 'invalid_union':
      return explainUnion(context, issue, path)
    case 'custom':
      return error(ofCustom(issue, context, path), path, issue.params?.at ?? 'value')
    default:
      return error(notAllowed(context, path))
  }
}

/** Of several allowed forms the one meant is that whose complaints lie deepest, then the one with the fewest. */
function explainUnion(context: Context, issue: z.core.$ZodIssueInvalidUnion, path: Path): Diagnostic[] {
  const given = nodeAt(context.document.data, path)
  if (issue.discriminator !== undefined) {
    const options = (issue as { options?: readonly unknown[] }).options?.map(String) ?? []
    const words =
      typeof given === 'string' ? notOneOf(given, options) : wrongShape(context, path, 'object', given)
    return [{ severity: 'error', file: context.document.file, path: pointer(path), at: 'value', ...words }]
  }
  const depth = (issues: readonly Issue[]): number => Math.max(0, ...issues.map((each) => each.path.length))
  const [best] = [...issue.errors].sort((a, b) => depth(b) - depth(a) || a.length - b.length)
  if (best === undefined)
    return [
      { severity: 'error', file: context.document.file, path: pointer(path), ...notAllowed(context, path) },
    ]
  return best.flatMap((each) => explain(context, each, [...path, ...each.path]))
}

function missing(context: Context, path: Path): Words {
  const key = String(path.at(-1) ?? '')
  if (path.length === 0) return notAllowed(context, path)
  const example = exampleOf(schemaAt(context.schema, path, context.document.data))
  return {
    code: 'name-missing',
    message: `"${key}" is missing here`,
    advice:
      example === undefined
        ? `Add a line that begins with "${key}:".`
        : `Add a line such as "${key}: ${example}".`,
  }
}

function nothingGiven({ document, schema }: Context, path: string): Diagnostic {
  const segments = segmentsOf(path)
  const last = String(segments.at(-1) ?? '')
  const inList = Array.isArray(nodeAt(document.data, segments.slice(0, -1)))
  const example = exampleOf(schemaAt(schema, segments, document.data))
  const what = example === undefined ? 'Write a value' : `Write a value, for example "${example}"`
  return {
    severity: 'error',
    code: 'value-missing',
    file: document.file,
    path,
    at: 'key',
    message: inList ? 'nothing is given after the dash' : `nothing is given after "${last}:"`,
    advice: `${what}, or delete the line. A text that begins with # needs quotes.`,
  }
}

function unknownName(context: Context, path: Path, key: string): Words {
  const allowed = namesAllowedAt(context.schema, path, context.document.data)
  const near = nameMeant(context, path, key)
  const list = `Names known here: ${allowed.join(', ')}.`
  return {
    code: 'name-unknown',
    message: `"${key}" is not known here`,
    advice: near === undefined ? list : `Did you mean "${near}"?`,
  }
}

/** The allowed name that an unknown one was meant to be, of those that are not given already. */
function nameMeant({ document, schema }: Context, path: Path, key: string): string | undefined {
  const allowed = namesAllowedAt(schema, path, document.data)
  // asked name by name: a file may give thousands of them
  return didYouMean(
    key,
    allowed.filter((each) => !isPresent(document.data, [...path, each])),
  )
}

/** True for a missing name that stands there misspelt. */
function isMisspelt(context: Context, path: Path): boolean {
  const above = path.slice(0, -1)
  const allowed = namesAllowedAt(context.schema, above, context.document.data)
  return namesGivenAt(context.document.data, above).some(
    (key) => !allowed.includes(key) && nameMeant(context, above, key) === path.at(-1),
  )
}

const namesGivenAt = (data: YamlNode, path: Path): string[] => {
  const node = nodeAt(data, path)
  return typeof node === 'object' && !Array.isArray(node) ? Object.keys(node) : []
}

function notOneOf(given: string, allowed: readonly string[]): Words {
  const near = didYouMean(given.trim(), allowed)
  return {
    code: 'word-not-allowed',
    message: `"${given}" is not one of the words allowed here`,
    advice: `${near === undefined ? '' : `Did you mean "${near}"? `}Allowed: ${allowed.join(', ')}.`,
  }
}

function wrongShape(context: Context, path: Path, expected: string, given: YamlNode): Words {
  const is =
    typeof given === 'string' ? 'a text' : Array.isArray(given) ? 'a list' : 'a group of names and values'
  if (expected === 'array')
    return {
      code: 'list-expected',
      message: `a list belongs here, but this is ${is}`,
      advice:
        typeof given === 'string' && given.startsWith('-')
          ? 'Put a space after each dash.'
          : 'Write each entry on a line of its own that begins with a dash and a space.',
    }
  if (expected === 'object' || expected === 'record') {
    if (typeof given === 'string' && /^[^\s:]+:\S/.test(given))
      return {
        code: 'space-after-colon',
        message: 'there is no space after the colon',
        advice: 'Put a space between the colon and the value, for example "mass: 450 g".',
      }
    const names = namesAllowedAt(context.schema, path, context.document.data)
    return {
      code: 'names-expected',
      message: `names with values belong here, but this is ${is}`,
      advice: `Write lines such as "name: value"${path.length === 0 ? '' : ', indented below this one'}.${
        names.length === 0 ? '' : ` Names known here: ${names.join(', ')}.`
      }`,
    }
  }
  const example = exampleOf(schemaAt(context.schema, path, context.document.data))
  return {
    code: 'text-expected',
    message: `a single value belongs here, but this is ${is}`,
    advice:
      example === undefined
        ? 'Write one value after the colon.'
        : `Write one value after the colon, for example "${example}".`,
  }
}

function wrongCount(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig, given: YamlNode): Words {
  const has = Array.isArray(given) ? given.length : Object.keys(Object(given)).length
  const limit = issue.code === 'too_small' ? `at least ${issue.minimum}` : `at most ${issue.maximum}`
  return {
    code: issue.code === 'too_small' ? 'too-few' : 'too-many',
    message: `there ${has === 1 ? 'is 1 entry' : `are ${has} entries`} here; it must be ${limit}`,
    advice: issue.code === 'too_small' ? 'Add what is missing.' : 'Take some out.',
  }
}

function ofCustom(issue: Issue | undefined, context: Context, path: Path): Words {
  if (issue?.code !== 'custom' || typeof issue.params?.code !== 'string') return notAllowed(context, path)
  return { code: issue.params.code, message: issue.message, advice: String(issue.params.advice ?? '') }
}

function notAllowed(context: Context, path: Path): Words {
  const example = exampleOf(schemaAt(context.schema, path, context.document.data))
  return {
    code: 'value-not-allowed',
    message: 'this is not allowed here',
    advice:
      example === undefined ? 'Compare it with a file that works.' : `An allowed value is "${example}".`,
  }
}

const segmentsOf = (path: string): string[] =>
  path === ''
    ? []
    : path
        .slice(1)
        .split('/')
        .map((each) => each.replaceAll('~1', '/').replaceAll('~0', '~'))

const nodeAt = (data: YamlNode, path: Path): YamlNode => path.reduce(valueBelow, data as unknown) as YamlNode

function isPresent(data: YamlNode, path: Path): boolean {
  const parent: unknown = nodeAt(data, path.slice(0, -1))
  const last = path.at(-1)
  return last === undefined || (typeof parent === 'object' && parent !== null && Object.hasOwn(parent, last))
}
