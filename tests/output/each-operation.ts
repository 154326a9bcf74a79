/** Puts something before file operations of this process: a kill, a pause. */
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

type Operation = Extract<keyof typeof fs, `${string}Sync`>

/** Whoever imports `node:fs` afterwards gets them, too. */
export const beforeEachOperation = (names: readonly Operation[], act: () => void): void => {
  for (const name of names) {
    const real = fs[name] as (...inputs: unknown[]) => unknown
    Object.assign(fs, {
      [name]: (...inputs: unknown[]) => {
        act()
        return real(...inputs)
      },
    })
  }
  syncBuiltinESMExports()
}
