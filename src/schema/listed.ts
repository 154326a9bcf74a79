/** What files list under names of their own. */
import type { Diagnostic } from '../diagnostics.ts'
import type { Placed } from './placed.ts'

/** The things of one mapping of a file, each with its place. */
export const entries = <T>(
  file: Placed<unknown> | undefined,
  part: string,
  values: Readonly<Record<string, T>> | undefined,
): Map<string, Placed<T>> => {
  const found = new Map<string, Placed<T>>()
  if (file)
    for (const [key, value] of Object.entries(values ?? {}))
      found.set(key, { key, value, document: file.document, path: `/${part}/${key}` })
  return found
}

/** One mapping out of all files of a kind; the same key twice is told with both places. */
export const merged = <File, T>(
  files: readonly Placed<File>[],
  part: string & keyof File,
  within: (file: File) => Readonly<Record<string, T>> | undefined,
  diagnostics: Diagnostic[],
): Map<string, Placed<T>> => {
  const found = new Map<string, Placed<T>>()
  for (const file of files)
    for (const [key, placed] of entries(file, part, within(file.value))) {
      const before = found.get(key)
      if (!before) {
        found.set(key, placed)
        continue
      }
      diagnostics.push({
        severity: 'error',
        code: 'named-twice',
        file: placed.document.file,
        path: placed.path,
        at: 'key',
        message: `"${key}" is already the name of another of the ${part}`,
        advice: 'Give one of them another name, or take one out.',
        related: [{ file: before.document.file, path: before.path, at: 'key', message: 'first named here' }],
      })
    }
  return found
}
