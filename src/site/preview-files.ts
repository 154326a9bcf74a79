/** What pages of a preview have beyond those of a binder: words, a script, a style, and pages that stand in for others. */
import { escapeHtml } from './markdown.ts'
import { dataScript, previewScript } from './scripts.ts'
import { PREVIEW_POLICY } from './site-data.ts'
import { screenStyles, style } from './styles.ts'

/** Name in the script to key of a phrase. */
const SAID = {
  name: 'preview.name', thin: 'preview.thin', working: 'preview.working', read: 'preview.read', saved: 'preview.saved', good: 'preview.good', warned: 'preview.warned',
  wrong: 'preview.wrong', failed: 'preview.failed', stays: 'preview.stays', lost: 'preview.lost', what: 'preview.what',
} as const // biome-ignore format: a table reads better in rows

/** A word of the catalogue by its key, as it stands. */
type Phrase = (key: string) => string

/** Pages that stand in for others, each with its heading and what it says below. */
export type StandIn = 'waiting' | 'mistakes' | 'gone'

const STAND_INS: Readonly<Record<StandIn, { readonly head: string; readonly words: string }>> = {
  waiting: { head: 'preview.waiting', words: 'preview.waiting-how' },
  mistakes: { head: 'preview.mistakes', words: 'preview.mistakes-how' },
  gone: { head: 'preview.gone', words: 'preview.gone-how' },
}

/** Below the site, by path. @param standIns their paths */
export const previewFiles = (
  language: string,
  phrase: Phrase,
  standIns: Readonly<Record<StandIn, string>>,
): ReadonlyMap<string, string> =>
  new Map([
    ['assets/screen.css', screenStyles()],
    ['assets/preview.css', style('preview')],
    [
      'assets/preview-words.js',
      dataScript(
        'kettlePreviewWords',
        Object.fromEntries(Object.entries(SAID).map(([name, key]) => [name, phrase(key)])),
      ),
    ],
    [previewScript().path, previewScript().content],
    ...(Object.keys(standIns) as StandIn[]).map((kind): [string, string] => [
      standIns[kind],
      standIn(language, phrase, kind),
    ]),
  ])

/** Its addresses begin at the top: it is shown under the address of any page. */
const standIn = (language: string, phrase: Phrase, kind: StandIn): string => {
  const { head, words } = STAND_INS[kind]
  const said = (key: string): string => escapeHtml(phrase(key))
  return `<!doctype html>
<html lang="${escapeHtml(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${PREVIEW_POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${said(head)}</title>
<link rel="stylesheet" href="/assets/screen.css">
<link rel="stylesheet" href="/assets/preview.css">
<script src="/assets/preview-words.js" defer></script>
<script src="/assets/preview.js" defer></script>
</head>
<body class="screen stands-in ${kind}">
<main id="content" tabindex="-1">
<h1>${said(head)}</h1>
<p>${said(words)}</p>
${kind === 'gone' ? `<p><a href="/">${said('site.home')}</a></p>\n` : ''}</main>
</body>
</html>
`
}
