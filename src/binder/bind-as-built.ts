/** What the readings of one fixture change: which bars come out, what batches take, what wires are tuned to, what it costs. */
import { type Finding, isStopped } from '../findings.ts'
import {
  type BarGrid,
  barsSummary,
  type CutDirection,
  cellsBetween,
  labelCount,
} from '../fixtures/measured-bars.ts'
import type { Content } from '../schema/content.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import { centsBetween } from '../wires/pitch.ts'
import type { DrawnFixture } from './as-built-limits.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import { type BoundBatch, bindBatch } from './bind-batch.ts'
import type { BoundCure } from './bind-calendar.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import { type BoundMould, WATER } from './bind-mould.ts'
import { barStands, frameInside, frameWires, gridAsBuilt, gridStands, type Stands } from './misfits.ts'
import type { WireGroup } from './wire-groups.ts'

/** Which fixture a reading is taken on. */
export type ReadingOn = 'mould' | 'grid-cutter' | 'bar-cutter'

/** One reading that changes numbers: where it is taken, what is drawn, what was found. */
export interface Reading {
  readonly on: ReadingOn
  /** stable: `inside-length`, `wires-across-length` */
  readonly key: string
  /** of a list, counted from 1 */
  readonly number?: number
  /** as the fixture's file calls it, below "as-built" */
  readonly path: string
  readonly unit: 'length' | 'mass'
  readonly drawn: number
  /** what it may be off without changing anything that matters [m]; the rest is a shop's own care */
  readonly allowed: number
  readonly found: number | undefined
  /** beyond this the binder stops: it has to be built anew; left out where nothing of the kind hangs on it */
  readonly stands?: Stands
  /** typed in however little it is off: what hangs on it no rule tells, or oils follow it alone */
  readonly isAlwaysTyped?: boolean
  /** by how much the least of it is less than the other reading that it follows [m] */
  readonly follows?: { readonly key: string; readonly less: number }
  readonly effect: ReadingEffect
}

/** What a reading that is a little more changes; what is not named it does not touch. */
export interface ReadingEffect {
  /** of the oils of the batch, for each metre or kilogram more [kg/m, –]; of a tape none where water has told */
  readonly oils?: number
  /** of the bars at the two outer faces, or of those on either side of a wire [kg/m] */
  readonly bars?: { readonly which: 'outer' | 'beside'; readonly mass: number }
  /** hundredths of a semitone for each share that it is longer [–] */
  readonly length?: number
  /** room of a frame on each side, for each metre [–] */
  readonly room?: number
}

/** The wires of a group as drawn and as they are. */
export interface WiresAsBuilt {
  readonly is: WireGroup
  readonly drawn: WireGroup
  /** from the note of the drawing to that of the wire as it is, at the tension that was meant [cents] */
  readonly cents: number
  /** of the longest piece [m] */
  readonly cut: { readonly is: number; readonly drawn: number }
}

/** One way in which bars come out: weights are those of the day on which they are cut. */
export interface BarsOfBatch {
  /** [kg] */
  readonly smallest: number
  readonly largest: number
  readonly mean: number
  /** bars lighter than the label on their last day of sale; of the others what all of them hold beyond it then [kg] */
  readonly label: { readonly under: number; readonly given: number } | undefined
}

/** A planned batch, poured into the mould that was measured and cut with the cutters that were. */
export interface BatchAsBuilt {
  readonly batch: BoundBatch
  readonly bars: number
  /** of the set soap [kg/m3] */
  readonly density: number
  readonly declared: number | undefined
  /** that a bar must weigh when it is cut to keep its label, by the middle of what is known of its drying [kg] */
  readonly greenNeeded: number | undefined
  readonly is: BarsOfBatch
  readonly drawn: BarsOfBatch
  /** of the oils [kg], and of the set block if the drawing's oils were poured [m] */
  readonly oils: { readonly is: number; readonly drawn: number }
  readonly height: { readonly is: number; readonly drawn: number }
}

export interface BoundAsBuilt {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly file: Placed<FixtureFile>
  /** whether anything is typed in that this page asks for */
  readonly isTyped: boolean
  readonly mould: BoundMould
  readonly grid: BoundGridCutter | undefined
  readonly bar: BoundBarCutter | undefined
  /** in the order in which they are taken */
  readonly readings: readonly Reading[]
  /** sizes of the bars */
  readonly bars: { readonly is: BarGrid; readonly drawn: BarGrid }
  readonly wires: readonly WiresAsBuilt[]
  readonly batches: readonly BatchAsBuilt[]
  /** what is wrong with the fixtures as measured and was not with the drawing: what does not go together above all */
  readonly findings: readonly Finding[]
  /** of the mould as drawn: where it does not stand there is nothing to measure */
  readonly stops: readonly Finding[]
}

