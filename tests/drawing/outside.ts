/** Lettering that reaches past the edge of its drawing, and would be cut off there. */
import { textWidth } from '../../src/drawing/text-width.ts'

/** mm; widths are those of the regular weight, and reckoned in whole units of the font */
const SLACK = 0.3

const number = (text: string, name: string): number | undefined => {
  const [, value] = new RegExp(` ${name}="(-?[\\d.]+)"`).exec(text) ?? []
  return value === undefined ? undefined : Number(value)
}

const plain = (text: string): string =>
  text
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')

/**
 * @param svg a drawing, or drawings moved to their places on one page
 * @returns texts that do not lie within the drawing
 */
export const outside = (svg: string): readonly string[] => {
  const [, width = 0, height = 0] = (/viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? []).map(Number)
  const found: string[] = []
  /** of the groups that are open */
  const moves: { readonly x: number; readonly y: number }[] = []
  for (const [piece] of svg.matchAll(/<g\b[^>]*>|<\/g>|<text\b[^>]*>.*?<\/text>/gs)) {
    if (piece === '</g>') moves.pop()
    else if (piece.startsWith('<g')) {
      const [, x = 0, y = 0] = (/translate\((-?[\d.]+) (-?[\d.]+)\)/.exec(piece) ?? []).map(Number)
      moves.push({ x, y })
    } else {
      const head = piece.slice(0, piece.indexOf('>'))
      const size = number(head, 'font-size')
      if (size === undefined || /rotate\(180/.test(head)) continue
      const at = moves.reduce((sum, move) => ({ x: sum.x + move.x, y: sum.y + move.y }), {
        x: number(head, 'x') ?? 0,
        y: number(head, 'y') ?? 0,
      })
      const text = plain(piece)
      const runs = [...piece.matchAll(/<tspan class="frac"[^>]*>(.*?)<\/tspan>|(?<=>)([^<>]+)/g)].map(
        ([, fraction, words]) =>
          fraction === undefined
            ? ({ kind: 'plain', text: plain(words ?? '') } as const)
            : ({ kind: 'fraction', text: plain(fraction) } as const),
      )
      const wide = textWidth(runs, size)
      const isStart = head.includes('text-anchor="start"')
      const isTurned = head.includes('rotate(-90')
      // turned text climbs
      const [from, to] = isTurned
        ? [at.y - (isStart ? wide : wide / 2), at.y + (isStart ? 0 : wide / 2)]
        : [at.x - (isStart ? 0 : wide / 2), at.x + (isStart ? wide : wide / 2)]
      if (from < -SLACK || to > (isTurned ? height : width) + SLACK) found.push(text)
    }
  }
  return found
}
