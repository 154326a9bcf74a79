/**
 * From the tree of cuts to what one person does at one saw: numbered cuts in their order, each with the piece that lies on
 * the saw, the edge and the distance that it is set by, and where both of its halves go.
 */
import { type Edge, opposite, type RealCut, type RealPiece, realBoard, SAME } from './real-pieces.ts'
import type { Board, Place, Region } from './types.ts'

/** What limits a saw and the one who stands at it. All common practice; the manual of the saw comes first. */
export interface SawLimits {
  /** from the blade to the fence at its farthest [m] */
  readonly fenceReach: number
  /** of an edge that slides along the fence, at the least [m] */
  readonly shortestOnFence: number
  /** longer than that along the fence, a piece tips off the table behind the blade [m] */
  readonly table: number
  /** that the crosscut sled takes, along the cut [m] */
  readonly sledTravel: number
  /** that the sled bears, to either side of the blade [m] */
  readonly sledSide: number
  /** from the blade to the stop of the sled at its farthest [m] */
  readonly stopReach: number
  /** between fence and blade, below which no hand goes in there [m] */
  readonly handRoom: number
  /** below which a piece is a thin strip, on either side of the blade [m] */
  readonly thin: number
  /** below which what falls can drop into the opening beside the blade [m] */
  readonly sliver: number
  /** that one person leads over a saw [kg] */
  readonly heavy: number
  /** offcuts at least as long and as wide are kept [m] */
  readonly keepsFrom: number
  /** long and narrow ones too: at least as wide, and as long [m] */
  readonly stripWidth: number
  readonly stripLength: number
}

const INCH = 0.0254 // m, exact

/** Common practice; keepsFrom stands in the shop's file. */
export const usualSawLimits: SawLimits = {
  fenceReach: 30 * INCH,
  shortestOnFence: 12 * INCH,
  table: 36 * INCH,
  sledTravel: 24 * INCH,
  sledSide: 18 * INCH,
  stopReach: 30 * INCH,
  handRoom: 6 * INCH,
  thin: 2 * INCH,
  sliver: (3 / 16) * INCH,
  heavy: 12,
  keepsFrom: 6 * INCH,
  stripWidth: 1.5 * INCH,
  stripLength: 24 * INCH,
}

export type PlanPieceKind = 'board' | 'piece' | 'blank' | 'offcut' | 'waste'

export interface PlanPiece {
  readonly id: number
  readonly kind: PlanPieceKind
  /** on the whole board, from its corner [m] */
  readonly place: Place
  /** of a blank */
  readonly key?: string
  readonly turned?: boolean
  /** of what lies on the saw in a later step; nothing for the board and for what is left between two cuts of one step */
  readonly letter?: string
  /** of an offcut that is kept, counted over all boards of one material */
  readonly offcut?: number
  /** number of the cut that parts it */
  readonly sawnBy?: number
}

/** fence: along the rip fence; sled: on the crosscut sled, against its stop; guide: along a clamped straightedge */
export type SawTool = 'fence' | 'sled' | 'guide'

/**
 * heavy: not for one person on a table saw; support: runs out before and behind the blade, along the fence; support-side:
 * reaches beyond the sled to one side; support-sides: to both; push-stick: no room for a hand beside the
 * fence; thin: a strip that bends and flies; sliver: what falls drops in beside the blade; clamp: too small to hold; match:
 * the same size was sawn before, at a setting that stands no more; measure-rest: what falls is a finished size as well
 */
export type SawCaution =
  | 'heavy'
  | 'support'
  | 'support-side'
  | 'support-sides'
  | 'push-stick'
  | 'thin'
  | 'sliver'
  | 'clamp'
  | 'match'
  | 'measure-rest'

export interface PlanCut {
  readonly number: number
  readonly kind: 'trim' | 'rip' | 'crosscut'
  /** id of what lies on the saw */
  readonly piece: number
  /** edge that it is set by */
  readonly from: Edge
  /** from that edge to the saw cut [m] */
  readonly distance: number
  /** of the saw cut [m] */
  readonly length: number
  /** id of what is between edge and saw cut */
  readonly kept: number
  /** id of what is beyond it; missing where that is dust */
  readonly falls?: number
  readonly tool: SawTool
  readonly cautions: readonly SawCaution[]
  /** nothing is set anew since the cut before */
  readonly sameSetting: boolean
}

/** Cuts that follow each other on one piece at one setting. */
export interface SawStep {
  readonly cuts: readonly PlanCut[]
}

