/** The drawing of a board, and the names that drawing and tables call things by. */
import type { SawnBoards, SawnMaterial } from '../../binder/plan-sawing.ts'
import { boardDrawing } from '../../drawing/sheet-stock/board-drawing.ts'
import { inlineNumbers, inlineWords } from '../compose.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Figure, Inline, Value } from '../model.ts'

/** Share of a page's height that a drawing takes at most: one with many cuts all that its caption leaves, one with few half of it. */
const high = ({ isLater }: SawnMaterial, { plan: { cuts } }: SawnBoards): number =>
  cuts.length > 28 ? 0.94 : cuts.length > 14 ? 0.85 : isLater && cuts.length < 10 ? 0.43 : 0.5
/** mm that a figure stays narrower than the page: lengths are cut to pixels */
const BESIDE = 1

/** `birch-18.2`, of the first of boards that are sawn alike. */
export const boardName = ({ panel }: SawnMaterial, { numbers }: SawnBoards): string =>
  `${panel.material}.${numbers[0]}`

/** "Board 1", or "Boards 1, 2" where two are sawn alike. */
export const boardTitle = (frame: Frame, material: SawnMaterial, boards: SawnBoards): Inline => {
  const { say, show } = frame
  const numbers = inlineNumbers(
    show,
    boards.numbers.map((number) =>
      say('layout.number', { number: show.count(`${panelName(material)}.board.${number}`, number) }),
    ),
  )
  return say(boards.numbers.length > 1 ? 'layout.boards' : 'layout.board', { numbers })
}

/** Before the names of a material's values. */
export const panelName = ({ panel }: SawnMaterial): string => `layout.${panel.material}`

export const boardFigure = (frame: Frame, material: SawnMaterial, boards: SawnBoards): Figure => {
  const { say, show, room } = frame
  const name = `board.${boardName(material, boards)}`
  const named = (key: string) => inlineWords(say(`drawing.layout.${key}`))
  const title = boardTitle(frame, material, boards)
  const drawing = boardDrawing({
    name,
    label: inlineWords(say('layout.drawing.label', { board: title })),
    title: inlineWords(title),
    plan: boards.plan,
    parts: new Map(
      material.blanks.map(({ key, number, part }) => [
        key,
        { number, name: inlineWords(partName(frame, { key: part })) },
      ]),
    ),
    grain: material.grain,
    words: { grain: named('grain'), trim: named('trim'), offcut: named('offcut') },
    box: { width: room.width - BESIDE, height: room.height * high(material, boards) },
    // millimetres govern, in every shop
    format: (metres) => ({ shown: show.bareMillimetres(metres) }),
  })
  const values = new Map<string, Value>()
  for (const { name: of, value, shown } of drawing.dimensions)
    values.set(of, { name: `drawing.${name}.${of}`, value, unit: 'm', shown })
  return {
    kind: 'figure',
    svg: drawing.svg,
    caption: say(material.grain ? 'layout.drawing.caption' : 'layout.drawing.caption-any'),
    values: [...values.values()],
  }
}
