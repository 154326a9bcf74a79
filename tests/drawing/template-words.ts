/** Words for tests of templates: about as long as those of the catalogue. */
import type { TemplateOptions } from '../../src/drawing/templates/template-tiles.ts'

export const templateOptions = (room: { width: number; height: number }): TemplateOptions => ({
  room,
  format: (metres) => ({ shown: `${Math.round(metres * 10000) / 10} mm` }),
  checkScale: 0.1,
  divisions: 10,
  words: {
    tile: ({ part, tile, count }) => `${part}, tile ${tile} of ${count}`,
    label: ({ part, tiles }) => `${part} at full size: ${tiles.join(', ')}`,
    face: (part) => `${part}, inside face`,
    datum: 'datum corner',
    towards: 'towards the datum corner',
    over: (tile) => `cut here; ${tile} goes under`,
    under: (tile) => `goes under ${tile}`,
    free: 'cut here; nothing to mark beyond',
    check: 'Print at actual size; measure both check scales: more than 0.3 mm out, do not use.',
    turned: 'Lies turned a quarter: its datum corner is bottom right.',
    handed: 'Does not fit when turned end for end: mark the datum corner of each piece first.',
    pieces: (count) => `Serves all ${count} pieces of this part, laid on the same face of each.`,
    feature: (kind) => [`${kind}, `, ' deep'],
    scale: ['check scale ', ''],
  },
})

/** Between the margins, less a caption [mm]. */
export const ROOMS = {
  Letter: { width: 181.4, height: 239.4 },
  A4: { width: 175.5, height: 257 },
} as const