export interface SawPlan {
  /** size of the whole board [m] */
  readonly board: { readonly length: number; readonly width: number }
  readonly trimmed: readonly Edge[]
  /** sawn off each trimmed edge, saw cut included [m] */
  readonly trim: number
  readonly pieces: readonly PlanPiece[]
  readonly cuts: readonly PlanCut[]
  readonly steps: readonly SawStep[]
  /** offcuts that are kept */
  readonly offcuts: readonly PlanPiece[]
  /** how often fence or stop is set [–] */
  readonly settings: number
}

export interface SawPlanRequest {
  readonly region: Region
  readonly board: Pick<Board, 'length' | 'width' | 'trim'>
  /** [m] */
  readonly kerf: number
  /** of the board [kg/m2] */
  readonly massPerArea: number
  readonly limits: SawLimits
  /** blanks that are larger than their parts, by key: no sliver is sawn off them */
  readonly oversize?: ReadonlySet<string>
  /** cuts of boards of the same material that are sawn before: what is sawn from both is matched */
  readonly earlier?: readonly PlanCut[]
  /** number of the first offcut */
  readonly firstOffcut?: number
}

/** A cut that waits for its turn. */
interface Waiting {
  readonly piece: number
  readonly cut: RealCut
  readonly place: Place
  readonly tool: SawTool
  readonly setting: string
}

/**
 * The plan of one board.
 *
 * Formula: edges are trimmed first. Of all cuts whose piece is there, the next one is: of a piece that is too heavy for
 * one person, the largest; else one at the setting that stands; else one whose setting is never needed again after the cuts
 * that it leads to, rips before crosscuts, long before short; else rips before crosscuts, long before short. Validity:
 * layouts without faults.
 * @param request the board's tree, size and limits [m, kg/m2]
 * @returns every cut once, in order [m]
 * @source common practice
 */
export function sawPlan(request: SawPlanRequest): SawPlan {
  const { region, board, kerf, limits, massPerArea } = request
  const real = realBoard(region, board, kerf, limits.fenceReach, {
    keys: request.oversize ?? new Set(),
    sliver: limits.sliver,
  })
  const pieces: { -readonly [Key in keyof PlanPiece]: PlanPiece[Key] }[] = []
  const cuts: PlanCut[] = []
  const steps: PlanCut[][] = []
  let offcut = request.firstOffcut ?? 1
  let setting = ''
  const add = (kind: PlanPieceKind, place: Place, more: Partial<PlanPiece> = {}): number => {
    pieces.push({ id: pieces.length, kind, place, ...more })
    return pieces.length - 1
  }
  /** What became of it: only then is it known whether an offcut is worth its number. */
  const addReal = ({ place, blank, cut }: RealPiece): number => {
    if (blank) return add('blank', place, blank)
    if (cut) return add('piece', place)
    if (!isKept(place, limits)) return add('waste', place)
    offcut += 1
    return add('offcut', place, { offcut: offcut - 1 })
  }
  const take = (next: Waiting, made: Pick<PlanCut, 'kind' | 'kept' | 'falls'>): void => {
    const { from, distance } = next.cut
    const rip = from === 'near' || from === 'far'
    const number = cuts.length + 1
    const cut: PlanCut = {
      number,
      ...made,
      piece: next.piece,
      from,
      distance,
      length: rip ? next.place.length : next.place.width,
      tool: next.tool,
      cautions: cautionsOf(next, kerf, {
        limits,
        massPerArea,
        isMatched:
          !(isSet({ kind: made.kind, tool: next.tool }) && next.setting === setting) &&
          [...(request.earlier ?? []), ...cuts].some((one) => isMatchOf(one, next, made.kind)),
      }),
      sameSetting: isSet({ kind: made.kind, tool: next.tool }) && next.setting === setting,
    }
    const piece = pieces[next.piece]!
    piece.sawnBy = number
    const before = cuts.at(-1)
    const isOneStep =
      before?.falls === next.piece &&
      cut.kind !== 'trim' &&
      before.kind === cut.kind &&
      before.from === from &&
      before.tool === cut.tool &&
      Math.abs(before.distance - distance) <= SAME
    cuts.push(cut)
    if (isOneStep) steps.at(-1)!.push(cut)
    else steps.push([cut])
    setting = next.setting
  }

  const whole: Place = { along: 0, across: 0, length: board.length, width: board.width }
  let last = add('board', whole)
  for (const edge of real.trimmed) {
    const place = pieces[last]!.place
    const cut = trimCut(place, edge, board.trim, kerf)
    const tool = toolOf(cut, place, { limits, massPerArea, isTrim: true })
    const kept = add('board', cut.kept.place)
    const falls = cut.falls ? add('waste', cut.falls.place) : undefined
    take(
      { piece: last, cut, place, tool, setting: settingOf(tool, cut.distance) },
      { kind: 'trim', kept, ...(falls === undefined ? {} : { falls }) },
    )
    last = kept
  }
  let ready: Waiting[] = []
  const await_ = (piece: number, { cut, place }: RealPiece): void => {
    if (!cut) return
    const tool = toolOf(cut, place, { limits, massPerArea })
    ready.push({ piece, cut, place, tool, setting: settingOf(tool, cut.distance) })
  }
  if (real.piece.cut) await_(last, real.piece)
  else if (real.piece.blank) pieces[last] = { ...pieces[last]!, kind: 'blank', ...real.piece.blank }
  while (ready.length > 0) {
    const next = nextOf(ready, setting, { limits, massPerArea }, cuts.at(-1)?.falls)
    ready = ready.filter((one) => one !== next)
    const { cut } = next
    const kept = addReal(cut.kept)
    const falls = cut.falls ? addReal(cut.falls) : undefined
    take(next, { kind: cut.kind, kept, ...(falls === undefined ? {} : { falls }) })
    await_(kept, cut.kept)
    if (cut.falls && falls !== undefined) await_(falls, cut.falls)
  }
  nameLetters(pieces, steps)
  return {
    board: { length: board.length, width: board.width },
    trimmed: real.trimmed,
    trim: board.trim,
    pieces,
    cuts,
    steps: steps.map((one) => ({ cuts: one })),
    offcuts: pieces.filter(({ kind }) => kind === 'offcut'),
    settings: cuts.filter((cut) => isSet(cut) && !cut.sameSetting).length,
  }
}

