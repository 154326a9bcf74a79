/** A maker in a process of its own: while it works out a folder for seconds, pages are still served. */
import { type ChildProcess, fork } from 'node:child_process'
import type { Files, Maker, Outcome } from './types.ts'

/** What is asked of the other process, by number. */
export type Asked =
  | { readonly id: number; readonly what: 'common' | 'make' | 'more' }
  | { readonly id: number; readonly what: 'accept'; readonly paths: readonly string[] }
  | { readonly id: number; readonly what: 'file'; readonly path: string }

export type Answered =
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly failed: string }
  /** on the way to the answer: what was read */
  | { readonly id: number; readonly read: string }

type Question = { readonly [What in Asked as What['what']]: Omit<What, 'id'> }[Asked['what']]

interface Asker {
  readonly done: (answer: unknown) => void
  readonly failed: (error: Error) => void
  readonly read: ((changed: string) => void) | undefined
}

/**
 * @param program the file that the other process runs
 * @param args    what it is told
 * @param ended   what is shown where it ended by itself: the next question starts another one
 */
export const childMaker = (program: URL, args: readonly string[], ended: () => Outcome): Maker => {
  let child: ChildProcess | undefined
  let isEnded = false
  let count = 0
  const waiting = new Map<number, Asker>()

  const begin = (): ChildProcess => {
    const started = fork(program, args, {
      serialization: 'advanced',
      stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    })
    started.on('message', (answered: Answered) => {
      const asker = waiting.get(answered.id)
      if ('read' in answered) return asker?.read?.(answered.read)
      waiting.delete(answered.id)
      if ('failed' in answered) asker?.failed(new Error(answered.failed))
      else asker?.done(answered.answer)
    })
    const lost = (): void => {
      if (child === started) child = undefined
      for (const { failed } of waiting.values()) failed(new Error('The process that makes the pages ended.'))
      waiting.clear()
    }
    started.on('exit', lost)
    started.on('error', lost)
    return started
  }

  const ask = (question: Question, read?: Asker['read']): Promise<unknown> =>
    new Promise((done, failed) => {
      if (isEnded) return failed(new Error('The preview was ended.'))
      child ??= begin()
      count += 1
      waiting.set(count, { done, failed, read })
      child.send({ ...question, id: count })
    })

  return {
    common: () => ask({ what: 'common' }) as Promise<Files>,
    make: (read) => (ask({ what: 'make' }, read) as Promise<Outcome>).catch(ended),
    accept: (paths) => ask({ what: 'accept', paths }) as Promise<Files>,
    file: (path) => ask({ what: 'file', path }) as Promise<string | Uint8Array | undefined>,
    more: () => ask({ what: 'more' }) as Promise<Files | undefined>,
    end: () => {
      isEnded = true
      // it writes nothing, so nothing is left half done
      child?.kill('SIGKILL')
    },
  }
}

/** The other side: answers what is asked, one question after the other, until nobody is there to ask. */
export const answerAsMaker = (maker: Maker): void => {
  let last: Promise<unknown> = Promise.resolve()
  const answer = async (asked: Asked): Promise<unknown> => {
    switch (asked.what) {
      case 'accept':
        return maker.accept(asked.paths)
      case 'file':
        return maker.file(asked.path)
      case 'make':
        return maker.make((read) => process.send?.({ id: asked.id, read } satisfies Answered))
      default:
        return maker[asked.what]()
    }
  }
  process.on('message', (asked: Asked) => {
    last = last
      .then(() => answer(asked))
      .then(
        (given): Answered => ({ id: asked.id, answer: given }),
        (error): Answered => ({ id: asked.id, failed: String((error as Error)?.message ?? error) }),
      )
      .then((answered) => process.send?.(answered))
  })
  process.on('disconnect', () => process.exit(0))
  // Ctrl+C reaches every process of a terminal: this one is ended by the one that started it
  process.on('SIGINT', () => undefined)
}
