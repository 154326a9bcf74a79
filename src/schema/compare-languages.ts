/** What the words of one language have and those of another do not: phrases, sheets, placeholders. */
import type { Diagnostic, Span } from '../diagnostics.ts'

export interface TextEntry {
  readonly text: string
  /** as messages name it */
  readonly file: string
  /** below the language's folder */
  readonly below: string
  /** in its file; the whole file where it is a sheet */
  readonly path: string
}

export interface TextFile {
  readonly below: string
  /** one that could not be read lacks nothing on top of that */
  readonly isRead: boolean
}

export interface LanguageText {
  readonly language: string
  /** its folder, as messages name it */
  readonly shown: string
  readonly files: readonly TextFile[]
  /** by their keys */
  readonly phrases: ReadonlyMap<string, TextEntry>
  /** by the kind of their sheets */
  readonly templates: ReadonlyMap<string, TextEntry>
}

/**
 * Everything that a language lacks, or has too much.
 *
 *     keys, and of each key the placeholders, bold pairs, boxes and headings, as often as the first language has them
 *
 * @param of    the language
 * @param first the one that says what there has to be
 * @returns a diagnostic for each file that lacks words, and one for each text that is not built like its first
 * @source common practice
 */
export const lacking = (of: LanguageText, first: LanguageText): Diagnostic[] => {
  const unread = new Set(of.files.flatMap(({ below, isRead }) => (isRead ? [] : [below])))
  const here = new Set(of.files.map(({ below }) => below))
  const missing = new Map<string, string[]>()
  for (const part of ['phrases', 'templates'] as const)
    for (const [key, { below }] of first[part])
      if (!of[part].has(key) && !unread.has(below)) missing.set(below, [...(missing.get(below) ?? []), key])
  const error = (one: Omit<Diagnostic, 'severity'>): Diagnostic => ({ severity: 'error', ...one })
  return [
    ...[...missing].map(([below, keys]) => {
      const file = `${of.shown}/${below}`
      const origin = `${first.shown}/${below}`
      return here.has(below)
        ? error({
            code: 'text-missing',
            file,
            path: '',
            message: `${counted(keys.length, 'phrase')} of ${first.language} ${keys.length === 1 ? 'is' : 'are'} missing here: ${keys.join(', ')}`,
            advice: `Take each from ${origin} and translate it.`,
          })
        : error({
            code: 'text-missing',
            file,
            path: '',
            message: 'This file is missing',
            advice: `Copy ${origin} there and translate it.`,
          })
    }),
    ...(['phrases', 'templates'] as const).flatMap((part) =>
      [...of[part]].flatMap(([key, entry]): Diagnostic[] => {
        const { file, path } = entry
        const origin = first[part].get(key)
        if (!origin)
          return [
            error({
              code: 'text-unknown',
              file,
              path,
              at: 'key',
              message: part === 'phrases' ? `Nothing says "${key}"` : `No kind of sheet is called "${key}"`,
              advice: `Take it out, or mend its name: ${first.shown} has what is said.`,
            }),
          ]
        const parts = unlike(entry.text, origin.text)
        if (parts.length === 0) return []
        const range = parts.find((one) => one.range)?.range
        return [
          error({
            code: 'text-placeholder',
            file,
            path,
            message: `${part === 'phrases' ? `"${key}"` : 'This sheet'} is not built as the words that it translates: ${parts.map(({ message }) => message).join(', ')}`,
            advice: `Compare it with ${origin.file}: the order may change, what is there may not.`,
            ...(part === 'templates' && range ? { range } : {}),
          }),
        ]
      }),
    ),
  ]
}

const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`

/** What is filled in, what is set apart; everything but words. */
const PARTS = /\[\[[^\]\n]*\]\]|\{[a-z]\}|\*\*|^:::.*$|^#+(?= )/gm

/** What of a text's build is there too seldom or too often, and where it stands last. */
const unlike = (text: string, origin: string): { readonly message: string; readonly range?: Span }[] => {
  const [own, wanted] = [partsOf(text), partsOf(origin)]
  return [...new Set([...wanted.keys(), ...own.keys()])].flatMap((part) => {
    const [is, should] = [own.get(part)?.length ?? 0, wanted.get(part)?.length ?? 0]
    if (is === should) return []
    const last = own.get(part)?.at(-1)
    return [{ message: `${part} ${is} of ${should} times`, ...(last ? { range: last } : {}) }]
  })
}

const partsOf = (text: string): ReadonlyMap<string, Span[]> => {
  const parts = new Map<string, Span[]>()
  for (const { 0: part, index } of text.matchAll(PARTS))
    parts.set(part, [...(parts.get(part) ?? []), [index, index + part.length]])
  return parts
}
