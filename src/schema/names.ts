/** Names by which files and things point to each other. */

/** Small letters, digits and single hyphens. */
export const NAME = /^[a-z0-9]+(?:-[a-z0-9]+)*$/
export const LONGEST_NAME = 40 // [–] characters, so that it fits into a footer; common practice

/** The name that comes nearest to a text: "Old Plain" is "old-plain"; empty where nothing of it is left. */
export const nameLike = (text: string): string =>
  text
    .normalize('NFD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+/, '')
    .slice(0, LONGEST_NAME)
    .replace(/-+$/, '')
