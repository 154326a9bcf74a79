/** A process that writes an output folder once: `large` writes much, `scraps` much of what is thrown away, `hang` says so and waits to be stopped. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { OutputError } from '../../src/output/output-error.ts'
import { withStagedOutput } from '../../src/output/staged-output.ts'

const [manner, target = ''] = process.argv.slice(2)

try {
  await withStagedOutput(target, async (staging, work) => {
    writeFileSync(join(work, 'scrap'), '')
    if (manner === 'scraps') writeFileSync(join(work, 'large'), Buffer.alloc(1_000_000))
    if (manner === 'large') writeFileSync(join(staging, 'large'), Buffer.alloc(1_000_000))
    writeFileSync(join(staging, 'half'), '')
    process.stdout.write('writing\n')
    await new Promise((done) => setTimeout(done, 60_000))
  })
} catch (error) {
  console.error(error instanceof OutputError ? error.message : error)
  process.exitCode = error instanceof OutputError ? error.exitCode : 1
}
