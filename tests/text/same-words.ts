/** Texts that are the same in two languages, each group with its reason. Nothing else may be. */

/** Whether a text has no words of its own: placeholders, figures, signs, symbols of units. */
export const isWordless = (text: string): boolean =>
  !/\p{L}{2,}/u.test(text.replace(/\[\[[^\]]+\]\]|\{[a-z]\}|<[^>]+>/g, ' ').replace(UNITS, ' '))

const UNITS = /(?<!\p{L})(kg|mm|min|in|ft|oz|lb|mg|cm|ml|°C|°F|kWh|Hz|NaOH|KOH|pH)(?!\p{L})/gu

export const SAME_IN_BOTH: readonly { readonly why: string; readonly keys: RegExp }[] = [
  { why: 'a material by its trade name', keys: /^material\.(hdpe|pet)$/ },
  { why: 'who has set a limit', keys: /^cautions\.saw\.dust\.acgih$/ },
  { why: '“diagonal” is a word of both', keys: /\.diagonal-1$/ },
  { why: '“no” is a word of both', keys: /\.no$/ },
  { why: 'the name of a layer in a file', keys: /^router\.files\.outline$/ },
]
