/** What a bar cutter is made from and what is bought for it, for the tables that all fixtures share. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { cutterItems } from '../../drawing/bar-cutter/bar-cutter-apart.ts'
import { HARDWARE, hardwareKey } from '../../drawing/bar-cutter/cutter-scene.ts'
import { boundsOf } from '../../drawing/exploded/apart.ts'
import { box, empty, type Fill, number, words } from '../compose.ts'
import { buyTable, exactFirst, type HardwareRow, type PartList, partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'
import { wireName } from '../wires/groups.ts'

/** Nothing waits for another: every part has its size from the list. */
export const barCutterPartList = ({ cutter, panelNames }: BoundBarCutter): PartList => ({
  parts: cutter.parts,
  items: cutterItems(cutter),
  panelNames,
  cutLater: () => undefined,
})

export const barCutterHardwareRows = ({ say }: Frame, { cutter }: BoundBarCutter): readonly HardwareRow[] =>
  HARDWARE.flatMap((key) => {
    const bought = cutter.hardware.filter((item) => hardwareKey(item.key) === key)
    const count = bought.reduce((sum, item) => sum + item.count, 0)
    const metal = bought[0]?.metal
    return metal === undefined ? [] : [{ key, count, made: say(`bar-cutter.metal.${metal}`) }]
  })

/** @param gauge number of the wire, where it has one */
export const barCutterBuyTable = (
  frame: Frame,
  { cutter, boards, panelNames }: BoundBarCutter,
  gauge: string | undefined,
): Table => {
  const { say, show } = frame
  return buyTable(
    frame,
    cutter.hardware.map((item): Cell[] => {
      const key = hardwareKey(item.key)
      return [
        words(say(`bar-cutter.buy.${key === 'wire-anchor' ? item.key.replace('anchor', key) : key}`)),
        words(sizeOf(frame, cutter, item, gauge)),
        number(show.count(`hardware.${nameOf(item)}.count`, item.count)),
        item.spare > 0 ? number(show.count(`hardware.${nameOf(item)}.spare`, item.spare)) : empty,
        box,
      ]
    }),
    { boards, panelNames, sizeWidth: 44 },
  )
}

type Item = BoundBarCutter['cutter']['hardware'][number]

/** Screws are bought in several sizes: each is a row of its own. */
const nameOf = ({ key, size, length }: Item): string =>
  key === 'wood-screw' ? `screw.${size}.${Math.round((length ?? 0) * 1e4)}` : hardwareKey(key)

const sizeOf = (
  frame: Frame,
  cutter: BoundBarCutter['cutter'],
  item: Item,
  gauge: string | undefined,
): Inline => {
  const { say, show } = frame
  const { input } = cutter
  const { size = '', length = 0 } = item
  const { thickness } = input.panels.frame
  const { material = 'music-wire', diameter } = input.wire
  switch (hardwareKey(item.key)) {
    case 'tuning-peg':
      return say('bar-cutter.size.tuning-peg', {
        rating: show.force('peg.rating', input.peg.rating),
        bore: show.exactLength('peg.bore', input.peg.bore),
        ...pegSizes(frame, cutter),
      })
    case 'wire-anchor':
      return say(`bar-cutter.size.wire-anchor-${input.anchor.key}`, {
        size,
        out: show.millimetres('anchor.out', input.anchor.reach),
        thread: show.millimetres('anchor.diameter', input.anchor.diameter),
        ...(input.anchor.key === 'pin'
          ? { length: show.millimetres('anchor.length', thickness + input.anchor.reach) }
          : {}),
      })
    case 'wire-pin':
      return say('bar-cutter.size.wire-pin', {
        diameter: size,
        length: show.millimetres('pin.length', thickness + input.pin.below),
        most: show.millimetres('pin.longest', thickness + input.pin.below + cutter.fitting.pinAbove),
      })
    case 'music-wire':
      return say('bar-cutter.size.music-wire', {
        wire: wireName(frame, { material, diameter, gauge }),
        length: show.length('wire.longest', length),
      })
    case 'continuous-hinge':
      return say('bar-cutter.size.continuous-hinge', {
        length: show.length('hinge.length', length),
        leaf: show.millimetres('hinge.leaf', input.hinge.leaf.thickness),
        gap: show.millimetres('hinge.gap', input.hinge.gap),
        wide: show.millimetres('hinge.leaf-width', input.hinge.leaf.width),
        most: show.millimetres('hinge.leaf-most', cutter.hinge.edge + input.panels.upright.thickness),
        knuckle: show.millimetres('hinge.knuckle', input.hinge.knuckle),
        pitch: show.millimetres('hinge.pitch', cutter.hingeScrews.pitch),
      })
    case 'wood-screw':
      return say('bar-cutter.size.wood-screw', {
        size,
        length: show.size(`${nameOf(item)}.length`, length),
      })
    case 'hook-and-eye':
      return say('bar-cutter.size.hook-and-eye', {
        size,
        reach: show.millimetres('catch.reach', cutter.holdOpen.kind.reach),
        hole: show.millimetres('catch.pilot', cutter.holdOpen.kind.pilot),
        board: show.millimetres('catch.board', Math.min(thickness, input.panels.upright.thickness)),
      })
    default:
      return say('bar-cutter.size.named', { size })
  }
}

