/** All that a sheet says, as one text. */
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'

/** @param drawn whether what its drawings say is part of it */
export const textsOf = (sheet: Sheet, drawn = true): string => {
  const found: string[] = []
  const walk = (thing: unknown): void => {
    if (Array.isArray(thing)) for (const one of thing) walk(one)
    else if (typeof thing === 'object' && thing !== null) {
      if ('text' in thing && 'fill' in thing) found.push(inlineWords(thing as never))
      else if ('kind' in thing && thing.kind === 'maker' && 'text' in thing) found.push(String(thing.text))
      else if ('shown' in thing) found.push(String(thing.shown))
      else if ('svg' in thing && drawn) found.push(...lettering(String(thing.svg)))
      else for (const one of Object.values(thing)) walk(one)
    }
  }
  walk([sheet.title, sheet.blocks, sheet.fill])
  return found.join('\n').replaceAll('\u00a0', ' ')
}

/** Texts of a drawing, in the order in which they are drawn. */
export const lettering = (svg: string): string[] =>
  [...svg.matchAll(/<text [^>]*>(.*?)<\/text>/g)].map(([, text = '']) => text.replace(/<[^>]*>/g, ''))
