/** Full-size templates in the finished PDF: every length on paper is that of the part, across seams too. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { run } from '../../src/commands/build.ts'
import { MATCH_ARM } from '../../src/drawing/templates/template-marks.ts'
import type { PartTemplate } from '../../src/drawing/templates/template-tiles.ts'
import type { Channel, Hole, Part } from '../../src/geometry/part.ts'
import { contentSize } from '../../src/print/page-layout.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { templatesOf } from '../../src/sheets/fixture/templates.ts'
import { pageRoom, printJob } from '../../src/site/print-job.ts'
import { type Piece, paintedPieces } from '../print/kitchen-sink/painted-pieces.ts'
import { readStructure } from '../print/kitchen-sink/read-back.ts'
import { composeEdited, editedDemo, STATES, withoutCutters } from '../sites/edited-demo.ts'
import { runCommand } from './run-command.ts'

/** A length on paper may be off by this. [mm] */
const LIMIT = 0.1
/** How far a line is looked for from where it ought to be. [mm] */
const NEAR = 0.8

/** One tile as it was found on paper: millimetres of the part, as measured from the tile's own lower left corner. */
interface Found {
  readonly name: string
  /** middle of the line across the length (or width) nearest to a place of the part; its own place on paper [mm] */
  readonly upright: (u: number, v: number) => number | undefined
  readonly level: (u: number, v: number) => number | undefined
}

interface Printed {
  readonly templates: readonly PartTemplate[]
  readonly checkScale: number
  readonly pages: ReadonlyMap<string, { readonly pieces: readonly Piece[]; readonly scale: Piece }>
}

const base = mkdtempSync(join(tmpdir(), 'templates-test-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

const STATES_BY_PAPER = { Letter: 'go', A4: 'metric shop, other paper' } as const
const printed = new Map<string, Printed>()

beforeAll(async () => {
  for (const [paper, state] of Object.entries(STATES_BY_PAPER)) {
    // Only the mould's templates are measured.
    const edits = withoutCutters(STATES[state])
    const { folder, remove } = editedDemo(edits)
    try {
      const out = join(base, paper)
      const ran = await runCommand(run, [folder, '--out', out], base)
      expect(ran.code, ran.err).toBe(0)
      const { files } = await readFolder(resolve(folder), 'shop', FILE_KINDS)
      const { content } = loadContent(files, 'shop')
      const parts = bind(content!).binder.moulds[0]!.mould.parts
      const { frame } = await composeEdited(edits)
      const shop = content!.shop.value
      const job = printJob(shop, frame, [], '')
      const room = pageRoom(shop.paper)
      const really = contentSize(job, { orientation: 'portrait' })
      expect(room.width).toBeCloseTo(really.width, 3)
      expect(room.height).toBeCloseTo(really.height, 3)
      const templates = templatesOf(frame, parts)
      printed.set(
        paper,
        await found(new Uint8Array(readFileSync(join(out, 'binder.pdf'))), templates, shop.units.length),
      )
    } finally {
      remove()
    }
  }
})

async function found(
  pdf: Uint8Array,
  templates: readonly PartTemplate[],
  unit: 'in' | 'mm',
): Promise<Printed> {
  const checkScale = unit === 'in' ? 101.6 : 100
  const { texts } = await readStructure(pdf)
  const first = texts.findIndex((page) => /tiles? A1(, A\d+)* at full size/.test(page.join('')))
  const pages = new Map<string, { pieces: readonly Piece[]; scale: Piece }>()
  let number = first + 1
  for (const { pages: own } of templates)
    for (const page of own) {
      const pieces = await paintedPieces(pdf, number)
      number += 1
      const scale = pieces.find((one) => isLevel(one) && Math.abs(one.right - one.left - checkScale) < LIMIT)
      expect(scale, `check scale of ${page.name}`).toBeDefined()
      pages.set(page.name, { pieces, scale: scale! })
    }
  return { templates, checkScale, pages }
}

const isLevel = ({ low, high }: Piece): boolean => high - low < 0.3
const isUpright = ({ left, right }: Piece): boolean => right - left < 0.3

/** What was measured on each tile of a template, from the left end of its page's check scale. */
function tilesFound({ pages }: Printed, template: PartTemplate): ReadonlyMap<string, Found> {
  expect(template.grid.turned, 'this test reads parts that do not lie turned').toBe(false)
  return new Map(
    template.pages.flatMap((page) => {
      const { pieces, scale } = pages.get(page.name)!
      return page.tiles.map(({ tile, at }): [string, Found] => {
        // Only to look in the right place: where the tile ought to begin, from the scale's left end at (1, 2) mm.
        const x0 = scale.left - 1 + at.x
        const y0 = scale.low - 2 + at.y
        const nearest = (hits: readonly number[], wanted: number): number | undefined => {
          const near = hits.filter((hit) => Math.abs(hit - wanted) < NEAR)
          return near.length === 0
            ? undefined
            : near.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a))
        }
        return [
          tile.name,
          {
            name: tile.name,
            upright: (u, v) => {
              const [x, y] = [x0 + u - tile.rect.x, y0 + v - tile.rect.y]
              const lines = pieces.filter((one) => isUpright(one) && one.low <= y + 4 && one.high >= y - 4)
              return nearest(
                lines.map(({ left, right }) => (left + right) / 2),
                x,
              )
            },
            level: (u, v) => {
              const [x, y] = [x0 + u - tile.rect.x, y0 + v - tile.rect.y]
              const lines = pieces.filter((one) => isLevel(one) && one.left <= x + 4 && one.right >= x - 4)
              return nearest(
                lines.map(({ low, high }) => (low + high) / 2),
                y,
              )
            },
          },
        ]
      })
    }),
  )
}

