/** When a folder is worked out again: once after a burst of saves, and again when something was saved meanwhile. */
import type { Outcome } from './types.ts'

/** ms without a change after which a burst is over; editors save by several steps within a few */
const QUIET = 40
/** ms that mistakes wait: a file that is half written may be the only thing wrong */
const GRACE = 120
/** ms; a file that never comes to rest must not keep all others from being shown */
const MOST_QUIET = 1_000
/** times that what was made is dropped because something changed meanwhile */
const MOST_DROPPED = 6

export interface Steps {
  /** what tells one state of the folder from another; nothing where it is not there */
  readonly stamp: () => Promise<string | undefined>
  readonly make: () => Promise<Outcome>
  /** the folder is being worked out: what is shown is no longer all of it */
  readonly begin: () => void
  readonly show: (outcome: Outcome) => Promise<void>
  readonly wait: (milliseconds: number) => Promise<void>
  /** what is shown where there is no folder */
  readonly gone: () => Outcome
}

export interface KeepUp {
  /** something changed; never called too often */
  readonly changed: () => void
  /** nobody told of a change, but there may have been one */
  readonly look: () => void
  /** until all that was noticed is shown */
  readonly settled: () => Promise<void>
}

export const keepUp = ({ stamp, make, begin, show, wait, gone }: Steps): KeepUp => {
  let changes = 0
  let running: Promise<void> | undefined
  let shown: { readonly stamp: string | undefined } | undefined
  let isWorking = false

  const quiet = async (): Promise<void> => {
    for (let waited = 0; waited < MOST_QUIET; waited += QUIET) {
      const before = changes
      await wait(QUIET)
      if (before === changes) return
    }
  }

  const run = async (): Promise<void> => {
    for (let dropped = 0; ; ) {
      await quiet()
      const seen = changes
      const before = await stamp()
      if (shown && shown.stamp === before && !isWorking) {
        if (seen === changes) return
        continue
      }
      if (!isWorking) begin()
      isWorking = true
      const made = before === undefined ? gone() : await make()
      if (made.kind !== 'good') await wait(GRACE)
      // by the folder itself: a save may be told of late, when it has been read already
      const isOld = (await stamp()) !== before
      if (isOld && dropped < MOST_DROPPED) {
        dropped += 1
        continue
      }
      shown = { stamp: before }
      isWorking = false
      dropped = 0
      await show(made)
      if (!isOld && seen === changes) return
    }
  }

  const start = (): void => {
    running ??= Promise.resolve()
      .then(run)
      .finally(() => {
        running = undefined
      })
  }

  return {
    changed: () => {
      changes += 1
      start()
    },
    look: start,
    settled: async () => {
      while (running) await running
    },
  }
}