/** The cut that takes an edge off a board. */
function trimCut(place: Place, edge: Edge, trim: number, kerf: number): RealCut {
  const across = edge === 'near' || edge === 'far'
  const size = across ? place.width : place.length
  const part = (from: number, to: number): Place =>
    across
      ? { ...place, across: place.across + from, width: to - from }
      : { ...place, along: place.along + from, length: to - from }
  const atStart = edge === 'near' || edge === 'left'
  const kept = atStart ? part(trim, size) : part(0, size - trim)
  const waste = trim - kerf
  return {
    kind: across ? 'rip' : 'crosscut',
    from: opposite(edge),
    distance: size - trim,
    kept: { place: kept },
    ...(waste > SAME ? { falls: { place: atStart ? part(0, waste) : part(size - waste, size) } } : {}),
    bothExact: false,
  }
}

const massOf = ({ length, width }: Place, massPerArea: number): number => length * width * massPerArea

/** Tenths of a millimetre, as they are printed: two settings that no fence tells apart are one. */
const tenths = (distance: number): number => Math.round(distance * 1e4)
const settingOf = (tool: SawTool, distance: number): string => `${tool} ${tenths(distance)}`

/** Fence or stop is set to it; straightedges are laid to a mark, and so is an end that is made square on the sled. */
const isSet = ({ kind, tool }: Pick<PlanCut, 'kind' | 'tool'>): boolean =>
  tool === 'fence' || (tool === 'sled' && kind !== 'trim')

/** Of one size across the same way, sawn before. */
const isMatchOf = (before: PlanCut, { cut }: Waiting, kind: PlanCut['kind']): boolean =>
  kind !== 'trim' && before.kind === kind && tenths(before.distance) === tenths(cut.distance)

interface Bearing {
  readonly limits: SawLimits
  readonly massPerArea: number
}

/**
 * Along the fence only what has an edge there that is at least as long as the piece reaches, between blade and fence and
 * beyond the blade: a piece with a short edge there turns and is thrown back. Ends are trimmed square to an edge, so never
 * along the fence. The sled bears a half whose middle lies on it; what is too narrow for a straightedge and a saw's shoe
 * rides on it at any length, with a stand under its end. All else is guided.
 */
