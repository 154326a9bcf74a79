/** Every cut of a board in its order: what lies on the saw, what it is set to, what comes of it. */
import type { SawnBoards, SawnMaterial } from '../../binder/plan-sawing.ts'
import type { PlanCut, PlanPiece, SawStep } from '../../sheet-stock/saw-plan.ts'
import { box, inlineList, number, words } from '../compose.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table, Value } from '../model.ts'
import { boardName, boardTitle } from './figures.ts'
import { laterWords } from './stock.ts'

/** Steps that follow each other at one setting, told in one row. */
export interface CutRow {
  readonly steps: readonly SawStep[]
}

/** m; two settings that no fence tells apart */
const SAME = 1e-6

/**
 * Steps in rows: the same cut on one piece after the other is one row.
 * @param steps of a plan, in order
 */
export const cutRows = (steps: readonly SawStep[]): readonly CutRow[] => {
  const rows: SawStep[][] = []
  for (const step of steps) {
    const [cut] = step.cuts as readonly [PlanCut, ...PlanCut[]]
    const before = rows.at(-1)?.[0]?.cuts[0]
    const isAlike =
      cut.sameSetting &&
      before?.kind === cut.kind &&
      before.from === cut.from &&
      before.tool === cut.tool &&
      Math.abs(before.distance - cut.distance) < SAME &&
      before.cautions.join() === cut.cautions.join()
    if (isAlike) rows.at(-1)!.push(step)
    else rows.push([step])
  }
  return rows.map((one) => ({ steps: one }))
}

export const cutTable = (frame: Frame, material: SawnMaterial, boards: SawnBoards): Table => {
  const { say, show } = frame
  const { plan } = boards
  const inches = show.lengthUnit === 'in'
  const name = (cut: PlanCut, what: string) => `layout.${boardName(material, boards)}.${cut.number}.${what}`
  return {
    kind: 'table',
    style: 'saw',
    caption: say(boards.numbers.length > 1 ? 'layout.cuts.caption-alike' : 'layout.cuts.caption', {
      board: boardTitle(frame, material, boards),
    }),
    columns: [
      {
        head: say('layout.cuts.number', { board: boardTitle(frame, material, boards) }),
        align: 'right',
        width: 9,
      },
      { head: say('layout.cuts.piece'), align: 'left', width: 9 },
      { head: say('layout.cuts.how'), align: 'left', width: inches ? 30 : 36 },
      { head: say('layout.cuts.set'), align: 'right', width: 13, main: true },
      ...(inches ? [{ head: say('layout.cuts.inches'), align: 'right' as const, width: 11 }] : []),
      { head: say('layout.cuts.becomes'), align: 'left' },
      { head: say('fixture.cuts.cut'), align: 'centre', width: 5 },
    ],
    rows: cutRows(plan.steps).map(({ steps }): Cell[] => {
      const cuts = steps.flatMap((step) => step.cuts)
      const first = cuts[0]!
      const last = cuts.at(-1)!
      const count = (cut: PlanCut) => show.count(name(cut, 'number'), cut.number)
      return [
        first === last
          ? number(count(first))
          : words(say('layout.cuts.range', { first: count(first), last: count(last) })),
        words(
          inlineList(
            say,
            steps.map((step) => pieceWords(frame, plan.pieces[step.cuts[0]!.piece]!)),
          ),
        ),
        words(howWords(frame, first)),
        number(show.millimetres(name(first, 'set'), first.distance)),
        ...(inches ? [number(show.size(name(first, 'set.inches'), first.distance))] : []),
        words(outcomeWords(frame, material, { boards, steps })),
        box,
      ]
    }),
  }
}

const pieceWords = ({ say }: Frame, { letter }: PlanPiece): Inline =>
  letter === undefined ? say('layout.piece.board') : say('layout.piece.letter', { letter })

