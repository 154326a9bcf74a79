/** What a friend with a router gets: files of every part of every fixture that stands. */
import { type Finding, isStopped } from '../findings.ts'
import type { Part } from '../geometry/part.ts'
import { keptByInput } from '../kept-or-made.ts'
import { type RouterFile, routerFiles } from '../router/router-file.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import type { BoundLeverPress } from './bind-lever-press.ts'
import type { BoundMould } from './bind-mould.ts'
import type { BoundTrialFrame } from './bind-trial-frame.ts'

export type RouterKind = 'mould' | 'grid-cutter' | 'bar-cutter' | 'trial-frame' | 'lever-press'

export interface RouterPart {
  readonly part: Part
  /** the board, as its material is called */
  readonly board: string
  readonly files: readonly RouterFile[]
}

/** One fixture of a set; without parts where it is stopped. */
export interface RouterGroup {
  readonly kind: RouterKind
  readonly stopped: boolean
  readonly parts: readonly RouterPart[]
}

/** All that is made by one fixture file. */
export interface RouterSet {
  readonly key: string
  readonly title: string
  readonly groups: readonly RouterGroup[]
}

/** Fixtures as they were designed, whether they stand or not. */
export interface Designed {
  readonly moulds: readonly BoundMould[]
  readonly gridCutters: readonly BoundGridCutter[]
  readonly barCutters: readonly BoundBarCutter[]
  readonly trialFrames: readonly BoundTrialFrame[]
  readonly leverPresses: readonly BoundLeverPress[]
}

/**
 * Router files of every part of every fixture.
 *
 * Formula: what is stopped has none, and neither has what stands on it: a cutter on its mould, a press on its cutter.
 * Validity: as for the sheets of the fixtures.
 * @param designed fixtures with what was found of them
 * @returns sets in the order of the moulds
 * @source common practice
 */
export const bindRouterFiles = ({
  moulds,
  gridCutters,
  barCutters,
  trialFrames,
  leverPresses,
}: Designed): readonly RouterSet[] =>
  moulds.map((mould) => {
    const { key, title, gauge } = mould
    const mine = <T extends { readonly key: string }>(all: readonly T[]): T[] =>
      all.filter((one) => one.key === key)
    const gridFindings = mine(gridCutters).flatMap(({ findings }) => findings)
    return {
      key,
      title,
      groups: [
        group('mould', mould.findings, [...mould.mould.parts, ...(gauge ? [gauge.part] : [])], mould),
        ...mine(gridCutters).map((one) =>
          group('grid-cutter', [...mould.findings, ...one.findings], one.cutter.parts, one),
        ),
        ...mine(barCutters).map((one) =>
          group('bar-cutter', [...mould.findings, ...one.findings], one.cutter.parts, one),
        ),
        ...mine(trialFrames).map((one) => group('trial-frame', one.findings, one.trial.parts, one)),
        ...mine(leverPresses).map((one) =>
          group('lever-press', [...mould.findings, ...gridFindings, ...one.findings], one.press.parts, one),
        ),
      ],
    }
  })

const group = (
  kind: RouterKind,
  findings: readonly Finding[],
  parts: readonly Part[],
  { panelNames }: { readonly panelNames: ReadonlyMap<string, string> },
): RouterGroup => {
  const stopped = isStopped(findings)
  return {
    kind,
    stopped,
    parts: stopped
      ? []
      : parts.map((part) => ({
          part,
          board: panelNames.get(part.material) ?? part.material,
          files: filesOf({ part, name: nameIn(kind, part) }),
        })),
  }
}

/** Parts that are kept with their files: some fixtures' worth. */
const MOST_KNOWN = 256

const filesOf = keptByInput(
  MOST_KNOWN,
  ({ part, name }: { readonly part: Part; readonly name: string }): readonly RouterFile[] =>
    routerFiles(part, name),
)

/** Says the fixture, too: files of all of them lie in one folder, and on one stick. */
const nameIn = (kind: RouterKind, { key }: Part): string =>
  `${kind}-${key.replace(/^(cutter|trial|press)-/, '')}`
