/** pages/NAME.md: a maker's own page. It is text: markup, links to elsewhere and pictures are not followed. */
import type { Diagnostic, SourceDocument } from '../diagnostics.ts'
import { unprintable } from '../text/glyphs.ts'
import type { PageFile } from './placed.ts'
import type { FolderFile } from './read-folder.ts'
import { decodeText } from './text-bytes.ts'

/** A title longer than this does not fit the foot of a page. */
const LONGEST_TITLE = 60

/** @returns the page, or what is wrong with it; its document for showing the line */
export const readPage = (
  file: FolderFile,
  key: string,
): { page?: PageFile; document?: SourceDocument; diagnostics: Diagnostic[] } => {
  const read = decodeText(file.file, file.bytes)
  if (read.diagnostics.length > 0) return { diagnostics: [...read.diagnostics] }
  const text = read.text.replace(/\r\n?/g, '\n')
  const document: SourceDocument = { file: file.file, text, placeOf: () => undefined }
  const diagnostics: Diagnostic[] = []
  const at = (range: [number, number], code: string, message: string, advice: string) =>
    diagnostics.push({ severity: 'error', code, file: file.file, path: '', range, message, advice })

  // The first line with anything in it, taken without a pattern that could try it in many ways.
  const start = text.length - text.trimStart().length
  const lineEnd = text.indexOf('\n', start)
  const end = lineEnd < 0 ? text.length : lineEnd
  const line = text.slice(start, end)
  const title = line.startsWith('# ') ? line.slice(2).trim() : ''
  if (title === '')
    at(
      [0, 0],
      'page-title',
      'This page does not begin with its title',
      'Let the first line be "# " and the title.',
    )
  else if (title.length > LONGEST_TITLE)
    at(
      [start, end],
      'page-title',
      'The title of this page is too long',
      `Keep it to ${LONGEST_TITLE} characters.`,
    )
  for (const strange of unprintable(text.replaceAll('\t', ' '))) {
    const index = text.indexOf(strange)
    at(
      [index, index + strange.length],
      'unprintable',
      `This character cannot be printed: the binder's letters do not have it`,
      'Take it out or write it in words.',
    )
  }
  if (diagnostics.length > 0) return { document, diagnostics }
  return {
    document,
    diagnostics,
    page: {
      key,
      file: file.file,
      title,
      text,
      markdown: text.slice(end),
    },
  }
}
