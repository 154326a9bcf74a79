/** A bound binder to its sheets, in the order in which they are bound into the ring. */
import type { BoundBinder } from '../binder/bind.ts'
import { placesOf } from '../binder/finding-places.ts'
import type { Diagnostic } from '../diagnostics.ts'
import type { Projection } from '../drawing/types.ts'
import { isStopped } from '../findings.ts'
import { batchSheet } from './batch/batch-sheet.ts'
import { coolerWays } from './batch/block-ahead.ts'
import { lotsToTake } from './batch/lots.ts'
import { buildSheets } from './build/build-sheets.ts'
import { cardSheets } from './cards/card-sheets.ts'
import { cautionSheet } from './caution-sheet.ts'
import { colophonSheet } from './colophon-sheet.ts'
import { contentsSheet } from './contents-sheet.ts'
import { marketSheet } from './cure/market-sheet.ts'
import { monthSheets } from './cure/month-sheet.ts'
import { planSheet } from './cure/plan-sheet.ts'
import { rackSheet } from './cure/rack-sheet.ts'
import { logNumber } from './cure/tasks.ts'
import { cureSheet } from './cure/weigh-in-sheet.ts'
import { emergencySheet } from './emergency-sheet.ts'
import { sectionNumbers } from './fixture/fixture-numbers.ts'
import { fixtureSheets } from './fixture-sheets.ts'
import type { Frame } from './frame.ts'
import { spineSheet } from './front/spine-sheet.ts'
import { tabSheet } from './front/tab-sheet.ts'
import { coverSheet } from './front-sheets.ts'
import { hazardSheets, workSheets } from './hand-sheets.ts'
import { labelSheets } from './labels/label-sheets.ts'
import { METHODS } from './methods.ts'
import type { Sheet, Source } from './model.ts'
import { ownPageSheet } from './own-page-sheet.ts'
import { pilotSheet } from './pilot-sheet.ts'
import { PLACES } from './places.ts'
import { printedSheet } from './printed/printed-sheet.ts'
import { recipeSheet } from './recipe-sheet.ts'
import { recordPlace } from './record/places.ts'
import { recordSheet } from './record/record-sheet.ts'
import { remedyWords } from './remedies.ts'
import { sourceSheet } from './source-sheet.ts'
import { stopSheet } from './stop-sheet.ts'
import { supplySheets } from './supply/supply-sheets.ts'
import { whatToPrint } from './what-to-print.ts'

