// Runs another program without a shell, and stops it when this one is stopped.
import { spawn } from 'node:child_process'
import { constants } from 'node:os'

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP']

/**
 * Runs a program to its end.
 *
 * @param options  of `child_process.spawn`; with `keep: true` what it prints is kept and returned instead of shown
 * @returns `{ code, output }`; code is 128 + n after a signal, 127 when the program could not be started
 */
export const runChild = (file, args, { keep = false, ...options } = {}) =>
  new Promise((done) => {
    const stdio = keep ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit']
    const child = spawn(file, args, { stdio, windowsHide: true, ...options })
    const parts = []
    child.stdout?.on('data', (part) => parts.push(part))
    child.stderr?.on('data', (part) => parts.push(part))
    const stop = (signal) => child.kill(signal)
    for (const signal of SIGNALS) process.on(signal, stop)
    const end = (code) => {
      for (const signal of SIGNALS) process.off(signal, stop)
      done({ code, output: Buffer.concat(parts).toString('utf8') })
    }
    child.on('error', (error) => {
      parts.push(Buffer.from(`${error.message}\n`))
      end(127)
    })
    child.on('close', (code, signal) => end(code ?? 128 + (constants.signals[signal] ?? 0)))
  })
