import type { SpawnOptions } from 'node:child_process'

export function runChild(
  file: string,
  args: readonly string[],
  options?: SpawnOptions & { readonly keep?: boolean },
): Promise<{ readonly code: number; readonly output: string }>
