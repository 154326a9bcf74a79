/** What a sheet shows: all text on it from top to bottom, its values by name, its drawings. */
import { createHash } from 'node:crypto'
import { filling } from '../sheets/compose.ts'
import type { Block, Card, Case, Cell, Inline, Sheet, Signal, Source, Value } from '../sheets/model.ts'
import type { ShownDrawing, ShownLine, ShownSheet, ShownValue } from '../sheets/printed/shown-types.ts'
import { bodyParts, type SeenWords, seenLines, seenWords } from '../site/markdown.ts'
import { filledLine, gapFor, plainText } from './line-text.ts'

/** Words that the templates put beside those of the sheet: signal words, heads of the contents, names of evidence. */
export type FrameWords = Readonly<Record<string, Inline>>

/** Between cells of a row. */
const CELL = '\t'
/** What a drawing says to programs alone. */
const UNSEEN = / (?:data-[a-z-]+|aria-label)="[^"]*"/g
const BOX = '[ ]'
const BLANK = '____'
/** The longest label that is taken from a sentence. */
const LONGEST_LABEL = 48

/**
 * What is on a sheet for somebody who holds it.
 *
 * Not in it: the sheet's revision, code and edition, numbers of pages, where links lead, how anything is set, and
 * what stands in every title block. All else that is read on the paper is.
 */
export const shownSheet = (sheet: Sheet, words: FrameWords, language: string): ShownSheet => {
  const before = known.get(sheet)
  if (before) return before
  const shown = readSheet(sheet, words, language)
  known.set(sheet, shown)
  return shown
}

/** Sheets that are composed once, of one catalogue, are read once. */
const known = new WeakMap<Sheet, ShownSheet>()

const readSheet = (sheet: Sheet, words: FrameWords, language: string): ShownSheet => {
  const values = new Map<string, ShownValue>()
  const lines: ShownLine[] = []
  const drawings: ShownDrawing[] = []

  const write: Writer = {
    words,
    line: (
      spoken,
      label,
      about = sheet.kind === 'cautions' || sheet.kind === 'emergency' ? 'caution' : undefined,
    ) => {
      const texts = spoken.filter((one): one is Spoken => one !== undefined)
      const line = texts.map(({ text }) => text).join(CELL)
      if (line.replaceAll(CELL, '') === '') return
      lines.push({ text: line, ...(about ? { about } : {}) })
      for (const [at, { values: found }] of texts.entries())
        for (const value of found)
          if (!values.has(value.name))
            values.set(value.name, {
              name: value.name,
              shown: value.shown,
              unit: value.unit,
              label: label?.(at) ?? sentenceLabel(texts[at]?.text ?? '', value.name),
            })
    },
    drawing: (svg, label, drawn) => {
      drawings.push({ label, hash: sha256(svg.replace(UNSEEN, '')) })
      for (const { name, shown, unit } of drawn)
        if (!values.has(name))
          values.set(name, { name, shown, unit, label: `${label}: ${measureName(name)}` })
    },
  }

  const title = spokenOf(sheet.title)
  const head = spokenOf(sheet.section)
  write.line([title])
  write.line([{ text: gapFor(sheet.reading.at.name), values: [sheet.reading.at] }])
  for (const part of bodyParts(sheet)) {
    if ('block' in part) writeBlock(write, part.block)
    else
      for (const { words: seen, caution } of seenLines(part.text))
        write.line([spokenWith(seen, sheet.fill)], undefined, caution ? 'caution' : undefined)
  }
  for (const { title: source, evidence } of sheet.sources)
    write.line([plain(source), spokenOf(wordOf(words, `evidence-${evidence satisfies Source['evidence']}`))])
  if (sheet.sources.length > 0) write.line([spokenOf(wordOf(words, 'sources'))])
  const show = (line: string): string => filledLine(line, (name) => values.get(name)?.shown ?? '')
  return {
    id: sheet.id,
    language,
    number: sheet.number,
    section: filledLine(head.text, (name) => head.values.find((one) => one.name === name)?.shown ?? ''),
    title: show(title.text),
    values: [...values.values()],
    lines,
    drawings,
  }
}