/** m; what plywood outlines and places are off in any shop (common practice, from memory) */
const OUTLINE = 0.0254 / 32
const PLACE = 0.0254 / 64
/** kg; of a bathroom scale, or a kitchen scale in several goes (common practice) */
const WATER_ALLOWED = 0.1

/**
 * @param is    fixture with its readings
 * @param drawn the same without them; the same thing where there are none
 * @param cures bars of the batches that are planned in this mould
 * @returns what follows from the readings
 */
export const bindAsBuilt = (
  content: Content,
  is: DrawnFixture,
  drawn: DrawnFixture,
  batches: readonly BoundBatch[],
  cures: readonly BoundCure[],
): BoundAsBuilt => {
  const { mould } = is
  // of a cutter that is never built no size is told
  const [grid, bar] = [standing(is.grid, drawn.grid), standing(is.bar, drawn.bar)]
  const bars = { is: barGrid(is), drawn: barGrid(drawn) }
  const planned = batches.flatMap((batch) => {
    const cure = cures.find((one) => one.batch === batch)
    return cure ? [batchAsBuilt(content, batch, cure, is, drawn, bars)] : []
  })
  const groups = [...(grid?.wires.groups ?? []), ...(bar?.wires.groups ?? [])]
  const before = [...(drawn.grid?.wires.groups ?? []), ...(drawn.bar?.wires.groups ?? [])]
  const readings = readingsOf({ mould, grid, bar }, drawn, planned[0])
  return {
    key: mould.key,
    title: mould.title,
    file: mould.file,
    isTyped: readings.some(({ found }) => found !== undefined),
    mould,
    grid,
    bar,
    readings,
    bars,
    wires: groups.flatMap((group) => {
      const as = before.find(({ key }) => key === group.key)
      return as
        ? [
            {
              is: group,
              drawn: as,
              cents: centsBetween(as.chosen.pitch, group.chosen.pitch),
              cut: { is: longestCut(is, group.key), drawn: longestCut(drawn, group.key) },
            },
          ]
        : []
    }),
    batches: planned,
    findings: is === drawn ? [] : newFindings(is, drawn),
    stops: drawn.mould.findings,
  }
}

/** What was not found of the drawing; proofs are of the drawing always. */
const newFindings = (is: DrawnFixture, drawn: DrawnFixture): readonly Finding[] => {
  const all = ({ mould, grid, bar }: DrawnFixture) => [mould, grid, bar].flatMap((one) => one ?? [])
  const before = new Set(all(drawn).flatMap(({ findings }) => findings.map(({ code }) => code)))
  return all(is).flatMap(({ findings, proof }) =>
    findings.filter((one) => !before.has(one.code) && !proof?.findings.includes(one)),
  )
}

/** A cutter, unless its drawing does not stand. */
const standing = <Cutter extends { readonly findings: readonly Finding[] }>(
  cutter: Cutter | undefined,
  drawn: Cutter | undefined,
): Cutter | undefined => (drawn && isStopped(drawn.findings) ? undefined : cutter)

/**
 * Sizes of the bars: the block as it was measured, cut by wires where they were measured, the frame in its middle.
 *
 * What water found and no tape did is shared by both ways of the block alike.
 */
const barGrid = ({ mould: { mould, file }, grid, bar }: DrawnFixture): BarGrid => {
  const { block, lined, insideArea, input } = mould
  const readings = file.value['as-built'] ?? {}
  const byTape = lined.length * lined.width
  const stretch = byTape > 0 ? Math.sqrt(insideArea / byTape) : 1
  const wires = grid
    ? frameWires(grid.cutter, gridAsBuilt(readings))
    : {
        acrossLength: block.cutsAcrossLength.map((cut) => cut - block.length / 2),
        acrossWidth: block.cutsAcrossWidth.map((cut) => cut - block.width / 2),
      }
  const allowance = file.value['wire-allowance'] ?? {}
  const direction = (side: 'length' | 'width', places: readonly number[]): CutDirection => ({
    faces: [(-lined[side] * stretch) / 2, (lined[side] * stretch) / 2],
    wires: places,
    trimmed: [input.block.trim[side].start > 0, input.block.trim[side].end > 0],
    allowance: allowance[side] ?? 0,
  })
  return {
    columns: cellsBetween(direction('length', wires.acrossLength)),
    rows: cellsBetween(direction('width', wires.acrossWidth)),
    slices: cellsBetween({
      faces: [0, block.setHeight],
      wires: (bar && readings['bar-cutter']?.wires) ?? block.cutsAcrossHeight,
      trimmed: [block.trim.height.start > 0, block.trim.height.end > 0],
      allowance: allowance.height ?? 0,
    }),
  }
}

