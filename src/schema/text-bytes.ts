/** Turns the bytes of a file into text, or says why they are no text. */
import type { Diagnostic } from '../diagnostics.ts'

/**
 * Reads bytes as UTF-8; a byte-order mark at the front is taken off.
 *
 * @param file   name to report
 * @param bytes  the whole file
 * @returns the text, with U+FFFD where bytes are no text, and at most one error
 * @source common practice
 */
export function decodeText(file: string, bytes: Uint8Array): { text: string; diagnostics: Diagnostic[] } {
  const error = (code: string, message: string, advice: string, range?: [number, number]): Diagnostic[] => [
    { severity: 'error', code, file, path: '', message, advice, ...(range === undefined ? {} : { range }) },
  ]
  if (bytes.length > LARGEST)
    return {
      text: '',
      diagnostics: error(
        'file-too-large',
        `this file is larger than ${LARGEST / 1_000_000} MB`,
        'Split it into several files.',
      ),
    }
  const [first, second] = bytes
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff))
    return { text: '', diagnostics: error('not-utf-8', 'this file is saved as UTF-16', SAVE_AS) }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), diagnostics: [] }
  } catch {
    const text = new TextDecoder('utf-8').decode(bytes)
    const place = firstFault(bytes)
    return {
      text,
      diagnostics: error('not-utf-8', 'from the marked place on, this file is not UTF-8 text', SAVE_AS, [
        place,
        place + 1,
      ]),
    }
  }
}

const LARGEST = 1_000_000 // bytes; a large recipe has about 5,000; common practice
const SAVE_AS = 'Save the file again with the encoding UTF-8. Editors offer it when saving.'

/** Offset, in the text as decoded with replacement signs, of the first byte that is no text. */
function firstFault(bytes: Uint8Array): number {
  // The longest clean beginning, found by halving; what is cut off in the middle of a character is not a fault.
  let [low, high] = [0, bytes.length]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (isClean(bytes.subarray(0, middle))) low = middle
    else high = middle - 1
  }
  return new TextDecoder('utf-8').decode(bytes.subarray(0, low), { stream: true }).length
}

function isClean(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true })
    return true
  } catch {
    return false
  }
}
