/** A maker's own Markdown page: it may name any value of the binder, and holds nothing but text. */
import type { Diagnostic } from '../diagnostics.ts'
import type { PageFile } from '../schema/placed.ts'
import { didYouMean } from '../units/spelling.ts'
import { finishSheet, placeholders } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Inline, Sheet, Value } from './model.ts'

const hint = (typed: string, known: readonly string[]): string | undefined => {
  const near = didYouMean(typed, known)
  return near === undefined ? undefined : `Did you mean "${near}"?`
}

/**
 * @param others the sheets whose values the page may name, as `[[batch/2027-03-14-hearth: naoh.mass]]`
 * @returns the sheet, and a diagnostic for every name that no sheet shows
 */
export const ownPageSheet = (
  frame: Frame,
  page: PageFile,
  others: readonly Sheet[],
  order: number,
): { readonly sheet: Sheet; readonly diagnostics: readonly Diagnostic[] } => {
  const diagnostics: Diagnostic[] = []
  const fill: Record<string, Value | string | Inline> = Object.create(null)
  for (const name of placeholders(page.markdown)) {
    const [id = '', value = ''] = name.split(/:\s*/, 2)
    const sheet = others.find((other) => other.id === id.trim())
    const found = sheet?.values.get(value.trim())
    // A page that quotes a stopped sheet says so: a maker's page is no reason to lose the binder.
    if (sheet?.stopped) fill[name] = frame.say('page.stopped')
    // The value keeps its sheet's id in its name: two batches may both have a `naoh.mass`.
    else if (found) fill[name] = { ...found, name: `${id.trim()}:${found.name}` }
    else {
      const from = page.markdown.indexOf(name)
      const offset = page.text.length - page.markdown.length
      diagnostics.push({
        severity: 'error',
        code: 'unknown-value',
        file: page.file,
        path: '',
        range: [offset + from, offset + from + name.length],
        message: sheet
          ? `The sheet "${sheet.id}" shows no value named "${value.trim()}"`
          : `There is no sheet "${id.trim()}"`,
        advice: sheet
          ? (hint(value.trim(), [...sheet.values.keys()]) ??
            `It shows, among others: ${[...sheet.values.keys()].slice(0, 8).join(', ')}.`)
          : (hint(
              id.trim(),
              others.map((other) => other.id),
            ) ??
            `Write [[sheet: value]] with one of these sheets: ${others.map((other) => other.id).join(', ')}.`),
      })
      fill[name] = ''
    }
  }
  return {
    diagnostics,
    sheet: finishSheet({
      ...frame.sheet('page', `page/${page.key}`, frame.say('section.page'), `14.${order}`, {
        text: '[[title]]',
        fill: { title: page.title },
      }),
      template: page.markdown,
      fill,
      blocks: {},
      sources: [],
    }),
  }
}
