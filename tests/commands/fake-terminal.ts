/** A terminal with somebody at it who types what a test says. */
import { PassThrough } from 'node:stream'
import { type Asker, askerOn } from '../../src/commands/ask.ts'

export interface FakeTerminal {
  readonly asker: () => Asker
  /** what stands on the screen so far */
  readonly screen: () => string
}

/** @param typed lines, each as one answer; after the last one the terminal is closed */
export const fakeTerminal = (...typed: readonly string[]): FakeTerminal => {
  const input = new PassThrough()
  const output = new PassThrough()
  let seen = ''
  output.on('data', (part) => {
    seen += String(part)
  })
  return {
    asker: () => {
      const asks = askerOn(input, output)
      input.end(typed.map((line) => `${line}\n`).join(''))
      return asks
    },
    screen: () => seen,
  }
}
