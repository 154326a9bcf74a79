/** The trial frame of a fixture: from the boards, wires and pegs of its grid cutter, read on a scale of the shop. */
import { GREEN_SOAP } from '../batch/shrinkage.ts'
import { type Finding, isStopped } from '../findings.ts'
import { inch } from '../fixtures/mould-types.ts'
import { boardsOf, type PanelNeed } from '../fixtures/panel-need.ts'
import {
  defaultTrialFrameLimits,
  designTrialFrame,
  type TrialFrame,
  type TrialFrameInput,
} from '../fixtures/trial-frame/design.ts'
import type { Content } from '../schema/content.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import type { TrialFrameSection } from '../schema/trial-and-press.ts'
import type { TrialFrameProof } from '../solids/trial-frame-proof.ts'
import { loadWire } from '../wires/loaded-wire.ts'
import { type Note, noteOf, pitchOfTension } from '../wires/pitch.ts'
import { wireFigures } from '../wires/strength.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import { type CuttingLoads, cuttingLoads } from './cutting-loads.ts'
import { panelLookup, panelStep } from './panel-lookup.ts'

export interface BoundTrialFrame {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly trial: TrialFrame
  /** of the shop's scales the one that it is read on, where the fixture names none */
  readonly scaleName: string | undefined
  /** largest step that a scale for it may count in, of the steps that scales have [kg] */
  readonly coarsest: number
  readonly loads: CuttingLoads
  /** of a tuned wire [Hz], and the note that a tuner shows */
  readonly pitch: number
  readonly note: Note
  /** what a ruler finds of the middle wire, as far as the trial goes */
  readonly ruler: readonly RulerReading[]
  /** of the solids in their places; missing where the frame does not stand, or nobody has asked for proof */
  readonly proof: TrialFrameProof | undefined
  /** of the design and of its proof */
  readonly findings: readonly Finding[]
  readonly file: Placed<FixtureFile>
  /** boards by the key that the fixture names them with */
  readonly panelNames: ReadonlyMap<string, string>
  /** panels that are enough, by material */
  readonly boards: ReadonlyMap<string, PanelNeed>
}

/** At a load: the wire's rise to the face of the block, its arc within, and both together [N/m, m]. */
export interface RulerReading {
  readonly load: number
  readonly rise: number
  readonly arc: number
  readonly lag: number
}

/** Asks for the proof of a trial frame: whoever has loaded the solids can give it. */
export type ProveTrialFrame = (trial: TrialFrame) => TrialFrameProof

/** m; a test block of about a kilogram (common practice) */
const BLOCK = { length: 5.5 * inch, width: 4.5 * inch, height: 2.5 * inch } as const
/** Three wires: the middle one lies in soap that others hold in place on both sides */
const WIRES = 3
/** Share of the block's length from wire to wire: a quarter, and as much beside the outer ones */
const SPACING = 1 / 4
/** m; a ruler sees a wire between block and cheek; a block that is set down by eye; feet that raise shelf and scale pan apart (common practice) */
const WINDOW = 0.03
const CLEARANCE = 0.003
const FOOT = 2 * inch

/**
 * The trial frame of a grid cutter with wires.
 *
 * @param content for the boards that the fixture names, and the shop's scales
 * @param grid    its cutter, whether that stands or not: a trial may find the load for which it does
 * @param prove   proves it with solids
 * @returns the trial frame, or undefined where the cutter has no wires to try
 * @throws Error when the fixture names a panel that content lacks: a bug, since load.ts has looked it up
 */
