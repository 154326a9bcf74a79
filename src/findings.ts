/**
 * What a calculator has to say about a thing that it understood: unsafe (stop), to be released only after a
 * test (hold), or worth knowing (warn). Codes are turned into words by the text catalogue.
 */
export interface Finding {
  /** kebab-case, stable; `finding.CODE` is its key in the text catalogue */
  readonly code: string
  readonly severity: 'stop' | 'hold' | 'warn'
  /** numbers in SI or plain names, for the sentence that the catalogue makes of it */
  readonly values: Readonly<Record<string, number | string>>
}

/** True when any finding forbids the use of the thing. */
export const isStopped = (findings: readonly Finding[]): boolean =>
  findings.some((finding) => finding.severity === 'stop')
