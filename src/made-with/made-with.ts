/** What a binder was made with, as the program's own package and lock file have it, and under which licences. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

export interface Library {
  readonly name: string
  readonly version: string
  /** as its package names it, mostly by SPDX */
  readonly licence: string
}

export interface MadeWith {
  readonly program: Library
  /** that the program asks for by name, in the order of their names */
  readonly libraries: readonly Library[]
  /** under each licence so many of all packages, those that libraries bring along and those of other machines too */
  readonly licences: readonly { readonly licence: string; readonly packages: number }[]
}

/** Of what the program asks nobody: for tests of other sheets. */
export const NOTHING_KNOWN: MadeWith = {
  program: { name: '', version: '', licence: '' },
  libraries: [],
  licences: [],
}

interface Locked {
  readonly version?: string
  readonly license?: string
  /** asked for by tests alone */
  readonly dev?: boolean
  readonly dependencies?: Readonly<Record<string, string>>
  readonly optionalDependencies?: Readonly<Record<string, string>>
}

const root = new URL('../../', import.meta.url)
let known: MadeWith | undefined

/** Read once: our own files do not change while the program runs. */
export const madeWith = (): MadeWith => {
  known ??= madeWithIn(readFileSync(new URL('package-lock.json', root), 'utf8'))
  return known
}

/**
 * @param lock text of a lock file of npm, version 3
 * @throws Error where a package has no licence
 */
export const madeWithIn = (lock: string): MadeWith => {
  const { name, packages } = JSON.parse(lock) as {
    readonly name: string
    readonly packages: Readonly<Record<string, Locked>>
  }
  const libraryAt = (at: string, called: string): Library => {
    const { version, license } = packages[at] ?? {}
    if (!version || !license) throw new Error(`The lock file says no version or no licence of ${called}.`)
    return { name: called, version, licence: license }
  }
  const own = packages[''] ?? {}
  const asked = Object.keys({ ...own.dependencies, ...own.optionalDependencies }).sort()
  const counts = new Map<string, number>()
  for (const [at, { dev }] of Object.entries(packages)) {
    if (at === '' || dev) continue
    const { licence } = libraryAt(at, at)
    counts.set(licence, (counts.get(licence) ?? 0) + 1)
  }
  return {
    program: libraryAt('', name),
    libraries: asked.map((called) => libraryAt(`node_modules/${called}`, called)),
    licences: [...counts]
      .map(([licence, count]) => ({ licence, packages: count }))
      .sort((a, b) => b.packages - a.packages || (a.licence < b.licence ? -1 : 1)),
  }
}

/**
 * The licences of packages that are copied into an output, word for word, as they ask for.
 *
 * @param packages their names
 * @throws Error where one brings no text
 */
export const licenceTexts = (packages: readonly string[]): string =>
  [...new Set(packages)]
    .sort()
    .map((name) => `${name}\n${'='.repeat(name.length)}\n\n${licenceText(name).trim()}\n`)
    .join('\n\n')

const licenceText = (name: string): string => {
  const folder = fileURLToPath(new URL(`node_modules/${name}/`, root))
  const file = readdirSync(folder).find((one) => /^licen[cs]e(\.(txt|md))?$/i.test(one))
  if (!file) throw new Error(`The package ${name} brings no text of its licence.`)
  return readFileSync(join(folder, file), 'utf8').replaceAll('\r\n', '\n')
}
