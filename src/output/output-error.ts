/** What keeps the output from being written, in words for the reader. */

import { sep } from 'node:path'

export class OutputError extends Error {
  readonly plain = true
  readonly exitCode = 2
}

/** Codes of the operating system that speak of the disk or the folder and not of a fault of the program. */
const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the share of the disk that you may use is full',
  EFBIG: 'a file grew larger than is allowed here',
  EROFS: 'that place can only be read',
  EACCES: 'writing there is not allowed',
  EPERM: 'writing there is not allowed, or something there is open in another program',
  EBUSY: 'something there is open in another program; close it',
  EEXIST: 'a part of its path is a file',
  ENOTDIR: 'a part of its path is a file',
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
  return new OutputError(`${target} was not written: ${words}. What was there before is unchanged.`, {
    cause: error,
  })
}

interface SystemError extends Error {
  readonly code: string
  readonly path?: string
  readonly dest?: string
}

const isSystemError = (error: unknown): error is SystemError =>
  error instanceof Error && typeof (error as { code?: unknown }).code === 'string'
