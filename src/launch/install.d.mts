export function ensureInstalled(root: string, say?: (line: string) => void): Promise<void>
export function isInstalled(root: string): boolean
export function stampFor(root: string): string
export function findNpm(env?: NodeJS.ProcessEnv, node?: string): string | undefined
