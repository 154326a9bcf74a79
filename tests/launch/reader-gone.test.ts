/** The process that reads our own source is taken away: plain words, in whatever its library, or one around it, says so. */
import { stop, transform } from 'esbuild'
import { afterAll, expect, test } from 'vitest'
import { readerGone } from '../../src/launch/plain-error.mjs'
import { signal, treeOf } from '../processes.ts'

afterAll(() => stop())

const WORDS = /^A process that this program runs beside it was ended from outside/
const refusalOf = (text: string): Promise<unknown> =>
  transform(text).then(
    () => undefined,
    (error: unknown) => error,
  )

test('by hand: the library itself, when its process is killed at work and asked again', async () => {
  await transform('1')
  const service = treeOf(process.pid).filter(({ words }) => /esbuild.*--service/.test(words))
  expect(service.length).toBeGreaterThan(0)
  const atWork = refusalOf('let a = 1;'.repeat(200_000))
  for (const { pid } of service) signal(pid, 'SIGKILL')
  for (const error of [await atWork, await refusalOf('1')]) {
    expect(error).toBeInstanceOf(Error)
    expect(readerGone(error)).toMatch(WORDS)
    expect(readerGone(Object.assign(new Error('Error in your settings'), { originalError: error }))).toMatch(
      WORDS,
    )
    expect(readerGone(new Error('It did not load.', { cause: error }))).toMatch(WORDS)
  }
})

test('by hand: nothing of any other error', () => {
  for (const error of [
    new Error('a fault'),
    'a text',
    undefined,
    null,
    new Error('x', { cause: new Error('y') }),
  ])
    expect(readerGone(error)).toBeUndefined()
})
