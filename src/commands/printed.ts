/** `npm run printed`: writes down which papers were hung up, filed or given away, and which were taken down. */
import { join } from 'node:path'
import { readSheetCode } from '../labelling/paper-code.ts'
import { OutputError } from '../output/output-error.ts'
import { addToRecords } from '../output/records-file.ts'
import { inputsText, keptName, keptText } from '../papers/kept-text.ts'
import { papersIn } from '../papers/papers.ts'
import { withEntry } from '../papers/record-text.ts'
import { type Revised, shortFingerprint } from '../papers/revisions.ts'
import { date as dateField } from '../schema/fields.ts'
import { isHung, type PrintedEntry } from '../schema/printed.ts'
import { KEPT, PRINTED, RECORDS } from '../schema/read-folder.ts'
import type { Paper } from '../sheets/printed/types.ts'
import { didYouMean } from '../units/spelling.ts'
import { type Asker, askerOn, canAsk } from './ask.ts'
import type { Composed } from './compose.ts'
import { type Context, parsed, readOptions, UsageError } from './options.ts'
import { say } from './say.ts'
import { composeAndTell } from './terminal.ts'
import { today } from './today.ts'

const HELP = `npm run printed -- [FOLDER] --sheets 4.1,5.2 --where "wall by the scale" [--laminated | --filed | --given-away]
npm run printed -- [FOLDER] --taken-down H7KQ-2-M4TX,5.2 [--where "wall by the scale"]
npm run printed -- [FOLDER] --gone H7KQ-2-M4TX

Writes down which papers were printed and where they are, or that papers were taken down or are gone, in
FOLDER/records/printed.yaml, and keeps what they showed in FOLDER/records/as-printed. The binder then lists papers
that are out of date. Nothing is printed here: print the binder first.

  --sheets      numbers or names of sheets, with commas between; or: all, cards, "section 5"
  --where       where they hang or lie, or who has them
  --laminated   they hang in the shop (so it is taken where nothing is said); --filed; --given-away
  --date        the day, 2027-03-02; this machine's own without it
  --by          who did it
  --taken-down  codes of papers, or numbers of sheets, that were taken down; --gone where nobody knows what became of them

Without options, at a terminal, it asks. It ends with 0 when all is well, 1 when something in the folder is wrong,
2 when the program could not do its work.
`

const WHAT = {
  help: { type: 'boolean', short: 'h' },
  sheets: { type: 'string' },
  where: { type: 'string' },
  laminated: { type: 'boolean' },
  filed: { type: 'boolean' },
  'given-away': { type: 'boolean' },
  date: { type: 'string' },
  by: { type: 'string' },
  'taken-down': { type: 'string' },
  gone: { type: 'string' },
} as const

interface Said {
  readonly sheets?: string
  readonly where?: string
  readonly laminated?: boolean
  readonly filed?: boolean
  readonly 'given-away'?: boolean
  readonly date?: string
  readonly by?: string
  readonly 'taken-down'?: string
  readonly gone?: string
}

type Binder = NonNullable<Composed['binder']>

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
  const options = await readOptions(positionals, context, false)
  const isTold =
    values.sheets !== undefined || values['taken-down'] !== undefined || values.gone !== undefined
  const asks = isTold ? undefined : asker()
  if (!isTold && !asks)
    throw new UsageError(
      'Say which sheets, for example: npm run printed -- --sheets 5.1,5.2 --where "wall by the scale". Add --help to see what else can be said.',
    )
  try {
    const binder = await composeAndTell(options)
    if (!binder) return 1
    const said = asks ? await asked(binder, values, asks) : values
    return await writeDown(binder, options.folder, said)
  } finally {
    asks?.close()
  }
}

const writeDown = async (binder: Binder, folder: string, said: Said): Promise<number> => {
  const entry = entryOf(binder, said)
  await write(folder, binder, entry)
  tell(binder, entry, said.date === undefined)
  return 0
}