/**
 * What tells two papers of a sheet apart: SHA-256 over all text as it is read, and the drawings.
 *
 * Names of values and labels are not in it: they may be better chosen without any paper becoming wrong.
 */
export const fingerprintOf = (shown: ShownSheet): string => {
  const values = new Map(shown.values.map((value) => [value.name, value.shown]))
  return sha256(
    JSON.stringify([
      FORMAT,
      shown.language,
      shown.id,
      shown.number,
      shown.section,
      shown.lines.map(({ text }) => filledLine(text, (name) => values.get(name) ?? '')),
      shown.drawings.map(({ hash }) => hash),
    ]),
  )
}

/** Raised when a fingerprint is taken of something else: every paper is then another one. */
const FORMAT = 1

export const sha256 = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex')

interface Spoken {
  readonly text: string
  readonly values: readonly Value[]
}

interface Writer {
  readonly words: FrameWords
  /** @param label of the values in a cell; without it, the words round them */
  readonly line: (
    spoken: readonly (Spoken | undefined)[],
    label?: (cell: number) => string | undefined,
    about?: ShownLine['about'],
  ) => void
  readonly drawing: (svg: string, label: string, drawn: readonly Value[]) => void
}

const wordOf = (words: FrameWords, name: string): Inline => {
  const found = words[name]
  if (!found) throw new Error(`The templates have no word "${name}".`)
  return found
}

const plain = (text: string): Spoken => ({ text: plainText(collapsed(text)), values: [] })
const collapsed = (text: string): string => text.replace(/[ \t\r\n]+/g, ' ').replace(/^ | $/g, '')
const join = (...parts: readonly (Spoken | undefined)[]): Spoken => ({
  text: parts.flatMap((one) => (one && one.text !== '' ? [one.text] : [])).join(' '),
  values: parts.flatMap((one) => one?.values ?? []),
})

const spokenOf = ({ text, fill }: Inline): Spoken => spokenWith(seenWords(text), fill)

const spokenWith = (seen: SeenWords, fill: Inline['fill']): Spoken => {
  const values: Value[] = []
  const text = seen
    .map((part) => {
      if (typeof part === 'string') return plainText(part)
      const found = filling(part.gap, fill)
      if (typeof found === 'string') return plainText(found)
      if ('text' in found) {
        const inner = spokenOf(found)
        values.push(...inner.values)
        return inner.text
      }
      values.push(found)
      return gapFor(found.name)
    })
    .join('')
  return { text: collapsed(text), values }
}

/** As a label a line shows three dots where its values stand. */
const bare = ({ text }: Spoken): string => filledLine(text.replaceAll(CELL, ' '), () => '…')

/** What a row or a caption is about: its words without the values at their ends; nothing where it is of values alone. */
const subjectOf = (spoken: Spoken): string => {
  const words = bare(spoken)
    .replace(/^(?:\[ \]|[\s….,:;)–-])+|[\s….,:;(–-]+$/g, '')
    .replace(/(?:…[ ,]*)+…/g, '…')
  return (words.match(/\p{L}/gu)?.length ?? 0) < LEAST_LETTERS ? '' : words
}
/** Such as "to" between two values. */
const LEAST_LETTERS = 3

/**
 * What a value in a sentence is called: the beginning of the sentence up to its first value, which usually names the
 * thing; where that is a word only, "Weigh", with what follows the value.
 */
