/** Soap by the cold process, as the engine is given it. */
import { type BoundBinder, bind, type Proofs } from './binder/bind.ts'
import { isShoppingAsked } from './binder/bind-shopping.ts'
import { dxfText } from './dxf/dxf-text.ts'
import { keptByInput } from './kept-or-made.ts'
import type { Process } from './process.ts'
import type { Content } from './schema/content.ts'
import { FILE_KINDS } from './schema/file-kinds.ts'
import { loadContent } from './schema/load.ts'
import { binderSheets } from './sheets/binder-sheets.ts'
import { calendarFile } from './sheets/cure/calendar-file.ts'
import { taskDays } from './sheets/cure/task-days.ts'
import type { Frame } from './sheets/frame.ts'
import { BATCH_KIN, PLACES } from './sheets/places.ts'
import { printedSheet } from './sheets/printed/printed-sheet.ts'
import { routerFilesOf } from './sheets/router/files.ts'
import { proveBarCutter } from './solids/bar-cutter-proof.ts'
import { proveGridCutter } from './solids/grid-cutter-proof.ts'
import { proveLeverPress } from './solids/lever-press-proof.ts'
import { proveMould } from './solids/mould-proof.ts'
import { loadSolids, type Solids } from './solids/solids.ts'
import { proveTrialFrame } from './solids/trial-frame-proof.ts'
import { loadSolver } from './solver/solver.ts'

/** Designs that are kept with their proofs: equal ones are proved once. */
const MOST_KNOWN = 32

const proofsOf = (solids: Solids): Proofs => ({
  mould: keptByInput(MOST_KNOWN, (mould) => proveMould(mould, solids)),
  gridCutter: keptByInput(MOST_KNOWN, (cutter) => proveGridCutter(cutter, solids)),
  barCutter: keptByInput(MOST_KNOWN, (cutter) => proveBarCutter(cutter, solids)),
  trialFrame: keptByInput(MOST_KNOWN, (trial) => proveTrialFrame(trial, solids)),
  leverPress: keptByInput(MOST_KNOWN, ({ press, cutter }) => proveLeverPress(press, solids, cutter)),
})
let proofs: Proofs | undefined

/** Sheets that are looked for in a hurry. The first is the one that every page leads to. */
const URGENT = [
  [PLACES.emergency, 'site.urgent.emergency'],
  [PLACES.lye, 'site.urgent.lye'],
  [PLACES.spill, 'site.urgent.spill'],
  [PLACES.lifting, 'site.urgent.lifting'],
  [PLACES.trouble, 'site.urgent.trouble'],
] as const

/** Sheets of what is bound already, in the words of a frame. */
export const sheetsIn = (frame: Frame, binder: BoundBinder): ReturnType<typeof binderSheets> => {
  const { size } = binder.content.shop.value.paper
  return binderSheets(frame, binder, size === 'Letter' ? 'third-angle' : 'first-angle')
}

export const SOAP: Process<Content, BoundBinder> = {
  kinds: FILE_KINDS,
  texts: [],
  load: loadContent,
  bind: async (content) => {
    proofs ??= proofsOf(await loadSolids())
    const solve = isShoppingAsked(content) ? await loadSolver() : undefined
    const { binder, diagnostics } = bind(content, proofs, solve)
    return { bound: binder, diagnostics }
  },
  sheets: (frame, _content, bound) => sheetsIn(frame, bound),
  printed: (frame, papers) => printedSheet(frame, PLACES.printed, papers),
  firstPage: (frame, bound) => ({
    days: taskDays(frame, bound),
    urgent: URGENT.map(([{ id }, key]) => ({ id, words: frame.say(key) })),
    kin: BATCH_KIN.map(([begins, key]) => ({ begins, words: frame.say(key) })),
    same: frame.say('site.search-same'),
  }),
  files: (frame, content, bound) => [
    {
      path: 'cure.ics',
      text: () => calendarFile(frame, bound, content.shop.value.edition),
      listed: frame.say('site.calendar-file'),
    },
    ...routerFilesOf(frame, bound).map(({ path, file, notes }) => ({
      path,
      text: () => dxfText(file, notes),
    })),
  ],
}
