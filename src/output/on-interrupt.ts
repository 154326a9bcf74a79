/** Runs what must be tidied when the reader or the system stops the program. */

const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const

const cleanups = new Set<() => void>()

/**
 * Registers a synchronous cleanup for an interruption; after all of them the process ends with 128 + the signal's number.
 *
 * @returns a function that takes the cleanup off again
 */
export const onInterrupt = (cleanup: () => void): (() => void) => {
  if (cleanups.size === 0) for (const signal of signalNames) process.on(signal, interrupt)
  cleanups.add(cleanup)
  return () => {
    cleanups.delete(cleanup)
    if (cleanups.size === 0) for (const signal of signalNames) process.off(signal, interrupt)
  }
}

const signalNames = Object.keys(SIGNALS) as (keyof typeof SIGNALS)[]

const interrupt = (signal: NodeJS.Signals): void => {
  for (const cleanup of [...cleanups]) {
    try {
      cleanup()
    } catch {
      // What stays behind is swept by the next run; the others must still be tidied.
    }
  }
  process.exit(SIGNALS[signal as keyof typeof SIGNALS])
}
