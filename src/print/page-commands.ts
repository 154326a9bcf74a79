/** Reads the drawing commands of a printed page: at which scale it was printed, and how long its lines really are. */

/** Scale of a page that was not shrunk: 72 pt over 96 px to the inch. [pt/px] */
export const TRUE_SCALE = 72 / 96
/** The browser writes its matrices as 0.23999999 × 3.125. (read) */
const SCALE_TOLERANCE = 1e-6

const MILLIMETRES_PER_POINT = 25.4 / 72

export interface PageCommands {
  /** commands that place content, besides the foot line */
  readonly placements: number
  /** one of them places it at the true scale */
  readonly hasTrueScale: boolean
  /** width and height of every painted path, on paper [mm] */
  readonly extents: readonly { readonly width: number; readonly height: number }[]
}

type Matrix = readonly [number, number, number, number, number, number]

const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0]
const PAINTS = new Set(['S', 's', 'f', 'F', 'f*', 'B', 'B*', 'b', 'b*'])

/**
 * Follows the transforms and paths of one page.
 *
 * The browser writes one command a line, and draws the foot line with a matrix that moves nothing; that one keeps
 * its scale even when the content is shrunk, so it says nothing about the content.
 *
 * @param commands drawing commands of a page
 * @param withPaths also measure the painted paths
 * @param hasFoot   whether the page has a foot line; one without margins has none, and its content moves nothing either
 */
export function readPageCommands(commands: string, withPaths = false, hasFoot = true): PageCommands {
  let matrix: Matrix = IDENTITY
  const stack: Matrix[] = []
  let placements = 0
  let hasTrueScale = false
  const extents: { width: number; height: number }[] = []
  let points: number[] = []

  const addPoint = (x: number, y: number) => {
    points.push(matrix[0] * x + matrix[2] * y + matrix[4], matrix[1] * x + matrix[3] * y + matrix[5])
  }

  for (const line of commands.split('\n')) {
    const operator = line.slice(line.lastIndexOf(' ') + 1)
    if (operator === 'Tj' || operator === 'Td') continue
    if (operator === 'q') stack.push(matrix)
    else if (operator === 'Q') matrix = stack.pop() ?? IDENTITY
    else if (operator === 'cm') {
      const added = numbersOf(line) as unknown as Matrix
      const isFoot = hasFoot && added[4] === 0 && added[5] === 0 && stack.length === 1
      matrix = multiply(added, matrix)
      if (stack.length > 0 && !isFoot) {
        placements += 1
        hasTrueScale ||= isTrue(matrix)
      }
    } else if (withPaths) {
      const values = numbersOf(line)
      const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = values
      if (operator === 'm' || operator === 'l') addPoint(a, b)
      else if (operator === 'c') {
        addPoint(a, b)
        addPoint(c, d)
        addPoint(e, f)
      } else if (operator === 're') {
        addPoint(a, b)
        addPoint(a + c, b + d)
      } else if (PAINTS.has(operator)) {
        if (points.length > 0) extents.push(extentOf(points))
        points = []
      } else if (operator === 'n') points = []
    }
  }
  return { placements, hasTrueScale, extents }
}

/** True when the commands show a glyph that stands for "no such character". */
export const showsMissingGlyph = (commands: string): boolean =>
  /<(?:[0-9A-Fa-f]{4})*?0000(?:[0-9A-Fa-f]{4})*> ?Tj/.test(commands)

const isTrue = (matrix: Matrix): boolean =>
  Math.abs(matrix[0] - TRUE_SCALE) <= SCALE_TOLERANCE &&
  Math.abs(matrix[3] + TRUE_SCALE) <= SCALE_TOLERANCE &&
  matrix[1] === 0 &&
  matrix[2] === 0

function multiply(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[1] * n[2],
    m[0] * n[1] + m[1] * n[3],
    m[2] * n[0] + m[3] * n[2],
    m[2] * n[1] + m[3] * n[3],
    m[4] * n[0] + m[5] * n[2] + n[4],
    m[4] * n[1] + m[5] * n[3] + n[5],
  ]
}

const numbersOf = (line: string): number[] => line.split(' ').slice(0, -1).map(Number)

function extentOf(points: readonly number[]): { width: number; height: number } {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity]
  for (let index = 0; index < points.length; index += 2) {
    const [x = 0, y = 0] = [points[index], points[index + 1]]
    left = Math.min(left, x)
    right = Math.max(right, x)
    low = Math.min(low, y)
    high = Math.max(high, y)
  }
  return {
    width: (right - left) * MILLIMETRES_PER_POINT,
    height: (high - low) * MILLIMETRES_PER_POINT,
  }
}
