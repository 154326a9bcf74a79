/** Reads the files of a maker's folder as bytes. Nothing in it is run; links that lead out of it are refused. */
import { readdir, readFile, realpath, stat } from 'node:fs/promises'
import { isAbsolute, join, relative, sep } from 'node:path'
import type { Diagnostic } from '../diagnostics.ts'
import { didYouMean } from '../units/spelling.ts'
import { COMMON_KINDS, type FileKinds } from './file-kind.ts'

export interface FolderFile {
  /** as shown in messages: the folder as the person typed it, then the path below it, with forward slashes */
  readonly file: string
  /** path below the folder: `recipes/hearth.yaml` */
  readonly below: string
  readonly bytes: Uint8Array
  /** it is there but was not read, so that what it would have named is not missed on top; `recipes/` for all of them */
  readonly refused?: true
}

/**
 * Texts that need not stand in a folder, as they would be read from one.
 *
 * @param texts by their paths below it
 * @param shown how messages name it; without it they name files by these paths alone
 */
export const asFolderFiles = (texts: ReadonlyMap<string, string>, shown = ''): FolderFile[] =>
  [...texts].map(([below, text]) => ({
    file: shown === '' ? below : `${shown}/${below}`,
    below,
    bytes: new TextEncoder().encode(text),
  }))

/** Sub-folders that are read, and what ends the names of the files in them. */
const foldersOf = (kinds: FileKinds): Readonly<Record<string, string>> => ({
  ...Object.fromEntries(
    Object.values(kinds).flatMap(({ place }) => ('folder' in place ? [[place.folder, '.yaml']] : [])),
  ),
  pages: '.md',
})
/** Files of the folder itself. */
const filesOf = (kinds: FileKinds): readonly string[] =>
  Object.values(kinds).flatMap(({ place }) =>
    'file' in place && !place.file.includes('/') ? [place.file] : [],
  )
/** Words on the files of the folder, for people and for their editors. */
export const HELP = 'help'
/** Left alone: what the program itself writes, and what people and their tools keep beside their files. */
const LEFT_ALONE = new Set(['output', 'recall', HELP, 'README.md', 'node_modules'])
/** Names that are nothing to the program, wherever they stand in the folder. */
export const isLeftAlone = (name: string): boolean => name.startsWith('.') || LEFT_ALONE.has(name)
/** What was printed: a list, and beside it what each paper showed, which is read where it is asked for. */
export const RECORDS = 'records'
export const PRINTED = COMMON_KINDS.printed.place.file
export const KEPT = `${RECORDS}/as-printed`

const MOST_FILES = 5000
const LARGEST_FILE = 1_000_000 // bytes; a thousand pages of text

/**
 * Every file of the folder that the program reads, sorted by path, with a diagnostic for each that it cannot read.
 * @param folder  where it is
 * @param shown   how messages name it
 * @param kinds   of files that are read, beside pages
 * @throws nothing for what a folder may hold; Error only where the folder itself cannot be listed
 */
