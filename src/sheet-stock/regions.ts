/** From what search found, in whole units with the kerf in every size, to pieces of board and saw cuts in metres. */
import type { Placed } from './insertion.ts'
import type { Block } from './joined-blocks.ts'
import type { Piece, Place, Region } from './types.ts'
import type { WholeUnits } from './whole-units.ts'

/** One blank of an item. */
interface Single {
  readonly key: string
  readonly upright: boolean
}

/** Hands out the blanks that an item stands for, one after the other. */
export class BlankKeys {
  private readonly left: Map<number, Single[]>

  constructor({ items }: Pick<WholeUnits, 'items'>) {
    this.left = new Map(
      items.map(({ blanks }, item) => [
        item,
        blanks.flatMap(({ count, ...single }) => Array.from({ length: count }, () => single)),
      ]),
    )
  }

  /** @throws Error when more are asked for than there are: a bug of the search */
  take(item: number, turned: boolean): { readonly key: string; readonly turned: boolean } {
    const single = this.left.get(item)?.shift()
    if (!single) throw new Error('More blanks were laid out than there are.')
    return { key: single.key, turned: turned !== single.upright }
  }

  /** @returns what was not handed out, by key and number */
  rest(): readonly { readonly key: string; readonly count: number }[] {
    const counts = new Map<string, number>()
    for (const singles of this.left.values())
      for (const { key } of singles) counts.set(key, (counts.get(key) ?? 0) + 1)
    return [...counts].map(([key, count]) => ({ key, count }))
  }
}

/** A piece of board with its kerf, in whole units. */
interface Room {
  readonly along: number
  readonly across: number
  readonly length: number
  readonly width: number
}

/** What turns whole units back into lengths, and names the blanks. */
export interface Measure {
  readonly units: Pick<WholeUnits, 'unit' | 'kerf'>
  readonly keys: BlankKeys
}

/** The last kerf of a room lies outside of the piece; one that is nothing but kerf is dust. */
const placeOf = ({ units }: Measure, { along, across, length, width }: Room): Place => ({
  along: along * units.unit,
  across: across * units.unit,
  length: length * units.unit - units.kerf,
  width: width * units.unit - units.kerf,
})

/** m; pieces thinner than this are dust */
const DUST = 1e-9

const offcut = (measure: Measure, room: Room): Piece | undefined => {
  const place = placeOf(measure, room)
  return place.length > DUST && place.width > DUST ? { kind: 'offcut', ...place } : undefined
}

const parted = (
  measure: Measure,
  room: Room,
  cut: 'rip' | 'crosscut',
  first: Region,
  second: Region | undefined,
): Region => ({ kind: 'cut', cut, ...placeOf(measure, room), first, ...(second ? { second } : {}) })

/**
 * One board of an insertion as a tree of cuts.
 *
 * Formula: each rest that a blank was put into is parted by the cut that goes right through it, then by the other one.
 * Validity: rests of one board, each with one blank.
 * @param measure unit, kerf and blanks
 * @param placed on this board [unit]
 * @param board kerf included [unit]
 * @returns region [m]
 * @source common practice
 */
export function regionOfInsertion(
  measure: Measure,
  placed: readonly Placed[],
  board: { readonly length: number; readonly width: number },
): Region {
  const nameOf = ({ along, across, length, width }: Room): string => `${along} ${across} ${length} ${width}`
  const byRest = new Map(placed.map((one) => [nameOf(one.rest), one]))
  const regionOf = (room: Room): Region | undefined => {
    const one = byRest.get(nameOf(room))
    if (!one) return offcut(measure, room)
    const { length, width } = one
    const own = { ...room, length, width }
    const piece: Piece = {
      kind: 'blank',
      ...measure.keys.take(one.item, one.turned),
      ...placeOf(measure, own),
    }
    const crosscut = one.through === 'crosscut'
    const beside = {
      ...room,
      along: room.along + length,
      length: room.length - length,
      ...(crosscut ? {} : { width }),
    }
    const above = {
      ...room,
      across: room.across + width,
      width: room.width - width,
      ...(crosscut ? { length } : {}),
    }
    const [inner, outer] = crosscut ? [above, beside] : [beside, above]
    const [innerCut, outerCut] = crosscut ? (['rip', 'crosscut'] as const) : (['crosscut', 'rip'] as const)
    const strip = crosscut ? { ...room, length } : { ...room, width }
    const within = isThere(inner) ? parted(measure, strip, innerCut, piece, regionOf(inner)) : piece
    return isThere(outer) ? parted(measure, room, outerCut, within, regionOf(outer)) : within
  }
  const region = regionOf({ along: 0, across: 0, ...board })
  if (!region) throw new Error('A board without any size.')
  return region
}

