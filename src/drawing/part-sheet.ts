/**
 * Views and dimensions of one part: its worked face, its edge, and an enlarged section through a channel.
 *
 * Every feature is located once, from the datum corner at the lower left of the face.
 */
import {
  type Chamfer,
  type Channel,
  type Hole,
  isChamfer,
  isChannel,
  isFold,
  isHole,
  isNotch,
  isScribe,
  type Notch,
  type Part,
} from '../geometry/part.ts'
import type { DimensionRequest, LeaderRequest } from './dimension-types.ts'
import { ordinates, type StationRows } from './part-stations.ts'
import type { PartWords } from './part-words.ts'
import { projectScene } from './projection.ts'
import { partScene, type Scene } from './scene.ts'
import { cutFace } from './section.ts'
import type { SheetRequest } from './sheet.ts'
import type { LengthFormatter } from './types.ts'
import type { ViewRequestOnPaper } from './view.ts'
import type { ViewExtra } from './view-marks.ts'

/**
 * The sheet of a part.
 *
 * Formula: holes and grooves by their middle, dadoes and rebates by a wall, all from two datum edges; alike
 * channels share one enlarged section; what is worked from below is drawn hidden. Validity: channels, holes, notches, folds
 * and chamfers.
 * @param part to be drawn [m]
 * @param words of the drawing
 * @param format of the thickness in the title
 * @param rows whether a long row of figures is split
 * @returns views with dimensions
 * @source common practice
 */
export function partSheet(
  part: Part,
  words: PartWords,
  format: LengthFormatter,
  rows: StationRows = 'split',
): Pick<SheetRequest, 'front' | 'top' | 'side' | 'details'> {
  const scene = partScene(part)
  const kinds = channelKinds(part)
  const name = (what: string) => `part.${part.key}.${what}`
  return {
    top: {
      name: 'face',
      ...titleOf(part, words, format),
      // A recess or a channel on the far face is what the other hidden lines are not: a place to be set out.
      lines: projectScene({ scene, viewpoint: 'top', showHidden: hasWorkBelow(part) ? [part.key] : [] }),
      extras: [
        ...(part.grainless ? [] : [{ kind: 'grain' as const, along: part.grain, word: words.grain }]),
        ...part.features.filter(isFold).map(
          ({ at }): ViewExtra => ({
            kind: 'line',
            class: 'phantom',
            a: { x: at, y: 0 },
            b: { x: at, y: part.width },
          }),
        ),
        ...part.features.filter(isScribe).map(
          ({ at }): ViewExtra => ({
            kind: 'line',
            class: 'phantom',
            a: { x: 0, y: at },
            b: { x: part.length, y: at },
          }),
        ),
      ],
      dimensions: [
        {
          kind: 'linear',
          name: name('length'),
          side: 'above',
          from: { x: 0, y: part.width },
          to: { x: part.length, y: part.width },
        },
        {
          kind: 'linear',
          name: name('width'),
          side: 'right',
          from: { x: part.length, y: 0 },
          to: { x: part.length, y: part.width },
        },
        ...ordinates(part, rows),
        ...holeNotes(part, words),
        ...recessNotes(part, words),
        ...notchNotes(part, words),
        ...foldNotes(part, words),
        ...scribeNotes(part, words),
      ],
    },
    ...(hasEdgeWork(part) ? { front: edgeView(part, words, kinds, scene) } : {}),
    ...(kinds.some(({ channel }) => channel.runs === 'length')
      ? {
          side: {
            name: 'end-edge',
            title: words.endEdgeView,
            lines: projectScene({ scene, viewpoint: 'right', showHidden: [] }),
            extras: rings(part, kinds, 'length'),
            dimensions: [],
          },
        }
      : {}),
    details: [
      ...kinds.map((kind) => channelDetail(part, kind, words)),
      ...part.features.filter(isChamfer).map((chamfer) => chamferDetail(part, chamfer, words, kinds.length)),
    ],
  }
}

