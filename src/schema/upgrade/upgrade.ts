/** The files of a folder in an older format as files of the present one. Pure: texts in, texts out. */
import { type Diagnostic, lineOf } from '../../diagnostics.ts'
import type { FileKind } from '../file-kind.ts'
import { FILE_KINDS, kindOf } from '../file-kinds.ts'
import { FORMAT, formatOf } from '../format.ts'
import { schemaLine } from '../help/help-pages.ts'
import type { FolderFile } from '../read-folder.ts'
import { edited } from '../text-edits.ts'
import { readYaml, type YamlDocument } from '../yaml.ts'
import { firstToSecond } from './first-to-second.ts'
import type { Step } from './step.ts'

/** From each format to the next. */
const STEPS: Readonly<Record<number, Step>> = { 1: firstToSecond }

export interface Upgraded {
  /** texts of the files that change, by their paths below the folder */
  readonly files: ReadonlyMap<string, string>
  /** the folder as it then is */
  readonly after: readonly FolderFile[]
  /** each with its place: "my-shop/fixtures/a.yaml:17  …" */
  readonly told: readonly string[]
  readonly notes: readonly string[]
  readonly unknown: readonly Diagnostic[]
}

/** Whether a step has more to mend than the lines that every older folder lacks. */
export const hasOldLines = (files: readonly FolderFile[]): boolean => {
  const { format } = formatOf(files)
  const step = STEPS[format]
  if (!step) return false
  return [...step(documentsOf(files)).values()].some(
    ({ edits, unknown }) => edits.length + unknown.length > 0,
  )
}

/** @throws Error for files of a newer format: they are refused before */
export const upgradeFiles = (files: readonly FolderFile[]): Upgraded => {
  const { format } = formatOf(files)
  let now = files
  const changed = new Map<string, string>()
  const told: string[] = []
  const notes: string[] = []
  const unknown: Diagnostic[] = []
  const put = (below: string, text: string): void => {
    changed.set(below, text)
    now = now.map((file) =>
      file.below === below ? { ...file, bytes: new TextEncoder().encode(text) } : file,
    )
  }
  for (let from = format; from < FORMAT; from += 1) {
    const documents = documentsOf(now)
    const results = STEPS[from]?.(documents) ?? new Map()
    for (const [below, result] of results) {
      const document = documents.get(below)
      if (!document) continue
      const line = (path: string): string => `${document.file}:${lineOf(document, path) ?? 1}`
      for (const one of result.told) told.push(`${line(one.path)}  ${one.text}`)
      // once for all files that it is true of
      for (const one of result.notes)
        if (!notes.some((before) => before.endsWith(one.text))) notes.push(`${line(one.path)}  ${one.text}`)
      unknown.push(...result.unknown)
      if (result.edits.length > 0) put(below, withMark(now, below, edited(document.text, result.edits)))
    }
  }
  for (const [below, document] of documentsOf(now)) {
    const kind = kindOf(below)
    if (!kind || below === FILE_KINDS.printed.place.file) continue
    const text = withSchemaLine(document.text, kind)
    const whole = below === FILE_KINDS.shop.place.file ? withFormat(text) : text
    if (whole !== document.text) put(below, withMark(files, below, whole))
  }
  return { files: changed, after: now, told, notes, unknown }
}

const documentsOf = (files: readonly FolderFile[]): ReadonlyMap<string, YamlDocument> =>
  new Map(
    files.flatMap(({ file, below, bytes, refused }) => {
      const document = refused || !below.endsWith('.yaml') ? undefined : readYaml(file, bytes).document
      return document ? [[below, document] as const] : []
    }),
  )

/** Some editors put a mark before the first character; a file keeps it. */
const withMark = (files: readonly FolderFile[], below: string, text: string): string => {
  const bytes = files.find((file) => file.below === below)?.bytes
  const hasMark = bytes?.[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf
  return hasMark && !text.startsWith('\ufeff') ? `\ufeff${text}` : text
}

const endOf = (text: string): string => (text.includes('\r\n') ? '\r\n' : '\n')

/** By which editors know what may stand in a file. */
const withSchemaLine = (text: string, kind: FileKind): string =>
  /^# yaml-language-server:/m.test(text) ? text : `${schemaLine(kind)}${endOf(text)}${text}`

const FORMAT_LINE = `format: ${FORMAT}                      # of these files; "npm run upgrade" changes it, you never need to`

/** Below the schema line, where a person reads it first. */
const withFormat = (text: string): string => {
  const stated = /^format:[ \t]*\S+/m
  if (stated.test(text)) return text.replace(stated, `format: ${FORMAT}`)
  const ends = endOf(text)
  const [first = '', ...rest] = text.split(ends)
  return [first, FORMAT_LINE, ...(rest[0]?.trim() === '' ? [] : ['']), ...rest].join(ends)
}
