/** What tells one state of a folder from another, without reading a file of it. */
import { readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'

/**
 * @param isLeftAlone of names of files and folders that nobody reads
 * @returns nothing where the folder is not there or cannot be listed
 */
export const folderStamp = async (
  folder: string,
  isLeftAlone: (name: string) => boolean,
): Promise<string | undefined> => {
  try {
    return (await stampsIn(folder, isLeftAlone)).join('\n')
  } catch {
    return undefined
  }
}

const stampsIn = async (folder: string, isLeftAlone: (name: string) => boolean): Promise<string[]> => {
  const names = (await readdir(folder)).filter((name) => !isLeftAlone(name)).sort()
  const stamps = await Promise.all(
    names.map(async (name): Promise<string[]> => {
      const path = join(folder, name)
      try {
        const { ino, size, mtimeMs, mode } = await stat(path)
        const own = `${path} ${ino} ${size} ${mtimeMs} ${mode}`
        const isFolder = (mode & 0o170000) === 0o040000
        // one that cannot be listed is a mistake that reading tells
        return isFolder ? [own, ...(await stampsIn(path, isLeftAlone).catch(() => []))] : [own]
      } catch {
        // taken away while we looked
        return [`${path} –`]
      }
    }),
  )
  return stamps.flat()
}
