/** Scents and colours, the storeroom, and the data sheets that belong behind the page. */
import type { BoundBinder } from '../../binder/bind.ts'
import { type Fill, finishSheet, maker, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Sheet, Table } from '../model.ts'
import { PLACES } from '../places.ts'
import { cautionBox, under } from './boxes.ts'

const ALL = 'cautions.scent'

export const scentSheet = (frame: Frame, binder: BoundBinder, fill: Fill): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet(
      'cautions',
      PLACES.scent.id,
      say('section.cautions'),
      PLACES.scent.number,
      say(`${ALL}.title`),
    ),
    template: frame.template('scent'),
    fill: {},
    blocks: {
      skin: cautionBox(
        say,
        'warning',
        `${ALL}.skin.heading`,
        under(`${ALL}.skin`, ['neat', 'limit', 'flash', 'person', 'powder']),
        fill,
      ),
      store: {
        ...cautionBox(say, 'warning', `${ALL}.store.heading`, [
          'official.p405',
          'official.p233',
          ...under('cautions.storage', ['1', '2', '3']),
          ...under(`${ALL}.store`, ['locked', 'apart', 'food', 'sheets']),
        ]),
      },
      list: dataSheets(frame, binder, fill),
    },
    sources: pickSources(frame.sources, ['clp', 'common-practice']),
  })
}

/** Alkalis, additions and the indicator; fats have no hazard to be read about. */
const dataSheets = ({ say }: Frame, { content }: BoundBinder, fill: Fill): Table => {
  const { alkalis, stockLyes, fragrances, additives } = content
  const named = [alkalis, stockLyes, fragrances, additives].flatMap((kind) =>
    [...kind.values()].map(({ value }) => maker(value.name)),
  )
  const blank: Cell = { kind: 'empty' }
  return {
    kind: 'table',
    style: 'log',
    caption: say(`${ALL}.list.caption`),
    columns: [
      { head: say(`${ALL}.list.what`), align: 'left' },
      { head: say(`${ALL}.list.date`), align: 'left', width: 26 },
      { head: say(`${ALL}.list.read`), align: 'left', width: 30 },
    ],
    rows: [...named, words(say(`${ALL}.list.extra`, fill)), blank, blank].map((what) => [what, blank, blank]),
  }
}
