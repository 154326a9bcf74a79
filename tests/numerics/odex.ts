/** The ODE solver odex 2.0.4, a port of the code of Hairer and Wanner; its own sources do not pass our compiler. */
import { createRequire } from 'node:module'

interface OdeSolver {
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  readonly solve: (
    slope: (x: number, y: number[]) => number[],
    from: number,
    y: readonly number[],
    to: number,
  ) => { readonly y: number[]; readonly outcome: number }
}

const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (size: number) => OdeSolver }

/** @param size of the state */
export const odeSolver = (size: number): OdeSolver => {
  const solver = new Solver(size)
  solver.absoluteTolerance = 1e-9
  solver.relativeTolerance = 1e-9
  solver.maxSteps = 100_000
  return solver
}
