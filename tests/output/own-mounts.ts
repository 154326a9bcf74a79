/** Disks of a few kilobytes, and places that can only be read, for one process and all that it starts: they go with it. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** In a namespace of its own; who is not root is it there, where the machine lets them. */
const APART = process.getuid?.() === 0 ? ['unshare', '-m'] : ['unshare', '-rm']

/**
 * A command that runs another one on mounts of its own.
 *
 * @param mounts lines of a shell that make them
 */
export const withMounts = (mounts: string, command: readonly string[]): readonly string[] => [
  ...APART,
  'sh',
  '-ec',
  `${mounts}\nexec "$@"`,
  'sh',
  ...command,
]

/** @param size such as `64k` */
export const smallDisk = (place: string, size: string): string =>
  `mount -t tmpfs -o size=${size} tmpfs '${place}'`

export const onlyRead = (place: string): string =>
  `mount --bind '${place}' '${place}'\nmount -o remount,ro,bind '${place}'`

/** Whether this machine lets us: root does nearly everywhere, others where namespaces of users are allowed. */
export const canMount = (): boolean => {
  const place = mkdtempSync(join(tmpdir(), 'own-mounts-'))
  try {
    const [program = '', ...args] = withMounts(`${smallDisk(place, '64k')}\n${onlyRead(place)}`, ['true'])
    return spawnSync(program, args).status === 0
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
}
