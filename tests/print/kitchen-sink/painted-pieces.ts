/** Reads where the lines of a printed page really lie, with a library that had no part in making it. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

/** Rectangle round one unbroken stroke or filled shape, from the page's lower left corner. [mm] */
export interface Piece {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

type Matrix = readonly [number, number, number, number, number, number]

/** How many numbers follow each step of a path: move, line, curve, quadratic curve, close. (read) */
const NUMBERS = [2, 2, 6, 4, 0] as const
const PER_POINT = 25.4 / 72

/** Every stroke of a page by itself; each dash of a broken line is one. */
export async function paintedPieces(pdf: Uint8Array, pageNumber: number): Promise<Piece[]> {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 })
  const pieces = await piecesOn(await (await task.promise).getPage(pageNumber))
  await task.destroy()
  return pieces
}

type PdfPage = Awaited<ReturnType<Awaited<ReturnType<typeof getDocument>['promise']>['getPage']>>

/** The same of a page that is open already. */
export async function piecesOn(page: PdfPage): Promise<Piece[]> {
  const { fnArray, argsArray } = await page.getOperatorList()
  let matrix: Matrix = [1, 0, 0, 1, 0, 0]
  const stack: Matrix[] = []
  const pieces: Piece[] = []
  fnArray.forEach((operator, index) => {
    const values = argsArray[index]
    if (operator === OPS.save) stack.push(matrix)
    else if (operator === OPS.restore) matrix = stack.pop() ?? [1, 0, 0, 1, 0, 0]
    else if (operator === OPS.transform) matrix = multiply(values as Matrix, matrix)
    else if (operator === OPS.constructPath && values[0] !== OPS.endPath)
      pieces.push(...piecesOf([...((values[1] as [Float32Array | null])[0] ?? [])], matrix))
  })
  return pieces
}

function piecesOf(path: readonly number[], [a, b, c, d, e, f]: Matrix): Piece[] {
  const pieces: Piece[] = []
  let points: [number, number][] = []
  const end = () => {
    const [xs, ys] = [points.map(([x]) => x * PER_POINT), points.map(([, y]) => y * PER_POINT)]
    if (points.length > 1)
      pieces.push({
        left: Math.min(...xs),
        right: Math.max(...xs),
        low: Math.min(...ys),
        high: Math.max(...ys),
      })
    points = []
  }
  for (let at = 0; at < path.length; ) {
    const step = path[at]!
    const count = NUMBERS[step] ?? 0
    if (step === 0) end()
    for (let index = at + 1; index < at + 1 + count; index += 2) {
      const [x, y] = [path[index]!, path[index + 1]!]
      points.push([a * x + c * y + e, b * x + d * y + f])
    }
    at += 1 + count
  }
  end()
  return pieces
}

const multiply = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[1] * n[2],
  m[0] * n[1] + m[1] * n[3],
  m[2] * n[0] + m[3] * n[2],
  m[2] * n[1] + m[3] * n[3],
  m[4] * n[0] + m[5] * n[2] + n[4],
  m[4] * n[1] + m[5] * n[3] + n[5],
]
