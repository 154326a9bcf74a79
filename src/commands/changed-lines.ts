/** What somebody saved, in few lines: by which a maker sees at once that it was read as it was meant. */
import { compareInputs, type InputChange, inputText } from '../revisions/input-changes.ts'
import { inputsOf } from '../schema/inputs.ts'
import type { FolderFile } from '../schema/read-folder.ts'

const MOST_LINES = 8
const LONGEST = 60

/**
 * @param before files of the folder as they were
 * @param now    and as they are
 * @returns a line for each value that was changed; none where only remarks were
 */
export const changedLines = (
  before: readonly FolderFile[],
  now: readonly FolderFile[],
): readonly string[] => {
  const old = new Map(before.map((file) => [file.below, file]))
  const kept = new Set(now.map(({ below }) => below))
  const isOther = ({ below, bytes }: FolderFile): boolean =>
    Buffer.compare(old.get(below)?.bytes ?? new Uint8Array(), bytes) !== 0
  const touched = now.filter((file) => !old.has(file.below) || isOther(file))
  const names = new Set(touched.map(({ below }) => below))
  const left = before.filter(({ below }) => names.has(below) || !kept.has(below))
  const lines = compareInputs(inputsOf(left), inputsOf(touched)).changes.map(lineOf)
  if (lines.length <= MOST_LINES) return lines
  return [...lines.slice(0, MOST_LINES - 1), `and ${lines.length - MOST_LINES + 1} more`]
}

const lineOf = ({ file, path, kind, before, now }: InputChange): string => {
  const where = [file, path.join(', ')].filter((part) => part !== '').join(': ')
  if (path.length === 0 && kind !== 'order') return `${where}: ${WHOLE[kind]}`
  if (kind === 'order') return `${where}: in another order`
  const [was, is] = [before, now].map((node) => cut(inputText(node)))
  if (kind === 'added') return `${where}: ${is} (new)`
  return kind === 'gone' ? `${where}: ${was} (taken out)` : `${where}: ${was} → ${is}`
}

const WHOLE = { other: 'other words', added: 'a new file', gone: 'taken out' } as const

const cut = (text: string): string => (text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text)
