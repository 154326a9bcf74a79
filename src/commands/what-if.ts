/** `npm run what-if`: which numbers on which sheets would be others if something in the folder were. Writes nothing. */
import { coloursFor, hasErrors } from '../diagnostics.ts'
import { outOfDateAmong, papersIn } from '../papers/papers.ts'
import type { Revised } from '../papers/revisions.ts'
import { findCauses } from '../revisions/causes.ts'
import { compareInputs, type Inputs } from '../revisions/input-changes.ts'
import { FILE_KINDS } from '../schema/file-kinds.ts'
import { filesOf, inputsOf } from '../schema/inputs.ts'
import { loadContent } from '../schema/load.ts'
import { type FolderFile, readFolder } from '../schema/read-folder.ts'
import { dataOf } from '../what-if/as-data.ts'
import { type Differences, differencesOf } from '../what-if/differences.ts'
import { type Applied, type Setting, toldAtSettings, withSettings } from '../what-if/settings.ts'
import { type HungPaper, linesOf, type Telling } from '../what-if/told.ts'
import { type Composed, compose, composeFiles } from './compose.ts'
import { type Context, type Options, parsed, readOptions, UsageError } from './options.ts'
import { colourWanted, isWatched, say } from './say.ts'
import { sayMistakes } from './terminal.ts'

const HELP = `npm run what-if -- [FOLDER] --set "ADDRESS=VALUE" [--set …] [--leave-out ADDRESS …] [--all] [--json]

Says which numbers on which sheets would change, before and after, if something in the folder were set otherwise.
Nothing is written, neither into the folder nor anywhere else. Without FOLDER it looks at this program's own demo.

  --set         what to set, and to what; as often as you like
  --leave-out   what to take away
  --all         every number and line of text; without it what matters most
  --json        everything as data, for a spreadsheet or another program

An ADDRESS is the kind of file, its name, and the names in it as they stand there, with dots between:

  batch.2027-03-14-hearth.oils      recipe.hearth.fats.olive      fixture.five-by-three.bar.thickness
  shop.limits.hot-lift              market.2027-06-12-green.date  shop.contacts.2.reach  (the second entry of a list)

What stands in a file of materials begins with its section: fats.olive.density, alkalis.soda-beads.purity.
A VALUE is typed as in the file, with its unit. Of several settings the later finds what the earlier one put there.
A whole new thing is given in braces, and so is a whole new file:

  --set "shop.scales.fine={ capacity: 2 kg, division: 0.1 g }"
  --set "batch.2027-05-02-hearth={ recipe: hearth, mould: five-by-three, date: 2027-05-02, fill: to the line }"

Of things that exclude each other the one has to go when the other comes:

  --set "batch.2027-03-14-hearth.oils=9.4 kg" --leave-out batch.2027-03-14-hearth.fill

Double quotes round the whole of ADDRESS=VALUE do in every shell; single ones do not in cmd, which takes them for
letters. Quotes inside the value are single ones. For example:

  bash, zsh    npm run what-if -- my-shop --set "shop.limits.hot-lift=12 kg"
  PowerShell   npm run what-if "--" my-shop --set "shop.limits.hot-lift=12 kg"
  cmd          npm run what-if -- my-shop --set "shop.limits.hot-lift=12 kg"

It ends with 0 when it could tell, 1 when something in the folder or in a setting is wrong, 2 when the program could
not do its work.
`

const WHAT = {
  help: { type: 'boolean', short: 'h' },
  set: { type: 'string', multiple: true },
  'leave-out': { type: 'string', multiple: true },
  all: { type: 'boolean' },
  json: { type: 'boolean' },
} as const

/** Binders that are composed to tell settings apart, each as long as an edit takes. */
const MOST_COMPOSED = 12

export const run = async (args: string[], context: Context): Promise<number> => {
  const { values, positionals, settings } = understood(args)
  if (values.help) {
    process.stdout.write(HELP)
    return 0
  }
  const options = await readOptions(positionals, context, false)
  if (settings.length === 0)
    throw new UsageError(
      'Say what would be otherwise, for example: npm run what-if -- my-shop --set "shop.limits.hot-lift=12 kg". The two dashes stand between npm\'s own words and ours. Add --help to see more.',
    )
  const telling = await tellingOf(options, settings)
  if (!telling) return 1
  if (values.json) process.stdout.write(`${JSON.stringify(dataOf(telling), undefined, 2)}\n`)
  else
    for (const line of linesOf(telling, {
      all: values.all === true,
      width: process.stdout.columns ?? USUAL_WIDTH,
      colours: coloursFor(colourWanted(process.stdout)),
    }))
      say(line)
  return 0
}

const USUAL_WIDTH = 100

const understood = (args: readonly string[]) => {
  const { values, positionals, tokens } = parsed(args, WHAT)
  const settings = tokens.flatMap((token): Setting[] => {
    if (token.kind !== 'option' || typeof token.value !== 'string') return []
    if (token.name === 'leave-out') return [{ address: token.value.trim() }]
    return token.name === 'set' ? [settingOf(token.value)] : []
  })
  return { values, positionals, settings }
}

