/** A page of the maker's own with all that Markdown has, and with what no page should have, comes out of the printer. */
import { describe, expect, it } from 'vitest'
import { FOLDERS } from './folders.ts'
import { bytesOf } from './mutate.ts'
import { openPrinter } from './on-paper.ts'
import { runOne } from './run-one.ts'

const WORD = 'Seifensiederei'.repeat(40)

const PAGES: Readonly<Record<string, string>> = {
  'all that Markdown has': `## Two\n\n### Three\n\n#### Four\n\n##### Five\n\n###### Six\n\nA line with \`words of a machine\`, **bold \`and\`**, *slanted \`and\`*, ***both***,\\\nbroken, [led](https://withy.example "on") and ~~not~~.\n\n> Said\n>\n> > again\n\n---\n\n1. one\n   - two\n     1. three\n        - four\n          - five\n            - six\n\n    four blanks before it\n\n\`\`\`yaml\nname: x\n\`\`\`\n\n| left | middle | right |\n| :--- | :---: | ---: |\n| a | \`b\` | c |\n\n::: danger\nHot.\n:::\n\n::: notice\n- a\n- b\n:::\n`,
  'a word as long as three lines, wherever words stand': `## ${WORD}\n\n${WORD}\n\n- ${WORD}\n\n> ${WORD}\n\n    ${WORD}\n\n\`${WORD}\`\n\n**${WORD}**\n\n[${WORD}](https://withy.example/${WORD})\n\n::: warning\n${WORD}\n:::\n`,
  'a table that is wider than paper': `| ${Array.from({ length: 12 }, (_, index) => `head${index}`).join(' | ')} |\n|${' --- |'.repeat(12)}\n| ${Array(12).fill(WORD.slice(0, 60)).join(' | ')} |\n`,
  'lists in lists in lists': Array.from({ length: 12 }, (_, depth) => `${'  '.repeat(depth)}- deeper`).join(
    '\n',
  ),
  'words said in words said': `${'> '.repeat(6)}deep\n`,
  'markup, which is text here':
    '<script>zzlive()</script>\n\n<img src=x onerror=zzlive()>\n\n<b>x</b> &lt;b&gt; &copy; &#60;b&#62; {{ 7*191 }} <%= 7*191 %>\n\n![a picture](https://withy.example/x.png)\n\n[a](javascript:zzlive) [b](data:text/html,zzlive) <https://withy.example>\n',
}

describe('by hand: a page of the maker’s own on paper', () => {
  it('whatever stands on it', { timeout: 120_000 }, async () => {
    const files = new Map(FOLDERS.small())
    for (const [name, text] of Object.entries(PAGES)) {
      const key = name.toLowerCase().replace(/[^a-z]+/g, '-')
      files.set(`pages/${key}.md`, bytesOf(`# ${name}\n\n${text}`))
    }
    const { binder, wrong } = await runOne(files, { baseline: new Map(), most: 1000 })
    expect(wrong).toEqual([])
    const sheets = binder?.sheets.filter(({ kind }) => kind === 'page') ?? []
    expect(sheets.length).toBe(Object.keys(PAGES).length + 1)
    const printer = await openPrinter()
    try {
      const printed = binder && (await printer.print(binder, sheets))
      expect(printed?.wrong).toEqual([])
    } finally {
      await printer.end()
    }
  })
})