const MM = 1000
const holes = (part: Part): Hole[] => part.features.filter((one): one is Hole => one.kind === 'hole')
const channels = (part: Part): Channel[] =>
  part.features.filter((one): one is Channel => 'runs' in one && one.face === 'upper')

/** Places across the length (or width) where a line must stand: walls, and the middle of a groove [mm]. */
const linesOf = (part: Part, runs: Channel['runs']): number[] =>
  channels(part)
    .filter((one) => one.runs === runs)
    .flatMap(({ kind, at, size }) => [at, at + size, ...(kind === 'groove' ? [at + size / 2] : [])])
    .map((at) => at * MM)
    .filter((at) => at > 0.001 && at < (runs === 'width' ? part.length : part.width) * MM - 0.001)

/** Differences of what was found and what ought to be, along one direction of one tile. */
const spread = (pairs: readonly { readonly wanted: number; readonly is: number }[]): number => {
  const offsets = pairs.map(({ wanted, is }) => is - wanted)
  return Math.max(...offsets) - Math.min(...offsets)
}

describe.each(Object.keys(STATES_BY_PAPER))('by hand: on %s paper', (paper) => {
  const here = (): Printed => printed.get(paper) as Printed

  it('takes at most eight pages', () => {
    expect(here().pages.size).toBeGreaterThan(2)
    expect(here().pages.size).toBeLessThanOrEqual(8)
  })

  it('has check scales both ways on every page', () => {
    for (const [name, { pieces }] of here().pages) {
      const down = pieces.filter(
        (one) => isUpright(one) && Math.abs(one.high - one.low - here().checkScale) < LIMIT,
      )
      expect(down.length, name).toBeGreaterThan(0)
    }
  })

  it('has every wall, groove and hole of a tile at its distance from every other, within 0.1 mm', () => {
    let looked = 0
    for (const template of here().templates) {
      const { part, grid } = template
      for (const { name, rect } of grid.tiles) {
        const tile = tilesFound(here(), template).get(name)!
        const inU = (u: number) => u > rect.x + 4 && u < rect.x + rect.width - 4
        const inV = (v: number) => v > rect.y + 4 && v < rect.y + rect.height - 4
        const [midU, midV] = [rect.x + rect.width / 2, rect.y + rect.height / 2]
        const across = linesOf(part, 'width')
          .filter(inU)
          .map((u) => ({ wanted: u, is: tile.upright(u, midV) }))
        const along = linesOf(part, 'length')
          .filter(inV)
          .map((v) => ({ wanted: v, is: tile.level(midU, v) }))
        for (const { u, v } of holes(part).map((one) => ({ u: one.u * MM, v: one.v * MM })))
          if (inU(u) && inV(v)) {
            across.push({ wanted: u, is: tile.upright(u, v) })
            along.push({ wanted: v, is: tile.level(u, v) })
          }
        // the part's own edges are what the template is laid by
        for (const [edge, end] of [
          [0, rect.x],
          [part.length * MM, rect.x + rect.width],
        ] as const)
          if (Math.abs(edge - end) < 0.001) across.push({ wanted: edge, is: tile.upright(edge, midV) })
        for (const [edge, end] of [
          [0, rect.y],
          [part.width * MM, rect.y + rect.height],
        ] as const)
          if (Math.abs(edge - end) < 0.001) along.push({ wanted: edge, is: tile.level(midU, edge) })
        for (const lines of [across, along]) {
          for (const { wanted, is } of lines) expect(is, `${part.key} ${name} at ${wanted} mm`).toBeDefined()
          if (lines.length > 0)
            expect(spread(lines as { wanted: number; is: number }[]), `${part.key} ${name}`).toBeLessThan(
              LIMIT,
            )
          looked += lines.length
        }
      }
    }
    expect(looked).toBeGreaterThan(30)
  })

  it('gives the part its size again across a seam, when two tiles are laid mark on mark', () => {
    let seen = 0
    for (const template of here().templates) {
      const { part, seams } = template
      const tiles = tilesFound(here(), template)
      for (const { near, far, across, marks } of seams) {
        const [one, other] = [tiles.get(near.name)!, tiles.get(far.name)!]
        const isLength = across === 'length'
        const own = isLength
          ? [...linesOf(part, 'width'), 0, part.length * MM]
          : [...holes(part).map(({ v }) => v * MM), ...linesOf(part, 'length'), 0, part.width * MM]
        const reach = (tile: typeof near) =>
          isLength
            ? [tile.rect.x, tile.rect.x + tile.rect.width]
            : [tile.rect.y, tile.rect.y + tile.rect.height]
        const inTile = (tile: typeof near) => (place: number) =>
          place >= reach(tile)[0]! - 0.001 && place <= reach(tile)[1]! + 0.001
        for (const { at, letter } of marks) {
          const markOn = (tile: Found) => (isLength ? tile.upright(at.x, at.y) : tile.level(at.x, at.y))
          const [markOne, markOther] = [markOn(one), markOn(other)]
          expect(markOne, `${letter} on ${near.name}`).toBeDefined()
          expect(markOther, `${letter} on ${far.name}`).toBeDefined()
          const placeOn = (tile: Found, rect: typeof near.rect, place: number) => {
            const hole = holes(part).find(
              ({ u, v }) =>
                Math.abs(v * MM - place) < 0.001 && u * MM > rect.x && u * MM < rect.x + rect.width,
            )
            return isLength
              ? tile.upright(place, rect.y + rect.height / 2)
              : tile.level(hole ? hole.u * MM : rect.x + rect.width / 3, place)
          }
          for (const from of own.filter(inTile(near)))
            for (const to of own.filter(inTile(far))) {
              const [start, end] = [placeOn(one, near.rect, from), placeOn(other, far.rect, to)]
              if (start === undefined || end === undefined) continue
              const joined = markOne! - start + (end - markOther!)
              expect(Math.abs(joined - (to - from)), `${part.key} ${letter}: ${from} to ${to}`).toBeLessThan(
                LIMIT,
              )
              seen += 1
            }
        }
      }
    }
    expect(seen).toBeGreaterThan(20)
  })

  it('has both arms of every match mark on both tiles', () => {
    for (const template of here().templates) {
      const tiles = tilesFound(here(), template)
      for (const { near, far, marks } of template.seams)
        for (const { at } of marks)
          for (const { name } of [near, far]) {
            expect(tiles.get(name)!.upright(at.x, at.y + MATCH_ARM / 2), name).toBeDefined()
            expect(tiles.get(name)!.level(at.x + MATCH_ARM / 2, at.y), name).toBeDefined()
          }
    }
  })
})
