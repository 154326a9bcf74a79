/** Reads from the calculators' source which findings they may report, how grave, and with which values. */
import { importsOf, type SourceFile } from '../architecture-rules.ts'

export interface FindingCode {
  readonly file: string
  readonly code: string
  readonly severities: readonly string[]
  /** names of the values that come with it */
  readonly values: readonly string[]
}

/** Files that the binder needs, directly or through others. */
export const reachedFrom = (files: readonly SourceFile[], folder: string): SourceFile[] => {
  const byPath = new Map(files.map((file) => [file.path, file]))
  const reached = new Set<string>()
  const walk = (path: string): void => {
    const file = byPath.get(path)
    if (!file || reached.has(path)) return
    reached.add(path)
    for (const { to, outside, typeOnly } of importsOf(file)) if (!outside && !typeOnly) walk(to)
  }
  for (const { path } of files) if (path.startsWith(`${folder}/`)) walk(path)
  return files.filter(({ path }) => reached.has(path))
}

export const findingCodes = (files: readonly SourceFile[]): FindingCode[] =>
  files.flatMap(({ path, text }) => [
    ...literal(path, text),
    ...byComparison(path, text),
    ...byCall(path, text),
  ])

const KEBAB = "'([a-z]+(?:-[a-z]+)+)'"

/** `{ code: 'a-b', severity: …, values: … }`, the code perhaps one of two. */
const literal = (file: string, text: string): FindingCode[] =>
  [...text.matchAll(/\bcode:\s*([^,]+),\s*severity(?::\s*([^\n]*?))?,\s*(?=values)/g)].flatMap((match) => {
    const codes = [...(match[1] ?? '').matchAll(new RegExp(KEBAB, 'g'))].map((found) => found[1] ?? '')
    const said = match[2] ?? /const severity\s*=\s*([^\n]*)/.exec(text)?.[1] ?? ''
    const severities = [...said.matchAll(/'(stop|hold|warn)'/g)].map((found) => found[1] ?? '')
    const values = valuesAt(text, match.index + match[0].length)
    return codes.map((code) => ({ file, code, severities, values }))
  })

/** `less(is, needed, 'code', { more })` and `more(is, allowed, 'code', { more })` of the mould. */
const byComparison = (file: string, text: string): FindingCode[] =>
  [...text.matchAll(/'(mould(?:-[a-z]+)+)'(?!:)(,\s*(?=\{))?/g)]
    .filter((match) => !/code:\s*$/.test(text.slice(0, match.index)))
    .map((match) => {
      const calls = [...text.slice(0, match.index).matchAll(/\b(less|more)\(/g)]
      const limit = calls.at(-1)?.[1] === 'less' ? 'needed' : 'allowed'
      const more = match[2] ? keysOf(text, match.index + match[0].length) : []
      return { file, code: match[1] ?? '', severities: ['stop'], values: ['is', limit, ...more] }
    })

/** `add('code', 'stop', { … })` of the superfat. */
const byCall = (file: string, text: string): FindingCode[] =>
  [...text.matchAll(new RegExp(`\\badd\\(${KEBAB},\\s*'(stop|hold|warn)',\\s*`, 'g'))].map((match) => ({
    file,
    code: match[1] ?? '',
    severities: [match[2] ?? ''],
    values: keysOf(text, match.index + match[0].length),
  }))

const valuesAt = (text: string, at: number): string[] => {
  const rest = text.slice(at)
  if (/^values\s*:\s*\{/.test(rest)) return keysOf(text, at + rest.indexOf('{'))
  const named = /^values\s*:\s*(\w+)/.exec(rest)?.[1] ?? 'values'
  return declared(text, named)
}

const declared = (text: string, name: string): string[] => {
  const match = new RegExp(`const ${name}(?::[^=]*)?\\s*=\\s*(?:\\([^)]*\\)[^=]*=>\\s*\\(?)?(?=\\{)`).exec(
    text,
  )
  return match ? keysOf(text, match.index + match[0].length) : []
}

/** Names in the object literal that begins at a place, with those of the constants that it spreads. */
const keysOf = (text: string, at: number): string[] => {
  let depth = 0
  let end = at
  for (; end < text.length; end += 1) {
    const mark = text[end] ?? ''
    if ('{(['.includes(mark)) depth += 1
    if ('})]'.includes(mark)) depth -= 1
    if (depth === 0) break
  }
  const parts: string[] = []
  let part = ''
  depth = 0
  for (const mark of text.slice(at + 1, end)) {
    if ('{(['.includes(mark)) depth += 1
    if ('})]'.includes(mark)) depth -= 1
    if (mark === ',' && depth === 0) {
      parts.push(part)
      part = ''
    } else part += mark
  }
  return [...parts, part].flatMap((one) => {
    const spread = /^\s*\.\.\.(\w+)/.exec(one)?.[1]
    if (spread) return declared(text, spread)
    const key = /^\s*(\w+)/.exec(one)?.[1]
    return key ? [key] : []
  })
}
