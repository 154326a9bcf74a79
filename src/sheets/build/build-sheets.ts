/** The sheets of every build, after those of the fixtures: what is asked of a friend. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { Frame } from '../frame.ts'
import type { Sheet } from '../model.ts'
import { stopSheet } from '../stop-sheet.ts'
import { quoteSheet, quoteTitle } from './quote-sheet.ts'

/**
 * @param fixtures their sheets, which come before
 */
export const buildSheets = (
  frame: Frame,
  { builds }: Pick<BoundBinder, 'builds'>,
  fixtures: readonly Sheet[],
): readonly Sheet[] =>
  builds.map((build, index) => {
    const number = `7.${fixtures.length + index + 1}`
    if (build.items.length > 0) return quoteSheet(frame, build, fixtures, number)
    return stopSheet(frame, {
      kind: 'fixture',
      id: `quote/${build.key}`,
      number,
      title: quoteTitle(frame, build),
      findings: build.findings,
    })
  })
