/** Runs a command of the program as the launcher does, and keeps what it said. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { vi } from 'vitest'
import type { Context } from '../../src/commands/options.ts'

export interface Ran {
  /** what the process would end with */
  readonly code: number
  readonly out: string
  readonly err: string
}

type Command = (args: string[], context: Context) => Promise<number>

/** @throws what is a bug: only errors that carry their exit code become one */
export const runCommand = async (command: Command, args: string[], cwd: string): Promise<Ran> => {
  let out = ''
  let err = ''
  const outSpy = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += String(text)
    return true
  })
  const errSpy = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += String(text)
    return true
  })
  try {
    return { code: await command(args, { cwd }), out, err }
  } catch (error) {
    const { plain, exitCode, message } = error as { plain?: boolean; exitCode?: number; message: string }
    if (plain !== true || exitCode === undefined) throw error
    return { code: exitCode, out, err: err + message }
  } finally {
    outSpy.mockRestore()
    errSpy.mockRestore()
  }
}

/** Every file below a folder with its bytes. */
export const bytesBelow = (folder: string): Map<string, Buffer> =>
  new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry): [string, Buffer] => {
        const path = join(entry.parentPath, entry.name)
        return [path.slice(folder.length + 1).replaceAll('\\', '/'), readFileSync(path)]
      })
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  )
