import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/site/markdown.ts'
import { composeEdited, type Edits } from '../sites/edited-demo.ts'

const PAGE = '# House rules\n\nToday [[batch/2027-03-14-hearth: naoh.mass]] of <b>lye</b>.\n'

const pageOf = async (edits: Edits): Promise<string> => {
  const { sheets } = await composeEdited({ 'pages/rules.md': PAGE, ...edits })
  const page = sheets.find(({ id }) => id === 'page/rules')
  if (!page) throw new Error('no page')
  return sheetBody(page)
    .pieces.map((piece) => (piece.kind === 'html' ? piece.html : ''))
    .join('')
}

describe("by hand: a maker's own page", () => {
  test('shows the value of another sheet under a name that says whose it is, and no markup of its own', async () => {
    const html = await pageOf({})
    expect(html).toMatch(/data-name="batch\/2027-03-14-hearth:naoh\.mass">1.\d{3}.g</)
    expect(html).toContain('&lt;b&gt;lye&lt;/b&gt;')
  })

  test('says of a stopped batch that it is stopped, and no weight', async () => {
    const html = await pageOf({ 'recipes/hearth.yaml': [['superfat: 6 %', 'superfat: 0 %']] })
    expect(html).toContain('stopped')
    expect(html).not.toMatch(/\d.g</)
  })
})
