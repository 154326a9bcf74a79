/**
 * A piece of a section, enlarged: what an upright plane meets of each part inside a region, with notes.
 */
import { cutSceneAt } from './cut-scene.ts'
import type { DimensionRequest, LeaderPiece, LeaderRequest } from './dimension-types.ts'
import type { ViewLines } from './projection.ts'
import type { Scene } from './scene.ts'
import { borders } from './section.ts'
import type { Span } from './spans.ts'
import type { Point, Rect } from './types.ts'
import type { ViewRequestOnPaper } from './view.ts'
import type { ViewExtra } from './view-marks.ts'

export interface ClippedCut {
  readonly region: Rect
  readonly wood: readonly { readonly key: string; readonly rects: readonly Rect[] }[]
}

/**
 * What a plane across the length meets of each part, inside a region.
 *
 * Formula: cut faces clipped to the region, less what is drilled. Validity: see the cut of a scene.
 * @param scene to be cut [m]
 * @param x of the plane [m]
 * @param region as seen from the right: x along the scene's y, y along its z [m]
 * @param drilled holes along the plane, by part key, as seen in it [m]
 * @returns cut wood by part [m]
 * @source common practice
 */
export function clippedCut(
  scene: Scene,
  x: number,
  region: Rect,
  drilled: readonly { readonly key: string; readonly rect: Rect }[] = [],
): ClippedCut {
  const wood = cutSceneAt(scene, x).wood.map(({ key, rects }) => ({
    key,
    rects: drilled
      .filter((hole) => hole.key === key)
      .reduce((left, { rect }) => left.flatMap((one) => without(one, rect)), rects)
      .flatMap((rect) => clipped(rect, region)),
  }))
  return { region, wood: wood.filter(({ rects }) => rects.length > 0) }
}

function clipped(rect: Rect, to: Rect): Rect[] {
  const x = Math.max(rect.x, to.x)
  const y = Math.max(rect.y, to.y)
  const width = Math.min(rect.x + rect.width, to.x + to.width) - x
  const height = Math.min(rect.y + rect.height, to.y + to.height) - y
  return width > 0 && height > 0 ? [{ x, y, width, height }] : []
}

/** What is left of a rectangle beside, below and above a hole in it. */
function without(rect: Rect, hole: Rect): Rect[] {
  const [inside] = clipped(hole, rect)
  if (!inside) return [rect]
  const right = inside.x + inside.width
  const top = inside.y + inside.height
  return [
    { ...rect, width: inside.x - rect.x },
    { ...rect, x: right, width: rect.x + rect.width - right },
    { ...inside, y: rect.y, height: inside.y - rect.y },
    { ...inside, y: top, height: rect.y + rect.height - top },
  ].filter(({ width, height }) => width > 1e-9 && height > 1e-9)
}

export interface SectionWords {
  readonly name: string
  readonly title: string
  readonly dimensions: readonly DimensionRequest[]
  /** parts by the slant of their hatching; what touches slants the other way, and a part that is not named is left bare */
  readonly slants: readonly (readonly string[])[]
  /** hardware that is seen, and added lines */
  readonly lines?: ViewLines
  readonly extras?: readonly ViewExtra[]
}

/**
 * The section as a view with a title.
 *
 * Formula: outline where wood is on one side only; broken off at the left and right of the region. Validity: see the cut.
 * @param cut wood in the region [m]
 * @param about title, notes and which part slants which way
 * @returns the view [m]
 * @source common practice
 */
export function clippedSection(
  { region, wood }: ClippedCut,
  { name, title, dimensions, slants, lines, extras }: SectionWords,
): ViewRequestOnPaper {
  const atEdge = (at: number) =>
    [region.x, region.x + region.width].some((edge) => Math.abs(edge - at) < 1e-7)
  const level = (at: number) =>
    [region.y, region.y + region.height].some((edge) => Math.abs(edge - at) < 1e-7)
  const outline = wood
    .flatMap(({ rects }) => borders(rects, atEdge))
    .filter(({ a, b }) => !(a.y === b.y && level(a.y)))
  return {
    name,
    title: `${title},`,
    ...(lines ? { lines: { ...lines, outline: region } } : {}),
    ...(extras ? { extras } : {}),
    cut: { region, outline, wood: [], breaks: breaksOf(region, wood) },
    hatched: slants.map((keys) => wood.filter(({ key }) => keys.includes(key)).flatMap(({ rects }) => rects)),
    dimensions,
  }
}

/** Where the drawing breaks off at the left and the right, beside what goes on there. */
function breaksOf({ x, width }: Rect, wood: ClippedCut['wood']): readonly Span[] {
  return [x, x + width].flatMap((edge) => {
    const cutOff = wood
      .flatMap(({ rects }) => rects)
      .filter((rect) => Math.abs(rect.x - edge) < 1e-7 || Math.abs(rect.x + rect.width - edge) < 1e-7)
    if (cutOff.length === 0) return []
    const low = Math.min(...cutOff.map((rect) => rect.y))
    const high = Math.max(...cutOff.map((rect) => rect.y + rect.height))
    return [{ a: { x: edge, y: low }, b: { x: edge, y: high } }]
  })
}

/** A note at a place of a view. */
export const noteAt = (
  name: string,
  at: Point,
  ...text: readonly (string | LeaderPiece)[]
): LeaderRequest => ({
  kind: 'leader',
  name,
  at,
  text: text.map((piece) => (typeof piece === 'string' ? { words: piece } : piece)),
})
