/** Two long lines that differ in a few words: those words, and a little round them. */

/** Characters that are shown before the first difference, and in all. */
const LEAD = 30
const MOST = 130

export const excerpts = (
  before: string | undefined,
  now: string | undefined,
): { readonly before?: string; readonly now?: string } => {
  if (before === undefined || now === undefined)
    return {
      ...(before === undefined ? {} : { before: cut(before, 0) }),
      ...(now === undefined ? {} : { now: cut(now, 0) }),
    }
  let same = 0
  while (same < before.length && same < now.length && before[same] === now[same]) same += 1
  const from =
    same <= LEAD || Math.max(before.length, now.length) <= MOST ? 0 : startOfWord(before, same - LEAD)
  return { before: cut(before, from), now: cut(now, from) }
}

const startOfWord = (text: string, at: number): number => text.lastIndexOf(' ', at) + 1

const cut = (text: string, from: number): string => {
  const end = text.length - from <= MOST ? text.length : text.lastIndexOf(' ', from + MOST)
  const last = end <= from ? from + MOST : end
  return `${from > 0 ? '… ' : ''}${text.slice(from, last)}${last < text.length ? ' …' : ''}`
}
