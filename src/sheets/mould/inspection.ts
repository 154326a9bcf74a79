/** The record of what the finished mould measures, and what of it the maker has typed back. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { BlockMould } from '../../fixtures/block-mould.ts'
import { isChannel } from '../../geometry/part.ts'
import { nothing } from '../compose.ts'
import { type InspectionRow, inspectionTable, plusMinus } from '../fixture/inspection.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline, Table } from '../model.ts'

/** m; what the lining needs beside it, bare wood, to go down and up by hand (common practice) */
export const PLAY = 0.0002
/** m; a dado wider than asked by more than this leaves an end loose (common practice) */
export const DADO_OVER = 0.0002

export const mouldInspection = (frame: Frame, { mould }: BoundMould): Table =>
  inspectionTable(frame, frame.say('mould.inspection.caption'), inspected(frame, mould))

const inspected = (
  frame: Frame,
  { input, inside, rimAboveBench, base, parts }: BlockMould,
): readonly InspectionRow[] => {
  const { say, show } = frame
  const within = (key: 'outline' | 'joint'): Inline => plusMinus(frame, key)
  const whole = (key: string, wanted: number, allowed: Inline = within('outline')): InspectionRow => ({
    what: say(`mould.inspection.${key}`),
    name: `inspection.${key}`,
    wanted,
    allowed,
    key,
  })
  /** no file takes it */
  const unnamed = (key: string, wanted: number, allowed: Inline): InspectionRow => {
    const { what, name } = whole(key, wanted)
    return { what, name, wanted, allowed }
  }
  const { clearance } = input.base
  const lining = input.panels.lining.thickness
  const fitted = say('mould.inspection.fitted', {
    less: show.millimetres('inspection.fitted', 2 * clearance),
  })
  const baseTop = parts.find(({ key }) => key === 'base-top')
  const grooves = baseTop?.features.filter(isChannel) ?? []
  return [
    whole('inside-length', inside.length),
    whole('inside-width', inside.width),
    whole('rim-above-bench', rimAboveBench),
    whole('base-length', base.length, fitted),
    whole('base-width', base.width, fitted),
    whole('base-height', base.height),
    unnamed(
      'gap',
      clearance,
      say('mould.inspection.between', {
        least: show.millimetres('inspection.gap.least', clearance),
        most: show.millimetres('inspection.gap.most', lining + input.limits.seam),
      }),
    ),
    unnamed(
      'dado-width',
      input.panels.end.thickness + input.dado.fitAllowance,
      say('mould.inspection.wider', {
        fit: show.millimetres('inspection.dado.fit', input.dado.fitAllowance),
        over: show.millimetres('inspection.dado.over', DADO_OVER),
      }),
    ),
    unnamed('dado-depth', input.dado.depth, within('joint')),
    ...parts
      .filter(({ key }) => ['side', 'end', 'rail'].includes(key))
      .flatMap((part) =>
        (['length', 'width'] as const).map(
          (side): InspectionRow => ({
            what: say(`mould.inspection.part-${side}`, { part: partName(frame, part) }),
            name: `inspection.${part.key}.${side}`,
            wanted: part[side],
            allowed: part.key === 'rail' && side === 'length' ? fitted : within('outline'),
            key: `parts: ${part.key}: ${side}`,
          }),
        ),
      ),
    ...(['width', 'length'] as const).flatMap((runs) =>
      grooves
        .filter((groove) => groove.runs === runs && groove.kind === 'groove')
        .map(
          (groove): InspectionRow => ({
            what: say(`mould.inspection.groove-${runs}`),
            name: `inspection.${groove.name}`,
            wanted: groove.at + groove.size / 2,
            allowed: within('joint'),
            key: runs === 'width' ? 'grooves-across-length' : 'grooves-across-width',
          }),
        ),
    ),
  ]
}

/** What was measured, so that a reader knows which sizes are no longer the design's; empty before that. */
export const asBuiltFacts = (frame: Frame, { mould }: BoundMould): Block => {
  const { say, show } = frame
  const { asBuilt } = mould.input
  const whole = [
    ['inside-length', asBuilt.insideLength],
    ['inside-width', asBuilt.insideWidth],
    ['rim-above-bench', asBuilt.rimAboveBench],
    ['base-length', asBuilt.baseLength],
    ['base-width', asBuilt.baseWidth],
    ['base-height', asBuilt.baseHeight],
  ] as const
  const item = (what: Inline, name: string, size: number): Inline =>
    say('mould.as-built.item', { what, size: show.exactLength(`as-built.${name}`, size) })
  const items: Inline[] = [
    ...whole.flatMap(([key, size]) =>
      size === undefined ? [] : [item(say(`mould.inspection.${key}`), key, size)],
    ),
    ...Object.entries(asBuilt.parts ?? {}).flatMap(([key, sizes]) =>
      (['length', 'width'] as const).flatMap((side) => {
        const size = sizes?.[side]
        const what = say(`mould.inspection.part-${side}`, { part: partName(frame, { key }) })
        return size === undefined ? [] : [item(what, `${key}.${side}`, size)]
      }),
    ),
    ...(asBuilt.groovesAcrossLength || asBuilt.groovesAcrossWidth ? [say('mould.as-built.grooves')] : []),
    ...(asBuilt.water
      ? [
          say('mould.as-built.water', {
            volume: show.volume('as-built.water', asBuilt.water.volume),
            below: show.exactLength('as-built.below-rim', asBuilt.water.belowRim),
          }),
        ]
      : []),
  ]
  return items.length === 0
    ? nothing
    : { kind: 'cautions', signal: 'notice', heading: say('mould.as-built.heading'), items }
}
