/** The error of a print gate: the binder was not printed, and why, in words for somebody who does not program. */

export type GateName =
  | 'browser'
  | 'time'
  | 'document'
  | 'request'
  | 'too-wide'
  | 'too-tall'
  | 'check-scale'
  | 'page-scale'
  | 'page-size'
  | 'page-order'
  | 'contents'
  | 'font'
  | 'missing-character'

/** Thrown when a printed binder would be wrong; nothing has been written then. */
export class PrintGateError extends Error {
  /** its message is all that a person sees */
  readonly plain = true
  readonly exitCode = 2
  readonly gate: GateName

  constructor(gate: GateName, words: string) {
    super(words)
    this.name = 'PrintGateError'
    this.gate = gate
  }
}