/** Where no edge is drawn, the title says how thick the part is. */
function titleOf(
  part: Part,
  words: PartWords,
  format: LengthFormatter,
): Pick<ViewRequestOnPaper, 'title' | 'titleValue'> {
  const title = `${words.face[part.key] ?? ''}, ${words.make} ${part.count}`
  return hasEdgeWork(part)
    ? { title }
    : { title, titleValue: { shown: format(part.thickness).shown, after: words.thick } }
}

/** A plain panel's edge shows nothing but its thickness, which its title says. */
const hasEdgeWork = (part: Part): boolean => part.features.some((one) => isChannel(one) || isChamfer(one))

function edgeView(
  part: Part,
  words: PartWords,
  kinds: readonly ChannelKind[],
  scene: Scene,
): ViewRequestOnPaper {
  const name = (what: string) => `part.${part.key}.${what}`
  return {
    name: 'edge',
    title: words.edgeView,
    lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
    extras: [
      ...rings(part, kinds, 'width'),
      ...part.features.filter(isChamfer).map(
        (_, index): ViewExtra => ({
          kind: 'ring',
          at: { x: 0, y: part.thickness / 2 },
          radius: part.thickness / 2,
          letter: String.fromCharCode(65 + kinds.length + index),
        }),
      ),
    ],
    dimensions: [
      {
        kind: 'linear',
        name: name('thickness'),
        side: 'right',
        from: { x: part.length, y: 0 },
        to: { x: part.length, y: part.thickness },
      },
    ],
  }
}

const hasWorkBelow = (part: Part): boolean =>
  part.features.some((one) => (isHole(one) && one.counterbore) || (isChannel(one) && one.face === 'lower'))

/** Rings on an edge around the channels that a detail enlarges. */
function rings(part: Part, kinds: readonly ChannelKind[], runs: Channel['runs']): readonly ViewExtra[] {
  return kinds
    .filter(({ channel }) => channel.runs === runs)
    .map(({ channel, letter }) => ({
      kind: 'ring',
      at: {
        x: channel.at + channel.size / 2,
        y: channel.face === 'upper' ? part.thickness - channel.depth / 2 : channel.depth / 2,
      },
      radius: channel.size * 0.8,
      letter,
      below: channel.face === 'lower',
    }))
}

interface ChannelKind {
  readonly letter: string
  /** the one that is drawn */
  readonly channel: Channel
  /** all that are alike */
  readonly alike: readonly Channel[]
}

/** Channels of one shape share a detail; a rebate whose size is its place is a shape of its own. */
function channelKinds(part: Part): readonly ChannelKind[] {
  const groups = new Map<string, Channel[]>()
  for (const channel of part.features.filter(isChannel)) {
    const key = `${channel.face} ${channel.kind} ${channel.size.toFixed(6)} ${channel.depth.toFixed(6)}`
    groups.set(key, [...(groups.get(key) ?? []), channel])
  }
  return [...groups.values()].map((alike, index) => ({
    letter: String.fromCharCode(65 + index),
    channel: alike.find((channel) => channel.runs === 'width') ?? alike[0]!,
    alike,
  }))
}

function holeNotes(part: Part, words: PartWords): readonly LeaderRequest[] {
  const groups = new Map<string, Hole[]>()
  for (const hole of part.features.filter(isHole)) {
    const key = `${hole.diameter.toFixed(6)} ${hole.counterbore?.diameter ?? 0} ${hole.counterbore?.depth ?? 0}`
    groups.set(key, [...(groups.get(key) ?? []), hole])
  }
  return [...groups.values()].map((holes) => {
    const hole = holes.reduce((a, b) => (b.v > a.v || (b.v === a.v && b.u > a.u) ? b : a))
    return {
      kind: 'leader',
      name: `part.${part.key}.${hole.name}.note`,
      at: { x: hole.u, y: hole.v },
      radius: hole.diameter / 2,
      text: [
        { words: `${holes.length} × ` },
        { diameter: hole.diameter, name: `part.${part.key}.${hole.name}.diameter` },
        { words: ` ${words.through}` },
      ],
      locates: holes.map((one) => `${one.name}.diameter`),
    }
  })
}

