/** Saw, dado head and dust: for whoever builds the fixtures. */
import { finishSheet, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Sheet, Table } from '../model.ts'
import { PLACES } from '../places.ts'
import { cautionBox, under } from './boxes.ts'

const ALL = 'cautions.saw'

export const sawSheet = (frame: Frame): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet(
      'cautions',
      PLACES.saw.id,
      say('section.cautions'),
      PLACES.saw.number,
      say(`${ALL}.title`),
    ),
    template: frame.template('saw'),
    fill: { for: say(`${ALL}.for`) },
    blocks: {
      danger: cautionBox(
        say,
        'danger',
        `${ALL}.danger.heading`,
        under(`${ALL}.danger`, ['off', 'guard', 'comb', 'arbor', 'fence', 'stand']),
      ),
      warning: cautionBox(
        say,
        'warning',
        `${ALL}.warning.heading`,
        under(`${ALL}.warning`, ['eyes', 'test', 'people']),
      ),
      dust: cautionBox(say, 'warning', `${ALL}.dust.heading`, under(`${ALL}.dust`, ['why', 'do'])),
      limits: dustTable(frame),
      epoxy: cautionBox(say, 'caution', `${ALL}.epoxy.heading`, under(`${ALL}.epoxy`, ['skin', 'rags'])),
    },
    sources: pickSources(frame.sources, [
      'cfr-1910-213',
      'cfr-1910-133',
      'osha-wood-dust',
      'iarc-wood-dust',
      'common-practice',
    ]),
  })
}

/** kg/m3 over eight hours (osha-wood-dust, read) */
const DUST = [
  { by: 'niosh', of: 'all', limit: 1e-6 },
  { by: 'acgih', of: 'inhaled', limit: 1e-6 },
  { by: 'osha', of: 'nuisance', limit: 15e-6 },
  { by: 'osha', of: 'respirable', limit: 5e-6 },
] as const

const dustTable = ({ say, show }: Frame): Table => ({
  kind: 'table',
  caption: say(`${ALL}.dust.table`),
  columns: [
    { head: say(`${ALL}.dust.who`), align: 'left', width: 30 },
    { head: say(`${ALL}.dust.limit`), align: 'right', width: 16 },
    { head: say(`${ALL}.dust.of`), align: 'left' },
  ],
  rows: DUST.map(({ by, of, limit }) => [
    words(say(`${ALL}.dust.${by}`)),
    number(show.dust(`dust.${by}.${of}`, limit)),
    words(say(`${ALL}.dust.${of}`)),
  ]),
})
