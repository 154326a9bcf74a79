/** `npm run new`: a maker's own folder that builds as it stands, or one more recipe, batch or fixture in it. */
import { existsSync } from 'node:fs'
import { join, relative, resolve, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { refuseTaken, writeNewFile, writeNewFolder } from '../output/new-files.ts'
import { OutputError } from '../output/output-error.ts'
import { answerFault } from '../schema/answers.ts'
import { FILE_KINDS } from '../schema/file-kinds.ts'
import { nameLike } from '../schema/names.ts'
import { languagesIn } from '../schema/read-catalogue.ts'
import { asFolderFiles } from '../schema/read-folder.ts'
import { readStarter } from '../starter/read-starter.ts'
import { batchText, type FolderAnswers, fixtureText, recipeText } from '../starter/starter-files.ts'
import { didYouMean } from '../units/spelling.ts'
import { type Asker, askerOn, canAsk } from './ask.ts'
import { composeFiles } from './compose.ts'
import { BAR, type MadeBinder as Binder, fittingOrAskedAgain, stopsAndConflicts } from './fitting-folder.ts'
import { helpBelow } from './help-folder.ts'
import { type Context, parsed, readOptions, UsageError } from './options.ts'
import { say } from './say.ts'
import { composeAndTell } from './terminal.ts'
import { dayAfter, today } from './today.ts'

const HELP = `npm run new -- FOLDER [--yes]
npm run new -- FOLDER recipe|batch|fixture [--name NAME]

Makes a folder of your own that prints a binder as it stands, with remarks in its files on what to change; or puts one
more recipe, batch or fixture into a folder that is there. It asks a few questions; Enter takes what stands in brackets.
Nothing is ever written over what is there.

  --yes          takes what is usual for everything that is not said
  --shop         name of the shop
  --language     of the binder: ${languagesIn().join(', ')}
  --paper        Letter or A4
  --units        in or mm
  --temperature  F or C
  --bar          its three sizes as it is cut: "2 1/4 in x 2 3/4 in x 1 1/8 in"
  --grid         loaves along and across the block, and bars in a loaf: 5x3x7
  --date         day of the batch, 2027-03-14
  --title        of the recipe or fixture
  --recipe, --mould   what the batch is of, and poured into
  --name         of the new file

It ends with 0 when it is written, 1 when something in the folder is wrong, 2 when nothing could be written.
`

const WHAT = {
  help: { type: 'boolean', short: 'h' },
  yes: { type: 'boolean', short: 'y' },
  shop: { type: 'string' },
  language: { type: 'string' },
  paper: { type: 'string' },
  units: { type: 'string' },
  temperature: { type: 'string' },
  bar: { type: 'string' },
  grid: { type: 'string' },
  date: { type: 'string' },
  title: { type: 'string' },
  recipe: { type: 'string' },
  mould: { type: 'string' },
  name: { type: 'string' },
} as const

type Key = Exclude<keyof typeof WHAT, 'help' | 'yes'>
const KINDS = ['recipe', 'batch', 'fixture'] as const
type Kind = (typeof KINDS)[number]
/** What each of them may be told. */
const SAID: Readonly<Record<Kind | 'folder', readonly Key[]>> = {
  folder: ['shop', 'language', 'paper', 'units', 'temperature', 'bar', 'grid', 'date'],
  recipe: ['title', 'name'],
  batch: ['date', 'recipe', 'mould', 'name'],
  fixture: ['title', 'bar', 'grid', 'name'],
}

export const run = async (
  args: string[],
  context: Context,
  asker: () => Asker | undefined = () => (canAsk() ? askerOn() : undefined),
): Promise<number> => {
  const { values, positionals } = parsed(args, WHAT)
  if (values.help) {
    process.stdout.write(HELP)
    return 0
  }
  const [typed, kind, ...more] = positionals
  if (typed === undefined || typed.trim() === '')
    throw new UsageError('Name the folder that is to be made, for example: npm run new -- my-binder')
  if (more.length > 0 || (kind !== undefined && !KINDS.some((one) => one === kind)))
    throw new UsageError(
      `After the folder comes nothing, or one of: ${KINDS.join(', ')}. A name with spaces in it goes in quotes.`,
    )
  const said = values as Readonly<Partial<Record<Key, string>>>
  const may = SAID[(kind as Kind | undefined) ?? 'folder']
  const strange = Object.keys(said).find((key) => key !== 'yes' && !may.includes(key as Key))
  if (strange !== undefined)
    throw new UsageError(
      `--${strange} means nothing here. What can be said: ${may.map((one) => `--${one}`).join(', ')}.`,
    )
  const asks = values.yes === true ? undefined : asker()
  const ask = answering(said, values.yes === true, asks)
  const mayAskAgain = asks !== undefined && said.bar === undefined && said.grid === undefined
  try {
    return kind === undefined
      ? await newFolder(resolve(context.cwd, typed), typed, ask, mayAskAgain)
      : await newFile(kind as Kind, typed, context, ask)
  } finally {
    asks?.close()
  }
}

interface Wanted {
  readonly text: string
  readonly usual: string
  readonly check: (answer: string) => string | undefined
}

type Ask = (key: Key, wanted: Wanted) => Promise<string>

/** What was typed after the command, else what a person answers, else, where `--yes` says so, what is usual. */
const answering =
  (said: Readonly<Partial<Record<Key, string>>>, takesUsual: boolean, asks: Asker | undefined): Ask =>
  async (key, { text, usual, check }) => {
    const given = said[key]?.trim() ?? (takesUsual ? usual : undefined)
    if (given !== undefined) {
      const fault = check(given)
      if (fault !== undefined) throw new UsageError(`--${key}: ${fault}`)
      return given
    }
    if (!asks)
      throw new UsageError(
        `Nobody is there to be asked: ${text} Say it with --${key}, or add --yes to take what is usual (${usual}).`,
      )
    return asks.ask({ text, usual, check })
  }

const { shop: SHOP, recipe: RECIPE, fixture: FIXTURE, batch: BATCH } = FILE_KINDS

const field =
  (kind: Parameters<typeof answerFault>[0], ...path: readonly string[]) =>
  (answer: string): string | undefined =>
    answerFault(kind, path, answer)

/** Where the program keeps what is its own: an update would take a maker's files with it. */
const root = fileURLToPath(new URL('../../', import.meta.url))
const OWN = ['src', 'content', 'tests', 'layouts', 'node_modules', 'output', '.git', '.ci']

const refuseOwn = (path: string, typed: string): void => {
  const below = relative(root, path)
  if (below === '' || OWN.some((name) => below === name || below.startsWith(name + sep)))
    throw new UsageError(
      `${typed} belongs to the program itself. Choose another place, for example ../my-binder beside it.`,
    )
}

/** Days from today to the first batch where nobody says otherwise: time to build a mould and fetch what is missing. */
const AHEAD = 28

const newFolder = async (path: string, typed: string, ask: Ask, mayAskAgain: boolean): Promise<number> => {
  refuseOwn(path, typed)
  refuseTaken(path)
  const shop = await ask('shop', {
    text: 'What is the shop called?',
    usual: 'My soap shed',
    check: field(SHOP, 'name'),
  })
  const languages = languagesIn()
  const language = await ask('language', {
    text: `Which language is the binder in (${languages.join(', ')})?`,
    usual: 'en',
    check: (answer) =>
      languages.includes(answer)
        ? undefined
        : `This program has no words in "${answer}". It has them in: ${languages.join(', ')}.`,
  })
  const paper = (await ask('paper', {
    text: 'Which paper is in the printer (Letter, A4)?',
    usual: language === 'en' ? 'Letter' : 'A4',
    check: field(SHOP, 'paper', 'size'),
  })) as FolderAnswers['paper']
  const length = (await ask('units', {
    text: 'Do you measure in inches or in millimetres (in, mm)?',
    usual: paper === 'Letter' ? 'in' : 'mm',
    check: field(SHOP, 'units', 'length'),
  })) as FolderAnswers['length']
  const temperature = (await ask('temperature', {
    text: 'Is your thermometer in Fahrenheit or Celsius (F, C)?',
    usual: length === 'in' ? 'F' : 'C',
    check: field(SHOP, 'units', 'temperature'),
  })) as FolderAnswers['temperature']
  const fixture = await askFixture(ask, length)
  const edition = today()
  const date = await ask('date', {
    text: 'On which day is the first batch poured?',
    usual: dayAfter(edition, AHEAD),
    check: field(BATCH, 'date'),
  })
  const answers: FolderAnswers = {
    name: shop,
    language,
    paper,
    length,
    temperature,
    edition,
    date,
    fixture,
  }
  const { files, told } = await fittingOrAskedAgain(
    answers,
    mayAskAgain ? () => askFixture(ask, length) : undefined,
  )
  writeNewFolder(path, new Map([...files, ...helpBelow()]))
  for (const line of told) say(line)
  const shown = shownAs(typed)
  say(
    `${typed} is written: ${files.size} files to change as you like, each with remarks, and "help" beside them.`,
  )
  say(`  npm run check -- ${shown}    says what is wrong after a change`)
  say(`  npm start -- ${shown}        prints the binder into ${join(typed, 'output')}`)
  return 0
}

const shownAs = (typed: string): string => (/\s/.test(typed) ? `"${typed}"` : typed)

const PARTS = ['along-length', 'along-width', 'thickness'] as const
const GRID = ['columns', 'rows', 'slices'] as const
/** A block that no wire parts needs no cutters, and more bars than that in a loaf no bar cutter takes. */
const LEAST = { columns: 2, rows: 2, slices: 3 } as const

const splitGrid = (answer: string): string[] => answer.split(/\s*[x×]\s*/).map((one) => one.trim())
/** "80 x 60 x 25 mm" is three sizes in one unit. */
const splitBar = (answer: string): string[] => {
  const parts = splitGrid(answer)
  const unit = /^[\d.\s/-]+(mm|cm|in|")$/.exec(parts.at(-1) ?? '')?.[1]
  const areBare = parts.slice(0, -1).every((part) => /^[\d.\s/-]+$/.test(part))
  return unit !== undefined && areBare
    ? parts.map((part, index) => (index < parts.length - 1 ? `${part} ${unit}` : part))
    : parts
}

const askFixture = async (ask: Ask, unit: 'in' | 'mm'): Promise<FolderAnswers['fixture']> => {
  const bar = splitBar(
    await ask('bar', {
      text: 'How large is a bar as it is cut? Its side along the block, its side across it, and its thickness (bars are sliced one above the other):',
      usual: BAR[unit],
      check: (answer) => {
        const parts = splitBar(answer)
        if (parts.length !== PARTS.length)
          return `Three sizes belong here, with an x between them, for example ${BAR[unit]}`
        return firstFault(PARTS.map((part, index) => answerFault(FIXTURE, ['bar', part], parts[index] ?? '')))
      },
    }),
  )
  const grid = splitGrid(
    await ask('grid', {
      text: 'How many loaves is a block, along and across, and how many bars is a loaf?',
      usual: '5x3x7',
      check: (answer) => {
        const parts = splitGrid(answer)
        if (parts.length !== GRID.length)
          return 'Three whole numbers belong here, with an x between them, for example 5x3x7.'
        return firstFault(
          GRID.map((part, index) => {
            const one = parts[index] ?? ''
            const fault = answerFault(FIXTURE, ['grid', part], one)
            if (fault !== undefined || Number(one) >= LEAST[part]) return fault
            return `"${one}" is too few: at least ${LEAST.columns}x${LEAST.rows}x${LEAST.slices}, so that there is something to cut.`
          }),
        )
      },
    }),
  ).map(Number)
  const [columns = 0, rows = 0, slices = 0] = grid
  return { bar: bar as unknown as [string, string, string], columns, rows, slices }
}

const firstFault = (faults: readonly (string | undefined)[]): string | undefined =>
  faults.find((one) => one !== undefined)

const newFile = async (kind: Kind, typed: string, context: Context, ask: Ask): Promise<number> => {
  const options = await readOptions([typed], context, false)
  refuseOwn(options.folder, typed)
  const binder = await composeAndTell(options)
  if (!binder) {
    say('Nothing was written: put this right first, then start again.')
    return 1
  }
  const { below, text } = await FILES[kind](binder, ask)
  const path = join(options.folder, ...below.split('/'))
  if (existsSync(path)) throw taken(options.shown, below)
  const more = await composeFiles(
    { files: [...binder.files, ...asFolderFiles(new Map([[below, text]]), options.shown)], diagnostics: [] },
    options.shown,
  )
  if (!more.binder)
    throw new UsageError(
      `This cannot be put together: ${more.diagnostics[0]?.message ?? ''}. ${more.diagnostics[0]?.advice ?? ''} Nothing was written.`,
    )
  writeNewFile(path, text)
  say(`${options.shown}/${below} is written, with remarks on what to change.`)
  const reasons = (of: Binder): readonly string[] => Object.values(stopsAndConflicts(of)).flat()
  const before = new Set(reasons(binder))
  for (const one of reasons(more.binder)) if (!before.has(one)) say(`  ${one}`)
  return 0
}

const taken = (shown: string, below: string): OutputError =>
  new OutputError(
    `${shown}/${below} is there already. Nothing of it was touched. Choose another name with --name.`,
  )

const unitsOf = ({ content }: Binder) => content.shop.value.units

/** The name of a file, taken from its title where nobody says another. */
const nameFor = (ask: Ask, usual: string, folder: string): Promise<string> =>
  ask('name', {
    text: `How is the file in "${folder}" to be called?`,
    usual,
    check: field(BATCH, 'recipe'),
  })

const FILES: Readonly<
  Record<Kind, (binder: Binder, ask: Ask) => Promise<{ readonly below: string; readonly text: string }>>
> = {
  recipe: async (binder, ask) => {
    const title = await ask('title', {
      text: 'What is the recipe called?',
      usual: 'Another bar',
      check: field(RECIPE, 'title'),
    })
    const name = await nameFor(ask, nameLike(title) || 'bar', 'recipes')
    const { content } = binder
    // what the folder has: a recipe of it, until the maker writes their own shares
    const [like] = content.recipes.values()
    const fats = like
      ? Object.fromEntries(
          Object.entries(like.value.fats).map(([key, share]) => [
            key,
            `${Number((share * 100).toFixed(2))} %`,
          ]),
        )
      : undefined
    const alkali = like?.value.alkali ?? [...content.alkalis.keys()][0]
    const text = recipeText(readStarter(), title, unitsOf(binder), {
      ...(fats ? { fats } : {}),
      ...(alkali === undefined ? {} : { alkali }),
    })
    return { below: `recipes/${name}.yaml`, text }
  },
  fixture: async (binder, ask) => {
    const title = await ask('title', {
      text: 'What is the block called?',
      usual: 'Another block',
      check: field(FIXTURE, 'title'),
    })
    const { length } = unitsOf(binder)
    const grid = await askFixture(ask, length)
    const name = await nameFor(ask, nameLike(title) || 'block', 'fixtures')
    return { below: `fixtures/${name}.yaml`, text: fixtureText(readStarter(), { title, ...grid }, length) }
  },
  batch: async (binder, ask) => {
    const { recipes, fixtures } = binder.content
    const oneOf =
      (keys: readonly string[], what: string) =>
      (answer: string): string | undefined => {
        if (keys.includes(answer)) return undefined
        const near = didYouMean(answer, keys)
        return `There is no ${what} "${answer}".${near === undefined ? '' : ` Did you mean "${near}"?`} There are: ${keys.join(', ')}.`
      }
    const chosen = async (
      key: 'recipe' | 'mould',
      keys: readonly string[],
      text: string,
    ): Promise<string> => {
      const [usual] = keys
      if (usual === undefined)
        throw new UsageError(
          `There is no ${key === 'recipe' ? 'recipe' : 'fixture'} in this folder yet. Make one first: npm run new -- FOLDER ${key === 'recipe' ? 'recipe' : 'fixture'}`,
        )
      return ask(key, { text: `${text} (${keys.join(', ')})`, usual, check: oneOf(keys, key) })
    }
    const recipe = await chosen('recipe', [...recipes.keys()], 'Which recipe is it of?')
    const mould = await chosen('mould', [...fixtures.keys()], 'Which mould is it poured into?')
    const date = await ask('date', {
      text: 'On which day is it poured?',
      usual: dayAfter(today(), AHEAD),
      check: field(BATCH, 'date'),
    })
    const name = await nameFor(ask, nameLike(`${date}-${recipe}`), 'batches')
    return {
      below: `batches/${name}.yaml`,
      text: batchText(readStarter(), { recipe, mould, date }, unitsOf(binder)),
    }
  },
}
