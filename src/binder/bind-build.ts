/** One build to what is sawn from which boards: blanks by material, boards from the shop and to buy, and their layout. */

import type { Diagnostic } from '../diagnostics.ts'
import type { Finding } from '../findings.ts'
import { isFitted } from '../fixtures/fitted-parts.ts'
import { panelNeed } from '../fixtures/panel-need.ts'
import type { Part } from '../geometry/part.ts'
import { keptByInput } from '../kept-or-made.ts'
import type { BuildFile, BuildPiece } from '../schema/build.ts'
import type { Content } from '../schema/content.ts'
import type { Placed } from '../schema/placed.ts'
import { checkSawn, type SawnPart, sawOf } from '../schema/stock.ts'
import { layOut } from '../sheet-stock/lay-out.ts'
import { usualSawLimits } from '../sheet-stock/saw-plan.ts'
import type { LayoutProblem, SheetLayout } from '../sheet-stock/types.ts'
import { type BoundQuote, bindQuote } from './bind-quote.ts'
import { type BoundFixtures, type BuildItem, buildItems, type LeftOut } from './build-items.ts'
import { panelStep } from './panel-lookup.ts'
import { type NamedBlank, planSawing, ROUGH, type Sawing, type StockBoard } from './plan-sawing.ts'

/** A blank with what is made from it. */
export interface BuildBlank extends NamedBlank {
  readonly fixture: string
  readonly piece: BuildPiece
  readonly made: Part
}

/** Boards of one size, and where they come from. */
export interface BuildBoard extends StockBoard {
  /** stands in the shop; is sold in this size; or is asked for, since nobody knows the sizes it is sold in */
  readonly from: 'shop' | 'sold' | 'asked'
  /** of one, in the smallest coin, where it is known */
  readonly price?: number
  /** what is written on it */
  readonly label?: string
}

/** Boards of one size that are sawn up. */
export interface UsedBoard {
  readonly board: BuildBoard
  readonly count: number
}

/** All that is sawn from boards of one material. */
export interface BuildMaterial {
  /** key among the panels, and its name */
  readonly material: string
  readonly name: string
  /** [m] */
  readonly thickness: number
  /** [kg/m3] */
  readonly density: number
  readonly grain: boolean
  readonly blanks: readonly BuildBlank[]
  /** those of the shop first */
  readonly boards: readonly BuildBoard[]
  readonly layout: SheetLayout
  readonly used: readonly UsedBoard[]
  /** costs are prices in the smallest coin, or areas where one of them has no price [m2] */
  readonly costIs: 'money' | 'area'
  /** of all blanks; of those that found a board; of the boards that are sawn up, edges and all [m2] */
  readonly blankArea: number
  readonly laidArea: number
  readonly boardArea: number
  /** of those boards, what becomes of no blank [0..1] */
  readonly waste: number
}

export interface BoundBuild {
  readonly key: string
  /** missing where the maker has written no build: everything is made */
  readonly title: string | undefined
  readonly file: Placed<BuildFile> | undefined
  readonly wantedBy: string | undefined
  readonly saw: { readonly kerf: number; readonly trim: number; readonly keepsFrom: number }
  readonly items: readonly BuildItem[]
  readonly leftOut: readonly LeftOut[]
  /** in the order in which the fixtures name them */
  readonly materials: readonly BuildMaterial[]
  /** those boards, cut by cut; missing where nothing is made */
  readonly sawing: Sawing | undefined
  readonly quote: BoundQuote
  readonly findings: readonly Finding[]
}

/** Key of the build that a shop has which writes none. */
const EVERYTHING = 'everything'

/**
 * All builds of a folder; where there are none, one of everything.
 *
 * @param content for boards, prices and the shop's saw
 * @param bound   all fixtures
 * @returns builds, and diagnostics for boards that cannot be sawn as their file says
 */
