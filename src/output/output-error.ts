/** What keeps the output from being written, in words for the reader. */

import { statfsSync } from 'node:fs'
import { dirname, sep } from 'node:path'
import { WRITING_TROUBLES } from '../launch/plain-error.mjs'

export class OutputError extends Error {
  readonly plain = true
  readonly exitCode = 2
}

/** Codes of the operating system that speak of the disk or the folder and not of a fault of the program. */
const WORDS: Readonly<Record<string, string>> = {
  ...WRITING_TROUBLES,
  EFBIG: 'a file grew larger than is allowed here',
  EPERM: 'writing there is not allowed, or something there is open in another program',
  EBUSY: 'something there is open in another program, or a disk of its own; close it, or name a folder in it',
  EEXIST: 'a part of its path is a file',
  ENOTDIR: 'a part of its path is a file',
  ENOENT: 'a folder of its path cannot be made, or was taken away',
  EMFILE: 'too many files are open',
  EIO: 'the disk reports a fault',
  ENAMETOOLONG: 'the name is too long',
}

const FULL = ['ENOSPC', 'EDQUOT', 'EFBIG']

/**
 * Turns a refusal of the operating system into plain words; any other error comes back as it is.
 *
 * @param error  what was thrown
 * @param target the folder that was to be written, for the sentence
 * @param own    folders that only the output uses: a refusal elsewhere is somebody else's to explain
 */
export const explainRefusal = (error: unknown, target: string, own: readonly string[]): unknown => {
  if (error instanceof OutputError || !isSystemError(error)) return error
  const words = WORDS[error.code]
  if (words === undefined) return error
  // A write that finds the disk full names no file.
  const concernsOutput =
    FULL.includes(error.code) ||
    [error.path, error.dest].some(
      (path) =>
        path &&
        own.some(
          (folder) => path === folder || path.startsWith(folder + sep) || path.startsWith(`${folder}~`),
        ),
    )
  if (!concernsOutput) return error
  const full = FULL.includes(error.code) ? fullBeside(error, target, own) : ''
  return new OutputError(`${target} was not written: ${words}${full}. What was there before is unchanged.`, {
    cause: error,
  })
}

/** Where it is not the disk of the target that is full, but that of a folder that is used beside it: its name. */
const fullBeside = (error: SystemError, target: string, own: readonly string[]): string => {
  const beside = own.find((folder) =>
    error.path === undefined
      ? isFull(dirname(folder)) && !isFull(dirname(target))
      : error.path.startsWith(folder + sep) && dirname(folder) !== dirname(target) && folder !== target,
  )
  return beside === undefined ? '' : `, the one with ${dirname(beside)}`
}

const isFull = (folder: string): boolean => {
  try {
    const { bavail, files, ffree } = statfsSync(folder)
    return bavail === 0 || (files > 0 && ffree === 0)
  } catch {
    return false
  }
}

/** A refusal of the machine's folder for temporary files, in words. */
export const temporaryRefusal = (error: unknown, folder: string): unknown => {
  if (!isSystemError(error)) return error
  const words = error.code === 'ENOENT' ? 'there is no such folder' : WORDS[error.code]
  if (words === undefined) return error
  return new OutputError(
    `Nothing was written: a folder for temporary files is needed in ${folder}, and ${words}. Make room there, or name another folder in TMPDIR.`,
    { cause: error },
  )
}

interface SystemError extends Error {
  readonly code: string
  readonly path?: string
  readonly dest?: string
}

const isSystemError = (error: unknown): error is SystemError =>
  error instanceof Error && typeof (error as { code?: unknown }).code === 'string'
