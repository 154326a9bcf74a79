/** What was made of a batch against what its mould can give. */
import type { Diagnostic } from '../diagnostics.ts'
import type { BatchFile } from './batch.ts'
import type { FixtureFile } from './fixture.ts'
import type { Placed } from './placed.ts'

/** @returns a diagnostic for each batch of which more bars were cut than a full mould has */
export const checkMade = (
  batches: ReadonlyMap<string, Placed<BatchFile>>,
  fixtures: ReadonlyMap<string, Placed<FixtureFile>>,
): Diagnostic[] =>
  [...batches.values()].flatMap(({ value, document }): Diagnostic[] => {
    const cut = value.made?.bars?.cut
    const fixture = fixtures.get(value.mould)
    if (cut === undefined || !fixture) return []
    const { columns, rows, slices } = fixture.value.grid
    const most = columns * rows * slices
    if (cut <= most) return []
    return [
      {
        severity: 'error',
        code: 'more-bars-than-block',
        file: document.file,
        path: '/made/bars/cut',
        at: 'value',
        message: `${cut} bars were cut, and a full block of this mould gives ${most}`,
        advice: 'Correct the count, or the name after "mould:".',
        related: [
          { file: fixture.document.file, path: '/grid', at: 'key', message: 'columns, rows and slices' },
        ],
      },
    ]
  })
