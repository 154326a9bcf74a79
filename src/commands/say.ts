/** A line for whoever started a command, and whether a person looks at all. Loads nothing: commands that compose nothing begin at once. */

interface Stream {
  readonly isTTY?: boolean
}

/** Progress is for a person at a terminal; a log or a CI run keeps only results. */
export const isWatched = (stream: Stream = process.stdout): boolean =>
  stream.isTTY === true && process.env.CI === undefined

/** Colours only for a person who looks and has not asked for none (NO_COLOR, CI). */
export const colourWanted = (stream: Stream = process.stderr): boolean =>
  isWatched(stream) && process.env.NO_COLOR === undefined

export const say = (line: string): void => {
  process.stdout.write(`${line}\n`)
}
