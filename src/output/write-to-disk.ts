/** Bytes onto the disk, not into a cache. */
import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'

/** Bytes that are on the disk when this returns. */
export const writeToDisk = (path: string, content: string | Uint8Array): void => {
  const file = openSync(path, 'wx')
  try {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content
    for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at)
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

/** The file with all of its text, or as it was: whoever looks meanwhile, or after a crash, never sees half of it. */
export const writeWhole = (path: string, content: string | Uint8Array): void => {
  mkdirSync(dirname(path), { recursive: true })
  const beside = `${path}.new`
  rmSync(beside, { force: true })
  try {
    writeToDisk(beside, content)
    renameSync(beside, path)
  } catch (error) {
    rmSync(beside, { force: true })
    throw error
  }
}
