/** The style sheets of paper and of the site, each from our own files, the fonts and the rule for type sizes. */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { fontFaceCss } from '../print/fonts.ts'
import { READINGS, type ReadingKind, typeSizes } from '../sheets/reading.ts'

const SHARED = ['tokens', 'type', 'blocks', 'cards', 'drawing'] as const

/** A style sheet of ours as it stands. */
export const style = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../../layouts/styles/${name}.css`, import.meta.url)), 'utf8')

/** Type sizes of every kind of sheet: they follow from its reading distance, and stand nowhere else. */
const readingCss = (): string =>
  (Object.keys(READINGS) as ReadingKind[])
    .map((kind) => {
      const { text, small } = typeSizes(kind)
      return `.read-${kind} { --text-size: ${text}pt; --text-small: ${small}pt }`
    })
    .join('\n')

/** Widths of columns, as classes: a page of the site has no style written into it. In halves of a percent. */
export const columnClass = (percent: number): string => {
  if ((percent * 2) % 1 !== 0)
    throw new Error(`A column cannot be ${percent} % wide: only halves of a percent.`)
  return `wide-${String(percent).replace('.', '-')}`
}
const columnCss = (): string =>
  Array.from({ length: 199 }, (_, index) => (index + 1) / 2)
    .map((percent) => `.${columnClass(percent)} { width: ${percent}% }`)
    .join('\n')

export const printStyles = (): string =>
  [fontFaceCss({ inline: true }), ...[...SHARED, 'page'].map(style), readingCss(), columnCss()].join('\n')

/** On a screen as a site, from a printer as the binder: one sheet that is printed alone looks as its pages there. */
export const screenStyles = (): string =>
  [
    fontFaceCss({ urlPrefix: 'fonts/' }),
    ...SHARED.map(style),
    `@media screen {\n${style('screen')}\n}`,
    `@media print {\n${style('page')}\n${style('printed-alone')}\n}`,
    readingCss(),
    columnCss(),
  ].join('\n')
