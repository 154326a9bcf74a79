/** The wires of a grid cutter as strings between rails, known before the cutter is designed. */

import { SHELF_PAST_WIRE } from '../fixtures/grid-cutter/parts.ts'
import type {
  ByLayer,
  GridAsBuilt,
  GridCutter,
  GridCutterInput,
  WireLayer,
} from '../fixtures/grid-cutter/types.ts'
import { bowedWires, layerRuns, speakingHalf, wirePlaces } from '../fixtures/grid-cutter/wires.ts'
import { BRIDGE_ROD } from '../fixtures/wire-hardware.ts'
import { TWISTED_EYE } from '../wires/margin.ts'
import { cuttingLoadOfGrooves, lagAllowed } from '../wires/over-travel.ts'
import { type PushPlan, pushPlan } from '../wires/push.ts'
import { pinGive } from '../wires/rail.ts'
import { boardSection, compositeSection, type Rail } from '../wires/rail-section.ts'
import type { WireMaterial } from '../wires/strength.ts'
import { CUT_TIMES, type CutTime, type CuttingLoads } from './cutting-loads.ts'
import {
  loadedState,
  strungWire,
  tensionOf,
  type WireGroup,
  type WirePlan,
  wireGroup,
} from './wire-groups.ts'

/** What the cutter is designed from, all but the lag of its wires. */
export type GridFrame = Omit<GridCutterInput, 'wire'> & {
  readonly wire: Omit<GridCutterInput['wire'], 'lag'>
}

export interface GridStringing {
  readonly material: WireMaterial
  /** as stated [N] */
  readonly tension: Readonly<Partial<Record<keyof ByLayer, number | undefined>>>
}

const AS_DRAWN: GridAsBuilt = { speaking: {} }

const LAYERS = ['short', 'long'] as const satisfies readonly WireLayer['layer'][]

/**
 * Both layers of wires before the lag is known.
 *
 *     length = inside + play and middle of both rods;   soap = the block;   rail: board + shelf
 *
 * A rail is counted as high as it is without the gap between the layers, which follows from the lag: a twentieth less than it
 * is. The shelf stiffens the sides all along, the ends as far as it goes. Bent over rods, posts and anchors. A cutter that
 * does not fit its block, or whose wires lie outside of its rails, has none: its sizes say why.
 *
 * @param frame     mould, boards, pegs [m, N]
 * @param stringing material, tension [N]
 * @param found     on the finished frame, in the place of what is drawn [m]
 * @returns plans of the layers that have wires
 * @source common practice
 */
export function gridPlans(
  frame: GridFrame,
  { material, tension }: GridStringing,
  found: GridAsBuilt = AS_DRAWN,
): readonly WirePlan[] {
  const { mould, clearance, wire, peg, anchor } = frame
  return LAYERS.flatMap((layer) => {
    const runs = layerRuns(frame, layer)
    const [soapWidth, across] =
      runs === 'width' ? [mould.lined.width, mould.lined.length] : [mould.lined.length, mould.lined.width]
    const [along, span] = [
      (runs === 'width' ? found.insideWidth : found.insideLength) ?? soapWidth + 2 * clearance,
      (runs === 'width' ? found.insideLength : found.insideWidth) ?? across + 2 * clearance,
    ]
    const measured = runs === 'width' ? found.wiresAcrossLength : found.wiresAcrossWidth
    const middles = measured?.map((place) => place - span / 2) ?? wirePlaces(frame, runs)
    const places = middles.map((at) => at + span / 2)
    const inOrder = [...places, span].every((place, index) => place > (places[index - 1] ?? 0))
    if (places.length === 0 || !inOrder || soapWidth <= 0) return []
    const rail = gridRail(frame, runs === 'width' ? 'side' : 'end', span, middles)
    return [
      {
        key: `grid-${layer}` as const,
        count: places.length,
        length: found.speaking[layer] ?? 2 * speakingHalf(along),
        soapWidth,
        spacing: Math.max(0, ...places.slice(1).map((place, index) => place - (places[index] ?? 0))),
        diameter: wire.diameter,
        material,
        stated: tension[layer],
        hold: {
          peg: peg.rating,
          anchor: TWISTED_EYE.low,
          bendRadius: Math.min(BRIDGE_ROD, peg.post.diameter, anchor.diameter) / 2,
        },
        rail,
        places,
        endGive: pinGive({ rail, places }, 'pinned'),
      },
    ]
  })
}

function gridRail(
  { panels, skirt, limits, mould, clearance, aboveWires, shelfDepth }: GridFrame,
  which: 'side' | 'end',
  length: number,
  middles: readonly number[],
): Rail {
  const narrow = Math.min(mould.lined.width, mould.lined.length) + 2 * clearance
  const board = {
    width: (skirt ?? limits.guide * narrow) + aboveWires,
    depth: panels[which].thickness,
  }
  const composite = compositeSection(board, { width: panels.shelf.thickness, depth: shelfDepth })
  if (which === 'side') return { length, sections: [composite] }
  const half = Math.min(length / 2, Math.max(0, ...middles.map(Math.abs)) + SHELF_PAST_WIRE)
  const bare = boardSection(board)
  return {
    length,
    sections: [{ ...bare, to: length / 2 - half }, { ...composite, to: length / 2 + half }, bare].filter(
      ({ to }) => to > 0,
    ),
  }
}