/** Rip or crosscut, with which tool, which edge against it, and what to mind. */
const howWords = ({ say }: Frame, cut: PlanCut): Inline => {
  const rip = cut.from === 'near' || cut.from === 'far'
  const kind = cut.kind === 'trim' ? 'trim' : rip ? 'rip' : 'crosscut'
  const squared = kind === 'trim' && (!rip || cut.tool === 'sled')
  const how = say(`layout.how.${cut.tool}${squared ? '-square' : ''}`, {
    kind: say(`layout.kind.${kind}`),
    edge: say(`layout.edge.${cut.from}`),
  })
  const minded = cut.cautions.reduce(
    (before, caution) => say('layout.how.mind', { before, mark: say(`layout.mark.${caution}`) }),
    how,
  )
  return cut.sameSetting ? say('layout.how.stays', { how: minded }) : minded
}

/** What falls to hand: parts by their numbers, pieces by their letters, offcuts, waste. */
const outcomeWords = (
  frame: Frame,
  material: SawnMaterial,
  { boards, steps }: CutRow & { readonly boards: SawnBoards },
): Inline => {
  const { say, show } = frame
  const { plan } = boards
  const base = `layout.${boardName(material, boards)}`
  const bare = (of: string, value: number): Value => ({
    name: of,
    value,
    unit: 'm',
    shown: show.bareMillimetres(value),
  })
  const parts = new Map<string, number>()
  const pieces: Inline[] = []
  const offcuts: Inline[] = []
  let waste = false
  for (const { cuts } of steps) {
    const from = plan.pieces[cuts[0]!.piece]!.letter
    for (const { kept, falls } of cuts)
      for (const id of falls === undefined ? [kept] : [kept, falls]) {
        const piece = plan.pieces[id]!
        if (piece.kind === 'blank') parts.set(piece.key!, (parts.get(piece.key!) ?? 0) + 1)
        else if (piece.kind === 'waste') waste = true
        else if (piece.kind === 'offcut')
          offcuts.push(
            say('layout.becomes.offcut', {
              number: show.count(`${base}.offcut.${piece.offcut}`, piece.offcut!),
            }),
          )
        else if (piece.letter !== undefined)
          pieces.push(
            say(steps.length > 1 && from !== undefined ? 'layout.becomes.piece-of' : 'layout.becomes.piece', {
              letter: piece.letter,
              length: bare(`${base}.piece.${piece.letter}.length`, piece.place.length),
              width: bare(`${base}.piece.${piece.letter}.width`, piece.place.width),
              cut: show.count(`${base}.${piece.sawnBy}.number`, piece.sawnBy!),
              ...(steps.length > 1 && from !== undefined ? { from } : {}),
            }),
          )
      }
  }
  const first = steps[0]!.cuts[0]!
  if (first.kind === 'trim')
    return say('layout.becomes.trimmed', {
      edge: say(`layout.edge.${acrossFrom(first)}`),
      trim: show.millimetres(`${base}.trim`, plan.trim),
    })
  const made = [...parts].map(([key, count]) => {
    const blank = material.blanks.find((one) => one.key === key)!
    const named = say(count > 1 ? 'layout.becomes.parts' : 'layout.becomes.part', {
      count: show.count(`${base}.${first.number}.${key}.count`, count),
      number: show.count(`layout.part.${key}`, blank.number),
      part: partName(frame, { key: blank.part }),
    })
    if (!blank.fitted) return named
    return say('layout.becomes.fitted', { part: named, when: laterWords(frame, blank) })
  })
  const all = [...made, ...pieces, ...offcuts, ...(waste ? [say('layout.becomes.waste')] : [])]
  return all.length > 0 ? oneByOne(frame, all) : say('layout.becomes.dust')
}

/** What has commas within it, in a row. */
const oneByOne = ({ say }: Frame, items: readonly Inline[]): Inline =>
  items.slice(1).reduce((before, next) => say('layout.list', { before, next }), items[0] as Inline)

/** The edge that a trim takes off. */
const acrossFrom = ({ from }: PlanCut): string =>
  ({ near: 'far', far: 'near', left: 'right', right: 'left' })[from]