export function bindBuilds(
  content: Content,
  bound: BoundFixtures,
): { readonly builds: readonly BoundBuild[]; readonly diagnostics: readonly Diagnostic[] } {
  const files = [...content.builds.values()]
  const planned = (files.length > 0 ? files : [undefined]).map((file) => ({
    file,
    ...buildItems(file?.value, bound),
  }))
  if (bound.moulds.length === 0) return { builds: [], diagnostics: [] }
  const sawn = planned.flatMap(({ items }) => items.flatMap((item) => sawnParts(content, item)))
  const diagnostics = checkSawn(content, sawn)
  // Nothing is laid out on boards that are known to be wrong.
  if (diagnostics.length > 0) return { builds: [], diagnostics }
  return {
    builds: planned.map(({ file, items, leftOut }) => bindBuild(content, file, items, leftOut)),
    diagnostics,
  }
}

const bindBuild = (
  content: Content,
  file: Placed<BuildFile> | undefined,
  items: readonly BuildItem[],
  leftOut: readonly LeftOut[],
): BoundBuild => {
  const names = [...new Set(items.flatMap(({ parts }) => parts.map(({ material }) => material)))]
  const materials = names.map((material) => layMaterial(content, material, items))
  const sawing = materials.length > 0 ? sawingOf(content, materials) : undefined
  return {
    key: file?.key ?? EVERYTHING,
    title: file?.value.title,
    file,
    wantedBy: file?.value['wanted-by'],
    saw: sawOf(content.shop.value),
    items,
    leftOut,
    materials,
    sawing,
    quote: bindQuote(content, items, materials, sawing),
    findings: [...(items.length === 0 ? NOTHING_STANDS : []), ...materials.flatMap(materialFindings)],
  }
}

const NOTHING_STANDS: readonly Finding[] = [{ code: 'build-nothing-stands', severity: 'stop', values: {} }]

const materialFindings = ({ material, name, layout, boards }: BuildMaterial): Finding[] => {
  const left = layout.left.reduce((sum, { count }) => sum + count, 0)
  const asked = boards.some(({ from }) => from === 'asked')
  return [
    ...(asked
      ? [{ code: 'board-size-unknown', severity: 'warn' as const, values: { key: material, board: name } }]
      : []),
    ...(left > 0
      ? [
          {
            code: 'blanks-without-board',
            severity: 'warn' as const,
            values: { key: material, board: name, blanks: left },
          },
        ]
      : []),
  ]
}

const sawingOf = (content: Content, materials: readonly BuildMaterial[]): Sawing => {
  const { kerf, keepsFrom } = sawOf(content.shop.value)
  const { currency } = content.shop.value
  const sawing = planSawing(
    materials.map(({ material, name, thickness, density, grain, blanks, boards, layout }) => ({
      panel: { material, thickness, density },
      name,
      grain,
      blanks,
      boards,
      kerf,
      layout,
    })),
    { ...usualSawLimits, keepsFrom },
  )
  return currency === undefined ? sawing : { ...sawing, currency }
}

/** How the ids begin of the sheets that pieces are built by; the gauge is made with the mould. */
export const BUILT_ON: Readonly<Record<BuildPiece, string>> = {
  'set-up-gauge': 'fixture',
  mould: 'fixture',
  'grid-cutter': 'grid-cutter',
  'bar-cutter': 'bar-cutter',
  'trial-frame': 'trial-frame',
  'lever-press': 'lever-press',
}

/** What is sawn for one part; along the grain of its board first. Of wood, a part that is fitted later is sawn larger. */
const blankOf = ({ panels }: Content, { fixture, piece, count }: BuildItem, part: Part): BuildBlank => {
  const turns = Boolean(part.grainless) || panels.get(part.material)?.value.grain === 'none'
  const waits = piece === 'mould' && isFitted(part.key)
  const isOversize = waits && !turns
  const [length, width] = part.grain === 'length' ? [part.length, part.width] : [part.width, part.length]
  const more = isOversize ? ROUGH : 0
  return {
    key: `${fixture}.${piece}.${part.key}`,
    sheet: `${BUILT_ON[piece]}/${fixture}`,
    part: part.key,
    made: part,
    fixture,
    piece,
    count: part.count * count,
    length: length + more,
    width: width + more,
    turns,
    ...(waits ? { fitted: { isOversize } } : {}),
  }
}

const sawnParts = (content: Content, item: BuildItem): SawnPart[] =>
  item.parts.map((part) => {
    const { length, width, turns } = blankOf(content, item, part)
    return { panel: part.material, fixture: item.fixture, part: part.key, length, width, turns }
  })

