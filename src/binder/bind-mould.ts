/** One fixture of the maker's folder to its designed mould. */
import type { BlockCuts, MouldInside } from '../batch/fill.ts'
import { driedLength } from '../batch/shrinkage.ts'
import { type Finding, isStopped } from '../findings.ts'
import { blockDimensions } from '../fixtures/block-dimensions.ts'
import {
  type BlockMould,
  type BlockMouldInput,
  defaultMouldLimits,
  designBlockMould,
  rodM6,
  rodQuarterInch,
} from '../fixtures/block-mould.ts'
import { BOW_LIMIT, type MouldLoads, mouldLoads } from '../fixtures/mould-loads.ts'
import type { AsBuilt } from '../fixtures/mould-types.ts'
import { boardsOf, type PanelNeed } from '../fixtures/panel-need.ts'
import { designSetUpGauge, GAUGE_HOLE, type SetUpGauge } from '../fixtures/set-up-gauge.ts'
import type { Content } from '../schema/content.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import type { MouldProof } from '../solids/mould-proof.ts'
import { panelLookup, panelStep } from './panel-lookup.ts'
import { cureLossOf } from './scents.ts'

export interface BoundMould {
  readonly key: string
  readonly title: string
  readonly mould: BlockMould
  /** of the solids in their places; missing where the design itself does not stand, or nobody has asked for proof */
  readonly proof: MouldProof | undefined
  /** full of batter to the rim */
  readonly loads: MouldLoads
  /** what grooves, slots and wires are marked with, where there is a cutter */
  readonly gauge: SetUpGauge | undefined
  /** of the design and of its proof */
  readonly findings: readonly Finding[]
  readonly file: Placed<FixtureFile>
  /** by the same key: a panel that is enough for the parts cut from that board */
  readonly boards: ReadonlyMap<string, PanelNeed>
  /** of water that fills it to the line [kg] */
  readonly waterToLine: number
  /** boards by the key that the fixture names them with */
  readonly panelNames: ReadonlyMap<string, string>
  /** of a bar's green weight, until it is sold [–] */
  readonly weightLoss: number
  /** as it is cut, and as it is sold */
  readonly bar: { readonly green: BarSize; readonly cured: BarSize; readonly stated: 'green' | 'cured' }
}

/** m */
export interface BarSize {
  readonly alongLength: number
  readonly alongWidth: number
  readonly thickness: number
}

/** Asks for the proof of a mould: whoever has loaded the solids can give it. */
export type ProveMould = (mould: BlockMould) => MouldProof

const THREADS = { '1/4-20': rodQuarterInch, M6: rodM6 } as const

/** m; what a hacksaw takes from a threaded rod (common practice) */
const ROD_KERF = 0.002
/** m; rods are cut to the next 5 mm, far inside what the nuts take up (common practice) */
const ROD_CUT_STEP = 0.005
/** m; wide enough to glue and to screw, narrow enough to clear the rods (common practice) */
const CLEAT_WIDTH = 0.04
const LID_CLEARANCE = 0.002
const END_CHAMFER = 0.0015

