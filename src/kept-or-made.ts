/** What takes long and is asked for again: whoever binds or composes again after an edit waits only for what it changed. */

/**
 * What is kept under a key, made where it is not there yet; the oldest is given up for it where there are too many.
 *
 * @param kept by key, in the order in which they were made
 * @param most that are kept
 */
export const keptOrMade = <Made>(
  kept: Map<string, Made>,
  most: number,
  key: string,
  make: () => Made,
): Made => {
  const before = kept.get(key)
  if (before !== undefined) return before
  const [oldest] = kept.keys()
  if (kept.size >= most && oldest !== undefined) kept.delete(oldest)
  const made = make()
  kept.set(key, made)
  return made
}

/**
 * A pure function that answers equal inputs with what it made of the first of them.
 *
 * @param most answers that are kept
 * @param make of plain data alone: two inputs that JSON writes alike must be alike
 */
export const keptByInput = <Input, Made>(
  most: number,
  make: (input: Input) => Made,
): ((input: Input) => Made) => {
  const kept = new Map<string, Made>()
  return (input) => keptOrMade(kept, most, JSON.stringify(input), () => make(input))
}