function batchAsBuilt(
  content: Content,
  batch: BoundBatch,
  { barMass, weightOn, label }: BoundCure,
  is: DrawnFixture,
  drawn: DrawnFixture,
  bars: BoundAsBuilt['bars'],
): BatchAsBuilt {
  const { fill, file } = batch
  // A batch that cannot be bound in the drawn mould is told of as it is.
  const before = is === drawn ? undefined : bindBatch(content, file, drawn.mould)
  const asDrawn = before && 'batch' in before ? before.batch.fill : fill
  const density = fill.pouredMass / (fill.area * fill.setHeight.nominal)
  const left = weightOn(label.until).middle / barMass
  const { declared } = label
  const of = (grid: BarGrid): BarsOfBatch => {
    const cut = { ...grid, slices: grid.slices.slice(0, fill.slices) }
    const summary = barsSummary(cut)
    return {
      smallest: (summary?.smallest.volume ?? 0) * density,
      largest: (summary?.largest.volume ?? 0) * density,
      mean: (summary?.mean ?? 0) * density,
      label: declared === undefined ? undefined : labelCount(cut, density * left, declared),
    }
  }
  return {
    batch,
    bars: fill.bars,
    density,
    declared,
    greenNeeded: declared === undefined ? undefined : declared / left,
    is: of(bars.is),
    drawn: of(bars.drawn),
    oils: { is: fill.oilMass, drawn: asDrawn.oilMass },
    height: {
      is: asDrawn.setHeight.nominal * (asDrawn.area / fill.area),
      drawn: asDrawn.setHeight.nominal,
    },
  }
}

const longestCut = ({ grid, bar }: DrawnFixture, key: WireGroup['key']): number => {
  const lengths =
    key === 'bar'
      ? (bar?.cutter.strings ?? [])
      : (grid?.cutter.wireLengths ?? []).filter(({ layer }) => key === `grid-${layer}`)
  return Math.max(0, ...lengths.map(({ length }) => length))
}

/** The few that change numbers, in the order in which one person with a tape takes them. */
function readingsOf(
  { mould, grid, bar }: DrawnFixture,
  drawn: DrawnFixture,
  batch: BatchAsBuilt | undefined,
): readonly Reading[] {
  const typed = mould.file.value['as-built'] ?? {}
  const { lined, inside, rimAboveBase } = drawn.mould.mould
  const { alongLength, alongWidth, thickness } = mould.bar.green
  const mass = batch?.drawn.mean
  const oils = batch?.oils.drawn
  const beside = (size: number): ReadingEffect =>
    mass === undefined ? {} : { bars: { which: 'beside', mass: mass / size } }
  const room = (side: 'length' | 'width', size: number): ReadingEffect => {
    const { start, end } = drawn.mould.mould.block.trim[side]
    const isBar = start === 0 || end === 0
    return {
      ...(oils === undefined || typed.water ? {} : { oils: oils / lined[side] }),
      ...(mass === undefined || !isBar ? {} : { bars: { which: 'outer', mass: mass / size / 2 } }),
    }
  }
  const { water } = typed
  // bars may be a little short; a base that was measured has to find its block no smaller
  const { block, limits } = drawn.mould.mould.input
  const stands = (side: 'length' | 'width'): Stands => ({
    from:
      inside[side] - lined[side] + Math.max(block[side] - limits.barShortfall, typed[`base-${side}`] ?? 0),
  })
  const below = water?.['below-rim'] ?? drawn.mould.file.value.freeboard
  const filled = lined.length * lined.width * (rimAboveBase - below) * WATER
  const ofMould: Reading[] = [
    {
      on: 'mould',
      key: 'water-weighed',
      path: 'water: weighed',
      unit: 'mass',
      drawn: filled,
      allowed: WATER_ALLOWED,
      found: water?.weighed,
      isAlwaysTyped: true,
      effect: oils === undefined || filled <= 0 ? {} : { oils: oils / filled },
    },
    {
      on: 'mould',
      key: 'water-below-rim',
      path: 'water: below-rim',
      unit: 'length',
      drawn: below,
      allowed: OUTLINE,
      found: water?.['below-rim'],
      isAlwaysTyped: true,
      effect: oils === undefined || rimAboveBase <= below ? {} : { oils: oils / (rimAboveBase - below) },
    },
    {
      on: 'mould',
      key: 'inside-length',
      path: 'inside-length',
      unit: 'length',
      drawn: inside.length,
      allowed: OUTLINE,
      found: typed['inside-length'],
      stands: stands('length'),
      effect: room('length', alongLength),
    },
    {
      on: 'mould',
      key: 'inside-width',
      path: 'inside-width',
      unit: 'length',
      drawn: inside.width,
      allowed: OUTLINE,
      found: typed['inside-width'],
      stands: stands('width'),
      effect: room('width', alongWidth),
    },
  ]
  return [
    ...ofMould,
    ...(grid ? gridReadings(grid, typed, { alongLength, alongWidth }, beside) : []),
    ...(bar ? barReadings(bar, typed['bar-cutter'], thickness, beside) : []),
  ]
}

