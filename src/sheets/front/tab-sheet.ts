/** Tabs of the sections that this binder has, to be cut out and folded over the edges of cards. */
import { sectionTabs, tabFrom, tabLength } from '../../drawing/front/section-tabs.ts'
import { finishSheet, inlineWords, maker, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { sectionOf } from '../links.ts'
import type { Inline, Sheet } from '../model.ts'
import { PLACES } from '../places.ts'

const MM = 0.001

interface Section {
  readonly number: string
  readonly name: Inline
}

/**
 * @param others all other sheets in the order of the binder; each begins with the number of its section
 * @param cardHeight of a page of this binder [mm]
 */
export const tabSheet = (frame: Frame, others: readonly Sheet[], cardHeight: number): Sheet => {
  const { say, show, room } = frame
  const sections = sectionsOf(frame, others)
  const figure = sectionTabs(
    sections.map(({ number: section, name }) => ({ number: section, name: inlineWords(name) })),
    { room: room.width, cardHeight, label: inlineWords(say('tabs.label')) },
  )
  return finishSheet({
    ...frame.sheet('front', PLACES.tabs.id, say('section.front'), PLACES.tabs.number, say('tabs.title')),
    template: frame.template('tabs'),
    fill: { how: say('tabs.how') },
    blocks: {
      tabs: {
        kind: 'figure',
        svg: figure.svg,
        caption: say('tabs.caption', { width: show.length('tab.length', tabLength(cardHeight) * MM) }),
        values: [],
      },
      places: {
        kind: 'table',
        caption: say('tabs.places'),
        columns: ['section', 'name', 'from', 'section', 'name', 'from'].map((key) => ({
          head: say(`tabs.${key}`),
          align: key === 'from' ? ('right' as const) : ('left' as const),
          ...(key === 'section' ? { width: 10 } : {}),
        })),
        rows: halves(sections).map(([left, right]) => [
          ...cellsOf(frame, sections, left, cardHeight),
          ...cellsOf(frame, sections, right, cardHeight),
        ]),
      },
    },
    sources: [],
  })
}

const cellsOf = (
  { show }: Frame,
  all: readonly Section[],
  section: Section | undefined,
  cardHeight: number,
) =>
  section
    ? [
        maker(section.number),
        words(section.name),
        number(show.length(`tab.${section.number}.from`, tabFrom(all.indexOf(section), cardHeight) * MM)),
      ]
    : [{ kind: 'empty' } as const, { kind: 'empty' } as const, { kind: 'empty' } as const]

/** Two columns, the first one filled first. */
const halves = (
  all: readonly Section[],
): readonly (readonly [Section | undefined, Section | undefined])[] => {
  const half = Math.ceil(all.length / 2)
  return Array.from({ length: half }, (_, index) => [all[index], all[half + index]])
}

const sectionsOf = ({ say }: Frame, others: readonly Sheet[]): readonly Section[] => {
  const found = new Map<string, Section>([['1', { number: '1', name: say('section.front') }]])
  for (const sheet of others) {
    const own = sectionOf(sheet)
    if (!found.has(own)) found.set(own, { number: own, name: sheet.section })
  }
  return [...found.values()].sort((a, b) => Number(a.number) - Number(b.number))
}
