import type { ProcessIdentity } from './process-identity.mjs'

export interface LockOptions {
  /** how long to wait for a living holder [ms]; 0 (default) gives up at once */
  readonly wait?: number
  /** called once, when waiting begins */
  readonly onWait?: (holder: ProcessIdentity) => void
  /** how long a holder that cannot be looked up may be silent before it counts as gone [ms] */
  readonly silence?: number
}
export type Lock =
  | { readonly held: true; readonly release: () => void }
  | { readonly held: false; readonly holder: ProcessIdentity }
export function takeLock(path: string, options?: LockOptions): Promise<Lock>
