/** How hot the poured block gets, when somebody must look at it, and when it may be stripped and cut. */
import {
  type BlockHeat,
  type BlockHeatRequest,
  blockHeat,
  FRESH_SOAP,
  heatCase,
  isReckoned,
  USUAL_RULES,
} from '../batch/block-heat.ts'
import { type HeatRun, runBlock } from '../batch/block-heat-run.ts'
import { loafOf, overheatingRemedies, type Remedied } from '../batch/block-heat-variants.ts'
import { batterHeat, USUAL_RATE } from '../batch/block-reaction.ts'
import {
  type Coverings,
  FOAM_CONDUCTIVITY,
  PLYWOOD_CONDUCTIVITY,
  STILL_AIR_FILM,
} from '../batch/block-walls.ts'
import type { Fill } from '../batch/fill.ts'
import { MOLAR_MASS } from '../chemistry/atomic-weights.ts'
import type { Finding } from '../findings.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { BoundMould } from './bind-mould.ts'
import { type WeighedOut, waterSum } from './weigh-out.ts'

export interface BlockHeatPlan {
  readonly heat: BlockHeat
  /** the same soap in a single loaf mould, nominal */
  readonly loaf: HeatRun
  /** what would keep it cooler, where it may get too hot */
  readonly remedies: readonly Remedied[]
  readonly findings: readonly Finding[]
}

/** m2 K/W; still air between soap and lid (estimate) */
const AIR_GAP = 0.15
/** W/(m2 K); under a base on its bench hardly any air moves (estimate) */
const UNDER = 5

/** What only the far end of the bands says: of nearly every block, and the sheet shows the bands. */
const IN_THE_BANDS: ReadonlySet<string> = new Set([
  'block-may-overheat',
  'block-may-steam',
  'cut-window-may-be-empty',
])

export interface BlockHeatParts {
  readonly shop: ShopFile
  readonly mould: BoundMould
  readonly fill: Fill
  readonly weighed: Pick<WeighedOut, 'alkalis' | 'water' | 'ice' | 'later'>
  /** K */
  readonly pourTemperature: number
}

/**
 * Keeps what was reckoned for equal blocks: several batches of a recipe in one mould are one block.
 * @returns a planner with a memory of its own
 */
export const blockHeatPlanner = (): ((parts: BlockHeatParts) => BlockHeatPlan | undefined) => {
  const known = new Map<string, BlockHeatPlan | undefined>()
  return (parts) => {
    const request = requestOf(parts)
    const key = JSON.stringify(request)
    if (!known.has(key)) known.set(key, plan(request))
    return known.get(key)
  }
}

const plan = (request: BlockHeatRequest): BlockHeatPlan | undefined => {
  const heat = blockHeat(request)
  if (!isReckoned(heat)) return undefined
  const tooHot = heat.findings.some(({ code }) => code === 'block-overheats' || code === 'block-may-overheat')
  return {
    heat,
    loaf: runBlock(heatCase(loafOf(request), 'nominal')),
    remedies: tooHot ? overheatingRemedies(request) : [],
    findings: heat.findings.filter(({ code }) => !IN_THE_BANDS.has(code)),
  }
}

const requestOf = ({ shop, mould, fill, weighed, pourTemperature }: BlockHeatParts): BlockHeatRequest => {
  const { lined, input } = mould.mould
  const { block: rules = {} } = shop
  const conductivity = PLYWOOD_CONDUCTIVITY.nominal
  const cutBelow = rules['cut-below'] ?? USUAL_RULES.cutBelow
  const board = (thickness: number) => ({ thickness, conductivity })
  const { insulation = 0 } = rules
  const foam =
    insulation > 0 ? { insulation: [{ thickness: insulation, conductivity: FOAM_CONDUCTIVITY.nominal }] } : {}
  const film = STILL_AIR_FILM.nominal
  const coverings: Coverings = {
    end: { layers: [board(input.panels.end.thickness)], film, ...foam },
    side: { layers: [board(input.panels.side.thickness)], film, ...foam },
    top: { layers: [{ resistance: AIR_GAP }, board(input.panels.lid.thickness)], film, ...foam },
    base: { layers: [board(input.panels.baseTop.thickness)], film: UNDER },
  }
  const moles = weighed.alkalis.reduce(
    (sum, { kind, purity, plan: { sum: mass } }) => sum + (mass * purity) / MOLAR_MASS[kind],
    0,
  )
  return {
    block: { length: lined.length, width: lined.width, height: fill.pourHeight.nominal },
    soap: { density: fill.batterDensity, ...FRESH_SOAP, waterShare: waterSum(weighed) / fill.batterMass },
    reaction: { heat: batterHeat(moles / fill.batterMass), ...USUAL_RATE },
    coverings,
    room: shop.room['usual-temperature'],
    pour: pourTemperature,
    wallsOff: rules['walls-off'] ?? 'when-held',
    rules: {
      ...USUAL_RULES,
      cutBelow,
      // the history ends at the cautious limit: it must not end before the shop's own
      cutBelowCautious: Math.min(USUAL_RULES.cutBelowCautious, cutBelow),
    },
  }
}
