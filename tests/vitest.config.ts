import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/soak/**'],
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
})