const layMaterial = (content: Content, material: string, items: readonly BuildItem[]): BuildMaterial => {
  const panel = content.panels.get(material)?.value
  if (!panel) throw new Error(`No panel "${material}".`)
  const blanks = items.flatMap((item) =>
    item.parts.filter((part) => part.material === material).map((part) => blankOf(content, item, part)),
  )
  const { boards, costIs } = boardsFor(content, material, blanks)
  const layout = laidOut({
    // only what a layout is made of
    blanks: blanks.map(({ key, length, width, count, turns: either }) => ({
      key,
      length,
      width,
      count,
      turns: either,
    })),
    boards: boards.map(({ key, length, width, count, cost, trim }) => ({
      key,
      length,
      width,
      count,
      cost,
      trim,
    })),
    kerf: sawOf(content.shop.value).kerf,
  })
  const used = boards.flatMap((board): UsedBoard[] => {
    const count = layout.boards.filter((one) => one.board === board.key).length
    return count > 0 ? [{ board, count }] : []
  })
  const areaOf = (all: readonly { length: number; width: number; count: number }[]): number =>
    all.reduce((sum, { length, width, count }) => sum + length * width * count, 0)
  const leftOf = (key: string): number =>
    layout.left.filter((one) => one.key === key).reduce((sum, { count }) => sum + count, 0)
  const laidArea = areaOf(blanks.map((blank) => ({ ...blank, count: blank.count - leftOf(blank.key) })))
  const boardArea = areaOf(used.map(({ board, count }) => ({ ...board, count })))
  return {
    material,
    name: panel.name,
    thickness: panel.thickness,
    density: panel.density,
    grain: panel.grain !== 'none',
    blanks,
    boards,
    layout,
    used,
    costIs,
    blankArea: areaOf(blanks),
    laidArea,
    boardArea,
    waste: boardArea > 0 ? 1 - laidArea / boardArea : 0,
  }
}

/** What stands in the shop costs nothing; what is sold costs its price, or its area where one of the sizes has no price. */
const boardsFor = (
  content: Content,
  material: string,
  blanks: readonly BuildBlank[],
): Pick<BuildMaterial, 'boards' | 'costIs'> => {
  const { shop, panels } = content
  const saw = sawOf(shop.value)
  const inShop = (shop.value['boards-in-shop'] ?? [])
    .filter(({ panel }) => panel === material)
    .map(
      ({ length, width, label, 'how-many': count = 1, 'edge-trim': edge }, index): BuildBoard => ({
        key: `shop-${index + 1}`,
        length,
        width,
        count,
        cost: 0,
        trim: edge ?? 0,
        inShop: true,
        from: 'shop',
        ...(label === undefined ? {} : { label }),
      }),
    )
  const sheets = panels.get(material)?.value.sheets ?? []
  const costIs = sheets.length > 0 && sheets.every(({ price }) => price !== undefined) ? 'money' : 'area'
  const sold = sheets.map(
    ({ length, width, price }, index): BuildBoard => ({
      key: `sold-${index + 1}`,
      length,
      width,
      count: Number.POSITIVE_INFINITY,
      cost: costIs === 'money' && price ? price.minor : length * width,
      trim: saw.trim,
      inShop: false,
      from: 'sold',
      ...(price ? { price: price.minor } : {}),
    }),
  )
  if (sold.length > 0 || blanks.length === 0) return { boards: [...inShop, ...sold], costIs }
  const parts = blanks.map(({ made, length, width, count }) => ({
    ...made,
    length,
    width,
    grain: 'length' as const,
    count,
  }))
  const { length, width } = panelNeed(parts, panelStep(content), { kerf: saw.kerf, edge: saw.trim })
  const asked: BuildBoard = {
    key: 'asked',
    length,
    width,
    count: 1,
    cost: length * width,
    trim: saw.trim,
    inShop: false,
    from: 'asked',
  }
  return { boards: [...inShop, asked], costIs }
}

/** Layouts that are kept: whoever binds again after an edit waits only for what it changed. */
const MOST_KNOWN = 64

const laidOut: (problem: LayoutProblem) => SheetLayout = keptByInput(MOST_KNOWN, layOut)
