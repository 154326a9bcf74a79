import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { LONG } from './long.ts'

/** Tests that replace the file system, hold a calculator to its time, or want nothing known: each file in a process of its own. */
const APART = [
  'tests/every-state/**/*.test.ts',
  'tests/output/**/*.test.ts',
  'tests/launch/**/*.test.ts',
  'tests/schema/read-folder-rights.test.ts',
  'tests/schema/help/patterns-time.test.ts',
  'tests/schema/page.test.ts',
  'tests/schema/yaml.test.ts',
  'tests/batch/block-heat.test.ts',
  'tests/binder/heat-logs.test.ts',
  'tests/chemistry/superfat-interval.test.ts',
  'tests/sheet-stock/packing.test.ts',
]

/** Those of each group that take longest, longest first. */
const LONGEST = [
  'every-state/every-state',
  'commands/build',
  'commands/new',
  'site/site',
  'solids/bar-cutter-proof',
  'sheets/pages',
  'sheets/as-built-sheet',
  'solids/grid-cutter-proof',
  'sheets/trial-frame-sheet',
  'preview/preview',
  'text/pseudo',
  'sheet-stock/packing',
  'sheets/lever-press-sheet',
  'sheets/bar-cutter-sheet',
  'binder/any-content',
  'papers/any-edit',
  'binder/cure-calendar',
]

/** They begin first on every machine, one that has never run them too: else one core waits for the other at the end. */
class LongestFirst extends BaseSequencer {
  override async sort(all: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification): number => {
      const at = LONGEST.findIndex((name) => moduleId.endsWith(`tests/${name}.test.ts`))
      return at < 0 ? LONGEST.length : at
    }
    const files = await super.sort(all)
    // the runner takes one group after the other
    const groups = [...new Set(files.map(({ project }) => project.name))]
    return groups.flatMap((group) =>
      files.filter(({ project }) => project.name === group).sort((one, other) => rank(one) - rank(other)),
    )
  }
}

const PATIENCE = {
  testTimeout: 60_000,
  // every state of the demo is composed, its fixtures proved with solids: a busy machine takes its time
  hookTimeout: 300_000,
  // binders are large and soon forgotten: with more room for what is young, less is swept
  execArgv: ['--max-semi-space-size=64'],
}

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    // both cores of a small machine; left to itself the runner takes one
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
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
      { extends: true, test: { ...PATIENCE, name: 'apart', include: APART, exclude: LONG } },
    ],
  },
})
