/** Words that scripts put on a page: handed over by `words.js`, never typed in a script. */

declare global {
  var kettleWords: Readonly<Record<string, string>> | undefined
}

/** A phrase with its placeholders filled; nothing where the words were not loaded. */
export const said = (name: string, fill: Readonly<Record<string, string | number>> = {}): string =>
  (globalThis.kettleWords?.[name] ?? '').replace(/\[\[([^\]]+)\]\]/g, (all, place: string) =>
    String(fill[place.trim()] ?? all),
  )
