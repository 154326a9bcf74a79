/** What a paper showed, as the text of a file and back. */
import type { Diagnostic, SourceDocument } from '../diagnostics.ts'
import { keptOrMade } from '../kept-or-made.ts'
import { decode } from '../schema/decode.ts'
import { type KeptSheet, keptInputs, keptSheet } from '../schema/kept.ts'
import type { FolderFile } from '../schema/read-folder.ts'
import { readYaml } from '../schema/yaml.ts'
import { anchorOf } from '../sheets/compose.ts'
import type { ShownLine, ShownSheet } from '../sheets/printed/shown-types.ts'
import { fingerprintOf, sha256 } from './shown-sheet.ts'

/** A paper of a sheet that was printed, with what it showed. */
export interface KeptPaper {
  readonly shown: ShownSheet
  readonly revision: number
  readonly fingerprint: string
  /** what the maker's folder held, by its name among the kept ones */
  readonly inputs?: string
}

export const keptName = (id: string, revision: number): string => `${anchorOf(id)}-${revision}.yaml`

/** JSON is YAML: a text in quotes is itself, whatever it holds. */
const quoted = (text: string): string =>
  JSON.stringify(text).replace(
    /[\u007f-\u009f\u2028\u2029\ufeff]/g,
    (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )

const list = (name: string, items: readonly string[]): string[] =>
  items.length === 0 ? [] : [`${name}:`, ...items.map((item) => `  - ${item}`)]

const entryOf = (fields: Readonly<Record<string, string>>): string =>
  `{ ${Object.entries(fields)
    .map(([name, text]) => `${name}: ${quoted(text)}`)
    .join(', ')} }`

export const keptText = ({ shown, revision, fingerprint, inputs }: KeptPaper): string =>
  [
    `# What sheet ${shown.number} showed as revision ${revision}. Written when it was recorded as printed; leave it as it is.`,
    '# If it is deleted, the list of papers says that what it showed is not kept, and goes on.',
    `sheet: ${quoted(shown.id)}`,
    `revision: ${revision}`,
    `language: ${quoted(shown.language)}`,
    `number: ${quoted(shown.number)}`,
    `section: ${quoted(shown.section)}`,
    `title: ${quoted(shown.title)}`,
    `shows: ${quoted(fingerprint)}`,
    ...(inputs === undefined ? [] : [`inputs: ${quoted(inputs)}`]),
    ...list(
      'values',
      shown.values.map(({ name, shown: text, unit, label }) => entryOf({ name, shown: text, unit, label })),
    ),
    ...list(
      'lines',
      shown.lines.map(({ text, about }) => (about ? entryOf({ [about]: text }) : quoted(text))),
    ),
    ...list(
      'drawings',
      shown.drawings.map(({ label, hash }) => entryOf({ label, hash })),
    ),
    '',
  ].join('\n')

const lineOf = (line: NonNullable<KeptSheet['lines']>[number]): ShownLine =>
  typeof line === 'string'
    ? { text: line }
    : 'caution' in line
      ? { text: line.caution, about: 'caution' }
      : { text: line.contact, about: 'contact' }

export interface ReadKept<Kept> {
  readonly kept?: Kept
  readonly diagnostics: readonly Diagnostic[]
  readonly document: SourceDocument
}

/** What to do about a file that nobody needs to have. */
const DELETE_IT =
  'Put it back from a copy, or delete it: the list of papers then says that what this one showed is not kept.'

/** Files that are kept as they were read: nobody edits them. */
const MOST_READ = 256
const known = new Map<string, ReadKept<KeptPaper>>()

/** @returns the paper; or what is wrong with a file that was damaged, or changed since it was written */
export const readKeptSheet = (file: FolderFile): ReadKept<KeptPaper> =>
  keptOrMade(known, MOST_READ, JSON.stringify([file.file, file.below, sha256(file.bytes)]), () =>
    readSheet(file),
  )

const readSheet = (file: FolderFile): ReadKept<KeptPaper> => {
  const { document, source, diagnostics: unreadable } = readYaml(file.file, file.bytes)
  if (!document || unreadable.length > 0)
    return { diagnostics: damaged(file, unreadable), document: document ?? source }
  const { value, diagnostics } = decode(document, keptSheet)
  if (!value) return { diagnostics: damaged(file, diagnostics), document }
  const shown: ShownSheet = {
    id: value.sheet,
    language: value.language,
    number: value.number,
    section: value.section,
    title: value.title,
    values: value.values ?? [],
    lines: (value.lines ?? []).map(lineOf),
    drawings: value.drawings ?? [],
  }
  const isWhole =
    fingerprintOf(shown) === value.shows && file.below.endsWith(keptName(value.sheet, value.revision))
  if (!isWhole)
    return {
      document,
      diagnostics: [
        {
          severity: 'error',
          code: 'kept-paper-changed',
          file: file.file,
          path: '/shows',
          at: 'value',
          message:
            'This file was changed since the program wrote it: it no longer holds what the paper showed',
          advice: DELETE_IT,
        },
      ],
    }
  return {
    document,
    diagnostics: [],
    kept: {
      shown,
      revision: value.revision,
      fingerprint: value.shows,
      ...(value.inputs === undefined ? {} : { inputs: value.inputs }),
    },
  }
}

/** The first thing that is wrong, where it is: more of it helps nobody with a file that no person writes. */
const damaged = (file: FolderFile, [first]: readonly Diagnostic[]): Diagnostic[] => [
  {
    severity: 'error',
    code: 'kept-paper-damaged',
    file: file.file,
    path: first?.path ?? '',
    ...(first?.range ? { range: first.range } : {}),
    message: `This file cannot be read as the program wrote it: ${first?.message ?? 'it is empty'}`,
    advice: DELETE_IT,
  },
]

/** The maker's files at one moment: the name of the list, its text, and each file under the name of its content. */
export const inputsText = (
  files: readonly FolderFile[],
): { readonly name: string; readonly text: string; readonly copies: ReadonlyMap<string, Uint8Array> } => {
  const copies = new Map<string, Uint8Array>()
  const rows = files.map(({ below, bytes }) => {
    const kept = `inputs/${sha256(bytes).slice(0, HASH_LENGTH)}${below.slice(below.lastIndexOf('.'))}`
    copies.set(kept, bytes)
    return entryOf({ file: below, kept })
  })
  const name = `inputs-${sha256(rows.join('\n')).slice(0, HASH_LENGTH)}.yaml`
  return {
    name,
    copies,
    text: [
      '# What the folder held when papers were recorded as printed: each file, and the copy that is kept of it.',
      ...list('files', rows),
      '',
    ].join('\n'),
  }
}
const HASH_LENGTH = 16
/** A copy lies beside the list, wherever somebody may say that it is. */
const COPY = /^inputs\/[0-9a-f]{16}\.[a-z]{2,4}$/

/** @returns by path, the name of the kept copy; nothing where the list is damaged */
export const readInputsList = (file: FolderFile): ReadonlyMap<string, string> | undefined => {
  const { document } = readYaml(file.file, file.bytes)
  const value = document && decode(document, keptInputs).value
  if (!value?.files.every(({ kept }) => COPY.test(kept))) return undefined
  return new Map(value.files.map((one) => [one.file, one.kept]))
}
