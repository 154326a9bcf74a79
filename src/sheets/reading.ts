/** How far from the eye each kind of sheet is read, and how large its letters therefore are. */
import { capitalHeight } from '../drawing/types.ts'

/** Where a sheet is read, and at what angle its running text is seen. */
export interface Reading {
  /** from the eye to the paper [m] */
  readonly distance: number
  /** of a capital of the running text [arc minutes] */
  readonly angle: number
}

/** Arc minutes under which nobody is asked to read anything, and at which running text begins (ISO 9241-3, read). */
export const LEAST_ANGLE = 16
export const LEAST_PREFERRED = 20
/** Running text: the middle of the 20 to 22 arc minutes that ISO 9241-3 prefers (read). */
const PREFERRED = 21
/** Labels, heads and notes: above the 16 arc minutes that no letter may go below (read). */
const SMALL = 18
/** A month: a few words in a cell, looked at one cell at a time; at the preferred angle it would take two walls. */
const IN_CELLS = 17

/** m; paper on the desk or in the hand, a pencil in the other (the 40 cm of the usual reading tests, from memory) */
const DESK: Reading = { distance: 0.4, angle: PREFERRED }

/** Every kind of sheet, once. Distances are common practice: go and stand there. */
export const READINGS = {
  cover: DESK,
  contents: DESK,
  cautions: DESK,
  // on the wall behind a workbench 60 to 75 cm deep, read by whoever holds a hand under the tap beside it
  emergency: { distance: 1, angle: PREFERRED },
  recipe: DESK,
  // lies on the bench and is ticked: the reader bends over it with a pencil
  batch: DESK,
  pilot: DESK,
  // on the wall behind its station, hands on the work
  card: { distance: 0.9, angle: PREFERRED },
  // stands at the station, an arm's length from the eye; the lower end of what is preferred, for half a page
  'half-card': { distance: 0.7, angle: LEAST_PREFERRED },
  cure: DESK,
  // on the wall, a pencil in the hand
  calendar: { distance: 0.45, angle: IN_CELLS },
  fixture: DESK,
  supply: DESK,
  label: DESK,
  // held like what it is stuck on; how large its letters are says the law
  'label-page': DESK,
  training: DESK,
  trouble: DESK,
  release: DESK,
  record: DESK,
  // carried through the shop on a board, with a pencil
  printed: DESK,
  // cut out at the desk; what stands on strip and tab is set by the width of the binder
  front: DESK,
  page: DESK,
  sources: DESK,
} as const satisfies Readonly<Record<string, Reading>>

export type ReadingKind = keyof typeof READINGS

export interface TypeSizes {
  /** running text, and the smallest of labels, heads and notes [pt] */
  readonly text: number
  readonly small: number
}

/** Small print that the rule does not ask for, by the class of its element, and why. The foot line is the printer's. */
export const EXEMPT: readonly { readonly of: string; readonly why: string }[] = [
  { of: 'title-block', why: 'read in the hand, when a sheet is filed or compared with another edition' },
  { of: 'section-name', why: 'read in the hand, when a sheet is put behind its divider' },
  { of: 'sheet-sources', why: 'read at the desk, when a figure is doubted' },
  {
    of: 'card-from',
    why: 'on half a page, whose reader has the sheet at hand; a whole page shows it to the wall',
  },
  { of: 'labels', why: 'a label is read in the hand; no letter is lower than the law of its region allows' },
  { of: 'drawing', why: 'lettering by ISO 3098, capitals no lower than a drawing or a chart allows' },
]

/**
 * Type size at which a capital is seen at an angle.
 *
 *     h = 2 d tan(angle / 2)      type = h / (capital of the typeface, in ems)
 *
 * Rounded up to half a point, so that it is never below the angle. Validity: paper square to the eye, ordinary sight;
 * for sight of 20/70 the same sources ask for 3.5 times as much.
 *
 * @param distance [m] > 0
 * @param angle    [arc minutes]
 * @returns [pt]
 * @source iso-9241-3, nureg-0700
 */
export const typeSize = ({ distance, angle }: Reading): number => {
  const height = 2 * distance * Math.tan((angle / 60 / 2) * (Math.PI / 180))
  return Math.ceil(((height / capitalHeight) * POINTS_A_METRE - ROUNDING) * 2) / 2
}

/**
 * Angle at which a capital of a type size is seen.
 *
 * Formula: the one of typeSize, turned round. Validity: as there.
 * @param points   type size [pt]
 * @param distance [m]
 * @returns [arc minutes]
 * @source iso-9241-3, nureg-0700
 */
export const seenAngle = (points: number, distance: number): number =>
  2 * Math.atan((points * capitalHeight) / POINTS_A_METRE / 2 / distance) * (180 / Math.PI) * 60

const POINTS_A_METRE = 72 / 0.0254 // 1/72 in, exact
const ROUNDING = 1e-6 // pt

/** Of a sheet that must fit a page and would not: the lower end of the range that its angle is in. */
export const tightTypeSizes = (kind: ReadingKind): TypeSizes => {
  const { distance, angle } = READINGS[kind]
  const least = angle >= LEAST_PREFERRED ? LEAST_PREFERRED : LEAST_ANGLE
  return {
    text: typeSize({ distance, angle: least }),
    small: typeSize({ distance, angle: Math.min(least, SMALL) }),
  }
}

export const typeSizes = (kind: ReadingKind): TypeSizes => {
  const { distance, angle } = READINGS[kind]
  return { text: typeSize({ distance, angle }), small: typeSize({ distance, angle: Math.min(angle, SMALL) }) }
}
