/** A figure known only as a band, as most figures of the bench are until the maker has measured his own. */
export interface Band {
  readonly low: number
  readonly nominal: number
  readonly high: number
}

/** A measured value that replaces a default band: no width left. */
export const measured = (value: number): Band => ({ low: value, nominal: value, high: value })
