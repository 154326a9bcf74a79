/** The cover of a soap maker’s binder. */

import { finishSheet, maker, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import { linkTo } from './links.ts'
import type { Sheet, Value } from './model.ts'
import { PLACES } from './places.ts'

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