/** What a peg has to measure for the rail, its holes and its neighbours to fit. */
const pegSizes = ({ show }: Frame, { input, winding }: BoundBarCutter['cutter']): Fill => {
  const { peg, panels, frame } = input
  const { post, body, button } = peg
  const mm = show.millimetres
  // Below the wire, with its turns between.

  const wire = winding.sunk + frame.wireDrop
  const climbing = wire + winding.turns * input.wire.diameter
  const holes = [climbing, Math.max(post.wrap, climbing)] as const
  return {
    board: mm('peg.board', panels.frame.thickness - winding.sunk),
    post: mm('peg.post', post.diameter),
    reach: mm('peg.reach', post.reach),
    'hole-least': mm('peg.hole-least', holes[0]),
    'hole-most': mm('peg.hole-most', holes[1]),
    bushing: mm('peg.bushing', peg.recess),
    'bushing-high': mm('peg.bushing-high', wire - input.wire.diameter),
    housing: mm('peg.housing', body.diameter),
    button: mm('peg.button', button.diameter),
    far: mm('peg.button-far', button.to),
  }
}

/** Which joints are screwed, with what, and those that only the clamps hold until the glue has set. */
export const screwTable = (frame: Frame, { cutter }: BoundBarCutter): Table => {
  const { say, show } = frame
  const { joints, clamped } = cutter.screws
  const pair = ({ head, into }: { readonly head: string; readonly into: string }): Cell[] => [
    words(partName(frame, { key: head })),
    words(partName(frame, { key: into })),
  ]
  return {
    kind: 'table',
    caption: say('bar-cutter.screws.caption'),
    columns: [
      { head: say('bar-cutter.screws.head'), align: 'left', width: 22 },
      { head: say('bar-cutter.screws.into'), align: 'left', width: 22 },
      { head: say('bar-cutter.screws.face'), align: 'left' },
      { head: say('bar-cutter.screws.count'), align: 'right', width: 8 },
      { head: say('bar-cutter.screws.screw'), align: 'right', width: 17 },
      { head: say('bar-cutter.screws.pilot'), align: 'right', width: 17 },
    ],
    rows: [
      ...joints.map((joint, index): Cell[] => {
        const name = `screws.${index + 1}`
        return [
          ...pair(joint),
          words(say(`bar-cutter.screws.${joint.face}`)),
          number(show.count(`${name}.count`, joint.count)),
          words(
            say('bar-cutter.size.wood-screw', {
              size: joint.screw,
              length: show.size(`${name}.length`, joint.length),
            }),
          ),
          words(
            say('bar-cutter.screws.pilot-deep', {
              diameter: show.size(`${name}.pilot`, joint.pilot.diameter),
              depth: show.millimetres(`${name}.pilot-depth`, joint.pilot.depth),
            }),
          ),
        ]
      }),
      ...clamped.map((joint): Cell[] => [
        ...pair(joint),
        words(say('bar-cutter.screws.clamped')),
        empty,
        empty,
        empty,
      ]),
    ],
  }
}

/** Parts that stand on the base without a dado: where, from its back edge and from its stop end. */
export const placedTable = (frame: Frame, { cutter }: BoundBarCutter): Table => {
  const { say } = frame
  const { base, frame: outer } = cutter
  const low = cutter.input.panels.base.thickness
  const standing = cutter.parts.filter(
    ({ key, placements }) =>
      !cutter.swinging.includes(key) && placements.some(({ origin }) => Math.abs(origin.z - low) < 1e-6),
  )
  return {
    kind: 'table',
    caption: say('bar-cutter.placed.caption'),
    columns: [
      { head: say('fixture.parts.part'), align: 'left', width: 16 },
      { head: say('bar-cutter.placed.how'), align: 'left' },
      { head: say('bar-cutter.placed.from-back'), align: 'right', width: 22 },
      { head: say('bar-cutter.placed.from-stop'), align: 'right', width: 22 },
    ],
    rows: standing.flatMap((part) =>
      part.placements.map((placement, index): Cell[] => {
        const name = `placed.${part.key}-${index + 1}`
        const { min } = boundsOf(part, placement)
        return [
          words(partName(frame, part)),
          words(say(`part.${part.key}.what`)),
          exactFirst(frame, `${name}.from-back`, min.y - base.y[0]),
          exactFirst(frame, `${name}.from-stop`, min.x - outer.x[0]),
        ]
      }),
    ),
  }
}