/** @throws UsageError where nothing is set to anything */
const settingOf = (typed: string): Setting => {
  if (/^['‘’]/.test(typed))
    throw new UsageError(
      `${typed} begins with a single quote, which this shell takes for a letter. Put double quotes round it: --set "ADDRESS=VALUE".`,
    )
  const at = typed.indexOf('=')
  if (at < 0)
    throw new UsageError(
      `Nothing is given for "${typed}". Write --set "${typed.trim() || 'ADDRESS'}=VALUE", in double quotes, or take it away with --leave-out.`,
    )
  return { address: typed.slice(0, at).trim(), value: typed.slice(at + 1) }
}

/** @returns nothing where something is wrong, which was then told */
const tellingOf = async (
  { folder, shown }: Options,
  settings: readonly Setting[],
): Promise<Telling | undefined> => {
  const read = await readFolder(folder, shown, FILE_KINDS)
  const loaded = loadContent(read.files, shown)
  const own = [...read.diagnostics, ...loaded.diagnostics]
  if (hasErrors(own)) {
    sayMistakes(own, loaded.documents)
    return undefined
  }
  const inputs = inputsOf(read.files)
  const applied = withSettings(settings, inputs)
  const files = withChanged(read.files, applied, inputs, shown)
  // before anything is composed, which takes seconds
  if (!isWell(applied, loadContent(files, shown), loaded.documents, shown)) return undefined

  if (isWatched(process.stderr)) process.stderr.write('Working it out as it is, and as it would be …\n\n')
  const before = await compose(folder, shown)
  sayMistakes(before.diagnostics, before.documents)
  if (!before.binder) return undefined
  const after = await composeFiles({ files, diagnostics: [] }, shown)
  if (!after.binder) {
    isWell(applied, after, before.documents, shown)
    return undefined
  }
  const differences = differencesOf(before.binder.revised, after.binder.revised)
  const causeOf = await causesOf(
    inputs,
    applied,
    differences,
    after.binder.revised,
    async (mixed) =>
      (
        await composeFiles(
          { files: withChanged(read.files, { inputs: mixed }, inputs, shown), diagnostics: [] },
          shown,
        )
      ).binder?.revised,
  )
  return {
    settings: applied.placed,
    differences,
    papers: papersOf(before.binder, after.binder.revised),
    ...(causeOf ? { causeOf } : {}),
  }
}

/** Files that a setting changes as their data, all others as they are. */
const withChanged = (
  files: readonly FolderFile[],
  { inputs }: Pick<Applied, 'inputs'>,
  before: Inputs,
  shown: string,
): FolderFile[] => {
  const changed = new Map([...inputs].filter(([below, node]) => before.get(below) !== node))
  const kept = files.filter(({ below }) => !changed.has(below) && (inputs.has(below) || !before.has(below)))
  return [...kept, ...filesOf(changed, shown)].sort((a, b) => (a.below < b.below ? -1 : 1))
}

/** Tells all mistakes of all settings in one run. @returns whether there are none */
const isWell = (
  applied: Applied,
  { diagnostics, documents }: Pick<Composed, 'diagnostics' | 'documents'>,
  asTyped: Composed['documents'],
  shown: string,
): boolean => {
  const { refused } = applied
  const found = [...applied.diagnostics, ...toldAtSettings(diagnostics, applied, shown)].filter(
    ({ severity }) => severity === 'error',
  )
  if (refused.length + found.length === 0) return true
  for (const { at, refusal } of refused)
    process.stderr.write(`${at}\n${refusal.message}.\n\n${refusal.advice}\n\n`)
  if (found.some(({ file }) => !file.startsWith('--')))
    process.stderr.write('As the folder would be with what was set:\n\n')
  // a changed file is shown as it stands in the folder
  const sources = [
    ...documents,
    ...asTyped,
    ...[...applied.documents, ...applied.placed.map(({ source }) => source)].map(
      (source) => [source.file, source] as const,
    ),
  ]
  sayMistakes(found, new Map(sources))
  return false
}

/** Papers that hang and would not be right any more. */
const papersOf = (before: NonNullable<Composed['binder']>, after: readonly Revised[]): HungPaper[] => {
  const papers = papersIn(before.content.printed?.value)
  const already = new Set(outOfDateAmong(papers, before.revised))
  const now = new Map(before.revised.map(({ shown }) => [shown.id, shown]))
  return outOfDateAmong(papers, after).flatMap((paper) => {
    const sheet = now.get(paper.sheet)
    if (already.has(paper) || !sheet) return []
    const { id, number, title } = sheet
    return [{ id, number, title, where: paper.where }]
  })
}

/** Which of several settings a number hangs on; not asked where there is one only. */
const causesOf = async (
  before: Inputs,
  { placed, inputs }: Applied,
  { sheets }: Differences,
  after: readonly Revised[],
  composed: (inputs: Inputs) => Promise<readonly Revised[] | undefined>,
): Promise<Telling['causeOf']> => {
  if (placed.length < 2) return undefined
  const shownIn = (revised: readonly Revised[]) =>
    new Map(
      revised.map(({ shown }) => [shown.id, new Map(shown.values.map((value) => [value.name, value.shown]))]),
    )
  const found = await findCauses(
    compareInputs(before, inputs),
    new Map(sheets.map(({ id, numbers }) => [id, numbers.map(({ name }) => name)])),
    shownIn(after),
    async (mixed) => {
      const revised = await composed(mixed)
      return revised && shownIn(revised)
    },
    MOST_COMPOSED,
  )
  return (sheet, name) => [
    ...new Set(
      found.of(sheet, name).flatMap(({ file, path }) =>
        placed.flatMap(({ place }, index) => {
          const own = place.path.map((step) => String(typeof step === 'number' ? step + 1 : step))
          const isIn = own.every((step, at) => path[at] === undefined || path[at] === step)
          return place.below === file && isIn ? [index + 1] : []
        }),
      ),
    ),
  ]
}
