/** Two papers of one sheet have one fingerprint if, and only if, they read the same, in every state of a binder. */
import { beforeAll, describe, expect, it } from 'vitest'
import { isSoak } from '../long.ts'
import { visibleText } from '../papers/visible.ts'
import { builtPages } from '../sites/built-pages.ts'
import { everyState, PATIENCE } from './composed.ts'

describe('by hand: fingerprints of every state', () => {
  const papers: { id: string; fingerprint: string; text: string }[] = []
  beforeAll(async () => {
    const read = new Map<string, string>()
    for (const binder of (await everyState()).values()) {
      const { page, texts } = await builtPages(binder)
      for (const { sheet, fingerprint } of binder.revised) {
        const path = `sheets/${sheet.anchor}.html`
        const html = texts.get(path) ?? ''
        const text = read.get(html) ?? visibleText(page(path))
        read.set(html, text)
        papers.push({ id: sheet.id, fingerprint, text })
      }
    }
  }, PATIENCE)

  it('are equal where pages read the same, and only there', () => {
    const texts = new Map<string, string>()
    const fingerprints = new Map<string, string>()
    const wrong: string[] = []
    for (const { id, fingerprint, text } of papers) {
      if ((texts.get(fingerprint) ?? text) !== text) wrong.push(`${id}: one fingerprint, two texts`)
      texts.set(fingerprint, text)
      const key = `${id}\n${text}`
      if ((fingerprints.get(key) ?? fingerprint) !== fingerprint)
        wrong.push(`${id}: two fingerprints, one text`)
      fingerprints.set(key, fingerprint)
    }
    expect([...new Set(wrong)]).toEqual([])
    // many sheets are the same in many states, and many are not
    expect(texts.size).toBeGreaterThan(200)
    expect(papers.length).toBeGreaterThan((isSoak ? 2 : 1.3) * texts.size)
  })
})
