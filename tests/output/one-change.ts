/** A process that makes or replaces a maker's folder once, and kills itself just before its n-th file operation. */
import { beforeEachOperation } from './each-operation.ts'

const [manner, target = '', killAt = '0'] = process.argv.slice(2)

let operation = 0
let counting = false
beforeEachOperation(
  [
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
  ],
  () => {
    if (!counting) return
    operation += 1
    if (operation === Number(killAt)) process.kill(process.pid, 'SIGKILL')
  },
)

const { writeNewFile, writeNewFolder } = await import('../../src/output/new-files.ts')
const { replaceFolder } = await import('../../src/output/replace-folder.ts')
const { CHANGED, NEW } = await import('./change-texts.ts')

counting = true
if (manner === 'folder') writeNewFolder(target, NEW)
if (manner === 'file') writeNewFile(target, NEW.get('shop.yaml') ?? '')
if (manner === 'replace') replaceFolder(target, CHANGED, `${target}-before`)
process.stdout.write(`${operation}\n`)