/** A note of its own at another hole, for each size and face: with that of the hole it would be wider than the paper. */
function recessNotes(part: Part, words: PartWords): readonly LeaderRequest[] {
  const groups = new Map<string, Hole[]>()
  for (const hole of part.features.filter(isHole)) {
    if (!hole.counterbore) continue
    const { diameter, depth, face } = hole.counterbore
    const key = `${face} ${diameter.toFixed(6)} ${depth.toFixed(6)}`
    groups.set(key, [...(groups.get(key) ?? []), hole])
  }
  return [...groups.values()].map((holes) => {
    const hole = holes.reduce((a, b) => (b.v < a.v || (b.v === a.v && b.u < a.u) ? b : a))
    const { diameter, depth, face } = hole.counterbore!
    const name = (what: string) => `part.${part.key}.${hole.name}.${what}`
    const word = face === 'lower' ? (words.recessBelow ?? words.recess) : words.recess
    return {
      kind: 'leader',
      name: name('recess.note'),
      at: { x: hole.u, y: hole.v },
      radius: diameter / 2,
      text: [
        { words: `${holes.length} × ${word} ` },
        { diameter, name: name('recess') },
        { words: ' × ' },
        { length: depth, name: name('recess-depth') },
      ],
      locates: holes.flatMap((one) => [`${one.name}.recess`, `${one.name}.recess-depth`]),
    }
  })
}

/** Notches of one shape share a note at the last of them. */
function notchNotes(part: Part, words: PartWords): readonly LeaderRequest[] {
  const groups = new Map<string, Notch[]>()
  for (const notch of part.features.filter(isNotch)) {
    const key = `${notch.size.toFixed(6)} ${notch.depth.toFixed(6)}`
    groups.set(key, [...(groups.get(key) ?? []), notch])
  }
  return [...groups.values()].map((alike) => {
    const notch = alike[alike.length - 1]!
    const name = (what: string) => `part.${part.key}.${notch.name}.${what}`
    return {
      kind: 'leader',
      name: name('note'),
      at: {
        x: notch.at + notch.size / 2,
        y: notch.edge === 'near' ? notch.depth : part.width - notch.depth,
      },
      text: [
        { words: `${alike.length} × ${words.notch} ` },
        { length: notch.size, name: name('size') },
        { words: ' × ' },
        { length: notch.depth, name: name('depth') },
        { words: ` ${words.deep}` },
      ],
      locates: alike.flatMap((one) => [`${one.name}.size`, `${one.name}.depth`]),
    }
  })
}

/** A fold has a place and no size: its note is words alone. */
function foldNotes(part: Part, words: PartWords): readonly LeaderRequest[] {
  return part.features.filter(isFold).map((fold) => ({
    kind: 'leader',
    name: `part.${part.key}.${fold.name}.note`,
    at: { x: fold.at, y: part.width * 0.6 },
    text: [{ words: words.fold }],
  }))
}

/** So has a scribed line. */
function scribeNotes(part: Part, words: PartWords): readonly LeaderRequest[] {
  return part.features.filter(isScribe).map((scribe) => ({
    kind: 'leader',
    name: `part.${part.key}.${scribe.name}.note`,
    at: { x: part.length * 0.6, y: scribe.at },
    text: [{ words: words.scribe }],
  }))
}

