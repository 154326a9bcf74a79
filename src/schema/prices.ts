/** All prices of a folder are in one currency, that of its shop: sums of two would be none. */
import type { z } from 'zod'
import { type Diagnostic, pointer } from '../diagnostics.ts'
import { parseMoney } from '../units.ts'
import { metaAt } from './schema-walk.ts'
import type { YamlDocument, YamlNode } from './yaml.ts'

/** A file as typed, with what its values mean. */
export interface TypedFile {
  readonly document: YamlDocument
  readonly schema: z.ZodType
}

/**
 * Prices in another currency than the shop's, and prices in a shop that does not say which.
 *
 * @param files as typed, whatever else is wrong with them
 * @returns a diagnostic for each price that cannot be added to the others
 */
export const checkPrices = (files: readonly TypedFile[]): Diagnostic[] => {
  const prices = files.flatMap((file) => pricesIn(file))
  const shop = files.find(({ document }) => shopCurrency(document) !== undefined)
  if (!shop) {
    const [first] = prices
    const home = files.find(({ document }) => isShop(document))
    // what stands there but is no currency has been told already
    if (!first || !home || hasCurrency(home.document)) return []
    return [
      {
        severity: 'error',
        code: 'shop-without-currency',
        file: first.document.file,
        path: first.path,
        at: 'value',
        message: 'This is a price, and shop.yaml does not say in which currency this shop reckons',
        advice: `Add a line "currency: ${first.currency}" to shop.yaml.`,
      },
    ]
  }
  const own = shopCurrency(shop.document) ?? ''
  return prices
    .filter(({ currency }) => currency !== own)
    .map(({ document, path, currency }) => ({
      severity: 'error',
      code: 'currency-mixed',
      file: document.file,
      path,
      at: 'value',
      message: `This price is in ${currency}, and this shop reckons in ${own}`,
      advice: `Write what it costs in ${own}: amounts of two currencies cannot be added.`,
      related: [
        {
          file: shop.document.file,
          path: '/currency',
          at: 'value',
          message: "the shop's currency stands here",
        },
      ],
    }))
}

interface Price {
  readonly document: YamlDocument
  readonly path: string
  readonly currency: string
}

const isShop = ({ file }: YamlDocument): boolean => /(^|\/)shop\.yaml$/.test(file)

const hasCurrency = ({ data }: YamlDocument): boolean =>
  typeof data === 'object' && data !== null && Object.hasOwn(data, 'currency')

const shopCurrency = (document: YamlDocument): string | undefined => {
  if (!isShop(document) || !hasCurrency(document)) return undefined
  const typed: unknown = Reflect.get(document.data as object, 'currency')
  return typeof typed === 'string' && /^[A-Z]{3}$/.test(typed.trim()) ? typed.trim() : undefined
}

/** Of documents that are read once, as one kind of file each. */
const known = new WeakMap<YamlDocument, readonly Price[]>()

/** Texts that are prices and stand where a price belongs: "5 USD" in a title is none. */
const pricesIn = ({ document, schema }: TypedFile): readonly Price[] => {
  const before = known.get(document)
  if (before) return before
  const found: Price[] = []
  known.set(document, found)
  const walk = (node: YamlNode, path: readonly string[]): void => {
    if (typeof node === 'string') {
      const read = parseMoney(node)
      if (read.ok && metaAt(schema, path, document.data)?.['x-quantity'] === 'money')
        found.push({ document, path: pointer(path), currency: read.money.currency })
    } else if (typeof node === 'object' && node !== null)
      for (const [key, below] of Object.entries(node)) walk(below as YamlNode, [...path, key])
  }
  walk(document.data, [])
  return found
}
