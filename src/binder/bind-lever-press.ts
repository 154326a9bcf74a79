/** The lever press of a fixture that asks for one: for the hardest soap that its wires bear. */
import { GREEN_SOAP } from '../batch/shrinkage.ts'
import { type Finding, isStopped } from '../findings.ts'
import type { GridCutter } from '../fixtures/grid-cutter/design.ts'
import {
  defaultLeverPressLimits,
  designLeverPress,
  type LeverPress,
  pressedFrameOf,
  twoStageCut,
} from '../fixtures/lever-press/design.ts'
import type { TwoStages } from '../fixtures/lever-press/two-stages.ts'
import { boardsOf, type PanelNeed } from '../fixtures/panel-need.ts'
import { partVolume } from '../geometry/cells.ts'
import type { Content } from '../schema/content.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import type { LeverPressProof } from '../solids/lever-press-proof.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import { cuttingLoads } from './cutting-loads.ts'
import { panelLookup, panelStep } from './panel-lookup.ts'

export interface BoundLeverPress {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly press: LeverPress
  /** that it is made for, and of it what the frame's own weight takes off [N/m, N] */
  readonly load: number
  readonly resistance: number
  /** the wires give way at this load; a late block holds back with that [N/m] */
  readonly held: number
  readonly late: number
  /** the other way past a hard push, at the same load, where the cutter has two layers */
  readonly stages: TwoStages | undefined
  readonly proof: LeverPressProof | undefined
  /** of the press and of its proof; those of cutter and mould are with them */
  readonly findings: readonly Finding[]
  readonly file: Placed<FixtureFile>
  readonly panelNames: ReadonlyMap<string, string>
  /** panels that are enough, by material; lumber is bought by its length */
  readonly boards: ReadonlyMap<string, PanelNeed>
}

/** A press with the cutter that it presses. */
export interface PressOnCutter {
  readonly press: LeverPress
  readonly cutter: GridCutter
}

/** Asks for the proof of a press: whoever has loaded the solids can give it. */
export type ProveLeverPress = (both: PressOnCutter) => LeverPressProof

/**
 * The lever press of a fixture with a section for it. Its boards are measured as all others are, so nothing stands for a
 * section that is missing.
 *
 *     made for the load of a late block, or what the wires bear where that is less: beyond it nobody presses
 *
 * @param content for the boards that the section names
 * @param grid    the cutter that it presses
 * @param stands  mould and cutter do
 * @param prove   proves it with solids
 * @returns the press, or undefined where none is asked for or there are no wires
 * @throws Error when the section names a panel that content lacks: a bug, since load.ts has looked it up
 */
export function bindLeverPress(
  content: Content,
  grid: BoundGridCutter,
  stands: boolean,
  prove?: ProveLeverPress,
): BoundLeverPress | undefined {
  const { file, cutter, wires } = grid
  const section = file.value['lever-press']
  const { push, groups } = wires
  if (!section || !push) return undefined
  const { panel, panelNames } = panelLookup(content)
  const { at } = cuttingLoads(file.value)
  const { held } = push
  const plan = held.load < at.late ? held.plan : push.at.late
  const { lumber } = section
  const press = designLeverPress({
    frame: pressedFrameOf(cutter, massBeside(cutter)),
    push: plan.push,
    onePerson: plan.onePerson,
    alone: section.alone ?? false,
    ...(section['stand-top'] === undefined ? {} : { standTop: section['stand-top'] }),
    lumber: { ...panel(lumber.board), width: lumber.width, timber: lumber.wood ?? 'softwood' },
    panel: panel(section.panel),
    packer: panel(section.packer),
    limits: defaultLeverPressLimits,
  })
  const load = Math.min(at.late, held.load)
  const layer = (key: 'grid-short' | 'grid-long') => groups.find((one) => one.key === key)
  const [short, long] = [layer('grid-short'), layer('grid-long')]
  const proof = stands && !isStopped(press.findings) ? prove?.({ press, cutter }) : undefined
  return {
    key: file.key,
    title: file.value.title,
    press,
    load,
    resistance: plan.resistance,
    held: held.load,
    late: at.late,
    stages:
      short && long
        ? twoStageCut({
            layers: { short, long },
            load,
            frameMass: cutter.mass,
            handHeight: push.handHeight,
          })
        : undefined,
    proof,
    findings: [...press.findings, ...(proof?.findings ?? [])],
    file,
    panelNames,
    boards: boardsOf(
      press.parts.filter(({ material }) => material !== lumber.board),
      panelStep(content),
    ),
  }
}

/** Block and base, which hold the stand down [kg]. */
const massBeside = ({ input: { mould } }: GridCutter): number => {
  const { block, lined, parts } = mould
  const base = parts.filter(({ key }) => key === 'base-top' || key === 'rail')
  return (
    lined.length * lined.width * block.setHeight * GREEN_SOAP +
    base.reduce((sum, part) => sum + part.count * partVolume(part) * part.density, 0)
  )
}
