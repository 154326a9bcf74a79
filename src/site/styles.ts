/** The style sheets of paper and of the site, each from our own files, the fonts and the rule for type sizes. */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { fontFaceCss } from '../print/fonts.ts'
import { READINGS, type ReadingKind, type TypeSizes, tightTypeSizes, typeSizes } from '../sheets/reading.ts'

const SHARED = ['tokens', 'type', 'blocks', 'cards', 'drawing'] as const

const style = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../../layouts/styles/${name}.css`, import.meta.url)), 'utf8')

/** Type sizes of every kind of sheet: they follow from its reading distance, and stand nowhere else. */
const readingCss = (): string =>
  (Object.keys(READINGS) as ReadingKind[])
    .map((kind) => {
      const [usual, tight] = [typeSizes(kind), tightTypeSizes(kind)]
      const rule = (of: string, { text, small }: TypeSizes): string =>
        `.read-${kind}${of} { --text-size: ${text}pt; --text-small: ${small}pt }`
      return [rule('', usual), ...(tight.text < usual.text ? [rule('.tighter', tight)] : [])].join('\n')
    })
    .join('\n')

export const printStyles = (): string =>
  [fontFaceCss({ inline: true }), ...[...SHARED, 'page'].map(style), readingCss()].join('\n')

export const screenStyles = (): string =>
  [fontFaceCss({ urlPrefix: 'fonts/' }), ...[...SHARED, 'screen'].map(style), readingCss()].join('\n')
