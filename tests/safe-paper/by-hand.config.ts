/**
 * A long run by hand. The superfat's interval is drawn from a tenth of the draws, which take most of the time otherwise:
 * its ends are then known less well, and the other code is asked to agree with no more. Remedies, which nobody judges
 * here, are drawn from fewer still.
 */
import { defineConfig } from 'vitest/config'

const FEWER: Readonly<Record<string, readonly [string, string]>> = {
  'superfat-draws.ts': ['const DRAWS = 100_000', 'const DRAWS = 10_000'],
  'superfat-remedies.ts': ['const DRAWS = 10_000', 'const DRAWS = 500'],
}

export default defineConfig({
  plugins: [
    {
      name: 'fewer-draws',
      enforce: 'pre',
      transform: (code: string, id: string): string | undefined => {
        const fewer = FEWER[/\/src\/chemistry\/([^/]+)$/.exec(id)?.[1] ?? '']
        if (!fewer) return undefined
        if (!code.includes(fewer[0]))
          throw new Error(`The number of draws stands elsewhere than in ${id} now.`)
        return code.replace(...fewer)
      },
    },
  ],
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/safe-paper/*.test.ts'],
    env: { KETTLE_SOAK: '1', KETTLE_FEWER_DRAWS: '1' },
    testTimeout: 24 * 3600 * 1000,
    fileParallelism: false,
  },
})
