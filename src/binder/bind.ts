/** Typed content to the bound binder: every calculator run once, in order, with what it found kept beside. */
import type { Diagnostic } from '../diagnostics.ts'
import { isStopped } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import type { Solve } from '../supply/programme.ts'
import { asBuiltMistakes, asDrawn, type DrawnFixture } from './as-built-limits.ts'
import { type BoundAsBuilt, bindAsBuilt } from './bind-as-built.ts'
import { type BoundBarCutter, bindBarCutter, type ProveBarCutter } from './bind-bar-cutter.ts'
import { type BoundBatch, bindBatch, withBlockHeat } from './bind-batch.ts'
import { type BoundBuild, bindBuilds } from './bind-build.ts'
import { type BoundCalendar, type BoundCure, bindCalendar } from './bind-calendar.ts'
import { type BoundCost, bindCosts } from './bind-costs.ts'
import { type BoundGridCutter, bindGridCutter, type ProveGridCutter } from './bind-grid-cutter.ts'
import { type BoundLabel, bindLabels, bindShopRules, type ShopRules } from './bind-labels.ts'
import { type BoundLeverPress, bindLeverPress, type ProveLeverPress } from './bind-lever-press.ts'
import { type BoundMarket, bindMarkets } from './bind-market.ts'
import { type BoundMould, bindMould, type ProveMould } from './bind-mould.ts'
import { type BoundPilot, bindPilot, untriedRecipes } from './bind-pilot.ts'
import { type BoundRecipe, bindRecipe } from './bind-recipe.ts'
import { type BoundRecord, bindRecords } from './bind-record.ts'
import { bindRouterFiles, type RouterSet } from './bind-router-files.ts'
import { type BoundShopping, bindShopping } from './bind-shopping.ts'
import { type BoundStock, bindStock } from './bind-stock.ts'
import { type BoundTolerance, bindTolerance } from './bind-tolerance.ts'
import { type BoundTrace, bindTrace } from './bind-trace.ts'
import { type BoundTrialFrame, bindTrialFrame, type ProveTrialFrame } from './bind-trial-frame.ts'
import { type BoundWires, bindWires } from './bind-wires.ts'
import { dryingBars } from './drying-bars.ts'
import { heatLogs } from './heat-logs.ts'
import { blockHeatPlanner, type PlannedHeat } from './plan-block-heat.ts'

export interface BoundBinder {
  readonly content: Content
  /** in the order of their names */
  readonly recipes: readonly BoundRecipe[]
  /** in the order of their names */
  readonly moulds: readonly BoundMould[]
  /** of the fixtures that ask for one, in the order of their names */
  readonly gridCutters: readonly BoundGridCutter[]
  readonly barCutters: readonly BoundBarCutter[]
  /** of the fixtures with a cutter, in the order of their names */
  readonly wires: readonly BoundWires[]
  /** of the fixtures with a cutter, in the order of their names */
  readonly tolerances: readonly BoundTolerance[]
  /** what the readings of each fixture change, in the order of their names */
  readonly asBuilt: readonly BoundAsBuilt[]
  /** of the fixtures with a grid cutter that has wires, in the order of their names */
  readonly trialFrames: readonly BoundTrialFrame[]
  /** of the fixtures that ask for one, in the order of their names */
  readonly leverPresses: readonly BoundLeverPress[]
  /** in the order of their names; one of everything where the maker has written none */
  readonly builds: readonly BoundBuild[]
  /** for a router, of every fixture that stands, in the order of their names */
  readonly routerSets: readonly RouterSet[]
  /** in the order of their days, then names */
  readonly batches: readonly BoundBatch[]
  /** bars of every batch that may be made */
  readonly cures: readonly BoundCure[]
  /** what was planned of each of them beside what was typed back */
  readonly records: readonly BoundRecord[]
  /** lots and batches both ways */
  readonly trace: BoundTrace
  /** when what is done with all of them */
  readonly calendar: BoundCalendar
  /** of every batch that may be made, where the shop says where it sells */
  readonly labels: readonly BoundLabel[]
  /** missing where the shop does not say where it sells */
  readonly labelRules: ShopRules | undefined
  /** in the order of their days */
  readonly markets: readonly BoundMarket[]
  /** lots on hand, and what the batches to come take of them */
  readonly stock: BoundStock
  /** missing where nobody asks for it, or nothing that could choose was handed in */
  readonly shopping: BoundShopping | undefined
  /** in the order of the batches; none in a shop without a currency */
  readonly costs: readonly BoundCost[]
  /** one loaf of every recipe that is planned but was never tried */
  readonly pilots: readonly BoundPilot[]
}

/** Blocks reckoned by this process, whichever binder they were of. */
const KNOWN_BLOCKS = new Map<string, PlannedHeat>()

/** What whoever has loaded the solids can prove. */
export interface Proofs {
  readonly mould?: ProveMould
  readonly gridCutter?: ProveGridCutter
  readonly barCutter?: ProveBarCutter
  readonly trialFrame?: ProveTrialFrame
  readonly leverPress?: ProveLeverPress
}

/**
 * @param prove proves each fixture with solids, where the caller has loaded them
 * @param solve chooses packs, where the caller has loaded it
 * @returns the binder, and diagnostics for what content alone cannot tell (a shop without a needed vessel)
 */
