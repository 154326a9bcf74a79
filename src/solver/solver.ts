/** Solves integer programmes by a library; the only import of it. */
import loadLibrary from 'highs'
import { keptOrMade } from '../kept-or-made.ts'
import type { Answer, Solve } from '../supply/programme.ts'

/** No clock: the same text gives the same answer on a slow machine. More branches than this leave it unproved. */
const MOST_BRANCHES = 200_000
/** Of whole counts and of rows; amounts are kept to a tenth of a gram, which is far more. */
const EXACT = 1e-9

/** Programmes that are kept with their answers: two of a list. */
const MOST_KNOWN = 64
const answers = new Map<string, Answer>()
/** loaded, and has solved nothing yet */
let fresh: Library | undefined

/**
 * The solver.
 *
 * Its memory grows with every programme and is given back with the solver alone, so a new one is loaded for each list of
 * which it has to solve anything: the same text has the same answer.
 * @returns solves texts in the LP format, one after the other
 */
export const loadSolver = async (): Promise<Solve> => {
  fresh ??= await loadLibrary()
  const library = fresh
  const anew = solverOf(library)
  return (text) =>
    keptOrMade(answers, MOST_KNOWN, text, () => {
      if (fresh === library) fresh = undefined
      return anew(text)
    })
}

type Library = Awaited<ReturnType<typeof loadLibrary>>

const solverOf = (library: Library): Solve => {
  const { optimal } = library.constants.modelStatus
  return (text): Answer => {
    const model = library.createModel({ format: 'lp', data: text })
    try {
      model.options.set({
        output_flag: false,
        mip_rel_gap: 0,
        mip_abs_gap: 0,
        mip_max_nodes: MOST_BRANCHES,
        mip_feasibility_tolerance: EXACT,
        primal_feasibility_tolerance: EXACT,
        random_seed: 0,
      })
      const { modelStatus } = model.run()
      const solved = modelStatus === optimal
      const { colValue } = model.getSolution()
      return {
        optimal: solved,
        objective: model.getObjectiveValue(),
        bound: Number(model.info.get('mip_dual_bound')),
        values: new Map([...(colValue ?? [])].map((value, column) => [model.getColName(column), value])),
      }
    } finally {
      model.dispose()
    }
  }
}
