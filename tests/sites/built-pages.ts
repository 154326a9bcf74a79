/** The pages of a binder's site, as text and taken apart: built once, for many tests ask for the same ones. */
import { buildPages } from '../../src/site/build-pages.ts'
import { siteData } from '../../src/site/site-data.ts'
import type { Binder } from './edited-demo.ts'
import { type Element, readHtml } from './html.ts'

export interface BuiltPages {
  readonly texts: ReadonlyMap<string, string>
  readonly pages: ReadonlyMap<string, Element>
}

const built = new WeakMap<Binder, Promise<BuiltPages>>()

/** By the paths of the site, without styles. */
export const builtPages = (binder: Binder): Promise<BuiltPages> => {
  const known = built.get(binder)
  if (known) return known
  const made = buildPages(siteData(binder.frame, binder.sheets, '', 'en')).then((pages) => ({
    texts: new Map(pages.map(({ path, content }) => [path, content])),
    pages: new Map(pages.map(({ path, content }) => [path, readHtml(content)])),
  }))
  built.set(binder, made)
  return made
}
