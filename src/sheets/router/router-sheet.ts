/** The sheet for a friend with a router: which files there are, what is on their layers, what to mind before the first cut. */
import type { RouterGroup, RouterKind, RouterPart, RouterSet } from '../../binder/bind-router-files.ts'
import { routerPicture } from '../../drawing/router/router-picture.ts'
import {
  cuttersFor,
  MOST_SLENDER,
  type RouterFile,
  type RouterLayer,
  SECOND,
} from '../../router/router-file.ts'
import { empty, finishSheet, inlineWords, maker, nothing, number, pickSources, words } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { boardOff } from '../fixture/inspection.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet, Table, Value } from '../model.ts'
import { cutLater, laterStep } from '../mould/steps.ts'
import { fixedLinks } from '../places.ts'
import { INCH } from '../shown.ts'
import { folderOf, nameOf } from './files.ts'

/** mm; straight cutters that are sold everywhere (common practice) */
const CUTTERS = {
  in: [1 / 16, 1 / 8, 3 / 16, 1 / 4, 3 / 8, 1 / 2].map((size) => size * INCH * 1000),
  mm: [1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12],
} as const

const MM = 0.001

/** A narrower part needs more than tabs; tabs of an outline, and the size of one [m] (common practice) */
const NARROW = 0.05
const TABS = 4
/** m; that a pointed bit goes in to mark a hole (common practice) */
const MARK = 0.001
const TAB = { length: 0.01, thickness: 0.003 } as const

/** mm that a figure stays narrower than the page: lengths are cut to pixels */
const BESIDE = 1

const SHEET_OF: Readonly<Record<RouterKind, 'mould' | 'gridCutter' | 'barCutter' | 'trial' | 'press'>> = {
  mould: 'mould',
  'grid-cutter': 'gridCutter',
  'bar-cutter': 'barCutter',
  'trial-frame': 'trial',
  'lever-press': 'press',
}

/**
 * @param sets    with a file at least among them
 * @param numbers of the sheets of each fixture, by its key
 * @param own     number of this sheet
 */
export const routerSheet = (
  frame: Frame,
  sets: readonly RouterSet[],
  numbers: ReadonlyMap<string, FixtureNumbers>,
  own: string,
): Sheet => {
  const { say, show } = frame
  const several = sets.length > 1
  const tables = sets.flatMap((set) =>
    set.groups
      .filter(({ parts }) => parts.length > 0)
      .map((group): [string, Block] => [
        `files-${set.key}-${group.kind}`,
        filesTable(frame, set, {
          group,
          number: numbers.get(set.key)?.[SHEET_OF[group.kind]] ?? '',
          several,
        }),
      ]),
  )
  const example = exampleOf(sets)
  return finishSheet({
    ...frame.sheet('fixture', 'router/files', say('section.fixture'), own, say('router.title')),
    template: frame
      .template('router')
      .replace(/^\[\[files\]\]$/m, tables.map(([name]) => `[[${name}]]`).join('\n\n')),
    fill: {
      ending: SECOND,
      ...(example ? exampleNames(example) : {}),
    },
    blocks: {
      stopped: stoppedNotice(frame, sets),
      cautions: {
        kind: 'cautions',
        signal: 'warning',
        heading: say('router.cautions.heading'),
        items: ['manual', 'hands', 'dust', 'fire', 'slender', 'small', 'plastic'].map((key) =>
          say(`router.cautions.${key}`, {
            ...fixedLinks,
            slender: show.count('router.slender', MOST_SLENDER),
            narrow: whole(show.millimetres('router.narrow', NARROW)),
          }),
        ),
      },
      before: {
        kind: 'steps',
        first: 1,
        items: ['board', 'read', 'sample', 'hold', 'dry', 'order', 'mark', 'turn'].map((key) => ({
          text: say(`router.before.${key}`, {
            ...boardOff(frame),
            tabs: show.count('router.tabs', TABS),
            tabLength: whole(show.millimetres('router.tab.length', TAB.length)),
            markDepth: whole(show.millimetres('router.mark', MARK)),
            tabThickness: whole(show.millimetres('router.tab.thickness', TAB.thickness)),
          }),
        })),
      },
      layers: layerTable(frame),
      boards: boardNotice(frame, sets),
      picture: example ? picture(frame, example) : nothing,
      ...Object.fromEntries(tables),
    },
    sources: pickSources(frame.sources, ['international-inch', 'common-practice']),
  })
}

