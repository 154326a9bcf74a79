/** Balm in tins, as the engine is given it: melted, poured, and never met by anything of another work. */
import { fileURLToPath } from 'node:url'
import type { Process } from '../../../src/process.ts'
import { anchorOf } from '../../../src/sheets/compose.ts'
import { printedSheet } from '../../../src/sheets/printed/printed-sheet.ts'
import { type BalmBinder, bindBalm } from './bind.ts'
import { type BalmContent, loadBalm } from './load.ts'
import { BALM_KINDS } from './schema.ts'
import { balmSheets } from './sheets.ts'
import { BALM_PLACES } from './words.ts'

export const BALM: Process<BalmContent, BalmBinder> = {
  kinds: BALM_KINDS,
  texts: [fileURLToPath(new URL('text/', import.meta.url))],
  load: loadBalm,
  bind: async (content) => ({ bound: bindBalm(content), diagnostics: [] }),
  sheets: (frame, _content, bound) => balmSheets(frame, bound),
  printed: (frame, papers) => printedSheet(frame, BALM_PLACES.printed, papers),
  firstPage: ({ say, show }, { batches }) => ({
    days: [...new Set(batches.map(({ file }) => file.value.date))].map((date) => ({
      day: show.shortDate(`day.${date}`, date),
      tasks: batches
        .filter(({ file }) => file.value.date === date)
        .map(({ key, title, file }) => ({
          words: say('balm.task', { title, tins: show.count(`task.${key}.tins`, file.value.tins) }),
          sheets: [anchorOf(`batch/${key}`)],
        })),
    })),
    urgent: [{ id: BALM_PLACES.wax.id, words: say('balm.urgent.wax') }],
    kin: [
      { begins: 'card/melt/', words: say('balm.kin.card') },
      { begins: 'record/', words: say('balm.kin.record') },
    ],
  }),
  files: () => [],
}