/** @returns every sheet, and diagnostics for what a maker's own pages name wrongly */
export const binderSheets = (
  frame: Frame,
  binder: BoundBinder,
  projection: Projection,
): { readonly sheets: readonly Sheet[]; readonly diagnostics: readonly Diagnostic[] } => {
  const { say, show } = frame
  const { content } = binder
  const diagnostics: Diagnostic[] = []
  const recipes = binder.recipes.map((recipe, index) => recipeSheet(frame, recipe, index + 1))
  const batches = binder.batches.map((batch, index) => {
    if (batch.state !== 'stop')
      return batchSheet(
        frame,
        batch,
        index + 1,
        binder.cures.find((cure) => cure.batch === batch),
        recordPlace(binder, batch.key),
        lotsToTake(frame, binder, batch),
      )
    const stopped = stopSheet(frame, {
      kind: 'batch',
      id: `batch/${batch.key}`,
      number: `4.${index + 1}`,
      title: say('batch.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) }),
      findings: batch.findings,
      placesOf: (finding) =>
        [content.recipes.get(batch.recipeKey), batch.file, batch.shopFile].flatMap((file) =>
          file ? placesOf(file, finding) : [],
        ),
      also: [
        ...(batch.superfat.state === 'stop' ? remedyWords(frame, batch) : []),
        ...coolerWays(frame, batch),
      ],
    })
    // a phone that has ticks of it says so
    return { ...stopped, atBench: true }
  })
  const pilots = binder.pilots.map((pilot, index) => {
    const place = binder.batches.length + index + 1
    if (!isStopped(pilot.findings)) return pilotSheet(frame, pilot, place)
    return stopSheet(frame, {
      kind: 'batch',
      id: `pilot/${pilot.recipeKey}`,
      number: `4.${place}`,
      title: say('pilot.title', { recipe: pilot.recipeTitle }),
      findings: pilot.findings,
    })
  })
  const plans: Sheet[] = binder.cures.length > 0 ? [planSheet(frame, binder)] : []
  const racks = binder.cures.length > 0 ? rackSheet(frame, binder, plans.length + 1) : undefined
  if (racks) plans.push(racks)
  for (const market of binder.markets) plans.push(marketSheet(frame, market, plans.length + 1))
  const cures = binder.cures.map((cure) => {
    const place = logNumber(binder, cure)
    if (!isStopped(cure.findings)) return cureSheet(frame, cure, place)
    const { batch } = cure
    return stopSheet(frame, {
      kind: 'cure',
      id: `cure/${batch.key}`,
      number: place,
      title: say('cure.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) }),
      findings: cure.findings,
      placesOf: (finding) => placesOf(batch.file, finding),
    })
  })
  const numbers = sectionNumbers(binder)
  const fixtures = fixtureSheets(frame, binder, projection, numbers)
  const body: Sheet[] = [
    cautionSheet(frame, content.shop.value.contacts),
    emergencySheet(frame, content.shop.value.contacts),
    ...hazardSheets(frame, binder, recipes),
    ...recipes,
    ...batches,
    ...pilots,
    ...cardSheets(frame, binder),
    ...plans,
    ...cures,
    // last of their section: the months that are left change with the season
    ...monthSheets(frame, binder, plans.length + cures.length + 1),
    ...fixtures,
    ...buildSheets(frame, binder, fixtures, numbers),
    ...supplySheets(frame, binder),
    ...labelSheets(frame, binder),
  ]
  // the page of printed papers holds its place here: what stands on it follows from all other sheets
  body.push(...workSheets(frame, binder, body), printedSheet(frame, PLACES.printed))
  const sheetOf = (id: string): Sheet => {
    const sheet = body.find((one) => one.id === id)
    if (!sheet) throw new Error(`There is no sheet ${id}.`)
    return sheet
  }
  body.push(
    ...binder.records.map((record) =>
      recordSheet(frame, record, {
        own: recordPlace(binder, record.batch.key),
        batch: sheetOf(`batch/${record.batch.key}`),
        recipe: sheetOf(`recipe/${record.batch.recipeKey}`),
        cure: sheetOf(`cure/${record.batch.key}`),
      }),
    ),
  )
  body.push(sourceSheet(frame, SOURCES, METHODS, usedSources(body)), colophonSheet(frame, PLACES.colophon))
  const pages = content.pages.map((page, index) => {
    const own = ownPageSheet(frame, page, body, `14.${index + 1}`)
    diagnostics.push(...own.diagnostics)
    return own.sheet
  })
  body.push(...pages)
  const cover = coverSheet(frame, {
    recipes: binder.recipes.map(({ title }) => title),
    moulds: binder.moulds.map(({ title }) => title),
    batches: binder.batches.map((batch) => ({
      title: batch.recipeTitle,
      date: show.date(`batch.${batch.key}.date`, batch.date),
    })),
  })
  const front = [spineSheet(frame), tabSheet(frame, body, PAPER_HEIGHT[content.shop.value.paper.size])]
  const others = [...front, ...body]
  const uses = whatToPrint(
    frame,
    others,
    binder.batches
      .filter(({ state }) => state !== 'stop')
      .map(({ key, recipeTitle: title, date, file }) => ({
        key,
        title,
        date,
        made: file.value.made !== undefined,
      })),
  )
  // until the test is typed in
  const held = new Set(
    binder.batches.flatMap(({ key, state, file }) =>
      state === 'hold' && !file.value['release-test'] ? [`batch/${key}`] : [],
    ),
  )
  const contents = contentsSheet(frame, others, 'contents', { uses }, ({ id }, title) =>
    held.has(id) ? say('batch.title-held', { title }) : title,
  )
  return { sheets: [cover, contents, ...others], diagnostics }
}

/** mm; of a card behind a tab, as high as the page (ISO 216; Letter of 11 in) */
const PAPER_HEIGHT = { Letter: 279.4, A4: 297 } as const

const SOURCES = { id: 'sources', number: '13.1' } as const

const usedSources = (sheets: readonly Sheet[]): Source[] => [
  ...new Map(sheets.flatMap(({ sources }) => sources).map((source) => [source.key, source])).values(),
]
