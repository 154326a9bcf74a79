/** Bytes onto the disk, not into a cache. */
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs'

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
