/** Type sizes of every kind of sheet as style rules: they follow from its reading distance, and stand nowhere else. */
import { READINGS, type ReadingKind, typeSizes } from '../sheets/reading.ts'

export const readingCss = (): string =>
  (Object.keys(READINGS) as ReadingKind[])
    .map((kind) => {
      const { text, small } = typeSizes(kind)
      return `.read-${kind} { --text-size: ${text}pt; --text-small: ${small}pt }`
    })
    .join('\n')
