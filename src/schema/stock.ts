/** Boards that cannot be sawn as their file says: named before anything is laid out on them. */
import { type Diagnostic, pointer } from '../diagnostics.ts'
import { quantityInUnit } from '../units.ts'
import type { Content } from './content.ts'
import { type FixtureFile, SECTIONS_OF_PANELS } from './fixture.ts'
import type { PanelEntry } from './materials.ts'
import type { Placed } from './placed.ts'
import type { ShopFile } from './shop.ts'

/** m; what is usual where a shop says nothing (common practice) */
export const USUAL_SAW = { kerf: 0.0254 / 8, trim: 0.0254 / 4, keepsFrom: 6 * 0.0254 } as const

/** How a shop saws [m]. */
export const sawOf = ({ saw }: ShopFile): { kerf: number; trim: number; keepsFrom: number } => ({
  kerf: saw?.kerf ?? USUAL_SAW.kerf,
  trim: saw?.['edge-trim'] ?? USUAL_SAW.trim,
  keepsFrom: saw?.['keeps-offcuts-from'] ?? USUAL_SAW.keepsFrom,
})

/** A part that is sawn from a board, as messages name it. */
export interface SawnPart {
  readonly panel: string
  /** of the fixture, and of the part in it */
  readonly fixture: string
  readonly part: string
  /** along the grain of the board, and across it [m] */
  readonly length: number
  readonly width: number
  /** its board has no grain */
  readonly turns: boolean
}

const lengthWords = ({ units }: ShopFile, length: number): string =>
  quantityInUnit(length, 'length', units.length)

const sizeWords = (shop: ShopFile, { length, width }: { length: number; width: number }): string =>
  `${lengthWords(shop, length)} by ${lengthWords(shop, width)}`

/** A board as it is typed, with what is sawn off its edges. */
interface TypedBoard {
  readonly length: number
  readonly width: number
  readonly trim: number
}

/** Boards of the shop with their own trim, those that are sold with the saw's. */
const inShop = ({
  'boards-in-shop': boards = [],
}: ShopFile): readonly (TypedBoard & { readonly panel: string })[] =>
  boards.map(({ panel, length, width, 'edge-trim': trim = 0 }) => ({ panel, length, width, trim }))

const asSold = (shop: ShopFile, { sheets = [] }: PanelEntry): readonly TypedBoard[] =>
  sheets.map(({ length, width }) => ({ length, width, trim: sawOf(shop).trim }))

/** @returns a diagnostic for each board of which trimming leaves nothing */
export const checkTrim = (
  shop: Placed<ShopFile>,
  panels: ReadonlyMap<string, Placed<PanelEntry>>,
): Diagnostic[] => {
  const fault = (file: string, path: string, board: TypedBoard, trimIs: string | undefined): Diagnostic[] =>
    Math.min(board.length, board.width) > 2 * board.trim
      ? []
      : [
          {
            severity: 'error',
            code: 'edge-trim-leaves-nothing',
            file,
            path,
            message: `Nothing is left of a board of ${sizeWords(shop.value, board)} when ${lengthWords(shop.value, board.trim)} is sawn off each edge`,
            advice: 'Correct the size of the board, or "edge-trim"; 0 mm is for edges that are true.',
            ...(trimIs === undefined
              ? {}
              : {
                  related: [
                    { file: shop.document.file, path: trimIs, message: 'what is sawn off stands here' },
                  ],
                }),
          },
        ]
  const saws = shop.value.saw?.['edge-trim'] === undefined ? undefined : '/saw/edge-trim'
  return [
    ...inShop(shop.value).flatMap((board, index) =>
      fault(shop.document.file, pointer(['boards-in-shop', index]), board, undefined),
    ),
    ...[...panels.values()].flatMap(({ value, document, path }) =>
      asSold(shop.value, value).flatMap((board, index) =>
        fault(document.file, `${path}/sheets/${index}`, board, saws),
      ),
    ),
  ]
}

/** m; thinner ones are foil, which holds no wire, screw or dado (common practice) */
const THINNEST_BOARD = 0.001

