export class PlainError extends Error {
  readonly plain: true
  readonly exitCode: number
}
export const WRITING_TROUBLES: Readonly<Record<string, string>>
export const writingTrouble: (said: unknown) => string
export const readerGone: (error: unknown) => string | undefined
