export interface ProcessIdentity {
  readonly pid: number
  /** clock ticks since the machine started, `x` where the system does not say */
  readonly start: string
  readonly boot: string
  readonly host: string
  /** process-number space (a container has its own) */
  readonly space: string
}
export function ownIdentity(): ProcessIdentity
export function identityToText(identity: ProcessIdentity): string
export function identityFromText(text: string): ProcessIdentity | undefined
export function stateOf(identity: ProcessIdentity): 'running' | 'gone' | 'unknown'
export function isLeftBehind(identity: ProcessIdentity, time: number): boolean
