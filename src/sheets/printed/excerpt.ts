/** Two lines that differ in a few words: those words, and a few round them. */

/** Words that are shown on either side of what differs. */
const AROUND = 3
/** The most characters that are shown of a line. */
const MOST = 110

export const excerpts = (
  before: string | undefined,
  now: string | undefined,
): { readonly before?: string; readonly now?: string } => {
  if (before === undefined || now === undefined)
    return {
      ...(before === undefined ? {} : { before: cut(before) }),
      ...(now === undefined ? {} : { now: cut(now) }),
    }
  const [old, fresh] = [before.split(' '), now.split(' ')]
  const shorter = Math.min(old.length, fresh.length)
  let head = 0
  while (head < shorter && old[head] === fresh[head]) head += 1
  let tail = 0
  while (tail < shorter - head && old.at(-1 - tail) === fresh.at(-1 - tail)) tail += 1
  const from = head - AROUND <= 1 ? 0 : head - AROUND
  const left = tail - AROUND <= 1 ? 0 : tail - AROUND
  const part = (words: readonly string[]): string =>
    `${from > 0 ? '… ' : ''}${cut(words.slice(from, words.length - left).join(' '))}${left > 0 ? ' …' : ''}`
  return { before: part(old), now: part(fresh) }
}

const cut = (text: string): string => {
  if (text.length <= MOST) return text
  const end = text.lastIndexOf(' ', MOST)
  return `${text.slice(0, end > 0 ? end : MOST)} …`
}
