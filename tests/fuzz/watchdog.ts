/** Tells what was tried when a run never comes back: code that loops lets no timer of its own process ring. */
import { Worker } from 'node:worker_threads'

const PATIENCE = 180 // s by the clock; a busy machine takes its time

const WATCHES = `
const { parentPort } = require('node:worker_threads')
let timer
parentPort.on('message', (tried) => {
  clearTimeout(timer)
  if (tried === undefined) return
  timer = setTimeout(() => {
    require('node:fs').writeSync(2, 'Not back after ${PATIENCE} s: ' + tried + '\\n')
    process.kill(process.pid, 'SIGKILL')
  }, ${PATIENCE * 1000})
})
`

/** @returns told of each trial before it begins, and of nothing when all are over */
export const watchdog = (): {
  readonly begin: (tried: string) => void
  readonly end: () => Promise<unknown>
} => {
  const worker = new Worker(WATCHES, { eval: true })
  worker.unref()
  return { begin: (tried) => worker.postMessage(tried), end: () => worker.terminate() }
}
