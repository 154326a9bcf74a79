/** All fixtures of a binder laid out on sheets of one usual size, until somebody says what boards there are. */
import { isStopped } from '../findings.ts'
import { isFitted } from '../fixtures/fitted-parts.ts'
import type { Part } from '../geometry/part.ts'
import type { Content } from '../schema/content.ts'
import { layOut } from '../sheet-stock/lay-out.ts'
import { usualSawLimits } from '../sheet-stock/saw-plan.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import type { BoundMould } from './bind-mould.ts'
import {
  type LaidMaterial,
  type NamedBlank,
  planSawing,
  ROUGH,
  type Sawing,
  type StockBoard,
} from './plan-sawing.ts'

const INCH = 0.0254 // m, exact
/** m; 1/8 in, what most blades take (common practice) */
const KERF = INCH / 8
/** m; 5 x 5 ft, as birch plywood is sold; a quarter of an inch off each edge (common practice) */
const SHEET: StockBoard = {
  key: 'sheet',
  length: 1.525,
  width: 1.525,
  count: Number.POSITIVE_INFINITY,
  cost: 1,
  trim: INCH / 4,
  inShop: false,
}

interface Built {
  readonly sheet: string
  readonly parts: readonly Part[]
  readonly fitted?: (key: string) => boolean
}

/**
 * @returns the plan of everything that stands; nothing where nothing does
 */
export const layOutFixtures = (
  content: Content,
  moulds: readonly BoundMould[],
  gridCutters: readonly BoundGridCutter[],
  barCutters: readonly BoundBarCutter[],
): Sawing | undefined => {
  const built: readonly Built[] = moulds.flatMap((mould): readonly Built[] => {
    if (isStopped(mould.findings)) return []
    const of = <T extends { readonly key: string; readonly findings: BoundMould['findings'] }>(
      all: readonly T[],
    ) => all.find(({ key, findings }) => key === mould.key && !isStopped(findings))
    const grid = of(gridCutters)
    const bar = of(barCutters)
    return [
      {
        sheet: `fixture/${mould.key}`,
        parts: [...mould.mould.parts, ...(mould.gauge ? [mould.gauge.part] : [])],
        fitted: isFitted,
      },
      ...(grid ? [{ sheet: `grid-cutter/${grid.key}`, parts: grid.cutter.parts }] : []),
      ...(bar ? [{ sheet: `bar-cutter/${bar.key}`, parts: bar.cutter.parts }] : []),
    ]
  })
  const grainOf = (material: string): boolean => content.panels.get(material)?.value.grain !== 'none'
  const blanks = built.flatMap(({ sheet, parts, fitted }) =>
    parts.map((part) => ({
      material: part.material,
      blank: blankOf(part, sheet, {
        waits: fitted?.(part.key) ?? false,
        turns: !grainOf(part.material),
      }),
    })),
  )
  const materials = [...new Set(blanks.map(({ material }) => material))]
  if (materials.length === 0) return undefined
  return planSawing(
    materials.map((material): LaidMaterial => {
      const panel = content.panels.get(material)!.value
      const own = blanks.filter((one) => one.material === material).map(({ blank }) => blank)
      return {
        panel: { material, thickness: panel.thickness, density: panel.density },
        name: panel.name,
        grain: grainOf(material),
        blanks: own,
        boards: [SHEET],
        kerf: KERF,
        layout: layOut({ blanks: own, boards: [SHEET], kerf: KERF }),
      }
    }),
    usualSawLimits,
  )
}

/** Of wood, a part that is fitted later is sawn larger first; plastics are cut when their step is reached. */
function blankOf(
  part: Part,
  sheet: string,
  { waits, turns }: { readonly waits: boolean; readonly turns: boolean },
): NamedBlank {
  const [length, width] = part.grain === 'length' ? [part.length, part.width] : [part.width, part.length]
  const isOversize = waits && !turns
  const more = isOversize ? ROUGH : 0
  return {
    key: `${sheet.replace('/', '.')}.${part.key}`,
    sheet,
    part: part.key,
    count: part.count,
    length: length + more,
    width: width + more,
    turns,
    ...(waits ? { fitted: { isOversize } } : {}),
  }
}
