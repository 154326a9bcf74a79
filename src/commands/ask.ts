/** Asks a person at a terminal: a question with its usual answer, once more where the answer cannot be taken. */
import { createInterface } from 'node:readline'
import { UsageError } from './options.ts'

export interface Question {
  readonly text: string
  /** what Enter alone stands for; without it an empty answer is one, too, if `check` takes it */
  readonly usual?: string
  /** what is wrong with an answer, and what to do; nothing where it is taken */
  readonly check?: (answer: string) => string | undefined
}

export interface Asker {
  /** @throws UsageError when nobody answers any more */
  readonly ask: (question: Question) => Promise<string>
  readonly close: () => void
}

/** Whether a person sits there who can be asked. */
export const canAsk = (): boolean => process.stdin.isTTY === true

/** How often one question is asked before it is given up: a program that answers would go on for ever. */
const MOST_TIMES = 20

/**
 * @param input  where answers come from
 * @param output where questions go
 */
export const askerOn = (
  input: NodeJS.ReadableStream = process.stdin,
  output: NodeJS.WritableStream = process.stdout,
): Asker => {
  const lines = createInterface({ input, output })
  // lines that are there before their question is asked are not lost
  const waiting: string[] = []
  let take: ((line: string | undefined) => void) | undefined
  let isClosed = false
  lines.on('line', (line) => {
    if (take) take(line)
    else waiting.push(line)
  })
  lines.on('close', () => {
    isClosed = true
    take?.(undefined)
  })
  const next = (prompt: string): Promise<string | undefined> => {
    lines.setPrompt(prompt)
    if (!isClosed) lines.prompt()
    else output.write(prompt)
    const line = waiting.shift()
    if (line !== undefined || isClosed) return Promise.resolve(line)
    return new Promise((done) => {
      take = (given) => {
        take = undefined
        done(given)
      }
    })
  }
  const ask = async ({ text, usual, check }: Question): Promise<string> => {
    for (let times = 0; times < MOST_TIMES; times += 1) {
      const typed = await next(`${text}${usual === undefined ? '' : ` [${usual}]`} `)
      if (typed === undefined) throw new UsageError('\nThere was no answer. Nothing was written.')
      const answer = typed.trim() === '' && usual !== undefined ? usual : typed.trim()
      const fault = check?.(answer)
      if (fault === undefined) return answer
      output.write(`  ${fault}\n`)
    }
    throw new UsageError('That question found no answer that can be taken. Nothing was written.')
  }
  return { ask, close: () => lines.close() }
}
