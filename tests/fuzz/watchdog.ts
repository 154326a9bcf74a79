/** Tells what was tried when a run never comes back: code that loops lets no timer of its own process ring. */
import { Worker } from 'node:worker_threads'

const PATIENCE = 120 // s of a processor: a busy machine takes its time
const LOOKED_AT = 5 // s

const WATCHES = `
const { parentPort } = require('node:worker_threads')
const used = () => { const { user, system } = process.cpuUsage(); return (user + system) / 1e6 }
let timer
parentPort.on('message', (tried) => {
  clearInterval(timer)
  if (tried === undefined) return
  const before = used()
  timer = setInterval(() => {
    if (used() - before < ${PATIENCE}) return
    require('node:fs').writeSync(2, 'Not back after ${PATIENCE} s of a processor: ' + tried + '\\n')
    process.kill(process.pid, 'SIGKILL')
  }, ${LOOKED_AT * 1000})
})
`

/** @returns told of each trial before it begins, and of nothing when all are over */
export const watchdog = (): {
  /** undefined to look away */
  readonly begin: (tried: string | undefined) => void
  readonly end: () => Promise<unknown>
} => {
  const worker = new Worker(WATCHES, { eval: true })
  worker.unref()
  return { begin: (tried) => worker.postMessage(tried), end: () => worker.terminate() }
}
