import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/soak/**'],
    // both cores of a small machine; left to itself the runner takes one
    maxWorkers: 2,
    testTimeout: 30_000,
    // every state of the demo is composed, its fixtures proved with solids: a busy machine takes its time
    hookTimeout: 180_000,
  },
})
