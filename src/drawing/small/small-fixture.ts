/**
 * The drawings of a small fixture that needs no views of its own: put together in three views, drawn apart, part by part.
 */
import type { Part, Round } from '../../geometry/part.ts'
import type { Vec3 } from '../../geometry/placement.ts'
import type { LinearRequest } from '../dimension-types.ts'
import { type ApartScene, boundsOf, itemNumbers, shifted } from '../exploded/apart.ts'
import { explodedDrawing } from '../exploded/exploded-drawing.ts'
import { partSheet } from '../part-sheet.ts'
import type { FixtureDrawingOptions, FixtureWords } from '../part-words.ts'
import { projectScene } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import { drawSheet, type SheetRequest } from '../sheet.ts'
import type { Drawing, Rect } from '../types.ts'

export interface SmallFixture {
  /** before the names of its drawings */
  readonly key: string
  readonly parts: readonly Part[]
  readonly rounds: readonly Round[]
  /** hardware that the exploded view leaves out: what would hide more than it shows */
  readonly notApart?: readonly string[]
}

/**
 * Draws it.
 *
 * Formula: front, top and right view with the sizes over all; parts moved away from the middle along their thickness; a
 * sheet for each part. Validity: right-angled placements.
 * @param fixture parts and hardware in their places [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `KEY.assembly`, `exploded`, `part.PART` …
 * @source common practice
 */
export function smallFixtureDrawings(
  { key, parts, rounds, notApart = [] }: SmallFixture,
  { box, formatter: format, exact, projection, words }: FixtureDrawingOptions<FixtureWords>,
): readonly Drawing[] {
  const common = { box, format, projection, scaleWord: words.scale, framed: true }
  const label = (name: string) => words.labels[name] ?? ''
  const assembly = drawSheet({
    ...common,
    name: `${key}.assembly`,
    label: label(`${key}-assembly`),
    ...assemblyViews(key, parts, rounds, words),
  })
  const rest = { ...common, largestScale: assembly.scale }
  const apart = smallApart(
    parts,
    rounds.filter((round) => !notApart.includes(round.key)),
  )
  return [
    assembly,
    ...(parts.length > 1
      ? [
          explodedDrawing(apart, {
            box,
            label: label(`${key}-exploded`),
            scaleWord: words.scale,
            framed: true,
          }),
        ]
      : []),
    ...parts.map((part) =>
      drawSheet({
        ...rest,
        name: `part.${part.key}`,
        label: label(part.key),
        ...partSheet(part, words, exact),
      }),
    ),
  ]
}

function assemblyViews(
  key: string,
  parts: readonly Part[],
  rounds: readonly Round[],
  words: FixtureWords,
): Pick<SheetRequest, 'front' | 'top' | 'side' | 'details'> {
  const scene = assemblyScene(parts, rounds)
  const seen = (viewpoint: 'front' | 'top' | 'right') => projectScene({ scene, viewpoint, showHidden: [] })
  const [front, top, side] = [seen('front'), seen('top'), seen('right')]
  const over = (
    name: string,
    where: LinearRequest['side'],
    { x, y, width, height }: Rect,
  ): LinearRequest => ({
    kind: 'linear',
    name: `${key}.${name}`,
    side: where,
    from: where === 'above' ? { x, y: y + height } : { x, y },
    to: where === 'above' ? { x: x + width, y: y + height } : { x, y: y + height },
  })
  return {
    front: {
      name: 'front',
      title: words.frontView,
      lines: front,
      dimensions: [over('length', 'above', front.outline), over('height', 'left', front.outline)],
    },
    top: {
      name: 'top',
      title: words.topView,
      lines: top,
      dimensions: [over('width', 'left', top.outline)],
    },
    side: { name: 'side', title: words.sideView, lines: side, dimensions: [] },
    details: [],
  }
}

/** Of the fixture's largest size: how far a part at its rim moves (common practice) */
const APART = 0.6

/**
 * Moves parts away from the middle, each along the axis across its faces.
 *
 * Formula: way = 0.6 times the distance of its middle from the fixture's, and half of its thickness more; hardware goes
 * upwards out of its holes. Validity: parts whose faces look away from the middle.
 * @param parts in their places [m]
 * @param rounds in their places [m]
 * @returns the scene, and the ways [m]
 * @source common practice
 */
export function smallApart(parts: readonly Part[], rounds: readonly Round[]): ApartScene {
  const bounds = parts.flatMap((part) => part.placements.map((placement) => boundsOf(part, placement)))
  const least = (axis: keyof Vec3) => Math.min(...bounds.map(({ min }) => min[axis]))
  const most = (axis: keyof Vec3) => Math.max(...bounds.map(({ max }) => max[axis]))
  const middle = (axis: keyof Vec3) => (least(axis) + most(axis)) / 2
  const moved = parts.map((part) => ({
    part,
    copies: part.placements.map((placement) => {
      const { min, max } = boundsOf(part, placement)
      const axis =
        (['x', 'y', 'z'] as const).find((one) => Math.abs(max[one] - min[one] - part.thickness) < 1e-9) ?? 'z'
      const from = (min[axis] + max[axis]) / 2 - middle(axis)
      const way = from * 2 * APART + Math.sign(from) * part.thickness * 1.5
      return { placement: shifted(placement, { x: 0, y: 0, z: 0, [axis]: way }), min, max, axis, way }
    }),
  }))
  const lift = (most('z') - least('z')) * APART
  const raised = rounds.map((round): Round => {
    if (round.axis === 'z') return { ...round, from: round.from + lift, to: round.to + lift }
    return { ...round, centre: [round.centre[0], round.centre[1] + lift] }
  })
  return {
    scene: assemblyScene(
      moved.map(({ part, copies }) => ({ ...part, placements: copies.map(({ placement }) => placement) })),
      raised,
    ),
    paths: moved.flatMap(({ copies }) =>
      copies.flatMap(({ min, max, axis, way }) => {
        if (way === 0) return []
        const centre = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2, z: (min.z + max.z) / 2 }
        return [{ a: centre, b: { ...centre, [axis]: centre[axis] + way } }]
      }),
    ),
    numbers: itemNumbers({ parts, rounds }),
  }
}
