/** Shares of a whole as one bar in black and white: parts named above it, groups of parts hatched and named below. */
import { boxOutline, slanted } from './box-marks.ts'
import { figureSvg } from './svg.ts'
import { textWidth } from './text-width.ts'
import { capitalHeight, type Mark, type Point, type Rect, type TextMark } from './types.ts'

/** How a group is filled; told apart by any printer. */
export type SharePattern = 'blank' | 'slanted' | 'upright' | 'crossed'

export interface ShareBarPart {
  /** of the value that is written beside it */
  readonly name: string
  readonly label: string
  readonly shown: string
  /** of the whole [–] */
  readonly share: number
  /** its label is the maker's own word */
  readonly maker?: boolean
}

export interface ShareBarGroup extends ShareBarPart {
  readonly pattern: SharePattern
  readonly parts: readonly ShareBarPart[]
}

export interface ShareBarRequest {
  readonly name: string
  /** for readers who cannot see it */
  readonly label: string
  /** of the drawing [mm] */
  readonly width: number
  readonly groups: readonly ShareBarGroup[]
}

export interface ShareBar {
  readonly svg: string
  readonly widthMm: number
  readonly heightMm: number
  /** names of the values that found room */
  readonly written: readonly string[]
  readonly marks: readonly Mark[]
}

const TEXT_SIZE = 3 // mm, 8.5 pt: the smallest of the sheet's own table text (estimate)
const LINE = 3.8 // mm from baseline to baseline
const BAR_HEIGHT = 13 // mm
const LEADER = 5 // mm between the bar and its lettering
const LEADER_GAP = 1.2 // mm between a leader and its lettering, ascenders included
const LABEL_GAP = 2.5 // mm between two labels, so that they do not read as one
const SMALLEST_LABELLED = 0.012 // of the whole: a narrower part cannot be seen well enough to point at
const LETTERING = 2 * LINE + 1 // mm for two lines

/**
 * Draws the bar.
 *
 * Formula: length of a part = share x width; labels stand over their parts, pushed apart as little as possible, each
 * with a leader. Validity: shares that sum to at most 1. Where labels do not fit, those of the smallest parts are left out.
 * @param request groups with their parts [–] and width [mm]
 * @returns svg, size [mm], and which values are written on it
 * @source common practice
 */
export function shareBar(request: ShareBarRequest): ShareBar {
  const { width, groups, name, label } = request
  const height = 2 * (LETTERING + LEADER) + BAR_HEIGHT
  const bottom = LETTERING + LEADER
  const marks: Mark[] = []
  const spots: Spot[] = []
  const groupSpots: Spot[] = []
  let x = 0
  for (const group of groups) {
    const start = x
    for (const part of group.parts) {
      const length = part.share * width
      spots.push({ part, centre: x + length / 2 })
      if (x > start) marks.push(upright('dimension', x, bottom, bottom + BAR_HEIGHT))
      x += length
    }
    const length = group.share * width
    x = start + length
    if (length <= 0) continue
    const box = { x: start, y: bottom, width: length, height: BAR_HEIGHT }
    marks.push(...hatching(box, group.pattern), boxOutline(box))
    groupSpots.push({ part: group, centre: start + length / 2 })
  }
  const above = placeLabels(spots, width)
  const below = placeLabels(groupSpots, width)
  const top = bottom + BAR_HEIGHT
  for (const { part, centre, at } of above) {
    marks.push(leader({ x: centre, y: top }, { x: at, y: top + LEADER - LEADER_GAP }))
    marks.push(...lettering(part, at, top + LEADER + LINE + 0.4))
  }
  for (const { part, centre, at } of below) {
    marks.push(leader({ x: centre, y: bottom }, { x: at, y: bottom - LEADER + LEADER_GAP }))
    marks.push(...lettering(part, at, bottom - LEADER - capitalHeight * TEXT_SIZE - 0.3))
  }
  return {
    svg: figureSvg({ name, label, width, height, view: 'bar', marks }),
    widthMm: width,
    heightMm: height,
    written: [...above, ...below].map(({ part }) => part.name),
    marks,
  }
}

