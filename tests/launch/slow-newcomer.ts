/** A process that is slow between seeing a dead holder and opening its lock; it says `seen`, then whether it got the lock. */
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

const [path = ''] = process.argv.slice(2)

for (const name of ['unlinkSync', 'rmSync'] as const) {
  const real = fs[name] as (...inputs: unknown[]) => unknown
  Object.assign(fs, {
    [name]: (file: string, ...inputs: unknown[]) => {
      if (!file.includes('~')) {
        fs.writeSync(1, 'seen\n')
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 400)
      }
      return real(file, ...inputs)
    },
  })
}
syncBuiltinESMExports()

const { takeLock } = await import('../../src/launch/lock.mjs')
const lock = await takeLock(path)
process.stdout.write(lock.held ? 'held\n' : 'refused\n')
