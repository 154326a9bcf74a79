/**
 * The drawings of a small fixture: put together in three views, drawn apart, enlarged where it is not understood, part by
 * part.
 */
import { drawnWith } from '../drawn-with.ts'
import type { FixtureDrawingOptions, FixtureWords } from '../part-words.ts'
import type { SheetViews } from '../sheet.ts'
import type { Drawing } from '../types.ts'
import { type SmallApart, smallApart } from './small-apart.ts'

export interface SmallFixture extends SmallApart {
  /** before the names of its drawings */
  readonly key: string
  readonly assembly: SheetViews
  /** by name; words of their labels are `KEY-NAME` */
  readonly enlarged: Readonly<Record<string, SheetViews>>
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
  options: FixtureDrawingOptions<FixtureWords>,
): readonly Drawing[] {
  const { key, parts, assembly, enlarged } = fixture
  const { sheet, apart } = drawnWith(options)
  const whole = sheet(`${key}.assembly`, `${key}-assembly`, assembly)
  return [
    whole,
    apart(smallApart(fixture), `${key}-exploded`),
    ...Object.entries(enlarged).map(([name, views]) => sheet(`${key}.${name}`, `${key}-${name}`, views)),
    ...parts.map(drawnWith(options, whole.scale).part),
  ]
}
