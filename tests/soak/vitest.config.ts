import { defineConfig } from 'vitest/config'
import { BOTH, LONG } from '../long.ts'

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/soak/**/*.test.ts', ...LONG, ...BOTH],
    env: { KETTLE_SOAK: '1' },
    // Each trial keeps to its share of the time by itself; this only stops one that hangs.
    testTimeout: 24 * 3600 * 1000,
    // a whole build of the demo
    hookTimeout: 180_000,
    fileParallelism: false,
  },
})