interface Spot {
  readonly part: ShareBarPart
  /** middle of the part on the bar [mm] */
  readonly centre: number
}

/** Labels beside their parts without touching each other; the smallest parts give way where there is no room. */
function placeLabels(spots: readonly Spot[], width: number): (Spot & { readonly at: number })[] {
  let kept = spots.filter(({ part }) => part.share >= SMALLEST_LABELLED)
  const room = (all: readonly Spot[]): number =>
    all.reduce((sum, { part }) => sum + labelWidth(part) + LABEL_GAP, -LABEL_GAP)
  while (kept.length > 0 && room(kept) > width) {
    const least = Math.min(...kept.map(({ part }) => part.share))
    const dropped = kept.findIndex(({ part }) => part.share === least)
    kept = kept.filter((_, index) => index !== dropped)
  }
  // Labels that would touch become one block, centred over its parts as well as the ends of the bar allow.
  interface Run {
    readonly from: number
    readonly spots: readonly Spot[]
  }
  const settle = (all: readonly Spot[]): Run => {
    let offset = 0
    let wish = 0
    for (const { part, centre } of all) {
      wish += centre - offset - labelWidth(part) / 2
      offset += labelWidth(part) + LABEL_GAP
    }
    return { from: Math.max(0, Math.min(wish / all.length, width - room(all))), spots: all }
  }
  let runs: Run[] = []
  for (const spot of kept) {
    let run = settle([spot])
    for (
      let last = runs.at(-1);
      last && last.from + room(last.spots) + LABEL_GAP > run.from;
      last = runs.at(-1)
    ) {
      runs = runs.slice(0, -1)
      run = settle([...last.spots, ...run.spots])
    }
    runs.push(run)
  }
  return runs.flatMap(({ from, spots: members }) => {
    let at = from
    return members.map((spot) => {
      const middle = at + labelWidth(spot.part) / 2
      at += labelWidth(spot.part) + LABEL_GAP
      return { ...spot, at: middle }
    })
  })
}

const plain = (text: string) => [{ kind: 'plain', text } as const]

const labelWidth = ({ label, shown }: ShareBarPart): number =>
  Math.max(textWidth(plain(label), TEXT_SIZE), textWidth(plain(shown), TEXT_SIZE))

/** Two lines: what it is, and how much. */
function lettering(part: ShareBarPart, at: number, baseline: number): Mark[] {
  return [
    { ...textMark(part.label, { x: at, y: baseline }, 'note-text'), maker: part.maker === true },
    { ...textMark(part.shown, { x: at, y: baseline - LINE }, 'dimension-text'), name: part.name },
  ]
}

function textMark(text: string, at: Point, kind: TextMark['class']): TextMark {
  const width = textWidth(plain(text), TEXT_SIZE)
  const box = { x: at.x - width / 2, y: at.y - 0.25 * TEXT_SIZE, width, height: TEXT_SIZE }
  return { kind: 'text', class: kind, runs: plain(text), at, turned: false, size: TEXT_SIZE, box }
}

const upright = (kind: 'dimension' | 'hatch', x: number, from: number, to: number): Mark => ({
  kind: 'line',
  class: kind,
  a: { x, y: from },
  b: { x, y: to },
})

const leader = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'extension', a, b })

const SLANTED_STEP = 2.4 // mm between hatch lines, measured along the bar
const CROSSED_STEP = 2
const UPRIGHT_STEP = 1.2

function hatching(box: Rect, pattern: SharePattern): Mark[] {
  switch (pattern) {
    case 'blank':
      return []
    case 'slanted':
      return slanted(box, SLANTED_STEP, 1)
    case 'crossed':
      return [...slanted(box, CROSSED_STEP, 1), ...slanted(box, CROSSED_STEP, -1)]
    case 'upright': {
      const count = Math.floor(box.width / UPRIGHT_STEP)
      return Array.from({ length: count }, (_, index) =>
        upright('hatch', box.x + (index + 0.5) * UPRIGHT_STEP, box.y, box.y + box.height),
      )
    }
  }
}
