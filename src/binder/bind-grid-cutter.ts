/** The grid cutter of a fixture, from its section of the file and the mould that it belongs to. */
import { type Finding, isStopped } from '../findings.ts'
import type { BlockMould } from '../fixtures/block-mould.ts'
import { type Centring, centring } from '../fixtures/grid-cutter/centring.ts'
import { defaultGridCutterLimits, designGridCutter, type GridCutter } from '../fixtures/grid-cutter/design.ts'
import { HANDLE } from '../fixtures/grid-cutter/types.ts'
import { inch } from '../fixtures/mould-types.ts'
import { boardsOf, type PanelNeed } from '../fixtures/panel-need.ts'
import { anchorPin, anchorScrew, pegOpenGear, pegSealed } from '../fixtures/wire-hardware.ts'
import type { Panel } from '../geometry/part.ts'
import type { Content } from '../schema/content.ts'
import type { FixtureFile, GridCutterSection } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import type { GridCutterProof } from '../solids/grid-cutter-proof.ts'
import type { BoundMould } from './bind-mould.ts'
import { cuttingLoads } from './cutting-loads.ts'
import { type GridFrame, type GridWires, gridLags, gridPlans, gridWires, withWiresOf } from './grid-wires.ts'
import { gridAsBuilt, gridMisfits } from './misfits.ts'
import { panelLookup, panelStep } from './panel-lookup.ts'

export interface BoundGridCutter {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly cutter: GridCutter
  /** of the frame on the block, by eye */
  readonly centring: Centring
  /** of the solids in their places; missing where cutter or mould do not stand, or nobody has asked for proof */
  readonly proof: GridCutterProof | undefined
  /** of the design, of its wires and of its proof */
  readonly findings: readonly Finding[]
  readonly file: Placed<FixtureFile>
  /** boards by the key that the section names them with */
  readonly panelNames: ReadonlyMap<string, string>
  /** of each kind, whole, with what goes with it */
  readonly boards: ReadonlyMap<string, PanelNeed>
  readonly wires: GridWires
}

/** Asks for the proof of a cutter: whoever has loaded the solids can give it. */
export type ProveGridCutter = (cutter: GridCutter) => GridCutterProof

export const PEGS = { sealed: pegSealed, 'open-gear': pegOpenGear } as const
export const ANCHORS = { screw: anchorScrew, pin: anchorPin } as const

/** m; beyond the bow of the block, on each side (common practice) */
const CLEARANCE = 0.001
/** m; shelf, a post and the grip on the handles (common practice) */
const ABOVE_WIRES = 2.5 * inch
const SHELF_DEPTH = 0.05
/** m; top of the low stand above the floor: hands start below the elbow (common practice) */
const STAND_HEIGHT = 18 * inch

/**
 * @param before inside of its frame as drawn before the mould was measured [m]
 * @returns the cutter, or undefined for a fixture that asks for none
 * @throws Error when the section names a panel that content lacks: a bug, since load.ts has looked it up
 */
export const bindGridCutter = (
  content: Content,
  bound: BoundMould,
  prove?: ProveGridCutter,
  before?: GridCutter['inside'],
): BoundGridCutter | undefined => {
  const { file, mould } = bound
  const section = file.value['grid-cutter']
  if (!section) return undefined
  const { panel, panelNames } = panelLookup(content)
  const loads = cuttingLoads(file.value)
  const frame = frameOf(section, bound, panel)
  const stringing = {
    material: section['wire-material'] ?? 'music-wire',
    tension: { short: section.tension?.['short-wires'], long: section.tension?.['long-wires'] },
  }
  const asDrawn = gridPlans(frame, stringing)
  const drawn = designGridCutter({ ...frame, wire: { ...frame.wire, lag: gridLags(asDrawn, loads) } })
  // Wood stays as it is drawn: a frame that was measured is built. Its wires are tuned, loaded and cut as they are.
  const found = file.value['as-built']?.['grid-cutter'] && gridAsBuilt(file.value['as-built'])
  const plans = found ? gridPlans(frame, stringing, found) : asDrawn
  const cutter = found ? withWiresOf(drawn, plans) : drawn
  const wires = gridWires(plans, cutter, loads, section['stand-height'] ?? STAND_HEIGHT)
  const own = [
    ...cutter.findings,
    ...wires.groups.flatMap(({ findings }) => findings),
    ...(wires.push?.at.usual.findings ?? []),
  ]
  // What does not stand on paper has no solids to speak of.
  const stands = !isStopped(own) && !isStopped(mould.findings)
  const proof = stands ? prove?.(drawn) : undefined
  return {
    key: file.key,
    title: file.value.title,
    cutter,
    centring: centring(cutter.inside, mould.lined),
    proof,
    findings: [...own, ...gridMisfits(cutter, file.value['as-built'], before), ...(proof?.findings ?? [])],
    file,
    panelNames,
    boards: boardsOf(cutter.parts, panelStep(content)),
    wires,
  }
}

const frameOf = (
  section: GridCutterSection,
  { mould, loads, file }: BoundMould,
  panel: (key: string) => Panel,
): GridFrame => {
  const { panels } = section
  const dado = section.dado ?? file.value.dado
  const peg = PEGS[section.peg ?? 'sealed']
  const bow = loads.bulge.high
  const shelfDepth = section['shelf-depth'] ?? SHELF_DEPTH
  return {
    mould,
    panels: {
      side: panel(panels.side),
      end: panel(panels.end),
      shelf: panel(panels.shelf),
      stop: panel(panels['stop-block'] ?? panels.end),
      stand: panel(panels.side),
      cleat: panel(panels.shelf),
    },
    dado: { depth: dado.depth, fitAllowance: dado.fit },
    clearance: section.clearance ?? bow + CLEARANCE,
    bow,
    wire: {
      diameter: section.wire,
      looped: section['loop-wires'] ?? false,
    },
    peg: { ...peg, rating: section['peg-rating'] ?? peg.rating },
    anchor: ANCHORS[section.anchor ?? 'screw'],
    handle: section.handle ?? handleFor(mould, shelfDepth + peg.button.to),
    skirt: section.skirt,
    layerGap: section['layer-gap'],
    aboveWires: section['above-wires'] ?? ABOVE_WIRES,
    shelfDepth,
    limits: { ...defaultGridCutterLimits, grooveWeb: mould.input.limits.grooveWeb },
  }
}

/** Where the sides of the block are trimmed, pegs stand beside the handles, and hands go past them. */
const handleFor = ({ block }: BlockMould, pegs: number): number => {
  const { start, end } = block.trim.width
  return start > 0 || end > 0 ? Math.max(HANDLE, pegs + defaultGridCutterLimits.hand) : HANDLE
}
