/**
 * The double arrow that says which way the face grain of a panel runs.
 */
import { crosses, lettering } from './lettering.ts'
import { arrow } from './linear-dimension.ts'
import type { DrawingStyle, Mark, Point, Rect } from './types.ts'

export interface GrainSurroundings {
  /** of the face [mm] */
  readonly outline: Rect
  readonly style: DrawingStyle
  /** lines that the arrow had better not cover [mm] */
  readonly lines: readonly { readonly a: Point; readonly b: Point }[]
}

const arrowSpan = 18 // mm
const lift = 1.6 // mm from line to baseline, clear of descenders

/**
 * Draws the arrow with its word where it covers the fewest lines of the face.
 *
 * Formula: tried at a grid of places, the middle first. Validity: on a crowded face it stands
 * above the face instead; along the width it stays on the face.
 * @param grain direction and word
 * @param surroundings face and its lines [mm]
 * @returns marks [mm]
 * @source common practice
 */
export function grainMarks(
  grain: { readonly along: 'length' | 'width'; readonly word: string },
  { outline, style, lines }: GrainSurroundings,
): readonly Mark[] {
  const turned = grain.along === 'width'
  const place = (middle: Point) => {
    const text = lettering({
      class: 'note-text',
      runs: [{ kind: 'plain', text: grain.word }],
      at: turned ? { x: middle.x - lift, y: middle.y } : { x: middle.x, y: middle.y + lift },
      turned,
      size: style.textSize,
    })
    const span = Math.max(arrowSpan, turned ? text.box.height : text.box.width)
    const half = turned ? { x: 0, y: span / 2 } : { x: span / 2, y: 0 }
    const a = { x: middle.x - half.x, y: middle.y - half.y }
    const b = { x: middle.x + half.x, y: middle.y + half.y }
    const room = {
      x: Math.min(a.x, text.box.x) - 0.5,
      y: Math.min(a.y, text.box.y) - 0.5,
      width: (turned ? text.box.width : span) + 1,
      height: (turned ? span : text.box.height) + 2,
    }
    return { text, a, b, room, covered: lines.filter((line) => crosses(line.a, line.b, room)).length }
  }
  // Between the outline and the first dimension line, whose value stands on its far side.
  const above = { x: outline.x + outline.width / 2, y: outline.y + outline.height + 2 }
  const tries = shares.flatMap((y) =>
    shares.map((x) => place({ x: outline.x + outline.width * x, y: outline.y + outline.height * y })),
  )
  const best = tries.reduce((a, b) => (b.covered < a.covered ? b : a))
  const fits = best.covered === 0 && best.room.width < outline.width && best.room.height < outline.height
  const set = fits || turned ? best : place(above)
  return [
    { kind: 'line', class: 'dimension', a: set.a, b: set.b },
    arrow(set.a, set.b, style),
    arrow(set.b, set.a, style),
    set.text,
  ]
}

const shares = [0.5, 0.42, 0.58, 0.35, 0.65, 0.27, 0.73, 0.2, 0.8, 0.1, 0.9]
