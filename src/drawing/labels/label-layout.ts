/** Words on one label: how large, where, and whether there is room for them. */
import { BOLD, lettering } from '../lettering.ts'
import { textWidth } from '../text-width.ts'
import { capitalHeight, type Mark, type TextRun } from '../types.ts'
import { wrapRuns } from '../wrap-runs.ts'

/** What the law measures letters by, of the type size: small letters without strokes, and the width of a capital N (Noto Sans 400, OS/2 and hmtx tables, read). */
export const SMALL_LETTER = 0.536
export const CAPITAL_N = 0.76
/** Letters reach so far below their line, of the type size */
const DESCENDER = 0.24
/** Above the capitals: b, d, l */
const ASCENDER = 0.77
/** From line to line, in type sizes: of running words, and of the net weight */
const LEADING = 1.24
export const NET_LEADING = 1.25

/** mm; what is printed and cut by hand is off by this at most (estimate) */
const EDGE = 3
/** Words between their least size and this much more, as there is room; steps of it [–] */
const LARGEST = 1.4
const STEP = 0.05
/** mm; the name of the bar */
const TITLE = { largest: 8, least: 4.2 } as const
/** mm; between groups of words, and above the weight */
const GAP = 1.1
const ABOVE_NET = 2.5

export interface LabelWords {
  /** name of the bar */
  readonly title: readonly TextRun[]
  /** a line each: what it is, and what the maker says of it */
  readonly heads: readonly (readonly TextRun[])[]
  /** running words, the list of ingredients first */
  readonly paragraphs: readonly (readonly TextRun[])[]
  /** in lines, as they were fitted; none where no weight may stand */
  readonly net: readonly (readonly TextRun[])[]
  /** stands in the place of the weight */
  readonly instead: readonly TextRun[] | undefined
}

export interface LabelRoom {
  /** of one label [mm] */
  readonly width: number
  readonly height: number
  /** least type size of all words but the weight, and that of the weight [mm] */
  readonly text: number
  readonly net: number
  /** lines of the weight that were fitted: room is kept for them also where it does not stand */
  readonly netLines: number
  /** nothing stands so near to the weight above and below it [mm] */
  readonly clear: number
}

export interface LabelLayout {
  /** from the lower left corner of the label [mm] */
  readonly marks: readonly Mark[]
  /** type size of the running words [mm] */
  readonly text: number
  /** [mm] */
  readonly needed: { readonly width: number; readonly height: number }
  readonly fits: boolean
}

interface Line {
  readonly runs: readonly TextRun[]
  readonly size: number
  readonly bold: boolean
  /** of its baseline below the top of the words [mm] */
  readonly down: number
}

/**
 * A label set in type.
 *
 * Formula: name, heads and running words from the top, the weight at the foot; words as large as leaves room for all of
 * them, from 1.4 times their least size down to it. Validity: words without line breaks of their own.
 * @param words on the label
 * @param room  sizes [mm]
 * @returns marks [mm], the size that was taken, and what it needs where that is too much
 * @source common practice
 */
export function labelLayout(words: LabelWords, room: LabelRoom): LabelLayout {
  const wide = room.width - 2 * EDGE
  const netHeight =
    room.netLines === 0 ? 0 : capitalHeight * room.net + (room.netLines - 1) * NET_LEADING * room.net
  const below = Math.max(EDGE, room.clear)
  const foot = below + netHeight + Math.max(ABOVE_NET, room.clear)
  const steps = Math.round((LARGEST - 1) / STEP)
  const tries = Array.from({ length: steps + 1 }, (_, index) => LARGEST - index * STEP)
  const heightOf = ({ height }: { readonly height: number }): number => EDGE + height + foot
  const set = tries.map((times) => setWords(words, wide, room.text * times))
  const taken = set.find((one) => heightOf(one) <= room.height && one.widest <= wide) ?? set.at(-1)!
  const needed = { width: taken.widest + 2 * EDGE, height: heightOf(taken) }
  const middle = room.width / 2
  // what is left over is air between the words and the weight, and above the words
  const top = room.height - EDGE - Math.max(0, room.height - needed.height) * 0.35
  const marks: Mark[] = taken.lines.map(({ runs, size, bold, down }) =>
    lettering({
      class: bold ? 'view-title' : 'note-text',
      maker: runs.every((run) => run.kind !== 'diameter' && run.maker === true),
      runs,
      at: { x: middle, y: top - down },
      turned: false,
      size,
    }),
  )
  return {
    marks: [...marks, ...footMarks(words, room, { middle, below, netHeight })],
    text: taken.text,
    needed,
    fits: needed.width <= room.width + HAIR && needed.height <= room.height + HAIR,
  }
}

