/** Reads what every file of the program imports, and says what the rules of its folder do not allow. */
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'

export interface Import {
  /** below src, with forward slashes */
  readonly from: string
  /** a file below src, or the name of a package */
  readonly to: string
  readonly outside: boolean
  /** types are gone when the program runs */
  readonly typeOnly: boolean
}

export interface SourceFile {
  readonly path: string
  readonly text: string
}

const source = fileURLToPath(new URL('../src/', import.meta.url))

export const sourceFiles = (): SourceFile[] =>
  readdirSync(source, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.(ts|mjs)$/.test(path))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(source, path), 'utf8') }))

/** Comments hold examples; strings are kept, since an import is one. */
const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, ' ').replace(/(^|\s)\/\/[^\n]*/g, '$1')

const STATIC = /(?:^|\n)\s*(?:import|export)\s+(type\s)?[^;'"`]*?\sfrom\s*['"]([^'"]+)['"]/g
const BARE = /(?:^|\n)\s*import\s*['"]([^'"]+)['"]/g
const CALLED = /(typeof\s+)?\b(?:import|require(?:\.resolve)?)\(\s*['"]([^'"]+)['"]/g

export const importsOf = ({ path, text }: SourceFile): Import[] => {
  const plain = withoutComments(text)
  const found: [string, boolean][] = [
    ...[...plain.matchAll(STATIC)].map((m): [string, boolean] => [m[2] ?? '', m[1] !== undefined]),
    ...[...plain.matchAll(BARE)].map((m): [string, boolean] => [m[1] ?? '', false]),
    ...[...plain.matchAll(CALLED)].map((m): [string, boolean] => [m[2] ?? '', m[1] !== undefined]),
  ]
  return found.map(([name, typeOnly]) => {
    const outside = !name.startsWith('.')
    const to = outside ? packageOf(name) : normalize(join(dirname(path), name)).replaceAll('\\', '/')
    return { from: path, to, outside, typeOnly }
  })
}

const packageOf = (name: string): string => {
  if (name.startsWith('node:')) return name
  const parts = name.split('/')
  return name.startsWith('@') ? parts.slice(0, 2).join('/') : (parts[0] ?? name)
}

/** `units.ts` is the door of `units/`, and counts as part of it. */
export const folderOf = (path: string): string => (path.split('/')[0] ?? path).replace(/\.(d\.)?m?[tj]s$/, '')

/** Imports of our own files that `allowed` does not name, by folder or by file; `types` adds what may be named as a type. */
export const wrongDirections = (
  imports: readonly Import[],
  allowed: Readonly<Record<string, readonly string[]>>,
  types: Readonly<Record<string, readonly string[]>> = {},
): string[] =>
  imports
    .filter(({ outside }) => !outside)
    .filter(({ from, to }) => folderOf(from) !== folderOf(to))
    .filter(({ from, to, typeOnly }) => {
      const folder = folderOf(from)
      const may = [...(allowed[folder] ?? []), ...(typeOnly ? (types[folder] ?? []) : [])]
      return !may.includes(folderOf(to)) && !may.includes(to)
    })
    .map(({ from, to }) => `${from} imports ${to}`)

/** Packages (or `node:` modules) imported from files that none of the patterns allows. Types are free where `types` says. */
export const wrongImporters = (
  imports: readonly Import[],
  allowed: Readonly<Record<string, readonly RegExp[]>>,
  types: readonly RegExp[] = [],
): string[] =>
  imports
    .filter(({ outside }) => outside)
    .filter(({ from, to, typeOnly }) => {
      const patterns = allowed[to]
      if (!patterns) return !to.startsWith('node:')
      const may = typeOnly ? [...patterns, ...types] : patterns
      return !may.some((pattern) => pattern.test(from))
    })
    .map(({ from, to }) => `${from} imports ${to}`)

/** Things that make a result depend on the moment, the machine or chance. */
const UNSTEADY =
  /\bDate\.now\b|\bnew Date\b|\bMath\.random\b|\bprocess\.env\b|\bIntl\.|\.toLocale\w*\(|\blocaleCompare\b|\bperformance\.now\b/

export const unsteady = (files: readonly SourceFile[], folders: readonly string[]): string[] =>
  files
    .filter(({ path }) => folders.includes(folderOf(path)))
    .flatMap(({ path, text }) => {
      const found = UNSTEADY.exec(withoutComments(text))
      return found ? [`${path} uses ${found[0]}`] : []
    })

/** Rings of folders that need one another, each as the path round it. */
export const folderRings = (imports: readonly Import[]): string[] => {
  const edges = new Map<string, Set<string>>()
  for (const { from, to, outside } of imports) {
    if (outside || folderOf(from) === folderOf(to)) continue
    edges.set(folderOf(from), (edges.get(folderOf(from)) ?? new Set()).add(folderOf(to)))
  }
  const rings: string[] = []
  const done = new Set<string>()
  const walk = (folder: string, way: readonly string[]): void => {
    if (way.includes(folder)) {
      rings.push([...way.slice(way.indexOf(folder)), folder].join(' → '))
      return
    }
    if (done.has(folder)) return
    for (const next of edges.get(folder) ?? []) walk(next, [...way, folder])
    done.add(folder)
  }
  for (const folder of edges.keys()) walk(folder, [])
  return rings
}

/** Folders of pure functions. */
export const CALCULATORS = [
  'numerics',
  'geometry',
  'chemistry',
  'batch',
  'fixtures',
  'wires',
  'labelling',
  'cure',
  'sheet-stock',
  'quote',
  'router',
  'tolerance',
  'supply',
  'revisions',
] as const

/** What is soap's alone. */
const SOAP_FOLDERS: readonly string[] = [
  ...CALCULATORS.filter((folder) => !['numerics', 'geometry', 'labelling', 'revisions'].includes(folder)),
  'binder',
  'solids',
  'solver',
  'dxf',
]
const SOAP_FILES =
  /^schema\/(batch|build|content|file-kinds|fixture|ledger|load|made|market|materials|recipe|shop|stock|supply)[a-z-]*\.ts$|^sheets\/(?!printed\/)[a-z-]+\/|^sheets\/(binder-sheets|batch|caution|emergency|fixture|front|hand|methods|places|pilot|recipe|record|training)[a-z-]*\.ts$/

/** Every file that is needed by some, and the way to each. */
export const reached = (
  all: readonly Import[],
  from: readonly string[],
  but: string,
): ReadonlyMap<string, string> => {
  const ways = new Map(from.map((file) => [file, file]))
  for (const [file, way] of ways)
    for (const { from: by, to, outside } of all)
      if (by === file && !outside && to !== but && !ways.has(to)) ways.set(to, `${way} → ${to}`)
  return ways
}

/** Of files that are reached those that are soap's, each as the way to it. */
export const soapAmong = (ways: ReadonlyMap<string, string>): string[] =>
  [...ways].flatMap(([file, way]) =>
    SOAP_FOLDERS.includes(folderOf(file)) || SOAP_FILES.test(file) ? [way] : [],
  )
