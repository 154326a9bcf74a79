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