/** mm */
const HAIR = 1e-6

function setWords(
  words: LabelWords,
  wide: number,
  text: number,
): {
  readonly lines: readonly Line[]
  readonly height: number
  readonly widest: number
  readonly text: number
} {
  const lines: Line[] = []
  // lower edge of what is set so far; the next line begins there
  let down = 0
  const add = (all: readonly (readonly TextRun[])[], size: number, bold: boolean, gap: number): void => {
    down += lines.length === 0 ? 0 : gap
    for (const [index, runs] of all.entries()) {
      down += index === 0 ? ASCENDER * size : LEADING * size
      lines.push({ runs, size, bold, down })
    }
    down += DESCENDER * size
  }
  const one = textWidth(words.title, 1) * BOLD
  const title = Math.max(TITLE.least, text, Math.min(TITLE.largest, wide / one, text * 2.1))
  add(balanced(words.title, wide / BOLD, title), title, true, 0)
  // single lines stand as far apart as those of running words
  const between = (LEADING - ASCENDER - DESCENDER) * text
  for (const head of words.heads) add(balanced(head, wide, text * 1.1), text * 1.1, false, between)
  for (const paragraph of words.paragraphs) add(balanced(paragraph, wide, text), text, false, between + GAP)
  const widest = Math.max(
    0,
    ...lines.map(({ runs, size, bold }) => textWidth(runs, size) * (bold ? BOLD : 1)),
  )
  return { lines, height: down, widest, text }
}

/** The weight; or in its place, framed, that there is none. */
function footMarks(
  { net, instead }: LabelWords,
  room: LabelRoom,
  at: { readonly middle: number; readonly below: number; readonly netHeight: number },
): readonly Mark[] {
  if (!instead)
    return net.map((runs, index) =>
      lettering({
        class: 'view-title',
        runs,
        at: { x: at.middle, y: at.below + (net.length - 1 - index) * NET_LEADING * room.net },
        turned: false,
        size: room.net,
      }),
    )
  const low = EDGE
  const high = at.below + at.netHeight + Math.max(0.7 * room.clear, at.below - EDGE)
  const size = Math.min((room.width - 4 * EDGE) / (textWidth(instead, 1) * BOLD), (high - low) / 1.3)
  const corner = (x: number, y: number) => ({ x, y })
  const frame = (by: number): Mark => ({
    kind: 'outline',
    class: 'visible',
    closed: true,
    points: [
      corner(EDGE + by, low + by),
      corner(room.width - EDGE - by, low + by),
      corner(room.width - EDGE - by, high - by),
      corner(EDGE + by, high - by),
    ],
  })
  return [
    frame(0),
    frame(0.8),
    lettering({
      class: 'view-title',
      runs: instead,
      at: { x: at.middle, y: (low + high) / 2 - (capitalHeight * size) / 2 },
      turned: false,
      size,
    }),
  ]
}

/** As few lines as they need, none much shorter than another: a word alone in the last line looks forgotten. */
function balanced(runs: readonly TextRun[], room: number, size: number): readonly (readonly TextRun[])[] {
  const lines = wrapRuns(runs, room, size)
  if (lines.length < 2) return lines
  let [narrow, wide, best] = [room / lines.length, room, lines]
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (narrow + wide) / 2
    const found = wrapRuns(runs, middle, size)
    const isAsGood = found.length === lines.length && found.every((line) => textWidth(line, size) <= room)
    if (isAsGood) [wide, best] = [middle, found]
    else narrow = middle
  }
  return best
}

/** Until a room is known to a hundredth of its width */
const HALVINGS = 8