/** Lag of each layer at the usual load [m]; of a layer without wires none. @throws RangeError as `loadWire` */
export const gridLags = (plans: readonly WirePlan[], { at }: CuttingLoads): ByLayer => {
  const lag = (key: WirePlan['key']): number => {
    const plan = plans.find((one) => one.key === key)
    return plan ? loadedState(plan, plan.material, at.usual).lag : 0
  }
  return { short: lag('grid-short'), long: lag('grid-long') }
}

export interface GridPush {
  /** of the hands above the floor at the start of the stroke: stand and frame [m] */
  readonly handHeight: number
  readonly standHeight: number
  readonly at: Readonly<Record<CutTime, PushPlan>>
  /** the most that soap may resist before the weakest link of the weakest wire has no more than its margin */
  readonly held: { readonly load: number; readonly plan: PushPlan }
}

export interface GridWires {
  readonly groups: readonly WireGroup[]
  /** missing where there are no wires */
  readonly push?: GridPush
  /** the most that soap may resist before wires trail farther than grooves and gap take [N/m] */
  readonly loadOfGrooves: number
}

/**
 * Both layers of wires in the cutter that was designed for their lag.
 *
 *     lag allowed by grooves and gap as they are;   hands = stand + handles at the first touch
 *
 * @param plans       of `gridPlans`
 * @param cutter      designed for their lags
 * @param loads       of soap [N/m]
 * @param standHeight of what the base stands on, above the floor [m]
 * @returns groups, push, and what the grooves take [N/m]
 * @throws RangeError as `loadWire`
 * @source irvine-cables, kamyab1998, common practice
 */
export function gridWires(
  plans: readonly WirePlan[],
  cutter: GridCutter,
  loads: CuttingLoads,
  standHeight: number,
): GridWires {
  const grooves = { short: depthOf(cutter, 'short'), long: depthOf(cutter, 'long') }
  const { input, gap } = cutter
  const { diameter } = input.wire
  const bowed = bowedWires(input, cutter.inside, 'short')
  const most = lagAllowed({
    grooves: { leading: grooves.short, trailing: grooves.long },
    gap: gap.is,
    // a gap that is not stated grows with the lag as far as the short wires' grooves let it
    gapSpare: input.layerGap === undefined ? spareOf(cutter) : 0,
    diameter,
    crossed: bowed.lag > 0 ? Math.max(...bowed.crossings.map(bowed.lagAt), 0) / bowed.lag : 1,
  })
  const groups = plans.map((plan) =>
    // a lag of nought asks for a wire of any tension: the shallow groove is a finding of the cutter
    wireGroup(plan, loads, Math.max(1e-6, plan.key === 'grid-short' ? most.leading : most.trailing)),
  )
  const layerOf = (key: WirePlan['key'], crossed: WirePlan['key']) => {
    const plan = plans.find((one) => one.key === key)
    const across = plans.find((one) => one.key === crossed)
    return (
      plan && {
        wire: { ...strungWire(plan, plan.material), restTension: tensionOf(plan), load: loads.at.usual },
        diameter,
        crossings: across ? across.places.map((place) => place - across.rail.length / 2) : [],
      }
    )
  }
  const loadOfGrooves = cuttingLoadOfGrooves({
    leading: layerOf('grid-short', 'grid-long'),
    trailing: layerOf('grid-long', 'grid-short'),
    gap: gap.is,
    grooveDepth: { leading: grooves.short ?? 0, trailing: grooves.long ?? 0 },
  })
  if (groups.length === 0) return { groups, loadOfGrooves }
  const handHeight = standHeight + cutter.hands.start
  const planAt = (load: number): PushPlan =>
    pushPlan({ layers: groups, load, frameMass: cutter.mass, handHeight })
  const [fresh, usual, late] = CUT_TIMES.map((time) => planAt(loads.at[time])) as [
    PushPlan,
    PushPlan,
    PushPlan,
  ]
  const held = Math.min(...groups.map(({ chosen }) => chosen.held.load))
  return {
    groups,
    loadOfGrooves,
    push: {
      handHeight,
      standHeight,
      at: { fresh, usual, late },
      held: { load: held, plan: planAt(held) },
    },
  }
}

const spareOf = ({ layers }: GridCutter): number => {
  const short = layers.find(({ layer }) => layer === 'short')
  return short ? Math.max(0, short.groove.is - short.groove.needed) : 0
}

const depthOf = ({ layers }: GridCutter, layer: WireLayer['layer']): number | undefined =>
  layers.find((one) => one.layer === layer)?.groove.is

/**
 * The cutter with the wires that were measured: how long they speak and how much is cut for them; its wood is as drawn.
 *
 *     span and length cut = as drawn + as much as the speaking length is more, for each line of a wire
 *
 * @param cutter as drawn
 * @param plans  of its wires as measured [m]
 * @returns the cutter [m]
 * @source common practice
 */
export const withWiresOf = (cutter: GridCutter, plans: readonly WirePlan[]): GridCutter => {
  const moreOf = (layer: WireLayer['layer']): number => {
    const drawn = cutter.layers.find((one) => one.layer === layer)
    const plan = plans.find(({ key }) => key === `grid-${layer}`)
    return drawn && plan ? plan.length - drawn.speakingLength : 0
  }
  return {
    ...cutter,
    layers: cutter.layers.map((layer) => ({
      ...layer,
      speakingLength: layer.speakingLength + moreOf(layer.layer),
      span: layer.span + moreOf(layer.layer),
    })),
    wireLengths: cutter.wireLengths.map((wire) => ({
      ...wire,
      length: wire.length + wire.lines * moreOf(wire.layer),
    })),
  }
}
