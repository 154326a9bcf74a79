/**
 * Where the features of a part are dimensioned from its two datum edges.
 */
import {
  type Channel,
  isChannel,
  isFold,
  isHole,
  isNotch,
  isScribe,
  notchStation,
  type Part,
} from '../geometry/part.ts'
import type { OrdinateRequest } from './dimension-types.ts'

/**
 * Running dimensions of all channels, holes, notches, folds and scribed lines.
 *
 * Formula: grooves and holes by their middle, dadoes and notches by the near wall (a slot by what it is set by), rebates by their only
 * wall; stations at one
 * place share a dimension. Validity: the datum corner is the face's lower left.
 * @param part to be drawn [m]
 * @param rows whether a long row below is split
 * @returns rows below and to the left of the face, and above it where the one below would be long
 * @source common practice
 */
export function ordinates(part: Part, rows: StationRows = 'split'): readonly OrdinateRequest[] {
  const channels = part.features.filter(isChannel)
  const holes = part.features.filter(isHole)
  const name = (what: string) => `part.${part.key}.${what}`
  const across = grouped([
    ...channels.filter((channel) => channel.runs === 'width').map((channel) => channelStation(channel)),
    ...holes.map((hole) => ({ feature: hole.name, coordinate: 'u', at: hole.u, other: hole.v })),
    // A notch is sawn between two walls and meets its neighbour's strip: its near wall is what is set out, unless it says else.
    ...part.features.filter(isNotch).map((notch) => ({
      feature: notch.name,
      coordinate: 'at',
      at: notchStation(notch),
      other: notch.edge === 'near' ? 0 : part.width,
    })),
    ...part.features
      .filter(isFold)
      .map(({ name: feature, at }) => ({ feature, coordinate: 'at', at, other: 0 })),
  ])
  const up = grouped([
    ...channels.filter((channel) => channel.runs === 'length').map((channel) => channelStation(channel)),
    ...holes.map((hole) => ({ feature: hole.name, coordinate: 'v', at: hole.v, other: hole.u })),
    ...part.features
      .filter(isScribe)
      .map(({ name: feature, at }) => ({ feature, coordinate: 'at', at, other: 0 })),
  ])
  const origin = { x: 0, y: 0 }
  // A long row of figures makes the drawing small: what lies in the far half is then read at the far edge.
  const isFar = ({ other }: Station): boolean =>
    rows === 'split' && across.length > LONG_ROW && other > part.width / 2
  const sides = [
    { side: 'below' as const, edge: 0, own: across.filter((one) => !isFar(one)) },
    { side: 'above' as const, edge: part.width, own: across.filter(isFar) },
  ]
  return [
    ...sides
      .filter(({ own }) => own.length > 0)
      .map(({ side, edge, own }) => ({
        kind: 'ordinate' as const,
        side,
        origin: { x: 0, y: edge },
        stations: own.map((one) => ({
          name: name(`${one.feature}.${one.coordinate}`),
          at: { x: one.at, y: one.other },
          locates: one.locates,
        })),
      })),
    ...(up.length > 0
      ? [
          {
            kind: 'ordinate' as const,
            side: 'left' as const,
            origin,
            stations: up.map((one) => ({
              name: name(`${one.feature}.${one.coordinate}`),
              at: { x: one.other, y: one.at },
              locates: one.locates,
            })),
          },
        ]
      : []),
  ]
}

/** Figures in one row beneath a part that a page still takes at a usual scale (common practice). */
const LONG_ROW = 14

/** A long row of figures in one line, or split between the two edges of its part. */
export type StationRows = 'single' | 'split'

interface Station {
  readonly feature: string
  readonly coordinate: string
  readonly at: number
  /** nearest point of the feature to the datum edge, across [m] */
  readonly other: number
}

/** A wire's groove is set out by its middle; a dado by its near wall; a rebate by its only wall. */
function channelStation(channel: Channel): Station {
  const atStart = channel.kind === 'rebate' && channel.at <= 0
  const at =
    channel.kind === 'groove'
      ? channel.at + channel.size / 2
      : atStart
        ? channel.at + channel.size
        : channel.at
  return { feature: channel.name, coordinate: 'at', at, other: 0 }
}

/** Stations at one place share a dimension. */
function grouped(
  stations: readonly Station[],
): readonly (Station & { readonly locates: readonly string[] })[] {
  const groups = new Map<string, Station[]>()
  for (const station of stations) {
    const key = station.at.toFixed(6)
    groups.set(key, [...(groups.get(key) ?? []), station])
  }
  return [...groups.values()].map((group) => ({
    ...group[0]!,
    other: Math.min(...group.map((station) => station.other)),
    locates: group.map((station) => `${station.feature}.${station.coordinate}`),
  }))
}
