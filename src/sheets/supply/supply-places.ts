/** Places of the sheets of section 8, whichever of them a binder has: a shop that begins to keep stock renumbers nothing. */
import type { Place } from '../links.ts'

export const SUPPLY = {
  shopping: { id: 'supply/shopping', number: '8.1' },
  stock: { id: 'supply/stock', number: '8.2' },
  cost: { id: 'supply/cost', number: '8.3' },
  trace: { id: 'supply/trace', number: '8.4' },
} as const satisfies Record<string, Place>
