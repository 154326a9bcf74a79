/** Minutes from emulsion until the batter is too thick, against the minutes that blending and pouring take. */
import type { Finding } from '../findings.ts'
import type { Band } from './band.ts'

export interface TimeBudgetRequest {
  /** s from emulsion to too thick to pour, as tried before; undefined for an untried recipe */
  readonly timeToThick: Band | undefined
  /** s that the work takes after emulsion */
  readonly colouring: number
  readonly carrying: number
  /** jugs to pour, and s for each; 1 jug for a direct pour */
  readonly jugs: number
  readonly timePerJug: number
  /** s of blender running after emulsion, and its longest run and rest [s] */
  readonly blending: number
  readonly longestRun?: number
  readonly rest?: number
}

export interface TimeBudget {
  /** s, rests of the blender included */
  readonly blending: number
  /** s */
  readonly needed: number
  /** s left at the short and the usual end of what was tried; undefined when untried */
  readonly spare: { readonly least: number; readonly usual: number } | undefined
  readonly findings: readonly Finding[]
}

/**
 * Whether a batch can be blended, coloured and poured before it is too thick.
 *
 *     needed = blending + rests + colouring + carrying + jugs · time per jug      spare = time to thick − needed
 *
 * The blender rests after each full run but the last.
 *
 * @param request  times [s]
 * @returns time needed and spare [s]; an untried recipe is held, a short time at the fast end stops the batch
 * @source common practice
 */
export const timeBudget = (request: TimeBudgetRequest): TimeBudget => {
  const { timeToThick, longestRun, rest } = request
  const rests =
    longestRun === undefined || longestRun <= 0
      ? 0
      : Math.max(0, Math.ceil(request.blending / longestRun) - 1)
  const blending = request.blending + rests * (rest ?? 0)
  const needed = blending + request.colouring + request.carrying + request.jugs * request.timePerJug
  if (timeToThick === undefined) {
    return {
      blending,
      needed,
      spare: undefined,
      findings: [{ code: 'time-to-thick-untried', severity: 'hold', values: { needed } }],
    }
  }
  const spare = { least: timeToThick.low - needed, usual: timeToThick.nominal - needed }
  const findings: Finding[] = []
  if (spare.usual < 0)
    findings.push({ code: 'thick-before-poured', severity: 'stop', values: { needed, ...spare } })
  else if (spare.least < 0)
    findings.push({ code: 'may-be-thick-before-poured', severity: 'hold', values: { needed, ...spare } })
  return { blending, needed, spare, findings }
}
