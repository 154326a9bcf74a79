/**
 * A process that writes version after version of an output folder until it is killed; it says `done N` after each.
 * It can kill itself just before its n-th file operation, so that every step can be met, or pause before each, so
 * that a kill from outside meets them all alike.
 */
import fs from 'node:fs'
import { join } from 'node:path'
import { beforeEachOperation } from './each-operation.ts'

const [target = '', first = '1', slowness = '0', killAt = '0'] = process.argv.slice(2)

let operation = 0
let counting = false
const pause = (time: number) => Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, time)

beforeEachOperation(['renameSync', 'rmSync', 'rmdirSync', 'mkdirSync', 'writeFileSync', 'unlinkSync'], () => {
  if (!counting) return
  operation += 1
  if (operation === Number(killAt)) process.kill(process.pid, 'SIGKILL')
  pause(Number(slowness))
})

const { withStagedOutput } = await import('../../src/output/staged-output.ts')
const { FILES, textOf } = await import('./kill-trial.ts')

counting = true
for (let version = Number(first); ; version += 1) {
  await withStagedOutput(target, async (staging, work) => {
    fs.mkdirSync(join(work, 'profile'))
    fs.mkdirSync(join(staging, 'pages'))
    for (const name of FILES) fs.writeFileSync(join(staging, name), textOf(version, name))
  })
  process.stdout.write(`done ${version}\n`)
}
