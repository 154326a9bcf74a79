/** How long code takes of a processor, whoever else wants it: a busy neighbour takes no processor time of ours. */

/** ms of a processor that fixed work takes where the limits of tests were set */
const YARDSTICK = 5

/** Fixed work of the kind that calculators do: sums, functions, short-lived objects. */
const fixedWork = (): number => {
  let sum = 0
  for (let turn = 1; turn <= 120_000; turn += 1) {
    const one = { x: Math.exp(-turn / 60_000), y: Math.sqrt(turn) }
    sum += Math.log1p(one.x) * Math.sin(one.y) + [one.x, one.y].reduce((total, part) => total + part, 0)
  }
  return sum
}

const spent = (run: () => void): number => {
  const start = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(start)
  return (user + system) / 1000
}

/** The first runs are not compiled yet. */
for (let turn = 0; turn < 10; turn += 1) fixedWork()

/** How much slower this machine is just now than the one that limits were set on; a faster one gets no stricter limit. */
const slowness = (): number => {
  const took = spent(() => {
    if (!Number.isFinite(fixedWork())) throw new Error('The fixed work came to no number.')
  })
  return Math.max(1, took / YARDSTICK)
}

/** Processor time of one run, as it would be on the machine that limits were set on [ms]. */
export const processorTime = (run: () => void): number => {
  const before = slowness()
  const took = spent(run)
  // a machine that slows down in between slows the run
  return took / Math.max(before, slowness())
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
