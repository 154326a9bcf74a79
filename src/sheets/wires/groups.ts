/** Names of wires and of what they hang on, as all tables of the wire sheet say them. */
import type { WireGroup } from '../../binder/wire-groups.ts'
import { words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Column, Inline } from '../model.ts'

export const groupName = ({ say }: Frame, { key }: Pick<WireGroup, 'key'>): Inline =>
  say(`wires.group.${key}`)

export const groupCell = (frame: Frame, group: Pick<WireGroup, 'key'>): Cell => words(groupName(frame, group))

export const groupColumn = ({ say }: Frame, width = 24): Column => ({
  head: say('wires.group'),
  align: 'left',
  width,
})

export const right = ({ say }: Frame, key: string, width?: number): Column => ({
  head: say(key),
  align: 'right',
  ...(width === undefined ? {} : { width }),
})

/** A wire as it is asked for in a shop: material, diameter, gauge where it has one. */
export const wireName = (
  { say, show }: Frame,
  wire: { readonly material: string; readonly diameter: number; readonly gauge?: string | undefined },
): Inline => {
  const fill = { diameter: show.thousandths(`${wireKey(wire)}.diameter`, wire.diameter) }
  if (wire.gauge === undefined) return say(`wires.material.${wire.material}`, fill)
  return say('wires.material.gauged', { ...fill, gauge: wire.gauge })
}

/** Names the values of a wire that is bought: by what it is, since a binder may have several. */
export const wireKey = ({
  material,
  diameter,
}: {
  readonly material: string
  readonly diameter: number
}): string => `wire.${material}-${Math.round(diameter * MICRO)}`

const MICRO = 1e6
