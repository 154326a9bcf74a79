/** What stands on the label of a batch, in the words of the catalogue and of the maker, and how it is set. */
import type { BoundLabel } from '../../binder/bind-labels.ts'
import {
  CAPITAL_N,
  type LabelLayout,
  type LabelRoom,
  type LabelWords,
  labelLayout,
  NET_LEADING,
  SMALL_LETTER,
} from '../../drawing/labels/label-layout.ts'
import { BOLD } from '../../drawing/lettering.ts'
import { textWidth } from '../../drawing/text-width.ts'
import { capitalHeight, type TextRun } from '../../drawing/types.ts'
import { wrapRuns } from '../../drawing/wrap-runs.ts'
import type { Finding } from '../../findings.ts'
import { keptByInput } from '../../kept-or-made.ts'
import type { FittedText } from '../../labelling/type-size.ts'
import { placeholders } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Value } from '../model.ts'

/** m to mm */
const MM = 1000
const DRAWN = 'drawing.'

/** Values on a label are named for its drawing: they stand on it, and in no text. */
const named = (name: string): string => `${DRAWN}label.${name}`

export interface SetLabel {
  readonly layout: LabelLayout
  /** the weight, fitted; undefined where this program knows no height for it */
  readonly net: FittedText | undefined
  /** that the label shows */
  readonly values: readonly Value[]
  readonly findings: readonly Finding[]
}

/** The weight as the label says it; also for the sheet, which names its values itself. */
export const netWords = (
  { onLabel: { say, show } }: Frame,
  label: BoundLabel,
  name: (part: string) => string,
): Inline | undefined => {
  const { statement } = label.net
  if (!statement) return undefined
  const grams = show.weight(name('net.grams'), statement.metric, GRAM)
  const { avoirdupois } = statement
  if (!avoirdupois) return say('label.print.net', { grams })
  const { ounces, pounds, remainder } = avoirdupois
  const fill = {
    grams,
    ...(ounces === undefined ? {} : { ounces: show.ounces(name('net.ounces'), ounces) }),
    ...(pounds === undefined ? {} : { pounds: show.pounds(name('net.pounds'), pounds) }),
    ...(remainder === undefined ? {} : { remainder: show.ounces(name('net.remainder'), remainder) }),
  }
  if (pounds === undefined) return say('label.print.net-ounces', fill)
  return say(ounces === undefined ? 'label.print.net-pounds' : 'label.print.net-ounces-pounds', fill)
}

/** kg */
const GRAM = 0.001

/** Names of a list, as a label writes them one after the other. */
export const listOf = ({ onLabel }: Frame, label: BoundLabel): string =>
  onLabel.show.list(label.statements[label.convention].lines.map(({ name }) => name))

/** Lines above the running words. */
const headsOf = (
  { onLabel: { say } }: Frame,
  { identity, words }: BoundLabel,
): readonly (readonly TextRun[])[] => [
  identity === undefined ? runsOf(say('label.print.identity')) : [own(identity)],
  ...words.map((text) => [own(text)]),
]

const paragraphsOf = (frame: Frame, label: BoundLabel): readonly Inline[] => {
  const { say, show } = frame.onLabel
  const { statements, convention, printed, bestBefore, code } = label
  const { mayContain } = statements[convention]
  const foot = [
    ...(bestBefore === undefined
      ? []
      : [say('label.print.best-before', { month: show.month(named('best-before'), bestBefore) })]),
    ...(bestBefore === undefined && printed.durability !== undefined
      ? [say('label.print.own', { text: printed.durability })]
      : []),
    ...(code ? [say('label.print.batch', { code: code.code })] : []),
  ]
  const [first, second] = foot
  return [
    say('label.print.ingredients', { list: listOf(frame, label) }),
    ...(mayContain.length > 0 ? [say('label.print.may-contain', { list: show.list(mayContain) })] : []),
    ...(printed.precautions === undefined ? [] : [say('label.print.own', { text: printed.precautions })]),
    // where a responsible person stands on the label, that is who answers for it
    ...(printed['maker-name-and-place'] === undefined || printed['responsible-person'] !== undefined
      ? []
      : [say('label.print.own', { text: printed['maker-name-and-place'] })]),
    ...(printed['responsible-person'] === undefined
      ? []
      : [say('label.print.responsible', { who: printed['responsible-person'] })]),
    ...(printed['domestic-contact'] === undefined
      ? []
      : [say('label.print.contact', { who: printed['domestic-contact'] })]),
    ...(first && second ? [say('label.print.side-by-side', { first, second })] : foot),
  ]
}