export const bind = (
  content: Content,
  prove: Proofs = {},
  solve?: Solve,
): { binder: BoundBinder; diagnostics: readonly Diagnostic[] } => {
  const diagnostics: Diagnostic[] = []
  const drawn = new Map<string, DrawnFixture>()
  const moulds = [...content.fixtures.values()].map((fixture) => {
    if (!fixture.value['as-built']) return bindMould(content, fixture, prove.mould)
    // A reading is judged by what is drawn, which is nobody's sheet any more: it is proved with the mould.
    const mould = bindMould(content, asDrawn(fixture))
    const all = { mould, grid: bindGridCutter(content, mould), bar: bindBarCutter(content, mould) }
    drawn.set(fixture.key, all)
    const wrong = asBuiltMistakes(fixture, all)
    diagnostics.push(...wrong)
    return bindMould(content, wrong.length > 0 ? asDrawn(fixture) : fixture, prove.mould)
  })
  const gridCutters = moulds.flatMap(
    (mould) =>
      bindGridCutter(content, mould, prove.gridCutter, drawn.get(mould.key)?.grid?.cutter.inside) ?? [],
  )
  const barCutters = moulds.flatMap((mould) => bindBarCutter(content, mould, prove.barCutter) ?? [])
  const of = <T extends { readonly key: string }>(all: readonly T[], key: string): T | undefined =>
    all.find((one) => one.key === key)
  const wires = moulds.flatMap(
    ({ key, file }) => bindWires(file, of(gridCutters, key), of(barCutters, key)) ?? [],
  )
  const trialFrames = gridCutters.flatMap((grid) => bindTrialFrame(content, grid, prove.trialFrame) ?? [])
  const leverPresses = gridCutters.flatMap((grid) => {
    const stands = !isStopped([...grid.findings, ...(of(moulds, grid.key)?.findings ?? [])])
    return bindLeverPress(content, grid, stands, prove.leverPress) ?? []
  })
  const { builds, diagnostics: unsawable } = bindBuilds(content, {
    moulds,
    gridCutters,
    barCutters,
    wires,
    trialFrames,
    leverPresses,
  })
  diagnostics.push(...unsawable)
  const byKey = new Map(moulds.map((mould) => [mould.key, mould]))
  const weighed: BoundBatch[] = []
  const missing = new Set<string>()
  for (const file of content.batches.values()) {
    const mould = byKey.get(file.value.mould)
    if (!mould) throw new Error(`No mould "${file.value.mould}".`)
    const bound = bindBatch(content, file, mould)
    if ('batch' in bound) weighed.push(bound.batch)
    else for (const use of bound.missingVessels) missing.add(use)
  }
  for (const use of missing)
    diagnostics.push({
      severity: 'error',
      code: 'vessel-missing',
      file: content.shop.document.file,
      path: '/vessels',
      at: 'key',
      message: `No vessel of this shop has "use: ${use}", and a batch needs one`,
      advice: `Add a vessel with "use: ${use}", its material, volume, empty mass and rated temperature.`,
    })
  weighed.sort((a, b) => (a.date + a.key < b.date + b.key ? -1 : 1))
  // What was logged of one batch is of use for all of its recipe, so every batch is weighed out first.
  const shop = content.shop.value
  const logs = heatLogs(shop, weighed)
  const planBlockHeat = blockHeatPlanner(KNOWN_BLOCKS)
  const batches = weighed.map((batch) => withBlockHeat(shop, batch, logs, planBlockHeat))
  const pilots = untriedRecipes(batches).flatMap((recipe) => bindPilot(content, recipe) ?? [])
  const recipes = [...content.recipes.values()].map((recipe) => bindRecipe(content, recipe))
  const { calendar, cures } = bindCalendar(
    content,
    batches.flatMap((batch) => dryingBars(content, batch) ?? []),
  )
  const { stock, diagnostics: unaccountable } = bindStock(content, batches, cures)
  diagnostics.push(...unaccountable)
  const shopping = bindShopping(content, stock, solve)
  const tolerances = moulds.flatMap(
    (mould) => bindTolerance(mould, of(gridCutters, mould.key), of(barCutters, mould.key), cures) ?? [],
  )
  const asBuilt = moulds.map((mould) => {
    const is: DrawnFixture = { mould, grid: of(gridCutters, mould.key), bar: of(barCutters, mould.key) }
    return bindAsBuilt(
      content,
      is,
      drawn.get(mould.key) ?? is,
      batches.filter((batch) => batch.mould === mould),
      cures,
    )
  })
  const markets = bindMarkets({
    content,
    calendar,
    cures,
    imagine: (file) => {
      const mould = byKey.get(file.value.mould)
      const bound = mould && bindBatch(content, file, mould)
      return bound && 'batch' in bound ? withBlockHeat(shop, bound.batch, logs, planBlockHeat) : undefined
    },
  })
  return {
    binder: {
      content,
      recipes,
      moulds,
      gridCutters,
      barCutters,
      wires,
      tolerances,
      asBuilt,
      trialFrames,
      leverPresses,
      builds,
      routerSets: bindRouterFiles({ moulds, gridCutters, barCutters, trialFrames, leverPresses }),
      batches,
      pilots,
      stock,
      shopping,
      costs: bindCosts(content, batches, cures, stock, shopping),
      cures,
      records: bindRecords(content, cures, stock),
      trace: bindTrace(content, stock),
      calendar,
      labels: bindLabels(content, batches, cures),
      labelRules: bindShopRules(content),
      markets,
    },
    diagnostics,
  }
}