export function bindTrialFrame(
  content: Content,
  grid: BoundGridCutter,
  prove?: ProveTrialFrame,
): BoundTrialFrame | undefined {
  const { file, wires } = grid
  const section = file.value['trial-frame'] ?? {}
  const { panel, panelNames } = panelLookup(content)
  const own = section.panels ?? {}
  const cutter = file.value['grid-cutter']?.panels
  const [first] = wires.groups
  if (!cutter || !first || !wires.push) return undefined
  const panels = {
    cheek: panel(own.cheek ?? cutter.side),
    spreader: panel(own.spreader ?? cutter.end),
    shelf: panel(own.shelf ?? cutter.shelf),
    top: panel(own.top ?? file.value.panels['base-top']),
    foot: panel(own.foot ?? cutter.end),
  }
  const input = inputOf(section, grid, panels)
  const { trial, scaleName } = scaled(input, section, content)
  const found = trial.findings.map((finding) => ({
    ...finding,
    // what is found of rails names their wires
    values: { one: 'wire', ...finding.values },
  }))
  const pitch = pitchOfTension(
    { length: trial.strung.length, massPerLength: wireFigures(trial.input.wire).massPerLength },
    trial.input.restTension,
  )
  const proof = isStopped(found) ? undefined : prove?.(trial)
  return {
    key: file.key,
    title: file.value.title,
    trial,
    scaleName,
    coarsest: stepBelow(trial.input.limits.division * (trial.readings[0]?.shown ?? 0)),
    loads: cuttingLoads(file.value),
    pitch,
    note: noteOf(pitch),
    ruler: rulerOf(trial),
    proof,
    findings: [...found, ...(proof?.findings ?? [])],
    file,
    panelNames,
    boards: boardsOf(trial.parts, panelStep(content)),
  }
}

type Unscaled = Omit<TrialFrameInput, 'scale'>

const inputOf = (
  section: TrialFrameSection,
  { cutter, wires }: BoundGridCutter,
  panels: TrialFrameInput['panels'],
): Unscaled => {
  const { groups, push, loadOfGrooves } = wires
  const [first] = groups
  if (!first || !push) throw new Error('A cutter without wires has no trial.')
  const block = section.block ?? BLOCK
  return {
    block: { ...block, density: GREEN_SOAP },
    wire: { material: first.material, diameter: first.diameter },
    wires: WIRES,
    spacing: section.spacing ?? block.length * SPACING,
    restTension: first.tension,
    hold: first.hold,
    peg: cutter.input.peg,
    anchor: cutter.input.anchor,
    panels,
    window: WINDOW,
    clearance: CLEARANCE,
    shelfDepth: cutter.input.shelfDepth,
    footHeight: FOOT,
    cutter: {
      wires: groups.map(({ length, soapWidth, chosen, tension }) => ({
        strung: { length, soapWidth, axialStiffness: chosen.figures.axialStiffness },
        restTension: tension,
      })),
      layers: groups,
      mass: cutter.mass,
      handHeight: push.handHeight,
      loadOfGrooves,
    },
    limits: defaultTrialFrameLimits,
  }
}

/** On the scale that the fixture states, else on the finest of the shop's that carries all of it, else on the largest. */
const scaled = (
  input: Unscaled,
  { scale }: TrialFrameSection,
  { shop }: Content,
): { readonly trial: TrialFrame; readonly scaleName: string | undefined } => {
  const on = (capacity: number, division: number): TrialFrame =>
    designTrialFrame({ ...input, scale: { place: scale?.place ?? 'under-block', capacity, division } })
  if (scale) return { trial: on(scale.capacity, scale.division), scaleName: undefined }
  const all = Object.entries(shop.value.scales)
    .map(([scaleName, { capacity, division }]) => ({ scaleName, trial: on(capacity, division) }))
    .sort((a, b) => a.trial.input.scale.division - b.trial.input.scale.division)
  const fits = all.find(({ trial }) => !trial.findings.some(({ code }) => code.startsWith('trial-scale')))
  const largest = all.toSorted((a, b) => b.trial.input.scale.capacity - a.trial.input.scale.capacity)[0]
  const chosen = fits ?? largest
  if (!chosen) throw new Error('A shop without scales.')
  return chosen
}

/** 1, 2 or 5 and a power of ten: the largest that is no more [kg]. */
const stepBelow = (mass: number): number => {
  if (!(mass > 0)) return 0
  const power = 10 ** Math.floor(Math.log10(mass))
  return power * (mass >= 5 * power ? 5 : mass >= 2 * power ? 2 : 1)
}

/** N/m, steps that a ruler tells from each other */
const RULER_LOADS = [40, 70, 100, 140, 180, 230, 300, 400] as const

const rulerOf = ({ strung, input, limits }: TrialFrame): readonly RulerReading[] => {
  const most = limits.find(({ key }) => key === 'trial-wire')?.load ?? Number.POSITIVE_INFINITY
  return RULER_LOADS.filter((load) => load <= most).map((load) => {
    const { lag, lagAt } = loadWire({ ...strung, restTension: input.restTension, load })
    const rise = lagAt(input.block.width / 2)
    return { load, rise, arc: lag - rise, lag }
  })
}
