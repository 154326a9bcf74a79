/** Front matter: the cover and the contents. */

import { finishSheet, maker, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Inline, Sheet, Value } from './model.ts'
import { linkTo, PLACES } from './places.ts'

/** The cover: whose binder, of which date, and what is in it. */
export const coverSheet = (
  frame: Frame,
  holds: {
    readonly recipes: readonly string[]
    readonly moulds: readonly string[]
    readonly batches: readonly { readonly title: string; readonly date: Value }[]
  },
): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet('cover', 'cover', say('section.front'), '1.1', say('cover.title')),
    template: frame.template('cover'),
    fill: { shop: frame.shopName, printed: linkTo(PLACES.printed) },
    blocks: {
      facts: {
        kind: 'facts',
        size: 'plain',
        items: [
          { label: say('cover.edition'), cell: number(frame.issued) },
          ...holds.recipes.map((title) => ({ label: say('cover.recipe'), cell: maker(title) })),
          ...holds.moulds.map((title) => ({ label: say('cover.moulds'), cell: maker(title) })),
          ...holds.batches.map((batch) => ({
            label: say('cover.batches'),
            cell: words({ text: '[[title]], [[date]]', fill: { title: batch.title, date: batch.date } }),
          })),
        ],
      },
    },
    sources: [],
  })
}

/** The contents: every other sheet with its number; page numbers are filled in when it is printed. */
export const contentsSheet = (frame: Frame, others: readonly Sheet[]): Sheet =>
  finishSheet({
    ...frame.sheet('contents', 'contents', frame.say('section.front'), '1.2', frame.say('contents.title')),
    template: frame.template('contents'),
    fill: {},
    blocks: {
      contents: {
        kind: 'contents',
        entries: others.map(({ id, anchor, number: sheetNumber, title }) => ({
          anchor,
          number: sheetNumber,
          title: titleOf(id, title),
        })),
      },
    },
    sources: [],
  })

/** A sheet's title as another sheet names it: its values keep the id of the sheet that they are of. */
const titleOf = (id: string, title: Inline): Inline => ({
  text: title.text,
  fill: Object.fromEntries(
    Object.entries(title.fill).map(([key, filling]) => [
      key,
      typeof filling === 'string' || 'text' in filling
        ? filling
        : { ...filling, name: `${id}:${filling.name}` },
    ]),
  ),
})