const sentenceLabel = (line: string, name: string): string => {
  let isFound = false
  const marked = filledLine(
    line
      .replaceAll(CELL, ' ')
      .replace(/^\d+\. /, '')
      .replaceAll(BOX, ''),
    (one) => {
      if (one !== name || isFound) return OTHER
      isFound = true
      return HERE
    },
  )
  const place = marked.indexOf(HERE)
  const end = /[.!?](?= |$)/.exec(marked.slice(place))?.index ?? marked.length - place
  const before =
    marked
      .slice(0, place)
      .split(/[.!?] /)
      .at(-1) ?? ''
  const beginning = withoutEnds(before.split(OTHER)[0] ?? '')
  const after = withoutEnds(marked.slice(place + 1, place + end).split(/[,;:\uE002]/)[0] ?? '')
  const near = withoutEnds(before.split(OTHER).at(-1) ?? '')
  if (beginning.includes(' ')) return shortened(beginning)
  if (beginning !== '' && after !== '' && !before.includes(OTHER)) return shortened(`${beginning} … ${after}`)
  return shortened([beginning, near, after].find((one) => one.includes(' ')) ?? (beginning || near || after))
}
const HERE = '\uE001'
const OTHER = '\uE002'

const withoutEnds = (words: string): string => words.replace(/^[\s.,:;)–]+|[\s.,:;(–]+$/g, '')

const shortened = (words: string): string => {
  if (words.length <= LONGEST_LABEL) return words
  const last = words.lastIndexOf(' ', LONGEST_LABEL)
  return `${words.slice(0, last > 0 ? last : LONGEST_LABEL)} …`
}

/** `base.length.2` as somebody may read it who looks for it in the drawing. */
const measureName = (name: string): string => name.replace(/[.:/-]+/g, ' ')

const signalOf = (words: FrameWords, signal: Signal): Spoken => spokenOf(wordOf(words, `signal-${signal}`))

const cellOf = (cell: Cell): Spoken => {
  switch (cell.kind) {
    case 'words':
    case 'typed':
      return spokenOf(cell.words)
    case 'value':
      return { text: gapFor(cell.value.name), values: [cell.value] }
    case 'maker':
      return plain(cell.text)
    case 'box':
      return { text: BOX, values: [] }
    case 'choices':
      return join(...cell.of.flatMap((one) => [{ text: BOX, values: [] }, spokenOf(one)]))
    case 'blank':
      return join({ text: BLANK, values: [] }, cell.after && spokenOf(cell.after))
    // where a sheet stands in the binder is no part of what a paper says
    case 'pages':
    case 'empty':
      return { text: '', values: [] }
  }
}

