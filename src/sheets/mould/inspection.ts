/** The record of what the finished mould measures, and what of it the maker has typed back. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { BlockMould } from '../../fixtures/block-mould.ts'
import { isChannel } from '../../geometry/part.ts'
import { empty, maker, nothing, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Table } from '../model.ts'
import { INCH } from '../shown.ts'
import { bothSizes, partName } from './parts.ts'

/** m; outlines and joints of shop-built plywood: common practice, from memory */
export const INSPECTION = { outline: INCH / 32, joint: INCH / 64 } as const

/** m; what the lining needs beside it, bare wood, to go down and up by hand (common practice) */
export const PLAY = 0.0002

interface Row {
  readonly what: Inline
  readonly name: string
  readonly wanted: number
  readonly allowed: Inline
  /** as the fixture's file calls it; nothing for what no file takes */
  readonly key: string
}

export const inspectionTable = (frame: Frame, { mould }: BoundMould): Table => {
  const { say } = frame
  return {
    kind: 'table',
    style: 'log',
    caption: say('mould.inspection.caption'),
    columns: [
      { head: say('mould.inspection.what'), align: 'left' },
      { head: say('mould.inspection.key'), align: 'left', width: 23 },
      { head: say('mould.inspection.wanted'), align: 'right', width: 21 },
      { head: say('mould.inspection.tolerance'), align: 'right', width: 17 },
      { head: say('mould.inspection.found'), align: 'left', width: 15 },
    ],
    rows: inspected(frame, mould).map(({ what, name, wanted, allowed, key }): Cell[] => [
      words(what),
      key === '' ? empty : maker(key),
      bothSizes(frame, name, wanted),
      words(allowed),
      empty,
    ]),
  }
}

const inspected = (
  frame: Frame,
  { input, inside, rimAboveBench, base, parts }: BlockMould,
): readonly Row[] => {
  const { say, show } = frame
  const within = (key: 'outline' | 'joint'): Inline =>
    say('mould.inspection.plus-minus', {
      size: show.size(`inspection.tolerance.${key}`, INSPECTION[key]),
    })
  const whole = (key: string, wanted: number, allowed: Inline = within('outline')): Row => ({
    what: say(`mould.inspection.${key}`),
    name: `inspection.${key}`,
    wanted,
    allowed,
    key,
  })
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
    {
      ...whole(
        'gap',
        clearance,
        say('mould.inspection.between', {
          least: show.millimetres('inspection.gap.least', clearance),
          most: show.millimetres('inspection.gap.most', lining + input.limits.seam),
        }),
      ),
      key: '',
    },
    {
      ...whole(
        'dado-width',
        input.panels.end.thickness + input.dado.fitAllowance,
        say('mould.inspection.wider', {
          fit: show.millimetres('inspection.dado.fit', input.dado.fitAllowance),
        }),
      ),
      key: '',
    },
    { ...whole('dado-depth', input.dado.depth, within('joint')), key: '' },
    ...parts
      .filter(({ key }) => ['side', 'end', 'rail'].includes(key))
      .flatMap((part) =>
        (['length', 'width'] as const).map(
          (side): Row => ({
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
          (groove): Row => ({
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
