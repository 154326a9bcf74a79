/** A test file with all that it imports of ours in one script, in which mutants are chosen by number. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { build, type Plugin } from 'esbuild'
import { CALCULATORS as PURE } from '../architecture-rules.ts'
import { type Mutant, mutantsOf } from './mutators.ts'
import { CHOSEN, switchable } from './switchable.ts'

const ROOT = fileURLToPath(new URL('../../', import.meta.url))

/** Folders of `src/` that reckon, and what of `tests/` holds them to it: those of pure functions that know numbers. */
export type Folder = Exclude<(typeof PURE)[number], 'revisions'> | 'units'
export const CALCULATORS: readonly Folder[] = [...PURE.filter((folder) => folder !== 'revisions'), 'units']

export interface Numbered extends Mutant {
  readonly number: number
  readonly folder: Folder
  /** below the repository, with forward slashes */
  readonly file: string
}

const filesIn = (folder: string, ending: string): string[] =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .map((name) => `${folder}/${name.split(sep).join('/')}`)
    .sort()

/** What else looks at the calculators of a folder and at nothing larger. */
const ELSEWHERE: Readonly<Partial<Record<Folder, readonly string[]>>> = {
  chemistry: ['lye-heat', 'printed-answers', 'oil-means', 'fats'].map(
    (name) => `tests/worked-examples/${name}.test.ts`,
  ),
  // parts are proved as solids, and measured in their drawings
  fixtures: [
    ...['bar-cutter', 'grid-cutter', 'lever-press', 'mould', 'trial-frame'].map(
      (name) => `tests/solids/${name}-proof.test.ts`,
    ),
    ...['bar-cutter-drawings', 'grid-cutter-drawings', 'mould-drawings', 'small-fixtures'].map(
      (name) => `tests/drawing/${name}.test.ts`,
    ),
  ],
  labelling: ['tests/papers/paper-code.test.ts', 'tests/worked-examples/tolerable-error.test.ts'],
  router: ['tests/dxf/dxf-text.test.ts', 'tests/dxf/read-back.test.ts'],
  geometry: ['tests/solids/solids.test.ts', 'tests/drawing/scribed-lines.test.ts'],
}

/** Test files that hold one folder of calculators. */
export const testsOf = (folder: Folder): readonly string[] => [
  ...(folder === 'units'
    ? filesIn('tests', '.test.ts').filter((file) => /^tests\/units[^/]*$/.test(file))
    : filesIn(`tests/${folder}`, '.test.ts')),
  ...(ELSEWHERE[folder] ?? []),
]

export interface Program {
  readonly mutants: readonly Numbered[]
  /** text of each file of a calculator with all of its mutants in it */
  readonly texts: ReadonlyMap<string, string>
}

/** Every mutant of every calculator, numbered from 1. */
export const readProgram = (): Program => {
  const mutants: Numbered[] = []
  const texts = new Map<string, string>()
  for (const folder of CALCULATORS)
    for (const file of filesIn(`src/${folder}`, '.ts')) {
      const text = readFileSync(join(ROOT, file), 'utf8')
      const here = mutantsOf(text)
      texts.set(file, switchable(text, here, mutants.length + 1))
      for (const mutant of here) mutants.push({ ...mutant, number: mutants.length + 1, folder, file })
    }
  return { mutants, texts }
}

/** What the script is handed. */
export const HANDED = [CHOSEN, 'require', 'testing'] as const

/** Nothing is measured here, since asking for mutants takes time, too; but what would be measured is run. */
const NO_CLOCK = `
export const processorTime = (run) => (run(), 0)
export const leastProcessorTime = (enough, most, run) => (run(0), 0)`

const ours = ({ texts }: Program): Plugin => ({
  name: 'mutants',
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^vitest$/ }, () => ({ path: 'testing', namespace: 'handed' }))
    onLoad({ filter: /.*/, namespace: 'handed' }, () => ({ contents: 'module.exports = testing' }))
    onLoad({ filter: /\.ts$/ }, ({ path }) => {
      if (path.endsWith('processor-time.ts')) return { contents: NO_CLOCK }
      const text = texts.get(relative(ROOT, path).split(sep).join('/')) ?? readFileSync(path, 'utf8')
      // files that lie beside a test are found from where it really is
      const contents = text
        .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href))
        // a script waits for nothing: it is handed what is loaded
        .replaceAll('await loadSolids()', 'testing.solids')
      return { contents, loader: 'ts' }
    })
  },
})

/** @returns the body of a function of `HANDED` */
export const bundled = async (program: Program, file: string): Promise<string> => {
  const { outputFiles } = await build({
    entryPoints: [join(ROOT, file)],
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    // libraries are loaded once, and no mutant is in them
    packages: 'external',
    // as they are tried every day
    define: { 'process.env.KETTLE_SOAK': '"0"' },
    plugins: [ours(program)],
    logLevel: 'silent',
  })
  return outputFiles[0]?.text ?? ''
}
