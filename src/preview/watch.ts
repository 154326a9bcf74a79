/** Notices that something in a folder changed; the one place that knows the library which watches. */
import { basename } from 'node:path'
import { watch } from 'chokidar'

/** ms; where a drive tells nothing of changes, the folder is looked at that often */
const LOOKED_AT = 1_500

export interface Watching {
  readonly end: () => void
}

/**
 * @param folder      absolute
 * @param isLeftAlone of names of files and folders that nobody reads
 * @param stamp       what tells one state of the folder from another
 * @param changed     called for each change, more than once for some
 */
export const watchFolder = (
  folder: string,
  isLeftAlone: (name: string) => boolean,
  stamp: () => Promise<string | undefined>,
  changed: () => void,
): Watching => {
  const begin = () =>
    watch(folder, {
      ignoreInitial: true,
      ignorePermissionErrors: true,
      // what a link leads to is read, but a link that leads out of the folder is none of ours
      followSymlinks: false,
      // whether a save is whole is found by looking, not by waiting for each
      atomic: false,
      ignored: (path) => path !== folder && isLeftAlone(basename(path)),
    })
      .on('all', changed)
      // too many folders, a drive that cannot be watched: then it is looked at
      .on('error', () => undefined)
  let watcher = begin()
  let known: string | undefined
  let isThere = true
  let isLooking = false
  const look = async (): Promise<void> => {
    if (isLooking) return
    isLooking = true
    const now = await stamp()
    isLooking = false
    if (now !== undefined && !isThere) {
      // a folder that came back is another one to whoever watches
      void watcher.close()
      watcher = begin()
    }
    isThere = now !== undefined
    if (known !== undefined && now !== known) changed()
    known = now ?? ''
  }
  void look()
  const looking = setInterval(look, LOOKED_AT)
  return {
    end: () => {
      clearInterval(looking)
      void watcher.close()
    },
  }
}
