/** Words set on several lines: labels, titles of views. */
import { textWidth } from './text-width.ts'
import type { TextRun } from './types.ts'

/** Runs broken at their spaces into lines that are no wider than the room [mm]; a word that is wider has its own line. */
export function wrapRuns(
  runs: readonly TextRun[],
  room: number,
  size: number,
): readonly (readonly TextRun[])[] {
  const lines: (readonly TextRun[])[] = []
  for (const word of wordsOf(runs)) {
    const last = lines.at(-1)
    const longer = last && joined(last, word)
    if (longer && textWidth(longer, size) <= room) lines[lines.length - 1] = longer
    else lines.push(word)
  }
  return lines
}

/** What stands between two spaces, though it be of several runs: a figure and the full stop after it. */
function wordsOf(runs: readonly TextRun[]): readonly (readonly TextRun[])[] {
  const words: TextRun[][] = []
  let isOpen = false
  for (const run of runs) {
    if (run.kind === 'diameter') continue
    for (const [index, text] of run.text.split(/ +/).entries()) {
      if (index > 0) isOpen = false
      if (text === '') continue
      const piece = { ...run, text }
      if (isOpen) words.at(-1)?.push(piece)
      else words.push([piece])
      isOpen = true
    }
  }
  return words
}

/** A line with a word more; pieces of one kind side by side are one run. */
function joined(line: readonly TextRun[], [first, ...others]: readonly TextRun[]): readonly TextRun[] {
  const last = line.at(-1)
  if (!first || !last || last.kind === 'diameter' || first.kind === 'diameter') return line
  const isLike = last.name === first.name && last.value === first.value && last.maker === first.maker
  const before = line.slice(0, -1)
  if (isLike) return [...before, { ...last, text: `${last.text} ${first.text}` }, ...others]
  // the space goes to the words, never into a value
  if (last.value !== true) return [...before, { ...last, text: `${last.text} ` }, first, ...others]
  return [...line, { kind: 'plain', text: ' ' }, first, ...others]
}
