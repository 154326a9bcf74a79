/** Full-size templates on a fixture sheet: a list of tiles, then a figure a page. */
import {
  type PartTemplate,
  partTemplate,
  type TemplateWords,
} from '../../drawing/templates/template-tiles.ts'
import type { Part } from '../../geometry/part.ts'
import { inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline } from '../model.ts'
import { INCH } from '../shown.ts'

/** mm under a figure for a caption of two lines, and for cutting lengths to pixels */
const CAPTION = 10
const BESIDE = 0.5

/** m; whole in the shop's unit, and long enough that 0.3 % shows */
const CHECK_SCALES = { in: { length: 4 * INCH, divisions: 8 }, mm: { length: 0.1, divisions: 10 } } as const

/** @returns blocks by name, in the order in which they stand on the sheet */
export const templateBlocks = (frame: Frame, parts: readonly Part[]): Readonly<Record<string, Block>> => {
  const { say } = frame
  const templates = templatesOf(frame, parts)
  const name = (part: Part): Inline => say(`part.${part.key}`)
  const figures = templates.flatMap(({ part, pages }) =>
    pages.map((page): readonly [string, Block] => [
      `template-${page.name}`,
      {
        kind: 'figure',
        svg: page.svg,
        caption: say(page.tiles.length === 1 ? 'template.caption.one' : 'template.caption.some', {
          part: name(part),
          tiles: listed(page.tiles.map(({ tile }) => tile.name)),
        }),
        values: page.dimensions.map(({ name: own, value, shown }) => ({
          name: `drawing.template.${own}`,
          value,
          unit: 'm',
          shown,
        })),
      },
    ]),
  )
  if (figures.length === 0) return {}
  const list: Block = {
    kind: 'cautions',
    signal: 'notice',
    heading: say('template.list.heading'),
    items: templates.flatMap(({ part, grid }) => {
      const tiles = listed(grid.tiles.map((tile) => tile.name))
      return [
        grid.leftOut.length === 0
          ? say('template.list.all', { part: name(part), tiles })
          : say('template.list.some', { part: name(part), tiles, empty: listed(grid.leftOut) }),
        ...(part.handed ? [say('template.list.handed', { part: name(part) })] : []),
      ]
    }),
  }
  return { 'template-list': list, ...Object.fromEntries(figures) }
}

/** @returns the templates of all parts that have anything to mark */
export const templatesOf = (frame: Frame, parts: readonly Part[]): readonly PartTemplate[] => {
  const { show, room } = frame
  const { length, divisions } = CHECK_SCALES[show.lengthUnit]
  return parts.flatMap((part) => {
    const template = partTemplate(part, {
      room: { width: room.width - BESIDE, height: room.height - CAPTION },
      format: (metres) => ({ shown: show.size('', metres).shown }),
      checkScale: length,
      divisions,
      words: templateWords(frame),
    })
    return template ? [template] : []
  })
}

const listed = (names: readonly string[]): string => names.join(', ')

const templateWords = ({ say }: Frame): TemplateWords => {
  const partWords = (key: string) => say(`part.${key}`)
  return {
    tile: ({ part, tile, count }) =>
      inlineWords(say('template.tile', { part: partWords(part), tile, count: String(count) })),
    label: ({ part, tiles }) =>
      inlineWords(say('template.label', { part: partWords(part), tiles: listed(tiles) })),
    face: (part) => inlineWords(say(`drawing.face.${part}`)),
    datum: inlineWords(say('template.datum')),
    towards: inlineWords(say('template.towards')),
    over: (tile) => inlineWords(say('template.over', { tile })),
    under: (tile) => inlineWords(say('template.under', { tile })),
    free: inlineWords(say('template.free')),
    check: inlineWords(say('template.check')),
    turned: inlineWords(say('template.turned')),
    handed: inlineWords(say('template.handed')),
    pieces: (count) => inlineWords(say('template.pieces', { count: String(count) })),
    feature: (kind) => roundSize((size) => say(`template.feature.${kind}`, { size })),
    scale: roundSize((size) => say('template.scale', { size })),
  }
}

/** A character that no catalogue has, to find where the size goes. */
const PLACE = '\u0000'

const roundSize = (said: (size: string) => Inline): readonly [string, string] => {
  const [before = '', after = ''] = inlineWords(said(PLACE)).split(PLACE)
  return [before, after]
}