export const readFolder = async (
  folder: string,
  shown: string,
  kinds: FileKinds,
): Promise<{ files: FolderFile[]; diagnostics: Diagnostic[] }> => {
  const readable = { folders: foldersOf(kinds), files: filesOf(kinds) }
  const files: FolderFile[] = []
  const diagnostics: Diagnostic[] = []
  const root = await realpath(folder)
  const say = (
    below: string,
    code: string,
    message: string,
    advice: string,
    severity: 'error' | 'warning' = 'error',
  ) => diagnostics.push({ severity, code, file: `${shown}/${below}`, path: '', message, advice })

  const refuse = (below: string, code: string, message: string, advice: string): void => {
    say(below.replace(/\/$/, ''), code, message, advice)
    files.push({ file: `${shown}/${below}`, below, bytes: new Uint8Array(), refused: true })
  }
  const leadsOut = (real: string): boolean => isOutside(root, real)

  const take = async (below: string): Promise<void> => {
    const path = join(folder, below)
    try {
      const real = await realpath(path)
      if (leadsOut(real)) {
        refuse(
          below,
          'link-leads-out',
          'This is a link to a file outside the folder',
          'Put a copy of the file here instead.',
        )
        return
      }
      const about = await stat(real)
      if (!about.isFile()) {
        refuse(below, 'not-a-file', 'This is not an ordinary file', 'Put an ordinary text file here.')
        return
      }
      if (about.size > LARGEST_FILE) {
        refuse(
          below,
          'file-too-large',
          `This file is larger than ${LARGEST_FILE / 1000} kB`,
          'Split it, or take out what does not belong.',
        )
        return
      }
      files.push({ file: `${shown}/${below}`, below, bytes: await readFile(real) })
    } catch (error) {
      refuse(
        below,
        'cannot-read',
        `This file cannot be read: ${reasonOf(error)}`,
        'Check that the file exists and that you may open it.',
      )
    }
  }

  for (const name of (await readdir(folder)).sort()) {
    if (isLeftAlone(name)) continue
    if (readable.files.includes(name)) await take(name)
    else if (name === RECORDS) {
      if (await isThere(join(folder, PRINTED))) await take(PRINTED)
    } else if (Object.hasOwn(readable.folders, name)) {
      const ending = readable.folders[name] ?? ''
      let inside: string[]
      try {
        const real = await realpath(join(folder, name))
        if (leadsOut(real)) {
          refuse(
            `${name}/`,
            'link-leads-out',
            'This is a link to a folder outside',
            'Put a copy of the folder here instead.',
          )
          continue
        }
        inside = (await readdir(real)).sort()
      } catch (error) {
        if (errorCode(error) === 'ENOTDIR')
          refuse(
            `${name}/`,
            'not-a-folder',
            'This should be a folder',
            `Make a folder named "${name}" and put the files into it.`,
          )
        else
          refuse(
            `${name}/`,
            'cannot-read',
            `This folder cannot be read: ${reasonOf(error)}`,
            'Check that the folder exists and that you may open it.',
          )
        continue
      }
      // Counted before they are read: a folder of the wrong kind may hold a million.
      if (files.length + inside.length > MOST_FILES) {
        refuse(
          `${name}/`,
          'too-many-files',
          `There are more than ${MOST_FILES} files`,
          'Point the program at the binder folder itself.',
        )
        continue
      }
      for (const file of inside) {
        if (isLeftAlone(file)) continue
        if (file.endsWith(ending)) await take(`${name}/${file}`)
        else
          say(
            `${name}/${file}`,
            'file-not-read',
            `Files in "${name}" end in "${ending}"; this one is not read`,
            `Name it ${fitting(file)}${ending} if it should be.`,
            'warning',
          )
      }
    } else {
      const known = [...readable.files, ...Object.keys(readable.folders)]
      const near = didYouMean(name, known)
      say(
        name,
        'file-not-read',
        'Nothing of this name is read here',
        `${near === undefined ? '' : `Did you mean "${near}"? `}Read are: ${known.join(', ')}.`,
        'warning',
      )
    }
  }
  return { files, diagnostics }
}

/** @param real both without links on the way */
const isOutside = (root: string, real: string): boolean => {
  const way = relative(root, real)
  // On another drive there is no way from here to there.
  return way.split(sep)[0] === '..' || isAbsolute(way)
}

const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  )

/**
 * Files of those names that what was printed is kept in; what is not there is left out, for nobody has to keep it.
 *
 * @param folder where the maker's folder is
 * @param shown  how messages name it
 */
export const readKept = async (
  folder: string,
  shown: string,
  names: readonly string[],
): Promise<FolderFile[]> => {
  const files: FolderFile[] = []
  for (const name of names) {
    const below = `${KEPT}/${name}`
    const bytes = await keptBytes(folder, below).catch(() => undefined)
    if (bytes) files.push({ file: `${shown}/${below}`, below, bytes })
  }
  return files
}

/** A name may be typed, and a link may lie in its place: what is no ordinary file of the folder is not there. */
const keptBytes = async (folder: string, below: string): Promise<Uint8Array | undefined> => {
  const real = await realpath(join(folder, below))
  if (isOutside(await realpath(folder), real)) return undefined
  const about = await stat(real)
  // a pipe would be waited for, a device read without end
  return about.isFile() && about.size <= LARGEST_FILE ? await readFile(real) : undefined
}

const errorCode = (error: unknown): string => String((error as { code?: unknown }).code)

const reasonOf = (error: unknown): string =>
  ['EACCES', 'EPERM'].includes(errorCode(error)) ? 'you may not read it' : 'it cannot be opened'

/** The name of a file as others could point to it: "Old Plain.txt" becomes "old-plain". */
const fitting = (file: string): string => {
  const stem = file.replace(/\.[^.]*$/, '').toLowerCase()
  const words = stem.match(/[a-z0-9]+/g) ?? []
  return words.length > 0 ? words.join('-') : 'name'
}