/** @returns a diagnostic for each foil that a fixture would make parts of; linings and strips may be as thin */
export const checkThin = (
  fixtures: ReadonlyMap<string, Placed<FixtureFile>>,
  panels: ReadonlyMap<string, Placed<PanelEntry>>,
): Diagnostic[] =>
  [...fixtures.values()].flatMap(({ value, document }) => {
    const sections = [
      { section: [], roles: value.panels },
      ...SECTIONS_OF_PANELS.map((name) => ({ section: [name], roles: value[name]?.panels ?? {} })),
    ]
    const told = new Set<string>()
    return sections.flatMap(({ section, roles }) =>
      Object.entries(roles).flatMap(([role, key]): Diagnostic[] => {
        const panel = panels.get(key)
        if (!panel || told.has(key) || panel.value.thickness >= THINNEST_BOARD) return []
        // one mistake, however many parts are made of it
        told.add(key)
        const thickness = quantityInUnit(panel.value.thickness, 'length', 'mm')
        return [
          {
            severity: 'error',
            code: 'board-too-thin',
            file: document.file,
            path: pointer([...section, 'panels', role]),
            message: `"${role}" is made of "${key}", which is ${thickness} thick`,
            advice: 'Name a board of 1 mm or more, or measure this one again.',
            related: [
              {
                file: panel.document.file,
                path: `${panel.path}/thickness`,
                message: 'its thickness stands here',
              },
            ],
          },
        ]
      }),
    )
  })

/**
 * Parts that no board takes, and saw cuts that are wider than what they free.
 *
 * @param content with its boards
 * @param parts   that are sawn from them
 */
export const checkSawn = (content: Content, parts: readonly SawnPart[]): Diagnostic[] => [
  ...tooSmall(content, parts),
  ...tooWide(content, parts),
]

const tooSmall = ({ shop, panels }: Content, parts: readonly SawnPart[]): Diagnostic[] => {
  return [...panels].flatMap(([key, { value, document, path }]): Diagnostic[] => {
    // Without sizes a panel that is enough is asked for, however large.
    if (!value.sheets) return []
    const boards = [
      ...asSold(shop.value, value),
      ...inShop(shop.value).filter(({ panel }) => panel === key),
    ].map(({ length, width, trim }) => ({ length: length - 2 * trim, width: width - 2 * trim }))
    const lies = (one: SawnPart): boolean =>
      boards.some(
        ({ length, width }) =>
          (one.length <= length + SAME && one.width <= width + SAME) ||
          (one.turns && one.length <= width + SAME && one.width <= length + SAME),
      )
    const large = parts.filter((one) => one.panel === key && !lies(one))
    const [largest] = [...large].sort((a, b) => b.length * b.width - a.length * a.width)
    if (!largest) return []
    const board = boards.reduce((best, one) =>
      one.length * one.width > best.length * best.width ? one : best,
    )
    const others = [...new Set(large.filter((one) => one !== largest).map(nameOf))]
    return [
      {
        severity: 'error',
        code: 'sheet-too-small',
        file: document.file,
        path: `${path}/sheets`,
        at: 'key',
        message: `No board of "${key}" is large enough for the part "${largest.part}" of "${largest.fixture}": it is ${sizeWords(shop.value, largest)}, the first along the grain, and the largest board is ${sizeWords(shop.value, board)} when its edges are trimmed${others.length > 0 ? `. Too large are also: ${others.slice(0, 6).join(', ')}` : ''}`,
        advice:
          'Add a larger size under "sheets:", use another board for this part, or take "sheets:" out: then a panel that is enough is asked for.',
      },
    ]
  })
}

const tooWide = ({ shop }: Content, parts: readonly SawnPart[]): Diagnostic[] => {
  const kerf = shop.value.saw?.kerf
  if (kerf === undefined) return []
  const narrow = parts.filter(({ length, width }) => Math.min(length, width) < kerf - SAME)
  const [narrowest] = [...narrow].sort((a, b) => Math.min(a.length, a.width) - Math.min(b.length, b.width))
  if (!narrowest) return []
  const others = [...new Set(narrow.map(nameOf))].length - 1
  return [
    {
      severity: 'error',
      code: 'kerf-wider-than-part',
      file: shop.document.file,
      path: '/saw/kerf',
      message: `A saw cut of ${lengthWords(shop.value, kerf)} is wider than the part "${narrowest.part}" of "${narrowest.fixture}", which is ${lengthWords(shop.value, Math.min(narrowest.length, narrowest.width))}${others > 0 ? `, and than ${others} more` : ''}`,
      advice:
        'Measure a test cut: most blades take about 1/8 in (3 mm). Correct "kerf", or the size of the part.',
    },
  ]
}

const nameOf = ({ part, fixture }: SawnPart): string => `"${part}" of "${fixture}"`

/** m; sizes that are the same but for the noise of their sums */
const SAME = 1e-6
