/** `npm run recall`: one lot or batch called back, as one sheet to print, beside the binder and never in its place. */
import { existsSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { parseArgs } from 'node:util'
import type { BoundBinder } from '../binder/bind.ts'
import type { Recalled } from '../binder/bind-trace.ts'
import { lookUp } from '../binder/recall-lookup.ts'
import { withStagedOutput } from '../output/staged-output.ts'
import { recallSheet } from '../sheets/supply/recall-sheet.ts'
import { type Context, type Options, readOptions, UsageError } from './options.ts'
import { browserPath, printSheets } from './print-sheets.ts'
import { say } from './say.ts'
import { composeAndTell } from './terminal.ts'

const HELP = `npm run recall -- LOT [FOLDER] [--out OUTPUT]

Makes a page for calling something back: which batches and bars hold it, what is still in the shop, who has the rest,
and what nobody wrote down. LOT is a lot as it stands in the list of stock, the name of a batch, or the code on a wrapper.
It writes OUTPUT/recall.pdf to print and OUTPUT/index.html to read. Without FOLDER it looks in this program's own demo;
without --out it writes into FOLDER/recall/LOT. The binder is left as it is.

It ends with 0 when the page is written, 1 when something in the folder is wrong, 2 when the program could not do its work.
`

export const run = async (args: string[], context: Context): Promise<number> => {
  const { lot, rest } = splitLot(args)
  const options = await readOptions(rest, context, true)
  if (options.help) {
    process.stdout.write(HELP)
    return 0
  }
  if (lot === undefined)
    throw new UsageError(
      'Name what is called back: a lot, a batch, or the code on a wrapper. For example: npm run recall -- N-88',
    )
  const binder = await composeAndTell(options)
  if (!binder) return 1
  const recalled = found(binder.bound, lot)
  const name = recalled.kind === 'lot' ? recalled.lot.lot : recalled.batch
  const out = outOf(options, rest, name)
  const sheets = [recallSheet(binder.frame, binder.bound, recalled)]
  const browser = browserPath()
  await withStagedOutput(
    out,
    async (staging, work) => {
      const { document, paper } = await printSheets(binder, sheets, { browser, work })
      writeFileSync(join(staging, 'index.html'), document)
      writeFileSync(join(staging, 'recall.pdf'), paper.pdf)
    },
    { content: options.folder },
  )
  say(summary(recalled, name))
  say(`${join(out, 'recall.pdf')}: print it at actual size.`)
  return 0
}

/** The first name that is typed is what is called back; what is left is said as to every command. */
const splitLot = (args: readonly string[]): { readonly lot: string | undefined; readonly rest: string[] } => {
  try {
    const { tokens } = parseArgs({
      args: [...args],
      allowPositionals: true,
      tokens: true,
      options: { help: { type: 'boolean', short: 'h' }, out: { type: 'string' } },
    })
    const first = tokens.find((token) => token.kind === 'positional')
    if (first?.kind !== 'positional') return { lot: undefined, rest: [...args] }
    return { lot: first.value.trim(), rest: args.filter((_, index) => index !== first.index) }
  } catch {
    // what cannot be understood is explained by readOptions
    return { lot: undefined, rest: [...args] }
  }
}

/** @throws UsageError in plain words when nothing, or not one thing, is meant */
const found = (bound: BoundBinder, typed: string): Recalled => {
  const looked = lookUp(bound, typed)
  if ('found' in looked) return looked.found
  if ('code' in looked)
    throw new UsageError(
      looked.batches.length === 0
        ? `The code ${looked.code} is of ${looked.date}, and no batch here was poured then.`
        : `The code ${looked.code} is of ${looked.date}, when several batches were poured: ${looked.batches.join(', ')}. Name the one that you mean.`,
    )
  const { near, known } = looked
  const hint =
    near !== undefined
      ? ` Did you mean "${near}"?`
      : existsSync(join(typed, 'shop.yaml'))
        ? ' That is a folder: name the lot before it, for example: npm run recall -- N-88 my-shop'
        : known.length === 0
          ? ' Nothing is written down of lots or batches here.'
          : ` Known are: ${known.slice(0, MOST_NAMED).join(', ')}${known.length > MOST_NAMED ? ', …' : ''}.`
  throw new UsageError(`There is no lot, no batch and no code "${typed}".${hint}`)
}

const MOST_NAMED = 20

/** A folder for each thing that is called back: one recall takes no other's place. */
const outOf = (options: Options, typed: readonly string[], name: string): string => {
  const isGiven = typed.some((one) => one === '--out' || one.startsWith('--out='))
  // beside the binder's own folder, wherever that is
  const out = isGiven ? options.out : join(dirname(options.out), 'recall', slugOf(name))
  if (existsSync(join(out, 'binder.json')))
    throw new UsageError(
      `${out} holds a binder. Name another folder after --out: a recall takes nothing's place.`,
    )
  return out
}

/** A name that every file system takes. */
const slugOf = (name: string): string =>
  name
    .normalize('NFD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'lot'

const summary = ({ kind, holders }: Recalled, name: string): string => {
  const batches = holders.batches.map((one) => one.name)
  if (batches.length === 0) return `Lot ${name}: by the records no batch holds any of it.`
  const open =
    holders.unrecorded.length > 0 ? `; of ${holders.unrecorded.join(', ')} nobody wrote down what left` : ''
  return `${kind === 'lot' ? 'Lot' : 'Batch'} ${name}: ${batches.length === 1 ? 'one batch' : `${batches.length} batches`} (${batches.join(', ')}), ${holders.made} bars fit for sale, ${holders.sold} gone, ${holders.kept} in the shop${open}.`
}