const isThere = ({ length, width }: Room): boolean => length > 0 && width > 0

/**
 * A block in the corner of a board as a tree of cuts.
 *
 * Formula: the block is sawn free by the two cuts that leave the larger rest whole, then taken apart as it was joined.
 * Validity: a block no larger than its board.
 * @param measure unit, kerf and blanks
 * @param block kerf included [unit]
 * @param board kerf included [unit]
 * @returns region [m]
 * @source common practice
 */
export function regionOfBlock(
  measure: Measure,
  block: Block | undefined,
  board: { readonly length: number; readonly width: number },
): Region {
  const fitted = (what: Block, room: Room): Region => {
    const beside = { ...room, along: room.along + what.length, length: room.length - what.length }
    const above = { ...room, across: room.across + what.width, width: room.width - what.width }
    const crosscutFirst = beside.length * room.width >= above.width * room.length
    const own = { ...room, length: what.length, width: what.width }
    const [inner, outer] = crosscutFirst
      ? [{ ...above, length: what.length }, beside]
      : [{ ...beside, width: what.width }, above]
    const strip = crosscutFirst ? { ...room, length: what.length } : { ...room, width: what.width }
    const core = taken(what, own)
    const within = isThere(inner)
      ? parted(measure, strip, crosscutFirst ? 'rip' : 'crosscut', core, offcut(measure, inner))
      : core
    if (!isThere(outer)) return within
    return parted(measure, room, crosscutFirst ? 'crosscut' : 'rip', within, offcut(measure, outer))
  }
  const taken = (what: Block, room: Room): Region => {
    if (what.kind === 'item')
      return {
        kind: 'blank',
        ...measure.keys.take(what.item, what.turned),
        ...placeOf(measure, room),
      }
    const { first, second, by } = what
    if (by === 'length') {
      const left = { ...room, length: first.length }
      const right = { ...room, along: room.along + first.length, length: second.length }
      return parted(measure, room, 'crosscut', fitted(first, left), fitted(second, right))
    }
    const low = { ...room, width: first.width }
    const high = { ...room, across: room.across + first.width, width: second.width }
    return parted(measure, room, 'rip', fitted(first, low), fitted(second, high))
  }
  const room = { along: 0, across: 0, ...board }
  const region = block ? fitted(block, room) : offcut(measure, room)
  if (!region) throw new Error('A board without any size.')
  return region
}

/**
 * What is left of a board that is sawn off behind everything that comes out of it.
 *
 * Formula: places end at the length; what lies beyond is gone, and so is a cut with nothing on its far side. Validity: no
 * blank reaches beyond the length.
 * @param region of the longer board [m]
 * @param length that is kept [m]
 * @returns region of the shorter one [m]; missing where it ends before the region
 * @source common practice
 */
export function shortened(region: Region, length: number): Region | undefined {
  const left = length - region.along
  if (left <= DUST) return undefined
  const own = { ...region, length: Math.min(region.length, left) }
  if (own.kind !== 'cut') return own
  const first = shortened(own.first, length)
  if (!first) throw new Error('A cut without anything before it.')
  const second = own.second && shortened(own.second, length)
  const { second: _, ...rest } = own
  // The end of the shorter board may stand where the saw would have gone.
  if (!second && first.along + first.length >= length - DUST && own.cut === 'crosscut') return first
  return { ...rest, first, ...(second ? { second } : {}) }
}
