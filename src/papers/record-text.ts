/** An entry of records/printed.yaml as text, and the file with it at its end: a maker's own lines stay as they are. */
import { decode } from '../schema/decode.ts'
import { type PrintedEntry, type PrintedFile, printedFile } from '../schema/printed.ts'
import { readYaml } from '../schema/yaml.ts'
import { asYamlText } from '../schema/yaml-text.ts'

const HEAD = `# Papers that were printed: what hangs in the shop, lies filed or was given away, and what was taken down.
# "npm run printed" adds an entry; you may write one yourself, or a remark like this. How it went is one of:
# laminated, filed, given-away; taken-down or gone for papers that are no more. Entries stand in the order of their days.
entries:
`

export const entryText = ({ date, how, where, by, sheets }: PrintedEntry, indent = '  '): string =>
  [
    `- date: ${date}`,
    `  how: ${how}`,
    ...(where === undefined ? [] : [`  where: ${asYamlText(where)}`]),
    ...(by === undefined ? [] : [`  by: ${asYamlText(by)}`]),
    '  sheets:',
    ...sheets.map(
      ({ sheet, revision, code, shows }) =>
        `    - { sheet: ${asYamlText(sheet)}, revision: ${revision}, code: ${code}${shows === undefined ? '' : `, shows: ${JSON.stringify(shows)}`} }`,
    ),
  ]
    .map((line) => `${indent}${line}\n`)
    .join('')

/**
 * The file with one more entry.
 *
 * @param before its text; undefined where there is none yet
 * @returns nothing where the entry cannot simply be written below what is there, such as a list in brackets
 */
export const withEntry = (before: string | undefined, entry: PrintedEntry): string | undefined => {
  if (before === undefined) return `${HEAD}${entryText(entry)}`
  const text = before.endsWith('\n') ? before : `${before}\n`
  const indent = /^entries:[^\n]*\n(?:[ \t]*(?:#[^\n]*)?\n)*( *)-/m.exec(text)?.[1] ?? '  '
  const ends = text.includes('\r\n') ? '\r\n' : '\n'
  const after = `${text}${entryText(entry, indent).replaceAll('\n', ends)}`
  const [had, has] = [entriesOf(before), entriesOf(after)]
  return had && has && has.length === had.length + 1 ? after : undefined
}

const entriesOf = (text: string): PrintedFile['entries'] | undefined => {
  const { document, diagnostics } = readYaml('printed.yaml', new TextEncoder().encode(text))
  return diagnostics.length > 0 || !document ? undefined : decode(document, printedFile).value?.entries
}
