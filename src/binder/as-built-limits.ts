/** Readings of finished fixtures that cannot be: named with their place before anything is reckoned from them. */
import type { Diagnostic } from '../diagnostics.ts'
import type { AsBuiltSection, FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import { type BoundMould, WATER } from './bind-mould.ts'

/** One fixture as it is drawn, before anybody measured it. */
export interface DrawnFixture {
  readonly mould: BoundMould
  readonly grid: BoundGridCutter | undefined
  readonly bar: BoundBarCutter | undefined
}

/** A reading may be off by this share, by an inch at most and never by less than a shaving (common practice). */
const SHARE = 0.1
const MOST = 0.0254
const LEAST = 0.003

/**
 * How far a reading may be off what is drawn.
 *
 * Formula: a tenth of the size, at least 3 mm and at most 1 in. Validity: more than any fit could be.
 * @param drawn size [m]
 * @returns distance [m]
 * @source common practice
 */
export const mayBeOff = (drawn: number): number => Math.max(LEAST, Math.min(MOST, SHARE * drawn))

/** The file without its readings: what is drawn. */
export const asDrawn = (file: Placed<FixtureFile>): Placed<FixtureFile> => {
  const { 'as-built': _readings, ...value } = file.value
  return { ...file, value }
}

/** Sizes that are typed, by their path below "as-built", beside what is drawn. */
interface Typed {
  readonly path: readonly (string | number)[]
  readonly is: number
  readonly drawn: number
  /** what the distance may not exceed, where it is no share of the size */
  readonly may?: number
}

/**
 * @param file  with its readings
 * @param drawn the same fixture without them
 * @returns an error for each reading that cannot be; none for a file without readings
 */
export const asBuiltMistakes = (file: Placed<FixtureFile>, drawn: DrawnFixture): readonly Diagnostic[] => {
  const readings = file.value['as-built']
  if (!readings) return []
  const place = (path: Typed['path']): Pick<Diagnostic, 'severity' | 'file' | 'path' | 'at'> => ({
    severity: 'error',
    file: file.document.file,
    path: `/as-built/${path.join('/')}`,
    at: 'value',
  })
  return [
    ...[...mouldSizes(readings, drawn), ...cutterSizes(readings, drawn)]
      .filter(({ is, drawn: wanted, may }) => Math.abs(is - wanted) > (may ?? mayBeOff(wanted)))
      .map(
        ({ path, is, drawn: wanted, may }): Diagnostic => ({
          ...place(path),
          code: 'as-built-too-far',
          message: `This is ${size(Math.abs(is - wanted))} off the drawing, which has ${size(wanted)} here; no fit is out by more than ${size(may ?? mayBeOff(wanted))}`,
          advice:
            'Measure again, from the face that the page of readings shows. If the thing really is of that size, it was built from another drawing: change the fixture’s own sizes instead.',
        }),
      ),
    ...waterMistakes(readings, drawn).map(
      ({ path, message }): Diagnostic => ({
        ...place(path),
        code: 'as-built-water',
        message,
        advice:
          'Weigh the water again, and measure from the rim straight down to it. A mould of another size was built from another drawing: change the fixture’s own sizes instead.',
      }),
    ),
    ...lists(readings, drawn).flatMap(({ path, found, wanted }): Diagnostic[] =>
      found.length === wanted.length
        ? []
        : [
            {
              ...place(path),
              code: 'as-built-count',
              message: `${found.length} ${found.length === 1 ? 'place is' : 'places are'} written here, and the drawing has ${wanted.length}${wanted.length > 0 ? `: ${wanted.map((one) => millimetres(one)).join(', ')} mm` : ''}`,
              advice:
                'Write the place of every one, in order; where one was not measured write what the drawing has.',
            },
          ],
    ),
    ...lists(readings, drawn).flatMap(({ path, found, end }): Diagnostic[] => {
      const at = found.findIndex((one) => one <= 0 || (end !== undefined && one >= end.is))
      if (at < 0) return []
      return [
        {
          ...place([...path, at]),
          code: 'as-built-outside',
          message: `This is no place between the faces that it is measured between${end ? `, which are ${size(end.is)} apart` : ''}`,
          advice:
            'Measure from the inner face, not from the outer one, and from the same one for all of them.',
        },
      ]
    }),
  ]
}

function mouldSizes(readings: AsBuiltSection, { mould: { mould } }: DrawnFixture): readonly Typed[] {
  const { inside, base, rimAboveBench, parts } = mould
  const whole = [
    ['inside-length', inside.length],
    ['inside-width', inside.width],
    ['rim-above-bench', rimAboveBench],
    ['base-length', base.length],
    ['base-width', base.width],
    ['base-height', base.height],
  ] as const
  return [
    ...whole.flatMap(([key, drawn]) => {
      const is = readings[key]
      return is === undefined ? [] : [{ path: [key], is, drawn }]
    }),
    ...Object.entries(readings.parts ?? {}).flatMap(([key, found]) => {
      const part = parts.find((one) => one.key === key)
      if (!part || !found) return []
      return (['length', 'width'] as const).flatMap((side) => {
        const is = found[side]
        return is === undefined ? [] : [{ path: ['parts', key, side], is, drawn: part[side] }]
      })
    }),
  ]
}

function cutterSizes(readings: AsBuiltSection, drawn: DrawnFixture): readonly Typed[] {
  const { 'grid-cutter': grid, 'bar-cutter': bar } = readings
  const sizes: readonly (readonly [readonly string[], number | undefined, number | undefined])[] = [
    [['grid-cutter', 'inside-length'], grid?.['inside-length'], drawn.grid?.cutter.inside.length],
    [['grid-cutter', 'inside-width'], grid?.['inside-width'], drawn.grid?.cutter.inside.width],
    ...(['short', 'long'] as const).map(
      (layer) =>
        [
          ['grid-cutter', 'speaking-length', `${layer}-wires`],
          grid?.['speaking-length']?.[`${layer}-wires`],
          drawn.grid?.cutter.layers.find((one) => one.layer === layer)?.speakingLength,
        ] as const,
    ),
    [['bar-cutter', 'speaking-length'], bar?.['speaking-length'], drawn.bar?.cutter.strings[0]?.speaking],
  ]
  return [
    ...sizes.flatMap(([path, is, wanted]) =>
      is === undefined || wanted === undefined ? [] : [{ path, is, drawn: wanted }],
    ),
    ...lists(readings, drawn).flatMap(({ path, found, wanted, end }) =>
      found.length === wanted.length
        ? found.flatMap((is, index) =>
            // what is not between the faces at all is told as such
            is <= 0 || (end && is >= end.is)
              ? []
              : [{ path: [...path, index], is, drawn: wanted[index] ?? 0, may: placeMayBeOff(wanted) }],
          )
        : [],
    ),
  ]
}

/** Half of the way to the next one: further off it would be taken for its neighbour; and no more than an inch [m]. */
const placeMayBeOff = (wanted: readonly number[]): number =>
  Math.max(
    LEAST,
    Math.min(MOST, ...wanted.slice(1).map((place, index) => (place - (wanted[index] ?? 0)) / 2)),
  )

interface Places {
  readonly path: readonly string[]
  readonly found: readonly number[]
  readonly wanted: readonly number[]
  /** what they lie within [m] */
  readonly end?: { readonly is: number }
}

function lists(readings: AsBuiltSection, { mould, grid, bar }: DrawnFixture): readonly Places[] {
  const { 'grid-cutter': found, 'bar-cutter': sliced } = readings
  const { base, block } = mould.mould
  const grooves = (side: 'length' | 'width', cuts: readonly number[]): readonly number[] =>
    cuts.map((cut) => cut + (base[side] - block[side]) / 2)
  const places = (
    path: readonly string[],
    typed: readonly number[] | undefined,
    wanted: readonly number[],
    end?: number,
  ): Places[] =>
    typed ? [{ path, found: typed, wanted, ...(end === undefined ? {} : { end: { is: end } }) }] : []
  const across = (side: 'length' | 'width'): Places[] => {
    if (!grid) return []
    const drawn = grid.cutter.inside[side]
    const runs = side === 'length' ? 'width' : 'length'
    return places(
      ['grid-cutter', `wires-across-${side}`],
      found?.[`wires-across-${side}`],
      grid.cutter.wires.filter((wire) => wire.runs === runs).map(({ at }) => drawn / 2 + at),
      found?.[`inside-${side}`] ?? drawn,
    )
  }
  return [
    ...places(
      ['grooves-across-length'],
      readings['grooves-across-length'],
      grooves('length', block.cutsAcrossLength),
      readings['base-length'] ?? base.length,
    ),
    ...places(
      ['grooves-across-width'],
      readings['grooves-across-width'],
      grooves('width', block.cutsAcrossWidth),
      readings['base-width'] ?? base.width,
    ),
    ...across('length'),
    ...across('width'),
    ...(bar ? places(['bar-cutter', 'wires'], sliced?.wires, block.cutsAcrossHeight) : []),
  ]
}

interface WaterMistake {
  readonly path: readonly string[]
  readonly message: string
}

/** The volume is as far from the drawing's as both of its sizes together may be. */
function waterMistakes(
  { water }: AsBuiltSection,
  { mould: { mould } }: DrawnFixture,
): readonly WaterMistake[] {
  if (!water) return []
  const height = mould.rimAboveBase - water['below-rim']
  if (height <= 0)
    return [
      {
        path: ['water', 'below-rim'],
        message: `The base lies ${size(mould.rimAboveBase)} below the rim by the drawing: so low there is no water`,
      },
    ]
  const wanted = mould.lined.length * mould.lined.width * height * WATER
  if (Math.abs(water.weighed - wanted) <= SHARE * wanted) return []
  return [
    {
      path: ['water', 'weighed'],
      message: `The mould as drawn takes ${(Math.round(wanted * 100) / 100).toString()} kg of water to ${size(water['below-rim'])} below its rim: this is more than ${100 * SHARE} % off`,
    },
  ]
}

const millimetres = (length: number): string => (Math.round(length * 1e4) / 10).toString()

const size = (length: number): string =>
  `${millimetres(length)} mm (${(Math.round((length / 0.0254) * 100) / 100).toString()} in)`
