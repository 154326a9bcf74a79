/** What our templates may call: filters that print words and values. None computes, rounds or looks anything up. */
import type { EleventyConfig } from '@11ty/eleventy'
import { inlineWords } from '../sheets/compose.ts'
import type { Cell, Inline, Sheet, Value } from '../sheets/model.ts'
import {
  inlineHtml,
  makerHtml,
  sheetBody,
  valueHtml,
  withCalls,
  withFiles,
  withLinks,
  withScrollers,
} from './markdown.ts'
import { columnClass } from './styles.ts'

/** A filter refuses what is missing: Nunjucks itself notices only a bare `{{ name }}`. */
const given = <T>(name: string, thing: T | undefined | null): T => {
  if (thing === undefined || thing === null)
    throw new Error(`A template gave nothing to the filter "${name}".`)
  return thing
}

export const configure = (config: EleventyConfig): void => {
  config.setUseGitIgnore(false)
  // On a slow machine Eleventy would tell the maker how long our filters took.
  for (const group of ['Configuration', 'Data']) config.benchmarkManager.get(group).setIsVerbose(false)
  config.setNunjucksEnvironmentOptions({ throwOnUndefined: true, autoescape: true })
  config.addFilter('inline', (words: Inline) => inlineHtml(given('inline', words)))
  config.addFilter('text', (words: Inline) => inlineWords(given('text', words)))
  config.addFilter('value', (value: Value) => valueHtml(given('value', value)))
  config.addFilter('maker', (text: string) => makerHtml(given('maker', text)))
  config.addFilter('cell', (cell: Cell) => cellHtml(given('cell', cell)))
  config.addFilter('links', (html: string, hrefs: Readonly<Record<string, string>>) =>
    withScrollers(withCalls(withFiles(withLinks(given('links', html), given('links', hrefs))))),
  )
  config.addFilter('share', (percent: number) => columnClass(given('share', percent)))
  config.addFilter('body', (sheet: Sheet) => sheetBody(given('body', sheet)))
}

const cellHtml = (cell: Cell): string => {
  switch (cell.kind) {
    case 'words':
      return inlineHtml(cell.words)
    case 'typed':
      return `<span class="typed">${inlineHtml(cell.words)}</span>`
    case 'value':
      return valueHtml(cell.value)
    case 'maker':
      return makerHtml(cell.text)
    case 'box':
      return '<span class="tick-box"></span>'
    case 'choices':
      return cell.of
        .map((one) => `<span class="choice"><span class="tick-box"></span>${inlineHtml(one)}</span>`)
        .join(' ')
    case 'pages':
      // room of one size, so that no number moves a line break
      return cell.of
        .map(({ from, to }, index) => {
          const range = `<span data-page-range="${from} ${to}">&#8211;</span>`
          return `<span class="page-range">${range}${index + 1 < cell.of.length ? ',' : ''}</span>`
        })
        .join(' ')
    case 'blank':
      return `<span class="blank-line"></span>${cell.after ? inlineHtml(cell.after) : ''}`
    case 'empty':
      return ''
  }
}
