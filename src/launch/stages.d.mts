export function readMinutes(
  args: readonly string[],
  env?: NodeJS.ProcessEnv,
): { readonly minutes: number; readonly rest: readonly string[] }