function toolOf(
  cut: RealCut,
  place: Place,
  { limits, massPerArea, isTrim = false }: Bearing & { readonly isTrim?: boolean },
): SawTool {
  if (massOf(place, massPerArea) > limits.heavy) return 'guide'
  const { run, size } = sidesOf(cut, place)
  const reach = Math.max(cut.distance, size - cut.distance)
  const isSquared = isTrim && cut.kind === 'crosscut'
  if (
    !isSquared &&
    run >= Math.max(reach, limits.shortestOnFence) - SAME &&
    cut.distance <= limits.fenceReach + SAME
  )
    return 'fence'
  const isBorne = reach <= 2 * limits.sledSide + SAME || run < limits.handRoom - SAME
  const hasStop = isTrim || cut.distance <= limits.stopReach + SAME
  return run <= limits.sledTravel + SAME && isBorne && hasStop ? 'sled' : 'guide'
}

/** Along the cut, and across it [m]. */
const sidesOf = (
  { kind }: RealCut,
  { length, width }: Place,
): { readonly run: number; readonly size: number } =>
  kind === 'rip' ? { run: length, size: width } : { run: width, size: length }

function cautionsOf(
  { cut, place, tool }: Waiting,
  kerf: number,
  { limits, massPerArea, isMatched }: Bearing & { readonly isMatched: boolean },
): readonly SawCaution[] {
  const { run, size } = sidesOf(cut, place)
  const beyond = size - cut.distance - kerf
  const falls = beyond > SAME
  const sliver = tool !== 'guide' && falls && beyond < limits.sliver - SAME
  const thin =
    tool === 'fence' &&
    (cut.distance < limits.thin - SAME || (falls && !sliver && beyond < limits.thin - SAME))
  const small =
    Math.min(place.length, place.width) < limits.handRoom - SAME || cut.distance < limits.thin - SAME
  const beside =
    tool === 'sled' ? [cut.distance, beyond].filter((one) => one > limits.sledSide + SAME).length : 0
  return [
    ...(massOf(place, massPerArea) > limits.heavy ? ['heavy' as const] : []),
    ...(tool === 'fence' && run > limits.table + SAME ? ['support' as const] : []),
    ...(beside === 1 ? ['support-side' as const] : []),
    ...(beside === 2 ? ['support-sides' as const] : []),
    ...(tool === 'fence' && !thin && cut.distance < limits.handRoom - SAME ? ['push-stick' as const] : []),
    ...(thin ? ['thin' as const] : []),
    ...(sliver ? ['sliver' as const] : []),
    ...(tool !== 'fence' && small ? ['clamp' as const] : []),
    ...(isMatched ? ['match' as const] : []),
    ...(cut.bothExact ? ['measure-rest' as const] : []),
  ]
}

/** The next cut of those whose piece is there. */
function nextOf(
  ready: readonly Waiting[],
  setting: string,
  { limits, massPerArea }: Bearing,
  rest: number | undefined,
): Waiting {
  const best = (all: readonly Waiting[], better: (a: Waiting, b: Waiting) => number): Waiting =>
    [...all].sort((a, b) => better(a, b) || a.piece - b.piece)[0]!
  const area = ({ place }: Waiting): number => place.length * place.width
  const run = ({ cut, place }: Waiting): number => sidesOf(cut, place).run
  const heavy = ready.filter(({ place }) => massOf(place, massPerArea) > limits.heavy)
  if (heavy.length > 0) return best(heavy, (a, b) => area(b) - area(a))
  const standing = ready.filter((one) => one.setting === setting)
  const onward = standing.find(({ piece }) => piece === rest)
  if (onward) return onward
  if (standing.length > 0) return best(standing, (a, b) => run(b) - run(a))
  const ripsFirst = (a: Waiting, b: Waiting): number =>
    Number(b.cut.kind === 'rip') - Number(a.cut.kind === 'rip') || run(b) - run(a)
  const closing = ready.filter((one) =>
    ready.every((other) => !waitsFor(other, one.setting, limits, massPerArea)),
  )
  return best(closing.length > 0 ? closing : ready, ripsFirst)
}

/** True when a cut at the setting comes only after one at another setting. */
function waitsFor(
  { cut, setting: own }: Waiting,
  setting: string,
  limits: SawLimits,
  massPerArea: number,
): boolean {
  const below = (piece: RealPiece | undefined, isFree: boolean): boolean => {
    if (!piece?.cut) return false
    const tool = toolOf(piece.cut, piece.place, { limits, massPerArea })
    const isThere = settingOf(tool, piece.cut.distance) === setting
    if (isThere && !isFree) return true
    const goesOn = isFree && isThere
    return below(piece.cut.kept, goesOn) || below(piece.cut.falls, goesOn)
  }
  const isFree = own === setting
  return below(cut.kept, isFree) || below(cut.falls, isFree)
}