/** @throws Error for a shop without labels: a bug */
export const setLabel = (frame: Frame, label: BoundLabel): SetLabel => {
  const { grid, title, textHeight, state, measures } = label
  if (!grid) throw new Error('No labels to set.')
  const { say } = frame.onLabel
  const measured = measures === 'figures' ? capitalHeight : SMALL_LETTER
  const weight = netWords(frame, label, named)
  const runs = weight ? runsOf(weight) : []
  const { lines, fit } = fitted(label, runs, measured, grid.width)
  const isSold = state === 'for-sale'
  const paragraphs = paragraphsOf(frame, label)
  const words: LabelWords = {
    title: [own(title)],
    heads: headsOf(frame, label),
    paragraphs: paragraphs.map(runsOf),
    net: isSold ? lines : [],
    instead: isSold ? undefined : runsOf(say('label.print.not-for-sale')),
  }
  const size = (fit?.typeSize ?? textHeight / SMALL_LETTER) * MM
  const spare = fit ? Math.max(fit.heightNeeded - fit.height, 0) / 2 : 0
  const layout = laidOut({
    words,
    room: {
      width: grid.width * MM,
      height: grid.height * MM,
      text: (textHeight / SMALL_LETTER) * MM,
      net: size,
      netLines: Math.max(1, lines.length),
      // a capital stands above the small letters that are measured
      clear: spare > 0 ? capitalHeight * size : 0,
    },
  })
  return {
    layout,
    net: fit,
    values: [...paragraphs, ...(isSold && weight ? [weight] : [])].flatMap(valuesIn),
    findings: [...(fit?.findings ?? []), ...roomFindings(label, layout)],
  }
}

/** On one line, or on more where that is too wide. */
const fitted = (
  label: BoundLabel,
  runs: readonly TextRun[],
  measured: number,
  width: number,
): { readonly lines: readonly (readonly TextRun[])[]; readonly fit: FittedText | undefined } => {
  const fitOf = (lines: readonly (readonly TextRun[])[]) =>
    label.fitNet(
      { measured, capitalN: CAPITAL_N * BOLD },
      lines.map((line) => textWidth(line, 1) * BOLD),
      NET_LEADING,
    )
  const one = fitOf([runs])
  if (!one || one.widthNeeded <= width) return { lines: runs.length > 0 ? [runs] : [], fit: one }
  const lines = wrapRuns(runs, (width - (one.widthNeeded - one.width)) / one.typeSize / BOLD, 1)
  return { lines, fit: fitOf(lines) }
}

/** A panel that is too small for its text is no label. */
const roomFindings = ({ grid }: BoundLabel, { fits, needed }: LabelLayout): Finding[] => {
  if (fits || !grid) return []
  const wide = needed.width / MM > grid.width
  return [
    {
      code: wide ? 'label-text-too-wide' : 'label-text-too-tall',
      severity: 'stop',
      values: wide
        ? { needed: needed.width / MM, is: grid.width }
        : { needed: needed.height / MM, is: grid.height },
    },
  ]
}

const valuesIn = ({ fill }: Inline): Value[] =>
  Object.values(fill).flatMap((found) =>
    typeof found === 'string' ? [] : 'text' in found ? valuesIn(found) : [found],
  )

const own = (text: string): TextRun => ({ kind: 'plain', text, maker: true })

/** Catalogue words as runs of a drawing: values with their names, what the maker typed marked as such. */
export const runsOf = ({ text, fill }: Inline): TextRun[] =>
  text
    .replaceAll('**', '')
    .split(/(\[\[[^\]]+\]\])/)
    .filter((piece) => piece !== '')
    .flatMap((piece): TextRun[] => {
      const [name] = placeholders(piece)
      if (name === undefined) return [{ kind: 'plain', text: piece }]
      const found = fill[name]
      if (found === undefined) throw new Error(`Nothing fills the placeholder [[${name}]].`)
      if (typeof found === 'string') return [own(found)]
      if ('text' in found) return runsOf(found)
      // the name of a value is that of its drawing without "drawing."
      const isDrawn = found.name.startsWith(DRAWN)
      return [
        {
          kind: 'plain',
          text: found.shown,
          value: true,
          ...(isDrawn ? { name: found.name.slice(DRAWN.length) } : {}),
        },
      ]
    })

/** Labels that are kept as they were set: words are tried in many widths. */
const MOST_KNOWN = 64

const laidOut = keptByInput(
  MOST_KNOWN,
  ({ words, room }: { readonly words: LabelWords; readonly room: LabelRoom }): LabelLayout =>
    labelLayout(words, room),
)
