/** Where in a maker's file the entries stand that contradict each other. */
import type { Finding } from '../findings.ts'
import { type FindingPlace, type Placed, placeAt } from '../schema/placed.ts'

/** A finding with the line that it is about, where a file writes it. */
export interface PlacedFinding extends Finding {
  readonly place: FindingPlace | undefined
}

/** Where a maker says what soap holds a wire back with. */
const LOADS = ['/cutting-load/usual', '/cutting-trial/readings'] as const

/** The sizes that a maker can change, the likelier one first. What follows from many sizes has no place. */
const KEYS: Readonly<Record<string, readonly string[]>> = {
  'mould-dado-too-deep': ['/dado/depth', '/panels/side'],
  'mould-end-too-thick-for-dado': ['/dado/fit', '/panels/end'],
  'mould-block-shorter-than-bars': [
    '/as-built/inside-length',
    '/as-built/parts/side/length',
    '/bar/along-length',
  ],
  'mould-block-narrower-than-bars': [
    '/as-built/inside-width',
    '/as-built/parts/end/length',
    '/bar/along-width',
  ],
  'mould-base-does-not-enter': ['/base/clearance', '/lining'],
  'mould-base-larger-than-block': [
    '/base/clearance',
    '/lining',
    '/as-built/base-length',
    '/as-built/base-width',
  ],
  'mould-seam-too-wide': ['/base/clearance', '/lining', '/as-built/base-length', '/as-built/base-width'],
  'mould-base-too-low': ['/base/height', '/panels/base-top', '/as-built/base-height'],
  'mould-groove-too-deep': ['/base/groove-depths/short-wires', '/panels/base-top'],
  'mould-groove-rib-too-thin': ['/base/groove-width', '/bar/along-length', '/bar/along-width'],
  'mould-short-wires-do-not-lead': ['/base/groove-depths/short-wires', '/base/groove-depths/long-wires'],
  'mould-groove-strip-too-thick': ['/base/groove-width', '/base/groove-strips'],
  'mould-groove-strip-too-thin': ['/base/groove-width', '/base/groove-strips'],
  'mould-rod-meets-end': ['/lip', '/rods/thread'],
  'mould-rods-meet': ['/rods/heights'],
  'mould-rod-off-panel': ['/rods/heights', '/base/height'],
  'mould-washer-meets-strip': ['/rods/heights', '/strip-width'],
  'mould-rod-longer-than-stock': ['/rods/stock-length'],
  'mould-washer-recess-too-deep': ['/rods/washer-recess', '/panels/side'],
  'mould-base-rods-without-gap': ['/rods/in-base', '/base/rails'],
  'mould-rod-meets-base': ['/base/height', '/rods/in-base'],
  'mould-rod-meets-rail': ['/rods/in-base', '/base/rails'],
  'as-built-frame-short': ['/as-built/grid-cutter/inside-length', '/as-built/inside-length'],
  'as-built-frame-narrow': ['/as-built/grid-cutter/inside-width', '/as-built/inside-width'],
  'as-built-frame-short-if-built': ['/as-built/inside-length', '/as-built/base-length'],
  'as-built-frame-narrow-if-built': ['/as-built/inside-width', '/as-built/base-width'],
  'as-built-wire-misses-groove': [
    '/as-built/grid-cutter/wires-across-length',
    '/as-built/grid-cutter/wires-across-width',
    '/base/groove-width',
  ],
  'as-built-wire-misses-slot': [
    '/as-built/bar-cutter/wires',
    '/bar-cutter/slot-width',
    '/bar-cutter/groove-width',
  ],
  'heat-log-too-short': ['/core-temperatures'],
  'heat-log-not-matched': ['/core-temperatures'],
  'heat-log-beyond-rates': ['/core-temperatures'],
  'heat-log-tells-nothing': ['/core-temperatures'],
  'core-colder-than-room': ['/core-temperatures'],
  'block-boils': ['/pour-temperature', '/block/insulation', '/oils', '/fill', '/on-hand'],
  'fragrance-over-limit': ['/additions'],
  'superfat-under-floor': ['/superfat'],
  'room-hotter-than-gel': ['/room/usual-temperature'],
  'room-warmer-than-cut': ['/room/usual-temperature', '/block/cut-below'],
  'walls-off-before-held': ['/block/walls-off', '/block/strip-not-before'],
  'lid-off-after-strip': ['/block/lid-off'],
  'insulation-off-after-strip': ['/block/insulation-off'],
  'mould-occupied': ['/date'],
  'racks-full': ['/date'],
  'pour-on-rest-day': ['/date'],
  'pour-outside-hours': ['/pour-at', '/date'],
  'window-on-rest-day': ['/date'],
  'window-at-night': ['/pour-at', '/date'],
  'window-opens-on-rest-day': ['/date'],
  'window-opens-at-night': ['/pour-at', '/date'],
  'hottest-at-night': ['/pour-at', '/date'],
  'no-cut-window': ['/mould'],
  'weigh-in-before-pour': ['/weigh-ins', '/date'],
  'weigh-ins-out-of-order': ['/weigh-ins'],
  'bars-below-label': ['/label-weight', '/weigh-ins'],
  'mould-cleat-meets-soap': ['/freeboard', '/panels/lid'],
  'grid-has-no-wires': ['/grid', '/grid-cutter'],
  'grid-grooves-missing': ['/as-built/grooves-across-length', '/as-built/grooves-across-width'],
  'grid-layers-touch': ['/grid-cutter/layer-gap', '/grid-cutter/tension', ...LOADS],
  'grid-wire-thicker-than-groove': ['/grid-cutter/wire', '/base/groove-width'],
  'grid-groove-too-narrow': ['/base/groove-width', '/grid-cutter/clearance', '/grid-cutter/wire'],
  'grid-short-groove-too-shallow': ['/base/groove-depths/short-wires', '/grid-cutter/tension', ...LOADS],
  'grid-long-groove-too-shallow': ['/base/groove-depths/long-wires', '/grid-cutter/tension', ...LOADS],
  'grid-groove-web-too-thin': ['/panels/base-top', '/grid-cutter/tension', ...LOADS],
  'grid-pegs-meet': ['/grid-cutter/peg', '/bar/along-length', '/bar/along-width'],
  'grid-peg-meets-handle': ['/trim/front', '/trim/back', '/grid-cutter/peg'],
  'grid-shelf-does-not-take-peg': ['/grid-cutter/panels/shelf', '/grid-cutter/peg'],
  'grid-shelf-too-narrow': ['/grid-cutter/shelf-depth'],
  'grid-post-below-edge': ['/grid-cutter/skirt'],
  'grid-frame-does-not-clear': ['/grid-cutter/clearance'],
  'grid-base-jams-frame': ['/grid-cutter/clearance', '/base/clearance'],
  'grid-skirt-too-short': ['/grid-cutter/skirt'],
  'grid-frame-meets-bench': ['/base/height', '/grid-cutter/skirt'],
  'grid-stop-block-too-short': ['/grid-cutter/skirt'],
  'grid-cleat-meets-frame': ['/base/height', '/grid-cutter/panels/shelf'],
  'grid-cleat-meets-stop-block': ['/grid-cutter/panels/end'],
  'grid-cleat-takes-no-screw': ['/grid-cutter/panels/end', '/grid-cutter/panels/side'],
  'grid-stick-takes-no-screw': ['/grid-cutter/panels/side'],
  'grid-sliver-jams': ['/grid-cutter/clearance', '/grid-cutter/wire'],
  'grid-frame-too-low': ['/grid-cutter/above-wires', '/grid-cutter/panels/shelf'],
  'grid-dado-too-deep': ['/grid-cutter/dado/depth', '/grid-cutter/panels/side', '/dado/depth'],
  'grid-handle-too-short': ['/grid-cutter/handle'],
  'grid-no-room-for-hands': ['/grid-cutter/handle', '/grid-cutter/shelf-depth'],
  'grid-loaves-out-of-reach': ['/grid-cutter/above-wires'],
  'push-wants-two-people': ['/grid-cutter/stand-height', ...LOADS],
  'push-wants-two-stages': ['/grid-cutter/stand-height', ...LOADS],
  'push-wants-lever': ['/grid-cutter/stand-height', ...LOADS],
  'trial-load-out-of-range': ['/cutting-trial/readings'],
  'trial-readings-scatter': ['/cutting-trial/readings'],
  'trial-wires-too-near': ['/trial-frame/spacing', '/trial-frame/block/length', '/grid-cutter/wire'],
  'trial-block-too-narrow': ['/trial-frame/block/width', '/trial-frame/spacing'],
  'trial-outer-slice-too-thin': ['/trial-frame/block/length', '/trial-frame/spacing'],
  'trial-post-below-edge': ['/trial-frame/panels/top', '/panels/base-top'],
  'trial-groove-web-too-thin': ['/trial-frame/panels/top', '/panels/base-top', '/grid-cutter/tension'],
  'trial-pegs-meet': ['/trial-frame/spacing', '/grid-cutter/peg'],
  'trial-shelf-does-not-take-peg': [
    '/trial-frame/panels/shelf',
    '/grid-cutter/panels/shelf',
    '/grid-cutter/peg',
  ],
  'trial-shelf-too-narrow': ['/grid-cutter/shelf-depth'],
  'trial-scale-too-small': ['/trial-frame/scale/capacity', '/trial-frame/block'],
  'trial-wire-too-weak': ['/grid-cutter/wire', '/grid-cutter/peg-rating', '/grid-cutter/tension'],
  'trial-frame-meets-block': ['/trial-frame/panels'],
  'trial-wire-meets-base': ['/trial-frame/panels/top'],
  'trial-wire-meets-frame': ['/grid-cutter/wire'],
  'trial-peg-cannot-turn': ['/trial-frame/spacing', '/grid-cutter/peg'],
  'press-not-needed': ['/lever-press'],
  'press-lever-too-long': ['/lever-press/stand-top'],
  'press-handle-too-short': ['/grid-cutter/handle', '/lever-press/panel'],
  'press-cleat-under-frame': ['/lever-press/panel', '/grid-cutter/skirt'],
  'press-frame-too-low': ['/grid-cutter/above-wires'],
  'press-hands-too-high': ['/lever-press/stand-top'],
  'press-hands-too-low': ['/lever-press/stand-top'],
  'press-board-too-weak': ['/lever-press/panel'],
  'press-crushes-handles': ['/lever-press/panel'],
  'press-link-bolts-too-weak': ['/lever-press/panel', '/lever-press/lumber/board'],
  'press-pin-bends': ['/lever-press/packer'],
  ...Object.fromEntries(
    ['lever-too-weak', 'beam-too-weak', 'spine-too-weak'].map((code) => [
      `press-${code}`,
      ['/lever-press/lumber/width', '/lever-press/lumber/board', '/lever-press/lumber/wood'],
    ]),
  ),
  ...Object.fromEntries(
    ['lever-shears', 'pin-crushes-posts', 'pin-crushes-lever', 'post-splits', 'post-bolts-too-weak'].map(
      (code) => [`press-${code}`, ['/lever-press/lumber/board', '/lever-press/lumber/wood']],
    ),
  ),
  'mould-rods-too-far-apart': ['/rods/heights', '/panels/side'],
  'mould-rods-cannot-hold': ['/rods/heights', '/panels/side', '/lip'],
  'bar-cutter-nothing-to-cut': ['/grid/slices', '/trim/top'],
  'bar-cutter-groove-too-narrow': ['/bar-cutter/groove-width', '/bar-cutter/wire'],
  'bar-cutter-slot-too-narrow': ['/bar-cutter/slot-width', '/bar-cutter/groove-width', '/bar-cutter/wire'],
  'bar-cutter-finger-too-thin': [
    '/bar-cutter/slot-width',
    '/bar-cutter/groove-width',
    '/bar/thickness',
    '/trim/bottom',
  ],
  'bar-cutter-skin-left': ['/bar-cutter/wire-depth', '/bar-cutter/tension', ...LOADS],
  'bar-cutter-groove-too-shallow': ['/bar-cutter/groove-depth', '/bar-cutter/wire-depth'],
  'bar-cutter-groove-too-deep': [
    '/bar-cutter/groove-depth',
    '/bar-cutter/wire-depth',
    '/bar-cutter/panels/platform',
  ],
  'bar-cutter-axis-above-platform': ['/bar-cutter/wire-depth'],
  'bar-cutter-buttons-meet': ['/bar/thickness'],
  'bar-cutter-pins-meet': ['/bar/thickness'],
  'bar-cutter-catch-does-not-reach': ['/bar-cutter/panels/upright'],
  'bar-cutter-catch-meets-rail': ['/bar-cutter/panels/upright', '/bar-cutter/platform-height'],
  'bar-cutter-post-too-short': ['/bar-cutter/panels/frame', '/bar-cutter/peg'],
  'bar-cutter-rail-too-thin': ['/bar-cutter/panels/frame'],
  'bar-cutter-rail-too-thick': ['/bar-cutter/panels/frame'],
  'bar-cutter-frame-does-not-clear': ['/bar-cutter/clearance'],
  'bar-cutter-front-rail-too-narrow': ['/bar-cutter/front-rail-width'],
  'bar-cutter-back-rail-too-narrow': ['/bar-cutter/back-rail-width'],
  'bar-cutter-platform-too-low': [
    '/bar-cutter/platform-height',
    '/bar-cutter/panels/platform',
    '/bar-cutter/panels/base',
  ],
  'bar-cutter-handle-too-short': ['/bar-cutter/handle'],
  'bar-cutter-no-room-for-knuckles': ['/bar-cutter/platform-height'],
  'bar-cutter-tips-back': ['/bar-cutter/handle', '/bar-cutter/panels/base', '/bar-cutter/platform-height'],
  'bar-cutter-tips-forward': ['/bar-cutter/handle', '/bar-cutter/panels/base'],
}