/** In the order in which the block's template writes it. */
const writeBlock = (write: Writer, block: Block): void => {
  const { words, line } = write
  const warn = (spoken: Spoken): void => line([spoken], undefined, 'caution')
  switch (block.kind) {
    case 'table': {
      if (block.caption) line([spokenOf(block.caption)])
      const heads = block.columns.map(({ head }) => spokenOf(head))
      line(heads)
      for (const row of [...block.rows, ...(block.foot ?? [])]) {
        const cells = row.map(cellOf)
        const named = cells.findIndex(({ text }) => filledLine(text, () => '') !== '' && text !== BOX)
        const first = named < 0 ? '' : subjectOf(cells[named] as Spoken)
        line(cells, (at) =>
          at === named && first !== ''
            ? first
            : [first, heads[at] ? subjectOf(heads[at]) : ''].filter((one) => one !== '').join(', '),
        )
      }
      return
    }
    case 'steps':
      for (const [index, { caution, text, why, blanks }] of block.items.entries()) {
        if (caution) warn(join(signalOf(words, caution.signal), spokenOf(caution.words)))
        line([plain(`${block.first + index}.`), join({ text: BOX, values: [] }, spokenOf(text))])
        if (why) line([spokenOf(why)])
        for (const { label, after, typed } of blanks ?? [])
          line([
            join(
              spokenOf(label),
              ...(typed ? [spokenOf(typed)] : [{ text: BLANK, values: [] }, after && spokenOf(after)]),
            ),
          ])
      }
      return
    case 'facts':
      for (const { label, cell, note } of block.items) {
        const name = spokenOf(label)
        line([name, cellOf(cell)], (at) => (at === 0 ? undefined : subjectOf(name)))
        if (note) line([spokenOf(note)])
      }
      return
    case 'cautions':
      if (block.items.length === 0) return
      warn(join(signalOf(words, block.signal), block.heading && spokenOf(block.heading)))
      for (const item of block.items) warn(spokenOf(item))
      return
    case 'figure': {
      const caption = spokenOf(block.caption)
      write.drawing(block.svg, bare(caption), block.values)
      line([caption])
      return
    }
    case 'contents':
      line(['sheet', 'title', 'page'].map((name) => spokenOf(wordOf(words, name))))
      for (const { number, title } of block.entries) line([plain(number), spokenOf(title)])
      return
    case 'stamp':
      warn(spokenOf(block.heading))
      for (const item of block.items) warn(spokenOf(item))
      for (const tick of block.ticks ?? []) line([join({ text: BOX, values: [] }, spokenOf(tick))])
      return
    case 'card':
      writeCard(write, block)
      return
    case 'first-aid':
      line([spokenOf(block.always)])
      for (const { where, act } of block.items) line([spokenOf(where), spokenOf(act)])
      return
    case 'contacts':
      for (const { who, reach } of block.contacts)
        line(
          [plain(who), reach === undefined ? { text: BLANK, values: [] } : plain(reach)],
          undefined,
          'contact',
        )
      for (const who of block.toWrite)
        line([spokenOf(who), { text: BLANK, values: [] }], undefined, 'contact')
      return
    case 'cases':
      for (const item of block.items) writeCase(write, block.labels, item)
      return
    case 'index':
      for (const { title, items } of block.groups) {
        line([spokenOf(title)])
        line([block.heads.place, block.heads.sign, block.heads.verdict, block.heads.page].map(spokenOf))
        for (const { code, sign, verdict } of items) line([plain(code), spokenOf(sign), spokenOf(verdict)])
      }
      return
    case 'month':
      line(block.weekdays.map(spokenOf))
      for (const { day, note, groups } of block.weeks.flat()) {
        if (!day) continue
        line([join({ text: gapFor(day.name), values: [day] }, note && spokenOf(note))])
        for (const { of, tasks } of groups) {
          const thing = spokenOf(of)
          line([thing])
          for (const task of tasks)
            line([join({ text: BOX, values: [] }, spokenOf(task))], () => `${day.shown}, ${bare(thing)}`)
        }
      }
      return
  }
}

const writeCard = ({ words, line, drawing }: Writer, card: Card): void => {
  const warn = (spoken: Spoken): void => line([spoken], undefined, 'caution')
  warn(join(signalOf(words, card.caution.signal), spokenOf(card.caution.words)))
  if (card.number) {
    const label = spokenOf(card.number.label)
    line([label, spokenOf(card.number.words)], (at) => (at === 0 ? undefined : subjectOf(label)))
    if (card.picture) drawing(card.picture.svg, bare(label), card.picture.values)
  }
  for (const one of [card.hold, card.wear]) if (one) warn(spokenOf(one))
  for (const one of card.steps) line([spokenOf(one)])
  if (card.stop) warn(join(spokenOf(wordOf(words, 'cardStop')), spokenOf(card.stop)))
  line([spokenOf(card.from)])
}

const writeCase = (
  { line }: Writer,
  labels: Readonly<Record<'see' | 'cause' | 'now' | 'safe' | 'next', Inline>>,
  item: Case,
): void => {
  line([plain(item.code), spokenOf(item.sign)])
  line([join(spokenOf(labels.see), spokenOf(item.see))])
  line([spokenOf(labels.now)])
  for (const step of item.now) line([spokenOf(step)])
  line([spokenOf(labels.safe), join(spokenOf(item.verdict), spokenOf(item.safe))])
  line([spokenOf(labels.cause), spokenOf(item.cause)])
  line([spokenOf(labels.next), spokenOf(item.next)])
}
