/** The sheets of every build, after those of the fixtures: how its boards are sawn up, and what is asked of a friend. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundBuild } from '../../binder/bind-build.ts'
import type { SectionNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import { layoutSheet } from '../layout/layout-sheet.ts'
import type { Inline, Sheet } from '../model.ts'
import { stopSheet } from '../stop-sheet.ts'
import { quoteSheet, quoteTitle } from './quote-sheet.ts'

/**
 * @param fixtures their sheets, which come before
 */
export const buildSheets = (
  frame: Frame,
  { builds }: Pick<BoundBinder, 'builds'>,
  fixtures: readonly Sheet[],
  { builds: numbered }: Pick<SectionNumbers, 'builds'>,
): readonly Sheet[] => {
  const sheets: Sheet[] = []
  for (const build of builds) {
    const { sawing } = build
    const { layout, quote = '' } = numbered.get(build.key) ?? {}
    if (!sawing || layout === undefined) {
      sheets.push(
        stopSheet(frame, {
          kind: 'fixture',
          id: `quote/${build.key}`,
          number: quote,
          title: quoteTitle(frame, build),
          findings: build.findings,
        }),
      )
      continue
    }
    const of = {
      key: build.key,
      title: layoutTitle(frame, build),
      number: layout,
      sawing,
      sheets: new Map(
        fixtures.filter(({ stopped }) => !stopped).map(({ id, number }) => [id, { id, number }]),
      ),
    }
    sheets.push(frame.once(['layout', of], () => layoutSheet(frame, of)))
    sheets.push(quoteSheet(frame, build, fixtures, quote))
  }
  return sheets
}

const layoutTitle = ({ say }: Frame, { title }: Pick<BoundBuild, 'title'>): Inline =>
  title === undefined ? say('layout.title-all') : say('layout.title', { title })
