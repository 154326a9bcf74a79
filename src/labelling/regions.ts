/** Whose law a label is written for. */

/** United States, European Union, Great Britain, Canada. */
export const REGIONS = ['US', 'EU', 'UK', 'CA'] as const

export type Region = (typeof REGIONS)[number]

/** Regions whose rules of the label are those of Regulation (EC) No 1223/2009, or were taken over from it. */
export const followsEurope = (region: Region): boolean => region === 'EU' || region === 'UK'
