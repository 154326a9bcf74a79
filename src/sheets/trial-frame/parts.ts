/** What a trial frame is made from, and what is bought or borrowed for it. */
import type { BoundTrialFrame } from '../../binder/bind-trial-frame.ts'
import { smallItems } from '../../drawing/small/small-apart.ts'
import { TRIAL_NUMBERED } from '../../drawing/trial-frame/trial-drawings.ts'
import { box, empty, maker, number, words } from '../compose.ts'
import { buyTable, type HardwareRow, type PartList } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'

/** Numbered in the exploded view at one of their pieces, listed as what they are. */
const HARDWARE = { 'trial-peg': 'peg-body', 'trial-rod': 'bridge-rod', 'trial-anchor': 'anchor' } as const

export const trialPartList = ({ trial, panelNames }: BoundTrialFrame): PartList => {
  const items = smallItems(trial.parts, trial.rounds, TRIAL_NUMBERED)
  const numbered = Object.entries(HARDWARE).flatMap(([key, round]) => {
    const found = [...items].find(([own]) => own === round || own.startsWith(`${round}-`))
    return found ? [[key, found[1]] as const] : []
  })
  return {
    parts: trial.parts,
    items: new Map([...items, ...numbered]),
    panelNames,
    cutLater: () => undefined,
  }
}

export const trialHardwareRows = (
  { say, show }: Frame,
  { trial }: BoundTrialFrame,
): readonly HardwareRow[] => {
  const count = (...keys: readonly string[]): number =>
    trial.hardware.filter(({ key }) => keys.includes(key)).reduce((sum, item) => sum + item.count, 0)
  const rod = trial.hardware.find(({ key }) => key === 'bridge-rod')
  return [
    {
      key: 'trial-rod',
      count: count('bridge-rod'),
      made: say('trial.made.rod', {
        size: rod?.size ?? '',
        length: show.exactLength('trial.rod.length', rod?.length ?? 0),
      }),
    },
    { key: 'trial-peg', count: count('peg'), made: say('trial.made.borrowed') },
    { key: 'trial-anchor', count: count('anchor-screw', 'anchor-pin'), made: say('trial.made.borrowed') },
  ]
}

export const trialBuyTable = (frame: Frame, { trial, boards, panelNames }: BoundTrialFrame): Table => {
  const { say, show } = frame
  const { peg } = trial.input
  const rows = trial.hardware.map((item): Cell[] => [
    words(
      say(`trial.hardware.${item.key}`, {
        bore: show.size('trial.peg.bore', peg.bore),
        rating: show.force('trial.peg.rating', peg.rating),
      }),
    ),
    item.length === undefined
      ? maker(item.size)
      : words(
          say('trial.hardware.cut', {
            size: item.size,
            length: show.exactLength('trial.rod.length', item.length),
          }),
        ),
    number(show.count(`trial.hardware.${item.key}.count`, item.count)),
    item.spare > 0 ? number(show.count(`trial.hardware.${item.key}.spare`, item.spare)) : empty,
    box,
  ])
  const { wire, wires } = trial.input
  return {
    ...buyTable(
      frame,
      [
        ...rows,
        [
          words(
            say('trial.hardware.wire', { diameter: show.thousandths('trial.wire.diameter', wire.diameter) }),
          ),
          number(show.exactLength('trial.wire.cut', trial.wireLength)),
          number(show.count('trial.wire.count', wires)),
          number(show.count('trial.wire.spare', WIRE_SPARE)),
          box,
        ],
      ],
      { boards, panelNames },
    ),
    caption: say('trial.hardware.caption'),
  }
}

/** Pieces of wire that are cut in reserve (common practice) */
const WIRE_SPARE = 2