/** The bevel of an edge, enlarged: at the scale of the face it would be a hair. */
function chamferDetail(part: Part, chamfer: Chamfer, words: PartWords, before: number): ViewRequestOnPaper {
  const { size } = chamfer
  const to = 2 * part.thickness
  const top = part.thickness
  const corner = (x: number, y: number) => ({ x, y })
  const outline = [
    corner(to, 0),
    corner(size, 0),
    corner(0, size),
    corner(0, top - size),
    corner(size, top),
    corner(to, top),
  ]
  return {
    name: `detail-${String.fromCharCode(97 + before)}`,
    title: `${words.detail} ${String.fromCharCode(65 + before)},`,
    cut: {
      outline: outline.slice(1).map((b, index) => ({ a: outline[index]!, b })),
      wood: [
        { x: size, y: 0, width: to - size, height: top },
        { x: 0, y: size, width: size, height: top - 2 * size },
      ],
      breaks: [{ a: corner(to, 0), b: corner(to, top) }],
      region: { x: 0, y: 0, width: to, height: top },
    },
    dimensions: [
      {
        kind: 'leader',
        name: `part.${part.key}.${chamfer.name}.note`,
        at: { x: size / 2, y: top - size / 2 },
        text: [
          { words: '4 × ' },
          { length: size, name: `part.${part.key}.${chamfer.name}.size` },
          { words: ` ${words.bevel}` },
        ],
        locates: [`${chamfer.name}.size`],
      },
    ],
  }
}

function channelDetail(
  part: Part,
  { channel, alike, letter }: ChannelKind,
  words: PartWords,
): ViewRequestOnPaper {
  const along = channel.runs === 'width' ? 'length' : 'width'
  const size = along === 'length' ? part.length : part.width
  const shown = Math.max(part.thickness, channel.size)
  const far = channel.at + channel.size
  const [face, bottom] =
    channel.face === 'upper' ? [part.thickness, part.thickness - channel.depth] : [0, channel.depth]
  const prefix = alike.length > 1 ? `${alike.length} × ` : ''
  const isStart = channel.kind === 'rebate' && channel.at <= 0
  const wall = isStart ? far : channel.at
  const dimensions: DimensionRequest[] = [
    {
      kind: 'linear',
      name: `part.${part.key}.${channel.name}.depth`,
      side: isStart ? 'left' : 'right',
      from: { x: isStart ? 0 : far, y: bottom },
      to: { x: wall, y: face },
      outside: 'before',
      locates: alike.map((one) => `${one.name}.depth`),
    },
    // The place of a rebate's wall is its width; giving both would say the same thing twice.
    ...(channel.kind === 'rebate'
      ? []
      : [
          {
            kind: 'linear' as const,
            name: `part.${part.key}.${channel.name}.size`,
            side: channel.face === 'upper' ? ('above' as const) : ('below' as const),
            from: { x: channel.at, y: face },
            to: { x: far, y: face },
            prefix,
            locates: alike.map((one) => `${one.name}.size`),
          },
        ]),
  ]
  return {
    name: `detail-${letter.toLowerCase()}`,
    title: `${words.detail} ${letter},`,
    cut: cutFace({
      part,
      along,
      at: clearOfChannels(part, along),
      from: Math.max(0, channel.at - shown),
      to: Math.min(size, far + shown),
    }),
    dimensions,
  }
}

/** A place across the cut that meets no channel running along it. */
function clearOfChannels(part: Part, along: 'length' | 'width'): number {
  const size = along === 'length' ? part.width : part.length
  const walls = part.features
    .filter(isChannel)
    .filter((channel) => channel.runs === along)
    .flatMap((channel) => [channel.at, channel.at + channel.size])
  const stops = [0, ...walls, size].sort((a, b) => a - b)
  const gaps = stops.slice(1).map((stop, index) => ({ from: stops[index]!, to: stop }))
  const isFree = (middle: number) =>
    !part.features.some(
      (feature) =>
        isChannel(feature) &&
        feature.runs === along &&
        middle > feature.at &&
        middle < feature.at + feature.size,
    )
  const free = gaps.filter(({ from, to }) => isFree((from + to) / 2))
  const widest = free.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a), { from: 0, to: 0 })
  return (widest.from + widest.to) / 2
}