/**
 * Whether an offcut is worth its place in the rack.
 *
 * Formula: both sides at least as long as the shop keeps, or a strip long and wide enough for a fixture's strips.
 * Validity: any piece.
 * @param place of the offcut [m]
 * @param limits sizes that are kept [m]
 * @returns true when it is kept
 * @source common practice
 */
export function isKept(place: Pick<Place, 'length' | 'width'>, limits: SawLimits): boolean {
  const short = Math.min(place.length, place.width)
  const long = Math.max(place.length, place.width)
  return (
    short >= limits.keepsFrom - SAME ||
    (short >= limits.stripWidth - SAME && long >= limits.stripLength - SAME)
  )
}

/** A letter for whatever is put aside and lies on the saw again in another step. */
function nameLetters(
  pieces: { -readonly [Key in keyof PlanPiece]: PlanPiece[Key] }[],
  steps: readonly (readonly PlanCut[])[],
): void {
  const stepOf = new Map(steps.flatMap((cuts, step) => cuts.map(({ number }) => [number, step] as const)))
  let next = 0
  for (const [step, cuts] of steps.entries())
    for (const { kept, falls } of cuts)
      for (const id of falls === undefined ? [kept] : [kept, falls]) {
        const piece = pieces[id]!
        if (piece.kind !== 'piece' || stepOf.get(piece.sawnBy ?? 0) === step) continue
        piece.letter = letterOf(next)
        next += 1
      }
}

/** A to Z without I and O, which read as figures; then AA, AB … */
export const letterOf = (index: number): string => {
  const own = LETTERS[index % LETTERS.length]!
  const before = Math.floor(index / LETTERS.length)
  return before === 0 ? own : letterOf(before - 1) + own
}
const LETTERS = [...'ABCDEFGHJKLMNPQRSTUVWXYZ']

/** Boards that are sawn alike, and what a material's boards come to. */
export interface SawnAlike {
  /** numbers of the boards, from 1 */
  readonly numbers: readonly number[]
  readonly board: string
  readonly region: Region
}

/**
 * Boards that are sawn alike, together.
 *
 * Formula: one size of board and one tree, to the micrometre. Validity: any layout.
 * @param boards of the layout [m]
 * @returns groups in the order of their first board
 * @source common practice
 */
export function alikeBoards(
  boards: readonly { readonly board: string; readonly region: Region }[],
): readonly SawnAlike[] {
  const groups = new Map<string, { numbers: number[]; board: string; region: Region }>()
  for (const [index, { board, region }] of boards.entries()) {
    const text = JSON.stringify([board, region], (_, value) =>
      typeof value === 'number' ? Math.round(value * 1e6) : value,
    )
    const group = groups.get(text)
    if (group) group.numbers.push(index + 1)
    else groups.set(text, { numbers: [index + 1], board, region })
  }
  return [...groups.values()]
}

/** Shares of the area of all boards that are sawn up [–]. */
export interface SheetShares {
  /** of all boards [m2] */
  readonly area: number
  readonly blanks: number
  /** offcuts that are kept */
  readonly kept: number
  /** dust, trimmed edges and offcuts that are too small */
  readonly waste: number
}

/**
 * What becomes of the boards.
 *
 * Formula: area of blanks and of kept offcuts over that of the boards; waste is the rest. Validity: at least one board.
 * @param plans each with how many boards are sawn by it [m]
 * @returns area [m2] and shares [–]
 * @source common practice
 */
export function sheetShares(
  plans: readonly { readonly plan: SawPlan; readonly count: number }[],
): SheetShares {
  const total = (kinds: readonly PlanPieceKind[]): number =>
    plans.reduce(
      (sum, { plan, count }) =>
        sum +
        count *
          plan.pieces
            .filter(({ kind, sawnBy }) => kinds.includes(kind) && sawnBy === undefined)
            .reduce((all, { place }) => all + place.length * place.width, 0),
      0,
    )
  const area = plans.reduce((sum, { plan, count }) => sum + count * plan.board.length * plan.board.width, 0)
  if (area <= 0) return { area: 0, blanks: 0, kept: 0, waste: 0 }
  const blanks = total(['blank']) / area
  const kept = total(['offcut']) / area
  return { area, blanks, kept, waste: 1 - blanks - kept }
}
