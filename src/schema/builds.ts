/** Whether fixtures have what a build asks of them. */
import { type Diagnostic, pointer } from '../diagnostics.ts'
import { BUILD_PIECES, type BuildFile, type BuildPiece } from './build.ts'
import type { FixtureFile } from './fixture.ts'
import type { Placed } from './placed.ts'

/** Pieces that a fixture has, as its file has sections for them; whether each stands is another question. */
export const piecesOf = (fixture: FixtureFile): readonly BuildPiece[] =>
  BUILD_PIECES.filter((piece) => WANTS[piece](fixture))

const WANTS: Readonly<Record<BuildPiece, (fixture: FixtureFile) => boolean>> = {
  mould: () => true,
  'set-up-gauge': (fixture) => Boolean(fixture['grid-cutter'] ?? fixture['bar-cutter']),
  'grid-cutter': (fixture) => Boolean(fixture['grid-cutter']),
  'bar-cutter': (fixture) => Boolean(fixture['bar-cutter']),
  'trial-frame': (fixture) => Boolean(fixture['grid-cutter']),
  'lever-press': (fixture) => Boolean(fixture['lever-press']),
}

/** @returns a diagnostic for each piece that its fixture does not have, or that is asked for twice */
export const checkBuilds = (
  builds: ReadonlyMap<string, Placed<BuildFile>>,
  fixtures: ReadonlyMap<string, Placed<FixtureFile>>,
): Diagnostic[] =>
  [...builds.values()].flatMap(({ value, document }) =>
    Object.entries(value.fixtures ?? {}).flatMap(([key, { pieces = [] }]) => {
      const fixture = fixtures.get(key)
      if (!fixture) return []
      const has = piecesOf(fixture.value)
      return pieces.flatMap((piece, index): Diagnostic[] => {
        const at = { file: document.file, path: pointer(['fixtures', key, 'pieces', index]) }
        if (pieces.indexOf(piece) < index)
          return [
            {
              severity: 'error',
              code: 'listed-twice',
              ...at,
              at: 'value',
              message: `"${piece}" stands in this list already`,
              advice: 'Take one out, and write "how-many: 2" if two of each are wanted.',
            },
          ]
        if (has.includes(piece)) return []
        return [
          {
            severity: 'error',
            code: 'not-in-fixture',
            ...at,
            at: 'value',
            message: `The fixture "${key}" has no ${piece}`,
            advice: `It has: ${has.join(', ')}. Take the other out of the list, or add its section to fixtures/${key}.yaml.`,
            related: [{ file: fixture.document.file, path: '', message: 'the fixture stands here' }],
          },
        ]
      })
    }),
  )
