/**
 * Lettering on full-size templates: small, and wherever it touches neither a line nor another text.
 */
import { crosses, lettering, overlaps } from '../lettering.ts'
import { grown } from '../mark-bounds.ts'
import { textWidth } from '../text-width.ts'
import { capitalHeight, type Point, type Rect, type TextMark, type TextRun } from '../types.ts'

export const SMALL = 3 // mm, 8.5 pt: the sheet's own table text
const AIR = 0.9 // mm between lettering and whatever is beside it

export const plain = (text: string): readonly TextRun[] => [{ kind: 'plain', text }]

export interface Lettering {
  readonly runs: readonly TextRun[]
  readonly size?: number
  readonly bold?: boolean
}

/** A text with its middle at a place [mm]. */
export function textAt(
  { runs, size = SMALL, bold = false }: Lettering,
  { x, y }: Point,
  turned: boolean,
): TextMark {
  const isSized = runs.some((run) => run.kind !== 'diameter' && run.name !== undefined)
  const kind = bold ? 'view-title' : isSized ? 'dimension-text' : 'note-text'
  const request = { class: kind, runs, turned, size } as const
  const { box } = lettering({ ...request, at: { x: 0, y: 0 } })
  return lettering({ ...request, at: { x: x - box.x - box.width / 2, y: y - box.y - box.height / 2 } })
}

/** What lettering must not touch [mm]. */
export interface Taken {
  readonly boxes: readonly Rect[]
  readonly lines: readonly { readonly a: Point; readonly b: Point }[]
}

/** True when a rectangle lies in another and touches nothing. */
export function isFree(box: Rect, within: Rect, { boxes, lines }: Taken): boolean {
  const aired = grown(box, AIR)
  return (
    box.x >= within.x &&
    box.y >= within.y &&
    box.x + box.width <= within.x + within.width &&
    box.y + box.height <= within.y + within.height &&
    !boxes.some((one) => overlaps(one, aired)) &&
    !lines.some(({ a, b }) => crosses(a, b, aired))
  )
}

/**
 * The free place for a rectangle that is nearest to a point.
 *
 * Formula: tried on a net of 2 mm, nearest first. Validity: any surroundings; there may be no such place.
 * @param size of the rectangle [mm]
 * @param near wished middle [mm]
 * @param within where it may lie [mm]
 * @param taken what it must not touch
 * @returns its middle [mm], or undefined
 * @source common practice
 */
export function freePlace(
  { width, height }: { readonly width: number; readonly height: number },
  near: Point,
  within: Rect,
  taken: Taken,
): Point | undefined {
  const places: { readonly x: number; readonly y: number; readonly far: number }[] = []
  for (let x = within.x + width / 2; x <= within.x + within.width - width / 2 + 1e-9; x += NET)
    for (let y = within.y + height / 2; y <= within.y + within.height - height / 2 + 1e-9; y += NET)
      places.push({ x, y, far: Math.hypot(x - near.x, y - near.y) })
  return places
    .sort((a, b) => a.far - b.far)
    .find(({ x, y }) => isFree({ x: x - width / 2, y: y - height / 2, width, height }, within, taken))
}

const NET = 2 // mm

/** The text as near to a point as there is room, upright before turned; undefined when there is none. */
export function freeText(
  text: Lettering,
  near: Point,
  within: Rect,
  taken: Taken,
  farthest = Number.POSITIVE_INFINITY,
): TextMark | undefined {
  for (const turned of [false, true]) {
    const { box } = textAt(text, { x: 0, y: 0 }, turned)
    const place = freePlace(box, near, within, taken)
    if (place && Math.hypot(place.x - near.x, place.y - near.y) <= farthest)
      return textAt(text, place, turned)
  }
  return undefined
}

/** Breaks words into lines that are no wider than the room [mm]. */
export function wrapped(text: string, room: number, size = SMALL): readonly string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word
    if (lines.length > 0 && textWidth(plain(longer), size) <= room) lines[lines.length - 1] = longer
    else lines.push(word)
  }
  return lines
}

export const lineHeight = (size = SMALL): number => size * 1.25
export const capitals = (size = SMALL): number => size * capitalHeight
