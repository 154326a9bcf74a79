/** A process that makes or replaces a maker's folder once, and kills itself just before its n-th file operation. */
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

const [manner, target = '', killAt = '0'] = process.argv.slice(2)

let operation = 0
let counting = false
for (const name of [
  'openSync',
  'writeSync',
  'fsyncSync',
  'closeSync',
  'mkdirSync',
  'renameSync',
  'rmSync',
  'linkSync',
  'cpSync',
  'writeFileSync',
] as const) {
  // biome-ignore format: one line reads better
  const real = fs[name] as (...inputs: unknown[]) => unknown
  Object.assign(fs, {
    [name]: (...inputs: unknown[]) => {
      if (counting) {
        operation += 1
        if (operation === Number(killAt)) process.kill(process.pid, 'SIGKILL')
      }
      return real(...inputs)
    },
  })
}
syncBuiltinESMExports()

const { writeNewFile, writeNewFolder } = await import('../../src/output/new-files.ts')
const { replaceFolder } = await import('../../src/output/replace-folder.ts')
const { CHANGED, NEW } = await import('./change-texts.ts')

counting = true
if (manner === 'folder') writeNewFolder(target, NEW)
if (manner === 'file') writeNewFile(target, NEW.get('shop.yaml') ?? '')
if (manner === 'replace') replaceFolder(target, CHANGED, `${target}-before`)
process.stdout.write(`${operation}\n`)
