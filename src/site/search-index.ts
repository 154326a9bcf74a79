/** The list for searching, out of the finished pages: what a reader can see of a sheet can be found. */
import MiniSearch from 'minisearch'
import { inlineWords } from '../sheets/compose.ts'
import type { Sheet } from '../sheets/model.ts'
import { type Postings, packed, packedLines, type SearchData, type Stretch } from './browser/search-data.ts'
import { INDEX_OPTIONS } from './browser/search-terms.ts'
import type { Page } from './build-pages.ts'
import { fileOf } from './site-data.ts'

/** @param pages those of the sheets among others, by their paths */
export const searchData = (sheets: readonly Sheet[], pages: readonly Page[]): SearchData => {
  const contents = new Map(pages.map(({ path, content }) => [path, content]))
  const places = new Map<string, number>()
  const placeOf = (line: string): number => {
    const place = places.get(line) ?? places.size
    places.set(line, place)
    return place
  }
  const files = sheets.map(fileOf)
  const stretches: Stretch[] = []
  const documents: Record<string, unknown>[] = []
  sheets.forEach((sheet, index) => {
    for (const { anchor, heading, lines } of stretchesOf(sheet, contents.get(files[index] ?? '') ?? '')) {
      documents.push({
        id: stretches.length,
        // the first stretch stands for its sheet: its number, its name, the day in its name
        number: anchor === sheet.anchor ? `${sheet.number} ${sheet.id.replaceAll('/', ' ')}` : '',
        title: inlineWords(sheet.title),
        heading,
        text: lines.join('\n'),
      })
      stretches.push({ sheet: index, anchor, heading, lines: lines.map(placeOf) })
    }
  })
  const made = new MiniSearch({ ...INDEX_OPTIONS })
  made.addAll(documents)
  const { index: terms, ...index } = made.toJSON()
  return {
    sheets: sheets.map((sheet, at) => ({
      number: sheet.number,
      title: inlineWords(sheet.title),
      section: inlineWords(sheet.section),
      file: files[at] ?? '',
    })),
    stretches,
    lines: packedLines([...places.keys()]),
    index,
    terms: (terms as unknown as readonly [string, Postings][]).map(([term, postings]) =>
      packed(term, postings),
    ),
  }
}

interface Lines {
  readonly anchor: string
  readonly heading: string
  readonly lines: readonly string[]
}

/** Below each heading that has a place of its own, line by line: a row of a table, a step, a paragraph. */
const stretchesOf = (sheet: Sheet, page: string): Lines[] =>
  page
    .slice(page.indexOf('<section class="sheet '), page.lastIndexOf('</section>'))
    .replace(/<svg\b[\s\S]*?<\/svg>/g, ' ')
    // the second copy of a card, its number and head, and works that are cited are no news
    .replace(/<article class="card half-page" aria-hidden="true">[\s\S]*?<\/article>/g, ' ')
    .replace(
      /<(header|dl|footer) class="(sheet-head|title-block|sheet-sources|card-head)"[\s\S]*?<\/\1>/g,
      ' ',
    )
    .split(/(?=<h[23] (?:class="case-head" )?id=")/)
    .map((part) => {
      const head = /^<h([23]) (?:class="case-head" )?id="([^"]+)">([\s\S]*?)<\/h\1>/.exec(part)
      return {
        anchor: head?.[2] ?? sheet.anchor,
        heading: head ? plain(head[3] ?? '') : '',
        lines: part
          .slice(head?.[0].length ?? 0)
          .split(/<\/(?:p|li|tr|div|h\d|caption|figcaption)>/)
          .map(plain)
          .filter((line) => /[\p{L}\p{N}]/u.test(line)),
      }
    })

const plain = (html: string): string =>
  html
    .replace(/<\/?(?:t[dh]|d[td]|br|p|li|div)\b[^>]*>/g, ' ')
    .replace(/<[^>]*>/g, '')
    .replace(/&#(\d+);/g, (_all, code: string) => String.fromCodePoint(Number(code)))
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .replace(/[ \t\n]+/g, ' ')
    .trim()
