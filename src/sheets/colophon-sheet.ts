/** The colophon: what a binder was made with, and under which licences. */
import { finishSheet, inlineList, maker } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Place } from './links.ts'
import type { Sheet } from './model.ts'

/** @param place that it has in its binder */
export const colophonSheet = (frame: Frame, { id, number }: Place): Sheet => {
  const { say, show, madeWith } = frame
  const { program, libraries, licences } = madeWith
  const total = licences.reduce((sum, { packages }) => sum + packages, 0)
  return finishSheet({
    ...frame.sheet('sources', id, say('section.sources'), number, say('colophon.title')),
    template: frame.template('colophon'),
    fill: {
      version: program.version,
      licence: program.licence,
      packages: show.count('colophon.packages', total),
      licences: inlineList(
        say,
        licences.map(({ licence, packages }) => ({
          text: '[[licence]] ([[of]])',
          fill: { licence, of: show.count(`colophon.${licence}`, packages) },
        })),
      ),
    },
    blocks: {
      libraries: {
        kind: 'table',
        columns: [
          { head: say('colophon.library'), align: 'left' },
          { head: say('colophon.version'), align: 'left', width: 16 },
          { head: say('colophon.licence'), align: 'left', width: 26 },
        ],
        rows: libraries.map(({ name, version, licence }) => [maker(name), maker(version), maker(licence)]),
      },
    },
    sources: [],
  })
}
