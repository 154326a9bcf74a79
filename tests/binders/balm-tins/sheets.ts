/** Every sheet of a balm binder, in the order in which they are bound into the ring. */
import type { Diagnostic } from '../../../src/diagnostics.ts'
import { colophonSheet } from '../../../src/sheets/colophon-sheet.ts'
import { finishSheet, number, words } from '../../../src/sheets/compose.ts'
import { contentsSheet } from '../../../src/sheets/contents-sheet.ts'
import type { Frame } from '../../../src/sheets/frame.ts'
import type { Sheet, Source } from '../../../src/sheets/model.ts'
import { ownPageSheet } from '../../../src/sheets/own-page-sheet.ts'
import { printedSheet } from '../../../src/sheets/printed/printed-sheet.ts'
import { sourceSheet } from '../../../src/sheets/source-sheet.ts'
import { batchSheets } from './batch-sheets.ts'
import type { BalmBinder } from './bind.ts'
import { waxSheet } from './caution-sheet.ts'
import { BALM_PLACES, links } from './words.ts'

/** Every kind of number, with keys of the works behind it. */
const METHODS = {
  'balm-weights': ['common-practice'],
  'balm-density': ['choi-okos', 'common-practice'],
  'balm-heat': ['common-practice'],
  'balm-burn': ['first-aid-burns'],
} as const

export const balmSheets = (
  frame: Frame,
  binder: BalmBinder,
): { readonly sheets: readonly Sheet[]; readonly diagnostics: readonly Diagnostic[] } => {
  const { content } = binder
  const diagnostics: Diagnostic[] = []
  const made = binder.batches.map((batch, index) => batchSheets(frame, content.shop.value, batch, index))
  const body = [
    waxSheet(frame, binder),
    ...made.map(({ batch }) => batch),
    ...made.map(({ card }) => card),
    printedSheet(frame, BALM_PLACES.printed),
    ...made.flatMap(({ record }) => record ?? []),
  ]
  body.push(
    sourceSheet(frame, BALM_PLACES.sources, METHODS, usedIn(body)),
    colophonSheet(frame, BALM_PLACES.colophon),
  )
  const pages = content.pages.map((page, index) => {
    const own = ownPageSheet(frame, page, body, `7.${index + 1}`)
    diagnostics.push(...own.diagnostics)
    return own.sheet
  })
  const others = [...body, ...pages]
  return {
    sheets: [coverSheet(frame, binder), contentsSheet(frame, others, 'balm-contents'), ...others],
    diagnostics,
  }
}

const usedIn = (sheets: readonly Sheet[]): Source[] => [
  ...new Map(sheets.flatMap(({ sources }) => sources).map((source) => [source.key, source])).values(),
]

const coverSheet = (frame: Frame, { batches }: BalmBinder): Sheet => {
  const { say, show } = frame
  return finishSheet({
    ...frame.sheet('cover', 'cover', say('section.front'), '1.1', say('cover.title')),
    template: frame.template('balm-cover'),
    fill: { shop: frame.shopName, printed: links.printed },
    blocks: {
      facts: {
        kind: 'facts',
        size: 'plain',
        items: [
          { label: say('cover.edition'), cell: number(frame.issued) },
          ...batches.map(({ key, title, file: { value } }) => ({
            label: say('balm.cover.batches'),
            cell: words(
              say('balm.cover.batch', {
                title,
                tins: show.count(`batch.${key}.tins`, value.tins),
                date: show.date(`batch.${key}.date`, value.date),
              }),
            ),
          })),
        ],
      },
    },
    sources: [],
  })
}
