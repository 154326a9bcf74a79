import { describe, expect, it } from 'vitest'
import { codeOf } from '../../src/papers/revisions.ts'
import { sha256 } from '../../src/papers/shown-sheet.ts'
import { type CodedSheet, lookUpCode } from '../../src/site/browser/look-up.ts'

const paper = (id: string, revision: number, content: string) => codeOf(id, revision, sha256(content)).code
const now = paper('card/lye', 3, 'now')
const old = paper('card/lye', 2, 'before')
const sheets: readonly CodedSheet[] = [
  {
    letters: now.slice(0, 4),
    title: 'Lye',
    now: { number: '5.2', file: 'sheets/card-lye.html', code: now, revision: 3, recorded: true },
    papers: [
      { code: now, revision: 3 },
      { code: old, revision: 2, where: 'wall', changes: ['NaOH: 1 652 g, now 1 610 g'] },
    ],
  },
  { letters: paper('batch/gone', 1, 'x').slice(0, 4), title: 'Gone', papers: [] },
]
const kind = (typed: string) => lookUpCode(typed, sheets).kind

describe('by hand: a code that is looked up', () => {
  it('is of the current paper, of an old one with what changed, of a sheet that is gone', () => {
    expect(kind(now)).toBe('current')
    expect(kind(` ${now.toLowerCase().replaceAll('-', ' ')}`)).toBe('current')
    const found = lookUpCode(old, sheets)
    expect(found).toMatchObject({ kind: 'old', paper: { changes: ['NaOH: 1 652 g, now 1 610 g'] } })
    expect(kind(paper('batch/gone', 1, 'x'))).toBe('gone')
  })

  it('is of a paper that nobody wrote down, or that is newer than the list', () => {
    expect(kind(paper('card/lye', 3, 'a draft'))).toBe('draft')
    expect(kind(paper('card/lye', 4, 'later'))).toBe('newer')
    const [first] = sheets as readonly [CodedSheet]
    const draft = [{ ...first, now: { ...(first.now as NonNullable<typeof first.now>), recorded: false } }]
    expect(lookUpCode(now, draft).kind).toBe('current-draft')
  })

  it('is of no sheet here, or no code at all', () => {
    expect(kind(paper('another/sheet', 1, 'x'))).toBe('unknown')
    expect(kind('')).toBe('slip')
    expect(kind(`${now.slice(0, -1)}${now.endsWith('A') ? 'B' : 'A'}`)).toBe('slip')
  })
})
