/** Runs what must be tidied when the reader or the system stops the program, or it ends in the middle by itself. */

const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const

const cleanups = new Set<() => void>()

/**
 * Registers a synchronous cleanup for an interruption; after all of them the process ends with 128 + the signal's number.
 * It runs at any other end of the process, too, as long as it is not taken off.
 *
 * @returns a function that takes the cleanup off again
 */
export const onInterrupt = (cleanup: () => void): (() => void) => {
  if (cleanups.size === 0) {
    for (const signal of signalNames) process.on(signal, interrupt)
    process.on('exit', tidyAll)
  }
  cleanups.add(cleanup)
  return () => {
    cleanups.delete(cleanup)
    if (cleanups.size > 0) return
    for (const signal of signalNames) process.off(signal, interrupt)
    process.off('exit', tidyAll)
  }
}

const signalNames = Object.keys(SIGNALS) as (keyof typeof SIGNALS)[]

const tidyAll = (): void => {
  for (const cleanup of [...cleanups]) {
    try {
      cleanup()
    } catch {
      // What stays behind is swept by the next run; the others must still be tidied.
    }
  }
}

const interrupt = (signal: NodeJS.Signals): void => {
  // last: a browser that is ended by then writes nothing more into what is removed
  process.off('exit', tidyAll)
  process.on('exit', tidyAll)
  process.stderr.write('Stopped before the end. What was there before is unchanged.\n')
  process.exit(SIGNALS[signal as keyof typeof SIGNALS])
}
