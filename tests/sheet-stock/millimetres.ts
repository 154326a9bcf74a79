import type { Blank } from '../../src/sheet-stock/types.ts'

/** A blank by its sizes in millimetres. */
export const blank = (key: string, length: number, width: number, count: number, turns = false): Blank => ({
  key,
  length: length / 1000,
  width: width / 1000,
  count,
  turns,
})
