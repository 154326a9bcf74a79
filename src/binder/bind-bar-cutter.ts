/** The bar cutter of a fixture, from its section of the file and the bars that the mould is made for. */
import { type Finding, isStopped } from '../findings.ts'
import { defaultBarCutterLimits, designBarCutter } from '../fixtures/bar-cutter/design.ts'
import { dowelPinEighth, lightHinge } from '../fixtures/bar-cutter/hardware.ts'
import type { BarCutter } from '../fixtures/bar-cutter/types.ts'
import { inch } from '../fixtures/mould-types.ts'
import { boardsOf, type PanelNeed } from '../fixtures/panel-need.ts'
import type { Panel } from '../geometry/part.ts'
import type { Content } from '../schema/content.ts'
import type { BarCutterSection, FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import type { BarCutterProof } from '../solids/bar-cutter-proof.ts'
import { type BarFrame, type BarWires, barPlan, barWires, measuredPlan, withBarWiresOf } from './bar-wires.ts'
import { ANCHORS, PEGS } from './bind-grid-cutter.ts'
import type { BoundMould } from './bind-mould.ts'
import { cuttingLoads } from './cutting-loads.ts'
import { barAsBuilt, barMisfits } from './misfits.ts'
import { panelLookup, panelStep } from './panel-lookup.ts'

export interface BoundBarCutter {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly cutter: BarCutter
  /** of the solids in their places; missing where the design itself does not stand, or nobody has asked for proof */
  readonly proof: BarCutterProof | undefined
  /** of the design, of its wires and of its proof */
  readonly findings: readonly Finding[]
  readonly file: Placed<FixtureFile>
  /** boards by the key that the section names them with */
  readonly panelNames: ReadonlyMap<string, string>
  /** by the same key: a panel that is enough for the parts cut from that board */
  readonly boards: ReadonlyMap<string, PanelNeed>
  readonly wires: BarWires
}

/** Asks for the proof of a cutter: whoever has loaded the solids can give it. */
export type ProveBarCutter = (cutter: BarCutter) => BarCutterProof

/** m; high enough for knuckles under the handles, low enough to press on (common practice) */
const PLATFORM_HEIGHT = 3 * inch
/** m; what a saw blade cuts (common practice) */
const GROOVE_WIDTH = inch / 8
/** of the loaf's height: above the middle, where the wires push, and below the hand that lifts bars (common practice) */
const FENCE_SHARE = 0.75
/** m; short wires are stretched by little: with rails as wide as this those that are tuned keep their neighbours' note */
const RAIL_WIDTH = 0.1
const ARM_WIDTH = 0.045
const HANDLE = 0.12
const CLEARANCE = 0.004
/** m; wires below the rails: room for a turn round a pin, and little enough that the axis stays below the platform */
const WIRE_DROP = 0.004
/** rad; past vertical by 15 degrees (common practice) */
const OPEN_ANGLE = (105 * Math.PI) / 180

/**
 * @returns the cutter, or undefined for a fixture that asks for none
 * @throws Error when the section names a panel that content lacks: a bug, since load.ts has looked it up
 */
export const bindBarCutter = (
  content: Content,
  bound: BoundMould,
  prove?: ProveBarCutter,
): BoundBarCutter | undefined => {
  const { file } = bound
  const section = file.value['bar-cutter']
  if (!section) return undefined
  const { panel, panelNames } = panelLookup(content)
  const loads = cuttingLoads(file.value)
  const frame = frameOf(section, bound, panel)
  const material = section['wire-material'] ?? 'music-wire'
  const { plan: asDrawn, lag } = barPlan(frame, { material, tension: section.tension }, loads)
  const drawn = designBarCutter({ ...frame, wire: { ...frame.wire, lag } })
  // Wood stays as it is drawn: a cutter that was measured is built. Its wires are tuned, loaded and cut as they are.
  const readings = file.value['as-built']
  const plan =
    asDrawn && readings?.['bar-cutter']
      ? measuredPlan(asDrawn, frame.block.cutsAcrossHeight, barAsBuilt(readings))
      : asDrawn
  const cutter = plan && plan !== asDrawn ? withBarWiresOf(drawn, plan) : drawn
  const wires = barWires(plan, cutter, loads)
  const found = [...cutter.findings, ...wires.groups.flatMap(({ findings }) => findings)]
  // What does not stand on paper has no solids to speak of.
  const proof = isStopped(found) ? undefined : prove?.(drawn)
  return {
    key: file.key,
    title: file.value.title,
    cutter,
    proof,
    findings: [...found, ...barMisfits(cutter, readings), ...(proof?.findings ?? [])],
    file,
    panelNames,
    boards: boardsOf(cutter.parts, panelStep(content)),
    wires,
  }
}

const frameOf = (
  section: BarCutterSection,
  { mould, bar, file }: BoundMould,
  panel: (key: string) => Panel,
): BarFrame => {
  const { panels } = section
  // One shop buys one kind of peg: that of the grid cutter, where nothing else is said.
  const other = file.value['grid-cutter']
  const peg = PEGS[section.peg ?? other?.peg ?? 'sealed']
  const rating = section['peg-rating'] ?? (section.peg ? undefined : other?.['peg-rating'])
  const grooveWidth = section['groove-width'] ?? GROOVE_WIDTH
  return {
    block: mould.block,
    bar: bar.green,
    panels: {
      base: panel(panels.base),
      platform: panel(panels.platform),
      fence: panel(panels.fence),
      frame: panel(panels.frame),
      upright: panel(panels.upright),
    },
    wire: { diameter: section.wire, material: section['wire-material'] ?? 'music-wire' },
    peg: { ...peg, rating: rating ?? peg.rating },
    anchor: ANCHORS[section.anchor ?? other?.anchor ?? 'screw'],
    pin: dowelPinEighth,
    hinge: lightHinge,
    platform: {
      height: section['platform-height'] ?? PLATFORM_HEIGHT,
      grooveWidth,
      grooveDepth: section['groove-depth'],
      wireDepth: section['wire-depth'],
    },
    fence: {
      slotWidth: section['slot-width'] ?? grooveWidth,
      heightShare: section['fence-height'] ?? FENCE_SHARE,
    },
    frame: {
      armWidth: section['arm-width'] ?? ARM_WIDTH,
      frontRailWidth: section['front-rail-width'] ?? RAIL_WIDTH,
      backRailWidth: section['back-rail-width'] ?? RAIL_WIDTH,
      handle: section.handle ?? HANDLE,
      clearance: section.clearance ?? CLEARANCE,
      wireDrop: WIRE_DROP,
      openAngle: OPEN_ANGLE,
    },
    limits: defaultBarCutterLimits,
  }
}