/** @throws Error when the fixture names a panel that content lacks: a bug, since load.ts has looked it up */
export const bindMould = (content: Content, file: Placed<FixtureFile>, prove?: ProveMould): BoundMould => {
  const fixture = file.value
  const trim = fixture.trim ?? {}
  const wire = fixture['wire-allowance'] ?? {}
  const bar = barOf(content, fixture)
  const block = blockDimensions({
    ...fixture.grid,
    bar: bar.green,
    wireAllowance: { length: wire.length ?? 0, width: wire.width ?? 0, height: wire.height ?? 0 },
    trim: {
      length: { start: trim.left ?? 0, end: trim.right ?? 0 },
      width: { start: trim.front ?? 0, end: trim.back ?? 0 },
      height: { start: trim.bottom ?? 0, end: trim.top ?? 0 },
    },
  })
  const { panel, panelNames } = panelLookup(content)
  const { panels, base, rods } = fixture
  const input: BlockMouldInput = {
    block,
    panels: {
      side: panel(panels.side),
      end: panel(panels.end),
      baseTop: panel(panels['base-top']),
      rail: panel(panels.rail),
      strip: panel(panels.strip),
      lid: panel(panels.lid),
      lining: panel(fixture.lining),
      filler: panel(base['groove-strips']),
    },
    dado: { depth: fixture.dado.depth, fitAllowance: fixture.dado.fit },
    lip: fixture.lip,
    freeboard: fixture.freeboard,
    endChamfer: END_CHAMFER,
    base: {
      height: base.height,
      clearance: base.clearance,
      grooveWidth: base['groove-width'],
      grooveDepth: {
        shortWires: base['groove-depths']['short-wires'],
        longWires: base['groove-depths']['long-wires'],
      },
      railCount: base.rails,
    },
    stripWidth: fixture['strip-width'],
    lid: { cleatWidth: CLEAT_WIDTH, clearance: LID_CLEARANCE },
    rods: {
      heights: rods.heights,
      baseRodCount: rods['in-base'],
      baseRodHeight: base.height / 2,
      thread: THREADS[rods.thread],
      stockLength: rods['stock-length'],
      kerf: ROD_KERF,
      cutStep: ROD_CUT_STEP,
      washerRecess: rods['washer-recess'] ?? 0,
    },
    asBuilt: asBuiltOf(fixture),
    limits: defaultMouldLimits,
  }
  const mould = designBlockMould(input)
  const loads = mouldLoads(mould)
  // A strip of the lid's board: thin enough to drill true, and there is always an offcut of it.
  const gauge =
    fixture['grid-cutter'] || fixture['bar-cutter']
      ? designSetUpGauge({ mould, panel: input.panels.lid, hole: GAUGE_HOLE })
      : undefined
  // What does not stand on paper has no solids to speak of.
  // A mould that was measured exists; what is proved is the drawing, since tapes do not agree to a hair.
  const drawn = fixture['as-built'] ? designBlockMould({ ...input, asBuilt: {} }) : mould
  const proof = isStopped(mould.findings) ? undefined : prove?.(drawn)
  return {
    key: file.key,
    proof,
    loads,
    gauge: gauge && gauge.findings.length === 0 ? gauge : undefined,
    findings: [
      ...mould.findings,
      ...(proof?.findings ?? []),
      ...loadFindings(loads),
      ...(gauge?.findings ?? []),
    ],
    title: fixture.title,
    mould,
    file,
    panelNames,
    waterToLine: mould.insideArea * (mould.rimAboveBase - fixture.freeboard) * WATER,
    boards: boardsOf(mould.parts, panelStep(content)),
    bar,
    weightLoss: cureLossOf(content),
  }
}

/** Rods that would crush or bow the sides before they hold the batter in. */
const loadFindings = ({ clampNeeded, clampMost, spacing, edgeBow }: MouldLoads): Finding[] => [
  ...(clampNeeded > clampMost
    ? [
        {
          code: 'mould-rods-cannot-hold',
          severity: 'stop' as const,
          values: { pullNeeded: clampNeeded, pullAllowed: clampMost },
        },
      ]
    : []),
  ...(edgeBow > BOW_LIMIT
    ? [
        {
          code: 'mould-rods-too-far-apart',
          severity: 'stop' as const,
          values: { spacing, is: edgeBow, allowed: BOW_LIMIT },
        },
      ]
    : []),
]

/** Both sizes from the one that the maker has in mind; the block is made of green bars. */
const barOf = (content: Content, { bar }: FixtureFile): BoundMould['bar'] => {
  const ratio = driedLength(cureLossOf(content))
  const times = (factor: number): BarSize => ({
    alongLength: bar['along-length'] * factor,
    alongWidth: bar['along-width'] * factor,
    thickness: bar.thickness * factor,
  })
  return bar['size-is'] === 'cured'
    ? { green: times(1 / ratio), cured: times(1), stated: 'cured' }
    : { green: times(1), cured: times(ratio), stated: 'green' }
}

/** kg/m3, water at the room's temperature; between 10 and 30 °C it is within 0.4 % (from memory) */
export const WATER = 998

const asBuiltOf = ({ 'as-built': found = {} }: FixtureFile): AsBuilt => {
  const { water } = found
  return {
    insideLength: found['inside-length'],
    insideWidth: found['inside-width'],
    rimAboveBench: found['rim-above-bench'],
    baseLength: found['base-length'],
    baseWidth: found['base-width'],
    baseHeight: found['base-height'],
    parts: found.parts as AsBuilt['parts'],
    groovesAcrossLength: found['grooves-across-length'],
    groovesAcrossWidth: found['grooves-across-width'],
    water: water && { volume: water.weighed / WATER, belowRim: water['below-rim'] },
  }
}

/** The inside as a batch fills it. */
export const mouldInside = ({ mould }: BoundMould): MouldInside => ({
  length: mould.lined.length,
  width: mould.lined.width,
  height: mould.rimAboveBase,
  area: mould.insideArea,
})

export const blockCuts = ({ mould, file, bar }: BoundMould): BlockCuts => {
  const { block } = mould
  return {
    columns: block.columns,
    rows: block.rows,
    slices: block.slices,
    slicePitch: bar.green.thickness + (file.value['wire-allowance']?.height ?? 0),
    topTrim: block.trim.height.end + block.trim.height.start,
  }
}
