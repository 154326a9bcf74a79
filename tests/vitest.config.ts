import { defineConfig } from 'vitest/config'
import { LONG } from './long.ts'

/** Tests that replace the file system, or that hold a calculator to its time: each file in a process of its own. */
const APART = [
  'tests/output/**/*.test.ts',
  'tests/launch/**/*.test.ts',
  'tests/schema/read-folder-rights.test.ts',
  'tests/schema/page.test.ts',
  'tests/schema/yaml.test.ts',
  'tests/batch/block-heat.test.ts',
  'tests/binder/heat-logs.test.ts',
  'tests/chemistry/superfat-interval.test.ts',
  'tests/sheet-stock/packing.test.ts',
]

const PATIENCE = {
  testTimeout: 30_000,
  // every state of the demo is composed, its fixtures proved with solids: a busy machine takes its time
  hookTimeout: 180_000,
}

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    // both cores of a small machine; left to itself the runner takes one
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          ...PATIENCE,
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/soak/**', ...APART, ...LONG],
          // modules are loaded once for all files of a process, and what was composed for one is there for the next
          isolate: false,
        },
      },
      { extends: true, test: { ...PATIENCE, name: 'apart', include: APART } },
    ],
  },
})
