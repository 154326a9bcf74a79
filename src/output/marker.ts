/** The file by which an output folder is known as made here, with the list of what was put in it. */

import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

export const MARKER = '.kettle-and-kerf-output'

const FIRST_LINE =
  'Written by Kettle & Kerf. The whole folder is replaced each time: keep nothing of your own in it.'

/** Files that desktops put into every folder they show. */
const DESKTOP_FILES = ['.DS_Store', 'Thumbs.db', 'desktop.ini', '.directory']

/** Marks a folder as begun here, before anything else is in it. */
export const markBegun = (folder: string): void => writeFileSync(join(folder, MARKER), `${FIRST_LINE}\n`)

/** Marks a folder as finished, with the names of its files in order. */
export const markFinished = (folder: string): void =>
  writeFileSync(join(folder, MARKER), `${[FIRST_LINE, ...filesIn(folder)].join('\n')}\n`)

/** True when the folder carries the marker. */
export const isMarked = (folder: string): boolean => readMarker(folder) !== undefined

/** Files in a marked folder that were not written here, in order; empty when the marker has no list. */
export const strangersIn = (folder: string): readonly string[] => {
  const listed = readMarker(folder) ?? []
  if (listed.length === 0) return []
  const known = new Set(listed)
  return filesIn(folder).filter((name) => !known.has(name))
}

const readMarker = (folder: string): readonly string[] | undefined => {
  try {
    const [first, ...names] = readFileSync(join(folder, MARKER), 'utf8').split('\n')
    // A kill while the marker is being written leaves its beginning.
    return FIRST_LINE.startsWith(first ?? '') ? names.filter((name) => name !== '') : undefined
  } catch {
    return undefined
  }
}

const filesIn = (folder: string, below = ''): string[] =>
  readdirSync(join(folder, below), { withFileTypes: true })
    .flatMap((entry) => {
      const name = below === '' ? entry.name : `${below}/${entry.name}`
      if (entry.isDirectory()) return filesIn(folder, name)
      return name === MARKER || DESKTOP_FILES.includes(entry.name) ? [] : [name]
    })
    .sort()
