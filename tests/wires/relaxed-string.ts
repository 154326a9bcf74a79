/**
 * A string of short springs with loads hung on its joints, brought to rest by Newton's method: knows nothing of parabolas.
 */

export interface SpringString {
  readonly length: number
  readonly soapWidth: number
  readonly axialStiffness: number
  readonly restTension: number
  readonly load: number
  readonly endGive?: number
}

/** Lag of the middle [m] and tension of the last spring [N]; half of the string, mirrored at its middle. */
export function relaxString(string: SpringString, springs = 80): { lag: number; tension: number } {
  const { length, soapWidth, axialStiffness, restTension, load } = string
  const half = length / 2
  const edge = soapWidth / 2
  // joints at even distances in the soap, four springs outside of it
  const outside = half - edge > 1e-9 ? 4 : 0
  const inSoap = springs - outside
  const start = Array.from({ length: springs + 1 }, (_, i) =>
    i <= inSoap ? (edge * i) / inSoap : edge + ((half - edge) * (i - inSoap)) / outside,
  )
  const natural = start.slice(1).map((x, i) => (x - (start[i] ?? 0)) / (1 + restTension / axialStiffness))
  // the pin is a spring of its own: half of the give on each side, at rest under the tuned tension
  const give = (string.endGive ?? 0) / 2
  // unknowns: height of the middle; place and height of each joint; place of the pin last
  const x = [...start]
  const y = new Array<number>(springs + 1).fill(0)
  const unknowns: [axis: 'x' | 'y', joint: number][] = [['y', 0]]
  for (let i = 1; i < springs; i += 1) unknowns.push(['x', i], ['y', i])
  if (give > 0) unknowns.push(['x', springs])
  const at = (axis: 'x' | 'y', joint: number): number =>
    unknowns.findIndex(([a, j]) => a === axis && j === joint)
  const places = { x: x.map((_, i) => at('x', i)), y: y.map((_, i) => at('y', i)) }
  const n = unknowns.length
  let tension = restTension
  // loads grow step by step, so that every start lies near its end
  for (const share of [0.05, 0.2, 0.5, 1]) {
    for (let round = 0; round < 60; round += 1) {
      const force = new Array<number>(n).fill(0)
      const matrix = Array.from({ length: n }, () => new Array<number>(n).fill(0))
      const add = (row: number, value: number): void => {
        if (row >= 0) force[row] = (force[row] ?? 0) + value
      }
      for (let i = 0; i < springs; i += 1) {
        const dx = (x[i + 1] ?? 0) - (x[i] ?? 0)
        const dy = (y[i + 1] ?? 0) - (y[i] ?? 0)
        const long = Math.hypot(dx, dy)
        const pull = axialStiffness * (long / (natural[i] ?? 1) - 1)
        tension = pull
        const [cx, cy] = [dx / long, dy / long]
        add(places.x[i] ?? -1, pull * cx)
        add(places.y[i] ?? -1, pull * cy)
        add(places.x[i + 1] ?? -1, -pull * cx)
        add(places.y[i + 1] ?? -1, -pull * cy)
        const stiff = axialStiffness / (natural[i] ?? 1)
        const turn = pull / long
        const block = [
          [stiff * cx * cx + turn * cy * cy, (stiff - turn) * cx * cy],
          [(stiff - turn) * cx * cy, stiff * cy * cy + turn * cx * cx],
        ]
        const ends = [
          [places.x[i], places.y[i]],
          [places.x[i + 1], places.y[i + 1]],
        ]
        for (const a of [0, 1])
          for (const b of [0, 1])
            for (const p of [0, 1])
              for (const q of [0, 1]) {
                const row = ends[a]?.[p] ?? -1
                const column = ends[b]?.[q] ?? -1
                const line = matrix[row]
                if (row >= 0 && column >= 0 && line)
                  line[column] = (line[column] ?? 0) + (a === b ? 1 : -1) * (block[p]?.[q] ?? 0)
              }
        // the wire moves sideways through the soap: what of a spring lies in it now hangs on its joints by the lever
        const left = x[i] ?? 0
        const within = Math.max(0, Math.min(left + dx, edge) - left)
        const hung = share * load * within
        add(places.y[i] ?? -1, hung * (1 - within / 2 / dx))
        add(places.y[i + 1] ?? -1, (hung * within) / 2 / dx)
      }
      if (give > 0) {
        const row = places.x[springs] ?? -1
        // moved inwards by u = half − x, the pin pulls back with T₀ + u / give
        add(row, restTension + (half - (x[springs] ?? 0)) / give)
        const line = matrix[row]
        if (line) line[row] = (line[row] ?? 0) + 1 / give
      }
      const step = eliminate(matrix, force)
      for (const [index, [axis, joint]] of unknowns.entries()) {
        const list = axis === 'x' ? x : y
        list[joint] = (list[joint] ?? 0) + (step[index] ?? 0)
      }
      if (Math.max(...step.map(Math.abs)) < 1e-14) break
    }
  }
  return { lag: y[0] ?? 0, tension }
}

/** Elimination within the band that springs make: three unknowns to each side are enough. */
function eliminate(matrix: number[][], right: number[]): number[] {
  const n = right.length
  const band = 4
  for (let column = 0; column < n; column += 1)
    for (let row = column + 1; row < Math.min(n, column + band); row += 1) {
      const [upper, lower] = [matrix[column] ?? [], matrix[row] ?? []]
      const factor = (lower[column] ?? 0) / (upper[column] ?? 1)
      for (let k = column; k < Math.min(n, column + band); k += 1)
        lower[k] = (lower[k] ?? 0) - factor * (upper[k] ?? 0)
      right[row] = (right[row] ?? 0) - factor * (right[column] ?? 0)
    }
  for (let row = n - 1; row >= 0; row -= 1) {
    let sum = right[row] ?? 0
    for (let k = row + 1; k < Math.min(n, row + band); k += 1)
      sum -= (matrix[row]?.[k] ?? 0) * (right[k] ?? 0)
    right[row] = sum / (matrix[row]?.[row] ?? 1)
  }
  return right
}
