// An error whose message is meant for the reader as it is.

export class PlainError extends Error {
  plain = true
  exitCode = 2
}