/** A few plain questions; what was said already is not asked again. */
const asked = async (binder: Binder, said: Said, asks: Asker): Promise<Said> => {
  const ask = (text: string): Promise<string> => asks.ask({ text })
  const letter = (text: string, usual: string, letters: readonly string[]): Promise<string> =>
    asks
      .ask({
        text,
        usual,
        check: (answer) =>
          letters.includes(answer.charAt(0).toLowerCase())
            ? undefined
            : `Type one of: ${letters.join(', ')}.`,
      })
      .then((answer) => answer.charAt(0).toLowerCase())
  const refusedBy =
    (look: (answer: string) => unknown) =>
    (answer: string): string | undefined => {
      try {
        look(answer)
        return undefined
      } catch (error) {
        if (error instanceof UsageError) return error.message
        throw error
      }
    }
  if ((await letter('Were papers hung up (h), or taken down (t)?', 'h', ['h', 't'])) === 't') {
    const which = await asks.ask({
      text: 'Which? Codes on them or numbers of sheets, with commas between:',
      check: refusedBy((answer) => papersMeant(binder, answer, said.where?.trim())),
    })
    return { ...said, 'taken-down': which }
  }
  const sheets = await asks.ask({
    text: 'Which sheets? Numbers with commas between, or: all, cards, section 5',
    check: refusedBy((answer) => sheetsMeant(binder, answer)),
  })
  for (const { sheet } of sheetsMeant(binder, sheets)) say(`  ${sheet.number}  ${sheet.id}`)
  const where =
    said.where ??
    (await asks.ask({
      text: 'Where do they hang or lie, or who has them?',
      check: (answer) => (answer === '' ? 'Name the place, for example: wall by the scale' : undefined),
    }))
  const how = await letter('Do they hang in the shop (h), lie filed (f), or were they given away (g)?', 'h', [
    'h',
    'f',
    'g',
  ])
  const by = said.by ?? (await ask('Who did it? Nothing is an answer, too:'))
  const named = by === '' ? {} : { by }
  return {
    ...said,
    sheets,
    where,
    ...named,
    ...(how === 'f' ? { filed: true } : how === 'g' ? { 'given-away': true } : { laminated: true }),
  }
}

/** @throws UsageError in plain words for what cannot be meant */
const entryOf = (binder: Binder, said: Said): PrintedEntry => {
  const date = said.date?.trim() ?? today()
  if (!dateField().safeParse(date).success)
    throw new UsageError(`"${date}" is no day. Write year, month and day, for example --date 2027-03-02.`)
  const last = binder.content.printed?.value.entries.at(-1)?.date
  if (last !== undefined && date < last)
    throw new UsageError(
      `The last entry of ${PRINTED} is of ${last}, and this one would be of ${date}. Entries stand in the order of their days: say another --date, or write the entry into the file yourself.`,
    )
  const by = said.by?.trim()
  const where = said.where?.trim()
  const common = { date, ...(by ? { by } : {}) }
  const ways = [
    ...(said.sheets === undefined ? [] : ['--sheets']),
    ...(said['taken-down'] === undefined ? [] : ['--taken-down']),
    ...(said.gone === undefined ? [] : ['--gone']),
  ]
  if (ways.length > 1) throw new UsageError(`Say one at a time: ${ways.join(' or ')}.`)
  const removed = said['taken-down'] ?? said.gone
  if (removed !== undefined) {
    const how = said.gone === undefined ? 'taken-down' : 'gone'
    const papers = papersMeant(binder, removed, where)
    return {
      ...common,
      how,
      ...(where ? { where } : {}),
      sheets: papers.map(({ sheet, revision, code }) => ({ sheet, revision, code })),
    }
  }
  const hows = (['laminated', 'filed', 'given-away'] as const).filter((how) => said[how] === true)
  if (hows.length > 1)
    throw new UsageError(`Say one of ${hows.map((how) => `--${how}`).join(' and ')}, not all.`)
  if (!where)
    throw new UsageError('Say where the papers hang or lie, for example --where "wall by the scale".')
  return {
    ...common,
    how: hows[0] ?? 'laminated',
    where,
    sheets: sheetsMeant(binder, said.sheets ?? '').map(({ sheet, revision, code, fingerprint }) => ({
      sheet: sheet.id,
      revision,
      code: code.code,
      shows: shortFingerprint(fingerprint),
    })),
  }
}

const named = (typed: string): string[] =>
  typed
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '')

