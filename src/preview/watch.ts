/** Notices that something in a folder changed; the one place that knows the library which watches. */
import { basename } from 'node:path'
import { watch } from 'chokidar'

/** ms; where a drive tells nothing of changes, the folder is looked at that often */
const LOOKED_AT = 1_500

export interface Watching {
  readonly end: () => void
}

export interface Watched {
  /** absolute */
  readonly folder: string
  /** names of files and folders that nobody reads */
  readonly isLeftAlone: (name: string) => boolean
  readonly isThere: () => Promise<boolean>
  /** called for each change, more than once for some */
  readonly changed: () => void
  /** called now and then: not every drive tells of changes */
  readonly look: () => void
}

export const watchFolder = ({ folder, isLeftAlone, isThere, changed, look }: Watched): Watching => {
  let wasThere = true
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
      .on('all', (event, path) => {
        if (event === 'unlinkDir' && path === folder) wasThere = false
        changed()
      })
      // too many folders, a drive that cannot be watched: then it is looked at
      .on('error', () => undefined)
  let watcher = begin()
  const lookAgain = async (): Promise<void> => {
    const now = await isThere()
    if (now && !wasThere) {
      // a folder that came back is another one to whoever watches
      void watcher.close()
      watcher = begin()
    }
    wasThere = now
    look()
  }
  const looking = setInterval(() => void lookAgain(), LOOKED_AT)
  return {
    end: () => {
      clearInterval(looking)
      void watcher.close()
    },
  }
}
