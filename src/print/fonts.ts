/** The fonts that the project ships: their style rules, inlined for paper or by file for the site. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

export type FontPlace =
  | { readonly inline: true }
  /** address of the folder that holds the files, with or without a slash at its end */
  | { readonly urlPrefix: string }

interface Face {
  readonly family: 'Noto Sans' | 'Noto Sans Mono'
  readonly source: 'noto-sans' | 'noto-sans-mono'
  readonly weight: 400 | 700
  readonly style: 'normal' | 'italic'
}

/** Static files only: the browser turns a weight or a slant that it makes up itself into drawings of letters. */
const FACES: readonly Face[] = [
  { family: 'Noto Sans', source: 'noto-sans', weight: 400, style: 'normal' },
  { family: 'Noto Sans', source: 'noto-sans', weight: 700, style: 'normal' },
  { family: 'Noto Sans', source: 'noto-sans', weight: 400, style: 'italic' },
  { family: 'Noto Sans Mono', source: 'noto-sans-mono', weight: 400, style: 'normal' },
  { family: 'Noto Sans Mono', source: 'noto-sans-mono', weight: 700, style: 'normal' },
]

const SUBSETS = ['latin-ext', 'latin'] as const

/** Names under which a PDF holds them. */
export const PRINT_FONT_NAMES: readonly string[] = ['NotoSans', 'NotoSansMono']

/** A font file to copy beside the site's pages. */
export interface FontFile {
  /** file name under the address prefix */
  readonly name: string
  /** where it lies in the installed packages */
  readonly path: string
}

const require = createRequire(import.meta.url)
const folders = new Map<string, string>()

function folderOf(source: Face['source']): string {
  const known = folders.get(source)
  if (known) return known
  const folder = dirname(require.resolve(`@fontsource/${source}/package.json`))
  folders.set(source, folder)
  return folder
}

const fileName = (face: Face, subset: string, ending = 'woff2'): string =>
  `${face.source}-${subset}-${face.weight}-${face.style}.${ending}`

/** Packages that the fonts are in. */
export const fontPackages = (): string[] => [...new Set(FACES.map(({ source }) => `@fontsource/${source}`))]

/** Every font file that {@link fontFaceCss} names. */
export function fontFiles(): FontFile[] {
  return FACES.flatMap((face) =>
    SUBSETS.map((subset) => {
      const name = fileName(face, subset)
      return { name, path: join(folderOf(face.source), 'files', name) }
    }),
  )
}

/** The same fonts in a plainer packing, and the range in which a browser looks there, for finding out what they hold. */
export function fontCoverageFiles(): { readonly path: string; readonly range: string }[] {
  return FACES.filter((face) => face.weight === 400 && face.style === 'normal').flatMap((face) =>
    SUBSETS.map((subset) => ({
      path: join(folderOf(face.source), 'files', fileName(face, subset, 'woff')),
      range: rangesOf(face)[subset] as string,
    })),
  )
}

const rangesOf = (face: Face): Record<string, string> => require(`@fontsource/${face.source}/unicode.json`)

let inlined: string | undefined

/**
 * Writes the `@font-face` rules.
 *
 * @param place inline as data addresses (the print document reaches nothing), or by the address of a folder
 * @returns a style sheet; the same on every machine with the same packages
 */
export function fontFaceCss(place: FontPlace): string {
  if ('inline' in place) {
    inlined ??= rules((face, subset) => {
      const file = join(folderOf(face.source), 'files', fileName(face, subset))
      return `data:font/woff2;base64,${readFileSync(file).toString('base64')}`
    })
    return inlined
  }
  const prefix = place.urlPrefix.replace(/\/?$/, '/')
  return rules((face, subset) => prefix + fileName(face, subset))
}

function rules(address: (face: Face, subset: string) => string): string {
  return FACES.flatMap((face) => {
    const ranges = rangesOf(face)
    return SUBSETS.map(
      (subset) =>
        `@font-face { font-family: '${face.family}'; font-style: ${face.style}; font-weight: ${face.weight}; font-display: block; src: url(${address(face, subset)}) format('woff2'); unicode-range: ${ranges[subset]} }`,
    )
  }).join('\n')
}