/** Fixtures that are stopped: nobody looks for their files. */
const stoppedNotice = ({ say }: Frame, sets: readonly RouterSet[]): Block => {
  const stopped = sets.flatMap(({ title, groups }) =>
    groups.filter((group) => group.stopped).map(({ kind }) => ({ title, kind })),
  )
  if (stopped.length === 0) return nothing
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('router.stopped.heading'),
    items: stopped.map(({ title, kind }) =>
      say('router.stopped.none', { kind: say(`router.kind.${kind}`), title }),
    ),
  }
}

/** Boards by their thickness, so that the lists need not repeat their names. */
const boardNotice = ({ say, show }: Frame, sets: readonly RouterSet[]): Block => {
  const all = sets.flatMap(({ groups }) => groups.flatMap(({ parts }) => parts))
  const boards = new Map(all.map(({ part, board }) => [part.material, { board, part }] as const))
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('router.boards.heading'),
    items: [...boards].map(([material, { board, part }]) => {
      const own = all.filter((one) => one.part.material === material).map((one) => one.part)
      // a board, or the bed of a router, takes all of them that takes both
      const long = Math.max(...own.map((one) => Math.max(one.length, one.width)))
      const wide = Math.max(...own.map((one) => Math.min(one.length, one.width)))
      const name = `router.board.${material}`
      return say('router.boards.board', {
        thickness: show.millimetres(name, part.thickness),
        board,
        pieces: show.count(
          `${name}.pieces`,
          own.reduce((sum, { count }) => sum + count, 0),
        ),
        length: bare(show.millimetres(`${name}.length`, long)),
        width: show.millimetres(`${name}.width`, wide),
      })
    }),
  }
}

const LAYERS = [
  ['RECESS', 'recess'],
  ['DADO', 'dado'],
  ['GROOVE', 'groove'],
  ['REBATE', 'rebate'],
  ['HOLE', 'hole'],
  ['SCRIBE', 'scribe'],
  ['FOLD', 'fold'],
  ['OUTLINE', 'outline'],
  ['DONE', 'done'],
  ['NOTES', 'notes'],
] as const

const layerTable = ({ say }: Frame): Table => ({
  kind: 'table',
  caption: say('router.layers.caption'),
  columns: [
    { head: say('router.layers.begins'), align: 'left', width: 16 },
    { head: say('router.layers.is'), align: 'left', width: 38 },
    { head: say('router.layers.do'), align: 'left' },
  ],
  rows: LAYERS.map(([name, key]) => [
    maker(name),
    words(say(`router.layer.${key}`)),
    words(say(`router.layer.${key}.do`)),
  ]),
})

interface ListedGroup {
  readonly group: RouterGroup
  /** of the sheet that it is built by */
  readonly number: string
  /** whether captions have to tell sets apart */
  readonly several: boolean
}

const filesTable = (frame: Frame, set: RouterSet, { group, number: sheet, several }: ListedGroup): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say(several ? 'router.files.caption-of' : 'router.files.caption', {
      kind: say(`router.kind.${group.kind}`),
      title: set.title,
      sheet,
      folder: folderOf(set),
    }),
    columns: [
      { head: say('router.files.part'), align: 'left', width: 26 },
      { head: say('fixture.parts.count'), align: 'right', width: 7 },
      { head: say('router.files.size'), align: 'left', width: 22 },
      { head: say(`router.files.layers-${show.lengthUnit}`), align: 'left' },
    ],
    rows: group.parts.flatMap((part) => part.files.map((file) => fileRow(frame, { set, part, file }))),
  }
}

const fileRow = (
  frame: Frame,
  { set, part: listed, file }: { set: RouterSet; part: RouterPart; file: RouterFile },
): readonly Cell[] => {
  const { say, show } = frame
  const { part } = listed
  const name = (what: string) => `router.${set.key}.${file.name}.${what}`
  const later = cutLater(part.key)
  const link = fileLink(set, file)
  const up = file.face === 'lower' ? say('router.files.far-up') : ''
  const layers = file.layers.filter(({ work }) => !work.startsWith('done'))
  const cells = (first: Inline, size: Cell, count: Cell): Cell[] => [
    words(first),
    count,
    size,
    words(
      inOneLine(
        frame,
        layers.map((layer) => layerWords(frame, layer, name)),
      ),
    ),
  ]
  if (file.setUp === 2)
    return cells(say('router.files.turned', { file: link, up }), words(say('router.files.same')), empty)
  return cells(
    later === undefined
      ? say('router.files.file', { part: partName(frame, part), file: link, up })
      : say('router.files.file-later', {
          part: partName(frame, part),
          file: link,
          up,
          step: show.count(name('step'), later),
          why: say(`router.later.${laterStep(part.key) ?? 'lining'}`),
        }),
    words(
      say('router.files.size-is', {
        length: bare(show.millimetres(name('length'), part.length)),
        width: bare(show.millimetres(name('width'), part.width)),
        thickness: bare(show.millimetres(name('thickness'), part.thickness)),
        grain: part.grain === 'width' && !part.grainless ? say('router.files.grain') : '',
        narrow: Math.min(part.length, part.width) < NARROW ? say('router.files.narrow') : '',
      }),
    ),
    number(show.count(name('count'), part.count)),
  )
}

