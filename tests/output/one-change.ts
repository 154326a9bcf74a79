/** A process that makes or changes a maker's folder once, and kills itself just before its n-th file operation. */
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
    'rmdirSync',
    'unlinkSync',
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
const { replaceFolder, whileNobodyElse } = await import('../../src/output/replace-folder.ts')
const { addToRecords } = await import('../../src/output/records-file.ts')
const { CHANGED, NEW, RECORDED } = await import('./change-texts.ts')

counting = true
if (manner === 'folder') writeNewFolder(target, NEW)
if (manner === 'file') writeNewFile(target, NEW.get('shop.yaml') ?? '')
if (manner === 'replace')
  await whileNobodyElse(target, async () => replaceFolder(target, CHANGED, `${target}-before`))
if (manner === 'records')
  await addToRecords(target, RECORDED, {
    name: 'printed.yaml',
    text: (before) => `${before ?? 'entries:\n'}- one more\n`,
  })
process.stdout.write(`${operation}\n`)
