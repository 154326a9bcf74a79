/** What has been laid out on boards to what is sawn: proved, planned board by board, and counted. */
import type { Panel } from '../geometry/part.ts'
import { checkLayout } from '../sheet-stock/check-layout.ts'
import {
  alikeBoards,
  type PlanCut,
  type SawLimits,
  type SawPlan,
  type SheetShares,
  sawPlan,
  sheetShares,
} from '../sheet-stock/saw-plan.ts'
import type { Blank, Board, SheetLayout } from '../sheet-stock/types.ts'

/** A blank with the part that is made of it. */
export interface NamedBlank extends Blank {
  /** id of the sheet that the part is built by: `fixture/five-by-three` */
  readonly sheet: string
  /** key of the part */
  readonly part: string
  /** the part is cut to others later; where the blank is no larger, it is not sawn before that */
  readonly fitted?: { readonly isOversize: boolean }
}

/** Stock of one size, and whether it stands in the shop already. */
export interface StockBoard extends Board {
  readonly inShop: boolean
  /** of one, where it is known [smallest coin] */
  readonly price?: number
}

/** One material, laid out. */
export interface LaidMaterial {
  readonly panel: Panel
  readonly name: string
  readonly grain: boolean
  readonly blanks: readonly NamedBlank[]
  readonly boards: readonly StockBoard[]
  readonly kerf: number
  readonly layout: SheetLayout
}

/** A blank with the number that drawings and tables give it. */
export interface NumberedBlank extends NamedBlank {
  readonly number: number
}

/** Boards that are sawn alike. */
export interface SawnBoards {
  /** numbers of the boards of this material, from 1 */
  readonly numbers: readonly number[]
  readonly stock: StockBoard
  readonly plan: SawPlan
}

export interface SawnMaterial {
  readonly panel: Panel
  readonly name: string
  readonly grain: boolean
  readonly kerf: number
  readonly blanks: readonly NumberedBlank[]
  /** in the order of the layout: what stands in the shop first */
  readonly boards: readonly SawnBoards[]
  readonly shares: SheetShares
  readonly left: SheetLayout['left']
  readonly bound: SheetLayout['bound']
  /** boards that are bought, by the layout */
  readonly bought: number
  /** nothing of it is sawn before the steps of the build sheets ask for it */
  readonly isLater: boolean
}

export interface Sawing {
  readonly materials: readonly SawnMaterial[]
  readonly limits: SawLimits
  /** of all prices, three letters */
  readonly currency?: string
}

/**
 * Whether a blank is sawn only when its step of the build sheet is reached.
 *
 * Formula: its part is fitted, and the blank is no larger. Validity: any blank.
 * @param blank of a layout
 * @returns true where the plan tells to wait
 * @source common practice
 */
export const isHeldBack = ({ fitted }: Pick<NamedBlank, 'fitted'>): boolean =>
  fitted !== undefined && !fitted.isOversize

/** m; how much larger a blank is, each way, whose part is cut to others later (common practice) */
export const ROUGH = 0.006

/**
 * Plans of all materials.
 *
 * Formula: the thickest material first, as the heaviest, and last what is sawn later; blanks are numbered through, longest first within a material;
 * alike boards share a plan. Validity: layouts without faults.
 * @param laid each material with its layout [m]
 * @param limits of the saw [m, kg]
 * @returns plans with what they come to
 * @throws Error for a layout that cannot be sawn: a bug of the code that made it
 * @source common practice
 */
export function planSawing(laid: readonly LaidMaterial[], limits: SawLimits): Sawing {
  let number = 0
  const later = ({ blanks }: LaidMaterial): number => Number(blanks.every(isHeldBack))
  const materials = [...laid]
    .sort(
      (a, b) =>
        later(a) - later(b) ||
        b.panel.thickness - a.panel.thickness ||
        (a.panel.material < b.panel.material ? -1 : 1),
    )
    .map((material): SawnMaterial => {
      const { panel, name, grain, kerf, layout } = material
      const faults = checkLayout(material, layout)
      if (faults.length > 0)
        throw new Error(`The layout of ${panel.material} cannot be sawn: ${JSON.stringify(faults)}.`)
      const blanks = [...material.blanks]
        .sort((a, b) => b.length * b.width - a.length * a.width || (a.key < b.key ? -1 : 1))
        .map((blank): NumberedBlank => {
          number += 1
          return { ...blank, number }
        })
      let offcuts = 0
      const earlier: PlanCut[] = []
      const boards = alikeBoards(layout.boards).map(({ numbers, board, region }): SawnBoards => {
        const stock = material.boards.find(({ key }) => key === board)!
        const plan = sawPlan({
          region,
          board: stock,
          kerf,
          massPerArea: panel.density * panel.thickness,
          limits,
          oversize: new Set(blanks.filter(({ fitted }) => fitted?.isOversize).map(({ key }) => key)),
          earlier: [...earlier],
          firstOffcut: offcuts + 1,
        })
        offcuts += plan.offcuts.length
        earlier.push(...plan.cuts)
        return { numbers, stock, plan }
      })
      return {
        panel,
        name,
        grain,
        kerf,
        blanks,
        boards,
        shares: sheetShares(boards.map(({ plan, numbers }) => ({ plan, count: numbers.length }))),
        left: layout.left,
        bound: layout.bound,
        bought: boards.reduce((sum, { stock, numbers }) => sum + (stock.inShop ? 0 : numbers.length), 0),
        isLater: blanks.every(isHeldBack),
      }
    })
  return { materials, limits }
}
