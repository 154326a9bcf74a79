// A place that refuses, for machines that allow no mounts: CODE and a folder, below which nothing can be made or written.
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

const [code, folder = ''] = (process.env.KETTLE_TEST_REFUSES ?? '').split(',')
for (const name of ['mkdirSync', 'writeFileSync', 'renameSync', 'openSync']) {
  const real = fs[name]
  fs[name] = (path, ...rest) => {
    // what is full still takes an empty file
    const isSmall = code === 'ENOSPC' && (name !== 'writeFileSync' || (rest[0]?.length ?? 0) < 10_000)
    if (code !== '' && String(path).startsWith(`${folder}/`) && !isSmall)
      throw Object.assign(new Error(`${code}: refused`), { code, path: String(path) })
    return real(path, ...rest)
  }
}
syncBuiltinESMExports()