/** Of a wire that a finding names: the section of its cutter, and the tension that is stated for it. */
const WIRES: Readonly<Record<string, { readonly section: string; readonly tension: string }>> = {
  'wire-short': { section: '/grid-cutter', tension: '/grid-cutter/tension/short-wires' },
  'wire-long': { section: '/grid-cutter', tension: '/grid-cutter/tension/long-wires' },
  'cutter-wire': { section: '/bar-cutter', tension: '/bar-cutter/tension' },
}

/** What a maker can change about a wire that a finding names. */
const WIRE_KEYS: Readonly<
  Record<string, (wire: { readonly section: string; readonly tension: string }) => readonly string[]>
> = {
  'wire-breaks': ({ section, tension }) => [tension, `${section}/wire`, ...LOADS],
  'wire-peg-slips': ({ section, tension }) => [tension, `${section}/peg-rating`, `${section}/peg`, ...LOADS],
  'wire-anchor-gives': ({ section, tension }) => [tension, `${section}/wire`, ...LOADS],
  'wire-breaks-at-edge': ({ section, tension }) => [tension, `${section}/wire`, ...LOADS],
  'wire-bend-too-sharp': ({ section }) => [`${section}/wire`],
  'wire-no-tension-fits': ({ section }) => [
    `${section}/wire`,
    `${section}/peg-rating`,
    ...(section === '/grid-cutter' ? ['/base/groove-depths'] : [`${section}/wire-depth`]),
    ...LOADS,
  ],
  'wire-tuned-out-of-range': ({ tension, section }) => [tension, `${section}/wire`, ...LOADS],
  'wire-stiffness-raises-pitch': ({ section }) => [`${section}/wire`],
  'rail-too-limber': ({ section }) => [
    ...(section === '/grid-cutter'
      ? [`${section}/shelf-depth`]
      : [`${section}/front-rail-width`, `${section}/back-rail-width`]),
    `${section}/wire`,
  ],
  'rail-bow-slackens-wires': ({ section }) => [`${section}/wire`],
}

/**
 * Places of the sizes that a finding is about.
 *
 * @param file    of a maker, with the places of its values
 * @param finding of it
 * @returns those that the file writes; none for what follows from many sizes
 */
export const placesOf = (
  { document }: Placed<unknown>,
  { code, values }: Finding,
): readonly FindingPlace[] => {
  const wire = WIRES[values.one ?? '']
  const paths = KEYS[code] ?? (wire && WIRE_KEYS[code]?.(wire)) ?? []
  return paths.flatMap((path) => placeAt(document, path) ?? [])
}
