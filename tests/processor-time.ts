/** How long code takes of a processor, whoever else wants it: a busy neighbour takes no processor time of ours. */

/** Processor time of one run [ms]. */
export const processorTime = (run: () => void): number => {
  const start = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(start)
  return (user + system) / 1000
}

/**
 * The least of several runs, since what shares a core, or collects garbage, makes single ones longer.
 *
 * @param enough not tried again below this [ms]
 * @param most   runs that are tried
 * @returns processor time [ms]
 */
export const leastProcessorTime = (enough: number, most: number, run: (turn: number) => void): number => {
  let least = Number.POSITIVE_INFINITY
  for (let turn = 0; turn < most && least >= enough; turn += 1)
    least = Math.min(
      least,
      processorTime(() => run(turn)),
    )
  return least
}
