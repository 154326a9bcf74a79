/** A code to scan, as a drawing: the one place that knows the library which makes it. */
import { encode, renderUnicodeCompact } from 'uqr'
import { escapeHtml } from './markdown.ts'

/** mm; at 150 dots an inch a module is still two and a half of them (the standard leaves it to the reader) */
const MODULE = 0.42
/** modules of white on every side (ISO/IEC 18004) */
const QUIET = 4
/** bytes that version 5 holds with the least correction: 37 modules a side, whatever the text */
const MOST_BYTES = 106
const VERSION = 5

const bytes = (text: string): number => new TextEncoder().encode(text).length

/**
 * Lines of plain text, the longest of them cut until they fit: nothing that a camera reads leads anywhere.
 *
 * @param lines  in order
 * @param mayCut which of them may be cut
 */
export const scannedText = (lines: readonly string[], mayCut: readonly number[]): string => {
  const shown = [...lines]
  while (bytes(shown.join('\n')) > MOST_BYTES) {
    const longest = mayCut.reduce((a, b) => ((shown[b] ?? '').length > (shown[a] ?? '').length ? b : a))
    const text = [...(shown[longest] ?? '')]
    if (text.length < 2) break
    shown[longest] = `${text.slice(0, text.at(-1) === '…' ? -2 : -1).join('')}…`
  }
  return shown.join('\n')
}

/**
 * Dark squares on white, with the white that a camera needs round them.
 *
 * @param label  what it is, for who hears the page
 * @source iso-18004
 */
export const qrSvg = (text: string, label: string): string => {
  const { data, size } = encode(text, { ecc: 'L', boostEcc: true, border: 0, minVersion: VERSION })
  const side = size + 2 * QUIET
  const path = data
    .flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x + QUIET} ${y + QUIET}h1v1h-1z`] : [])))
    .join('')
  const millimetres = Math.round(side * MODULE * 100) / 100
  return `<svg xmlns="http://www.w3.org/2000/svg" class="scan" width="${millimetres}mm" height="${millimetres}mm" viewBox="0 0 ${side} ${side}" role="img" aria-label="${escapeHtml(label)}" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h${side}v${side}h-${side}z"/><path fill="#000" d="${path}"/></svg>`
}

/** The same for a terminal: lines of half blocks. What is drawn is the light squares, so it wants a dark ground. */
export const qrLines = (text: string): string[] =>
  renderUnicodeCompact(text, { ecc: 'L', border: 2 }).split('\n')
