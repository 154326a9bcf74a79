/** How wires are judged by hand while they are strung and tuned: numbers that sheets say beside what a wire bears. */

import type { BarCutter } from '../fixtures/bar-cutter/types.ts'
import { rodAbove } from '../fixtures/grid-cutter/sizes.ts'
import type { GridCutter, WireLayer } from '../fixtures/grid-cutter/types.ts'
import {
  BRIDGE_PLAY,
  BRIDGE_ROD,
  hiddenByRod,
  PICK_OUT,
  postHole,
  TURNS,
  windingLength,
} from '../fixtures/wire-hardware.ts'
import { isHole } from '../geometry/part.ts'
import { hungSag, stretchTo } from '../wires/hung-weight.ts'
import { centsOfTension, type Note, noteOf, pitchAtShare } from '../wires/pitch.ts'
import { GRAVITY } from '../wires/push.ts'
import type { WireChoice } from './wire-groups.ts'

/** Share of the tension within which wires are brought to each other, and what a tuner may be off for it (common practice). */
const TUNED = 0.03
export const TUNED_CENTS = centsOfTension(TUNED)

/** Pitches between which a wire is near enough [Hz]. */
export const nearEnough = ({ pitch }: Pick<WireChoice, 'pitch'>) => ({
  low: pitchAtShare(pitch, 1 - TUNED),
  high: pitchAtShare(pitch, 1 + TUNED),
})

/** kg that may be hung on a wire, as weights are at hand: a litre of water, half of it, a quarter (common practice) */
const HUNG = [1, 0.5, 0.25] as const
/** Share of the tension that all wires are brought to first (common practice) */
const HALF = 0.5

export interface JudgedWire {
  /** at half of its tension [Hz], and the note that a tuner shows */
  readonly half: { readonly pitch: number; readonly note: Note }
  /** from slack to tuned [m] */
  readonly stretch: number
  /** of its middle under the weight, on its rods, and free from peg to anchor [m] */
  readonly sag: { readonly onRods: number; readonly offRods: number }
}

type JudgedLayer = Pick<WireLayer, 'speakingLength' | 'span'>

/**
 * What is hung on a wire: so little that no long wire, off its rods either, comes down on the short ones that it crosses
 * and is held up by them.
 * @param gap between the middles of both layers, none where there is one layer, and the wires' diameter [m]
 * @returns mass [kg]
 */
export const hungMass = (
  long:
    | { readonly layer: JudgedLayer; readonly choice: Pick<WireChoice, 'tension' | 'pitch' | 'figures'> }
    | undefined,
  { gap, diameter }: { readonly gap: number; readonly diameter: number },
): number => {
  const free = gap - diameter
  if (!long || free <= 0) return HUNG[0]
  return (
    HUNG.find((mass) => judgedWire(long.layer, long.choice, mass).sag.offRods < free) ??
    HUNG[HUNG.length - 1] ??
    0
  )
}

/** Of a layer of the grid cutter: a wire that lies off its rods is free from its peg to its anchor. */
export const judgedWire = (
  { speakingLength, span }: JudgedLayer,
  { tension, pitch, figures }: Pick<WireChoice, 'tension' | 'pitch' | 'figures'>,
  hung: number,
): JudgedWire => {
  const wire = { whole: span, tension, axialStiffness: figures.axialStiffness }
  const half = pitchAtShare(pitch, HALF)
  const sag = (length: number): number => hungSag({ ...wire, length }, hung * GRAVITY)
  return {
    half: { pitch: half, note: noteOf(half) },
    stretch: stretchTo(wire),
    sag: { onRods: sag(speakingLength), offRods: sag(span) },
  }
}

/** Turns of a button for one of its post, of the pegs that are sold most (common practice) */
export const GEAR = 15

/**
 * Of wire that goes round a post, and that one turn of a button takes in; where the post's hole lies below the shelf, and
 * how far a nut may stand out there [m]; of a wire hole, what the rod over it covers [–], the rod, its play in its kerf and its place above the hole,
 * and how far a toothpick is left to stand out of it [m].
 */
export const windings = ({ input, parts }: GridCutter) => {
  const { diameter } = input.wire
  const hole = parts
    .flatMap(({ features }) => features.filter(isHole))
    .find(({ name }) => name.startsWith('wire-'))
  const length = windingLength(input.peg, diameter)
  return {
    length,
    takes: length / TURNS / GEAR,
    hole: postHole(input.peg, diameter),
    nut: input.peg.post.wrap - diameter,
    covered: hiddenByRod(hole?.diameter ?? diameter, diameter),
    rod: { diameter: BRIDGE_ROD, play: BRIDGE_PLAY, above: rodAbove(input) },
    pickOut: PICK_OUT,
  }
}

/** m; of a wire of the bar cutter from its back pins to its post, from slack to its note */
export const barStretch = (
  { rounds }: Pick<BarCutter, 'rounds'>,
  { tension, figures }: Pick<WireChoice, 'tension' | 'figures'>,
): number => {
  const middles = rounds
    .filter(({ key }) => key === 'wire-pin' || key === 'peg-post')
    .map(({ centre }) => centre[1])
  const whole = Math.max(...middles) - Math.min(...middles)
  return stretchTo({ whole, tension, axialStiffness: figures.axialStiffness })
}
