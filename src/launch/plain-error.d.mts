export class PlainError extends Error {
  readonly plain: true
  readonly exitCode: number
}
export const writingTrouble: (said: unknown) => string
