/**
 * The drawings of a small fixture: put together in three views, drawn apart, enlarged where it is not understood, part by
 * part.
 */
import type { Part } from '../../geometry/part.ts'
import { explodedDrawing } from '../exploded/exploded-drawing.ts'
import { partSheet } from '../part-sheet.ts'
import type { FixtureDrawingOptions, FixtureWords } from '../part-words.ts'
import { drawSheet, type SheetRequest } from '../sheet.ts'
import type { Drawing } from '../types.ts'
import { type SmallApart, smallApart } from './small-apart.ts'

/** Views of one sheet of drawings. */
export type SmallViews = Pick<SheetRequest, 'front' | 'top' | 'side' | 'details'>

export interface SmallFixture extends SmallApart {
  /** before the names of its drawings */
  readonly key: string
  readonly assembly: SmallViews
  /** by name; words of their labels are `KEY-NAME` */
  readonly enlarged: Readonly<Record<string, SmallViews>>
}

/**
 * Draws it.
 *
 * Formula: the assembly as its views are given; parts moved as they are said to; a sheet for each part. Validity:
 * right-angled placements.
 * @param fixture parts and hardware in their places [m], views and moves
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `KEY.assembly`, `exploded`, `KEY.NAME` …, `part.PART` …
 * @source common practice
 */
export function smallFixtureDrawings(
  fixture: SmallFixture,
  { box, formatter: format, exact, projection, words }: FixtureDrawingOptions<FixtureWords>,
): readonly Drawing[] {
  const { key, parts, assembly, enlarged } = fixture
  const common = { box, format, projection, scaleWord: words.scale, framed: true }
  const label = (name: string) => words.labels[name] ?? ''
  const whole = drawSheet({
    ...common,
    name: `${key}.assembly`,
    label: label(`${key}-assembly`),
    ...assembly,
  })
  return [
    whole,
    explodedDrawing(smallApart(fixture), {
      box,
      label: label(`${key}-exploded`),
      scaleWord: words.scale,
      framed: true,
    }),
    ...Object.entries(enlarged).map(([name, views]) =>
      drawSheet({ ...common, name: `${key}.${name}`, label: label(`${key}-${name}`), ...views }),
    ),
    ...parts.map((part) =>
      drawSheet({
        ...common,
        largestScale: whole.scale,
        name: `part.${part.key}`,
        label: label(part.key),
        ...partSheet(part, words, exact),
      }),
    ),
  ]
}

/**
 * One part on a drawing of its own.
 *
 * Formula: see the sheet of a part. Validity: any part.
 * @param part [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawing `part.KEY`
 * @source common practice
 */
export const partDrawing = (
  part: Part,
  { box, formatter: format, exact, projection, words }: FixtureDrawingOptions<FixtureWords>,
): Drawing =>
  drawSheet({
    box,
    format,
    projection,
    scaleWord: words.scale,
    framed: true,
    name: `part.${part.key}`,
    label: words.labels[part.key] ?? '',
    ...partSheet(part, words, exact),
  })
