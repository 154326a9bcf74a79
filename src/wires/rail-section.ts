/** How stiff a rail is in the direction in which wires pull it: of one board, and of a board with a shelf glued on. */

/** A stretch of a rail that is alike from end to end. */
export interface RailSection {
  /** where it ends, from the rail's first joint [m]; Infinity for the rest of the rail */
  readonly to: number
  /** E I [N m2] */
  readonly bending: number
  /** G A_s [N]; Infinity where shear is not counted */
  readonly shear: number
}

/** A rail between two joints. */
export interface Rail {
  /** between its joints [m] */
  readonly length: number
  /** from one joint to the other, in order; one that ends at Infinity alone where the rail is alike all along */
  readonly sections: readonly RailSection[]
}

/** Pa; birch plywood along its grain, bending (read), and shear in its plane, a low one of the handbooks (from memory) */
export const RAIL_MODULUS = { bending: 10.05e9, shear: 0.6e9 } as const

/** A board: across the pull of the wires, and along it; the second counts by its cube [m]. */
export interface RailBoard {
  readonly width: number
  readonly depth: number
}

/** In bending, and in shear; left out, shear is not counted [Pa]. */
export interface RailModulus {
  readonly bending: number
  readonly shear?: number
}

/** Share of a rectangle's area that carries shear (from memory). */
const SHEAR_SHARE = 5 / 6

/**
 * Stiffness of one board.
 *
 *     E I = E b h³/12;   G A_s = 5/6 G b h
 *
 * @param board   width across the pull, depth along it [m]
 * @param modulus in bending, in shear [Pa]
 * @param to      where it ends [m]
 * @returns section
 * @source przemieniecki
 */
export const boardSection = (
  { width, depth }: RailBoard,
  modulus: RailModulus = RAIL_MODULUS,
  to = Number.POSITIVE_INFINITY,
): RailSection => ({
  to,
  bending: (modulus.bending * width * depth ** 3) / 12,
  shear: modulus.shear === undefined ? Number.POSITIVE_INFINITY : modulus.shear * SHEAR_SHARE * width * depth,
})

export interface CompositeFigures {
  /** of all of it [m2] */
  readonly area: number
  /** of its middle line from the inner face of the board [m] */
  readonly middle: number
  /** second moment about the middle line [m4] */
  readonly secondMoment: number
  /** area that carries shear [m2] */
  readonly shearArea: number
}

/**
 * Figures of a board on edge with a shelf glued flat to its outside, bent across the board's thickness.
 *
 *     middle = Σ A y / Σ A;   I = Σ b h³/12 + Σ A (y − middle)²
 *     A_s = I² / ∫ Q²/b dy,  Q the moment of what lies beyond y about the middle line
 *
 * The shelf is the web of a T whose flange is the board: it lies along the pull, and carries nearly all of the shear.
 * Both of one material; the shelf goes along the whole stretch, let in or glued so that nothing slips. The shelf
 * fills its dado. Left out: bores of pegs, which take a few per cent of it, the kerf, and the twist of a pull that is not
 * at the shelf's own height.
 *
 * @param board width: its height, depth: its thickness [m]
 * @param shelf width: its thickness, depth: how far it stands out from the board [m]
 * @returns area [m2], middle line [m], second moment [m4], shear area [m2]
 * @source gere-timoshenko
 */
export function compositeFigures(board: RailBoard, shelf: RailBoard): CompositeFigures {
  const flange = board.width * board.depth
  const web = shelf.width * shelf.depth
  const area = flange + web
  const middle = (flange * (board.depth / 2) + web * (board.depth + shelf.depth / 2)) / area
  const own = (board.width * board.depth ** 3 + shelf.width * shelf.depth ** 3) / 12
  const secondMoment =
    own + flange * (middle - board.depth / 2) ** 2 + web * (board.depth + shelf.depth / 2 - middle) ** 2
  // Q rises with the square of the distance from a free face: ∫ b y² (c − y/2)² dy in closed form, from both faces
  const shared = (width: number, depth: number, toMiddle: number): number =>
    width * ((toMiddle ** 2 * depth ** 3) / 3 - (toMiddle * depth ** 4) / 4 + depth ** 5 / 20)
  const shearing =
    shared(board.width, board.depth, middle) +
    shared(shelf.width, shelf.depth, board.depth + shelf.depth - middle)
  return { area, middle, secondMoment, shearArea: secondMoment ** 2 / shearing }
}

/**
 * Stiffness of a board with a shelf glued flat to its outside.
 *
 *     E I and G A_s with the figures of the two together
 *
 * @param board   width: its height, depth: its thickness [m]
 * @param shelf   width: its thickness, depth: how far it stands out [m]
 * @param modulus in bending, in shear [Pa]
 * @param to      where the stretch ends [m]
 * @returns section
 * @source gere-timoshenko
 */
export function compositeSection(
  board: RailBoard,
  shelf: RailBoard,
  modulus: RailModulus = RAIL_MODULUS,
  to = Number.POSITIVE_INFINITY,
): RailSection {
  const { secondMoment, shearArea } = compositeFigures(board, shelf)
  return {
    to,
    bending: modulus.bending * secondMoment,
    shear: modulus.shear === undefined ? Number.POSITIVE_INFINITY : modulus.shear * shearArea,
  }
}