const sheetsMeant = ({ revised }: Binder, typed: string): Revised[] => {
  const all = named(typed)
  if (all.length === 0) throw new UsageError('No sheet is named after --sheets.')
  const found = all.flatMap((one): readonly Revised[] => {
    if (one === 'all') return revised
    if (one === 'cards') return revised.filter(({ sheet }) => sheet.kind === 'card')
    const section = /^section[ -]?(\d+)$/.exec(one)?.[1]
    const some = revised.filter(({ sheet }) =>
      section === undefined
        ? sheet.number === one || sheet.id === one
        : sheet.number.startsWith(`${section}.`),
    )
    if (some.length > 0) return some
    const near = didYouMean(one, [...revised.map(({ sheet }) => sheet.id), 'cards', 'all'])
    throw new UsageError(
      `There is no sheet "${one}".${near === undefined ? ' The contents list all numbers.' : ` Did you mean "${near}"?`}`,
    )
  })
  return [...new Set(found)]
}

const papersMeant = ({ content, revised }: Binder, typed: string, where: string | undefined): Paper[] => {
  const papers = papersIn(content.printed?.value).filter(
    (paper) => where === undefined || paper.where === where,
  )
  const all = named(typed)
  if (all.length === 0) throw new UsageError('No paper is named.')
  return [
    ...new Set(
      all.flatMap((one) => {
        const read = readSheetCode(one)
        const id = revised.find(({ sheet }) => sheet.number === one)?.sheet.id ?? one
        const some = papers.filter(({ code, sheet }) => sheet === id || (read.ok && code === read.read.code))
        if (some.length > 0) return some
        throw new UsageError(
          `By ${PRINTED} no paper "${one}" hangs ${where === undefined ? 'anywhere' : `at "${where}"`}. The page of printed papers lists all of them with their codes.`,
        )
      }),
    ),
  ]
}

const write = async (folder: string, binder: Binder, entry: PrintedEntry): Promise<void> => {
  const kept = new Map<string, string | Uint8Array>()
  if (entry.sheets.some(({ shows }) => shows !== undefined)) {
    const inputs = inputsText(
      binder.files.filter(({ below, refused }) => !refused && !below.startsWith(`${RECORDS}/`)),
    )
    const within = KEPT.slice(RECORDS.length + 1)
    for (const [name, bytes] of inputs.copies) kept.set(`${within}/${name}`, bytes)
    kept.set(`${within}/${inputs.name}`, inputs.text)
    for (const { sheet, revision } of entry.sheets) {
      const one = binder.revised.find(({ sheet: own }) => own.id === sheet)
      if (one)
        kept.set(
          `${within}/${keptName(sheet, revision)}`,
          keptText({ shown: one.shown, revision, fingerprint: one.fingerprint, inputs: inputs.name }),
        )
    }
  }
  const known = binder.content.printed?.document.text
  await addToRecords(join(folder, RECORDS), kept, {
    name: PRINTED.slice(RECORDS.length + 1),
    text: (before) => {
      if (before?.replace(/^\ufeff/, '') !== known)
        throw new OutputError(`${PRINTED} was changed while this ran. Start again.`)
      const text = withEntry(before, entry)
      if (text === undefined)
        throw new OutputError(
          `The entry cannot be put at the end of ${PRINTED}. Let "entries:" be its last part, with each entry on lines of its own that begin with a dash.`,
        )
      return text
    },
  })
}

const tell = ({ content, revised }: Binder, entry: PrintedEntry, isToday: boolean): void => {
  const day = `${entry.date}${isToday ? ", this machine's day" : ''}`
  const isRemoved = !isHung(entry.how)
  say(
    `${isRemoved ? (entry.how === 'gone' ? 'Gone' : 'Taken down') : `Printed, ${entry.how}`}${entry.where === undefined ? '' : `, ${entry.where}`} (${day}):`,
  )
  const numberOf = (id: string): string => revised.find(({ sheet }) => sheet.id === id)?.sheet.number ?? '–'
  for (const { sheet, revision, code } of entry.sheets)
    say(`  ${numberOf(sheet).padEnd(5)} ${code}  ${sheet}, revision ${revision}`)
  if (isRemoved) return
  const old = papersIn(content.printed?.value).filter((paper) =>
    entry.sheets.some(({ sheet, code }) => sheet === paper.sheet && code !== paper.code),
  )
  if (old.length === 0) return
  say('By the records older papers of these sheets still hang:')
  for (const { sheet, code, where } of old) say(`  ${numberOf(sheet).padEnd(5)} ${code}  ${where}`)
  say(`Take them down, then: npm run printed -- --taken-down ${old.map(({ code }) => code).join(',')}`)
}