/** Without its unit, which the head of the column states. */
const bare = (value: Value): Value => ({ ...value, shown: value.shown.replace(/\s*(mm|in)$/, '') })

/** A rule of thumb knows no tenths. */
const whole = (value: Value): Value => ({ ...value, shown: value.shown.replace(/\.0(?=\D|$)/, '') })

const fileLink = (set: RouterSet, file: RouterFile): Inline => ({
  text: '[[file]]',
  fill: { file: nameOf(file) },
  file: `${folderOf(set)}/${nameOf(file)}`,
})

/** A layer, and which cutters go into it and bear its depth. */
const layerWords = ({ say, show }: Frame, layer: RouterLayer, of: (what: string) => string): Inline => {
  const { name, work, opening, step, shapes } = layer
  const isOutline = work === 'outline'
  const named = isOutline
    ? // there is one, and its depth is the board's
      say('router.files.outline')
    : say(shapes.length === 1 ? 'router.files.layer' : 'router.files.layer-times', {
        layer: layerValue(of(name), name),
        count: show.count(of(`${name}.count`), shapes.length),
      })
  if (work === 'scribe' || work === 'fold') return named
  const sizes = CUTTERS[show.lengthUnit]
  const { least, most } = cuttersFor(layer, sizes)
  const isRound = work === 'hole' || work === 'recess'
  const wide = opening ?? step
  const what =
    wide === undefined || isRound
      ? named
      : say(isOutline ? 'router.files.slots' : 'router.files.opening', {
          what: named,
          width: bare(show.millimetres(of(`${name}.width`), wide * MM)),
        })
  if (least === undefined || most === undefined || least > most)
    return say(
      work === 'hole' ? 'router.files.drilled' : isOutline ? 'router.files.slots-sawn' : 'router.files.sawn',
      { what },
    )
  const thinnest = bare(show.size(of(`${name}.least`), least * MM))
  if (opening === undefined) return say('router.files.from', { what, least: thinnest })
  const thickest = bare(show.size(of(`${name}.cutter`), most * MM))
  if (least === most) return say('router.files.just', { what, most: thickest })
  return least === sizes[0]
    ? say('router.files.up-to', { what, most: thickest })
    : say('router.files.between', { what, least: thinnest, most: thickest })
}

const layerValue = (name: string, layer: string): Value => ({
  name,
  value: layer,
  unit: 'layer',
  shown: layer,
})

const inOneLine = ({ say }: Frame, layers: readonly Inline[]): Inline =>
  layers.reduce((before, next) => say('router.files.list', { before, next }))

interface Example {
  readonly set: RouterSet
  readonly part: RouterPart
}

/** The part with the most kinds of work: what its files show is all there is to know of the others. */
const exampleOf = (sets: readonly RouterSet[]): Example | undefined => {
  const kinds = ({ files }: RouterPart): number =>
    new Set(files.flatMap(({ layers }) => layers.map(({ work }) => work))).size
  return sets
    .flatMap((set) => set.groups.flatMap(({ parts }) => parts.map((part) => ({ set, part }))))
    .reduce<Example | undefined>(
      (best, one) => (best === undefined || kinds(one.part) > kinds(best.part) ? one : best),
      undefined,
    )
}

/** Names of layers to explain by: a hole's, with a diameter and a depth. */
const exampleNames = ({ part: { files } }: Example): Readonly<Record<string, Value | string>> => {
  const [first] = files
  const hole = first?.layers.find(({ work }) => work === 'hole') ?? first?.layers.at(-1)
  return { example: layerValue('router.example', hole?.name ?? '') }
}

const picture = (frame: Frame, { set, part }: Example): Block => {
  const { say, room } = frame
  const { files } = part
  const title = (file: RouterFile): string =>
    inlineWords(say('router.picture.title', { up: say(`router.up.${file.face}`) }))
  const { svg } = routerPicture(files, room.width - BESIDE, {
    label: inlineWords(say('router.picture.label', { part: partName(frame, part.part) })),
    titles: files.map(title),
  })
  const links = files.map((file) => fileLink(set, file))
  return {
    kind: 'figure',
    svg,
    caption: say(files.length === 1 ? 'router.picture.caption' : 'router.picture.caption-two', {
      part: partName(frame, part.part),
      file: links[0] ?? '',
      turned: links[1] ?? '',
    }),
    values: [],
  }
}
