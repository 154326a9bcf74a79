/** A process that takes a lock over and over and counts up a file under it; `hold` takes it once and stays. */
import { readFileSync, writeFileSync } from 'node:fs'
import { takeLock } from '../../src/launch/lock.mjs'

const [path = '', counter = '', rounds = '1'] = process.argv.slice(2)

for (let round = 0; round < (rounds === 'hold' ? 1 : Number(rounds)); round += 1) {
  const lock = await takeLock(path, { wait: 60_000 })
  if (!lock.held) throw new Error('not held')
  const before = Number(readFileSync(counter, 'utf8'))
  // Long enough for another process to read the same number if the lock let it.
  await new Promise((done) => setTimeout(done, 2))
  writeFileSync(counter, String(before + 1))
  process.stdout.write('held\n')
  if (rounds === 'hold') await new Promise((done) => setTimeout(done, 60_000))
  lock.release()
}
