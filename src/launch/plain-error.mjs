// An error whose message is meant for the reader as it is.

export class PlainError extends Error {
  plain = true
  exitCode = 2
}

/** What keeps a place from being written, by the code of the system. */
export const WRITING_TROUBLES = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the share of the disk that you may use is full',
  EROFS: 'that place can only be read',
  EACCES: 'writing there is not allowed',
  EPERM: 'writing there is not allowed',
}

/** What keeps a place from being written, in words where the system's own are known; from an error or from a text. */
export const writingTrouble = (said) => {
  const text = String(said?.message ?? said)
  const code = said?.code ?? Object.keys(WRITING_TROUBLES).find((name) => text.includes(name))
  return WRITING_TROUBLES[code] ?? text
}

const READER_GONE =
  'A process that this program runs beside it was ended from outside before the work was done. It may have run out of memory: close other programs and start again.'

/**
 * What is said when the process that reads our own source, or bundles scripts, was ended from outside. Nothing for any
 * other error.
 */
export const readerGone = (error) => {
  // a library that could not load its settings hides the reason in its own error
  for (let one = error; one; one = one.cause ?? one.originalError)
    if (/^The service (was stopped|is no longer running)/.test(String(one.message ?? one))) return READER_GONE
  return undefined
}
