/** Where in a maker's files something stands, as paper says it: by file and name, since lines move with every edit. */
import type { FindingPlace } from '../schema/placed.ts'
import type { Say } from './compose.ts'
import type { Inline } from './model.ts'

/** @returns `fixtures/small.yaml, “dado: depth”, “panels: side”`; nothing where there is no place */
export const filePlaces = (say: Say, places: readonly FindingPlace[]): Inline | undefined => {
  const files = new Map<string, Inline[]>()
  for (const { file, key } of places) {
    const below = belowFolder(file)
    files.set(below, [...(files.get(below) ?? []), say('stop.place', { key })])
  }
  const named = [...files].map(([file, keys]) =>
    keys.reduce((before, next) => say('stop.places', { before, next }), say('stop.file', { file })),
  )
  return named.length === 0 ? undefined : named.reduce((before, next) => say('stop.files', { before, next }))
}

/** However the folder was named at the terminal, paper names a file by its path below it. */
export const belowFolder = (file: string): string => {
  const [name = '', folder] = file.split('/').reverse()
  return folder === undefined || AT_THE_TOP.has(name) ? name : `${folder}/${name}`
}

const AT_THE_TOP: ReadonlySet<string> = new Set(['shop.yaml', 'sources.yaml'])
