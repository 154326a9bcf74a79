/** The time that the soak may take, as the launcher hands it down. */

const MINUTES = Number(process.env.KETTLE_SOAK_MINUTES ?? '10')

/**
 * A clock for one trial.
 *
 * @param share  the part of the whole soak's time that this trial may take [0..1]
 * @returns a function that is true while there is time left
 */
export const timeLeft = (share: number): (() => boolean) => {
  const end = performance.now() + MINUTES * share * 60_000
  return () => performance.now() < end
}

/** Whether there is time to look for what nobody has met yet: a short soak, as CI runs it, tries what is known to hold. */
export const isLong = MINUTES >= 20