type AsBuilt = NonNullable<FixtureFile['as-built']>

function gridReadings(
  { cutter }: NonNullable<DrawnFixture['grid']>,
  asBuilt: AsBuilt,
  cell: { readonly alongLength: number; readonly alongWidth: number },
  beside: (size: number) => ReadingEffect,
): readonly Reading[] {
  const on = 'grid-cutter' as const
  const typed = asBuilt['grid-cutter']
  const stands = {
    length: gridStands(cutter, asBuilt, 'length'),
    width: gridStands(cutter, asBuilt, 'width'),
  }
  const drawn = frameInside(cutter, { speaking: {} })
  const places = frameWires(cutter, { speaking: {} })
  const row = (
    side: 'length' | 'width',
    key: `wires-across-${'length' | 'width'}`,
    middles: readonly number[],
    size: number,
  ): readonly Reading[] =>
    middles.map((at, index) => ({
      on,
      key,
      number: index + 1,
      path: `grid-cutter: ${key}`,
      unit: 'length',
      drawn: drawn[side] / 2 + at,
      allowed: cutter.input.limits.wander,
      found: typed?.[key]?.[index],
      stands: stands[side].wires[index] ?? {},
      effect: beside(size),
    }))
  // a base that was measured stays as large as it is whatever the mould's inside is
  const followsMould = (side: 'length' | 'width'): Pick<Reading, 'follows'> => {
    const { from } = stands[side].inside
    const isOwn = asBuilt[`base-${side}`] ?? asBuilt.parts?.['base-top']?.[side]
    if (from === undefined || isOwn !== undefined) return {}
    return { follows: { key: `inside-${side}`, less: cutter.input.mould.inside[side] - from } }
  }
  return [
    ...(['length', 'width'] as const).map(
      (side): Reading => ({
        on,
        key: `frame-${side}`,
        path: `grid-cutter: inside-${side}`,
        unit: 'length',
        drawn: drawn[side],
        allowed: OUTLINE,
        found: typed?.[`inside-${side}`],
        isAlwaysTyped: true,
        stands: stands[side].inside,
        ...followsMould(side),
        effect: { room: 1 / 2 },
      }),
    ),
    ...row('length', 'wires-across-length', places.acrossLength, cell.alongLength),
    ...row('width', 'wires-across-width', places.acrossWidth, cell.alongWidth),
    ...cutter.layers.map(({ layer }): Reading => {
      const found = typed?.['speaking-length']?.[`${layer}-wires`]
      // a typed one has taken its place among the layers, not among the wires
      const own = cutter.wires.find((wire) => wire.layer === layer)
      const asDrawn = own ? 2 * own.half : 0
      return {
        on,
        key: `speaking-${layer}`,
        path: `grid-cutter: speaking-length: ${layer}-wires`,
        unit: 'length',
        drawn: asDrawn,
        allowed: OUTLINE,
        found,
        effect: { length: 1 / asDrawn },
      }
    }),
  ]
}

function barReadings(
  { cutter }: NonNullable<DrawnFixture['bar']>,
  typed: AsBuilt['bar-cutter'],
  thickness: number,
  beside: (size: number) => ReadingEffect,
): readonly Reading[] {
  const on = 'bar-cutter' as const
  const { frame, input } = cutter
  const speaking = frame.frontPins - frame.backPins
  const stands = barStands(cutter)
  return [
    ...input.block.cutsAcrossHeight.map(
      (drawn, index): Reading => ({
        on,
        key: 'wires',
        number: index + 1,
        path: 'bar-cutter: wires',
        unit: 'length',
        drawn,
        allowed: PLACE,
        found: typed?.wires?.[index],
        stands: stands[index] ?? {},
        effect: beside(thickness),
      }),
    ),
    ...(cutter.strings.length > 0
      ? [
          {
            on,
            key: 'speaking-bar',
            path: 'bar-cutter: speaking-length',
            unit: 'length' as const,
            drawn: speaking,
            allowed: OUTLINE,
            found: typed?.['speaking-length'],
            effect: { length: 1 / speaking },
          },
        ]
      : []),
  ]
}
