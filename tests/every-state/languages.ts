/** No word of one language is left on a sheet of the other, in any state of a binder. */
import { beforeAll, describe, expect, it } from 'vitest'
import { frameFor } from '../../src/commands/compose.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { sheetsIn } from '../../src/soap.ts'
import { outside } from '../drawing/outside.ts'
import { strangers } from '../text/strangers.ts'
import { words as english, everyState, PATIENCE } from './composed.ts'

const spanish = readCatalogue('es')

/** What sheets say in words of the program: phrases, values, lettering of drawings; nothing that a maker typed. */
const saidOn = (sheets: readonly Sheet[], said: Set<string>): void => {
  const seen = new Set<unknown>()
  const walk = (thing: unknown): void => {
    if (typeof thing !== 'object' || thing === null || seen.has(thing)) return
    seen.add(thing)
    if (Array.isArray(thing) || thing instanceof Map) {
      for (const one of thing.values()) walk(one)
      return
    }
    for (const [key, one] of Object.entries(thing)) {
      if (typeof one !== 'string') walk(one)
      else if (key === 'text' && 'fill' in thing) said.add(one)
      else if (key === 'template' || key === 'shown') said.add(one)
      else if (key === 'svg') for (const text of lettering(one)) said.add(text)
    }
  }
  walk(sheets)
}

/** Words of a drawing and what it is called for those who do not see it. */
const lettering = (svg: string): readonly string[] =>
  [...svg.matchAll(/<text class="([^"]*)"[^>]*>(.*?)<\/text>|aria-label="([^"]*)"/gs)]
    .filter(([, kind = '']) => !/\bmaker\b/.test(kind))
    .map(([, , text, label]) =>
      (text ?? label ?? '').replace(/<tspan class="maker".*?<\/tspan>|<[^>]*>/g, ' '),
    )

/** Lettering that its drawing has no room for, by the sheet that it is on. */
const clipped = new Set<string>()

const inEnglish = new Set<string>()
const inSpanish = new Set<string>()

beforeAll(async () => {
  for (const binder of (await everyState()).values()) {
    saidOn(binder.sheets, inEnglish)
    // what is bound is the same in every language
    const { sheets } = sheetsIn(frameFor(binder.content, spanish, spanish), binder.bound)
    saidOn(sheets, inSpanish)
    for (const { id, blocks } of sheets)
      for (const block of Object.values(blocks)) {
        const svg =
          block.kind === 'figure' ? block.svg : block.kind === 'card' ? block.picture?.svg : undefined
        for (const text of svg ? outside(svg) : []) clipped.add(`${id}: ${text}`)
      }
  }
}, PATIENCE)

describe('by hand: one language a sheet', () => {
  it('has no English in a Spanish binder', () => {
    expect(inSpanish.size).toBeGreaterThan(3000)
    expect(strangers(inSpanish, english, spanish)).toEqual([])
  })

  it('has no Spanish in an English one', () => {
    expect(inEnglish.size).toBeGreaterThan(3000)
    expect(strangers(inEnglish, spanish, english)).toEqual([])
  })

  it('has room for Spanish in every drawing', () => {
    expect([...clipped]).toEqual([])
  })

  it('would notice words, a month, a word in a drawing', () => {
    const phrase = english.phrase('frame.whole-binder')
    const drawn = lettering(`<text class="note-text" x="1">${phrase}</text><text class="a maker">Shed</text>`)
    expect(strangers(drawn, english, spanish)).toContain(phrase)
    expect(strangers(['14 February 2027'], english, spanish)).toEqual(['February'])
    expect(drawn.join('')).not.toContain('Shed')
  })
})
