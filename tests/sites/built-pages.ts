/** The pages of a binder's site, as text and taken apart: built once, for many tests ask for the same ones. */
import { buildPages } from '../../src/site/build-pages.ts'
import { siteData } from '../../src/site/site-data.ts'
import type { Binder } from './edited-demo.ts'
import { type Element, readHtml } from './html.ts'

export interface BuiltPages {
  readonly texts: ReadonlyMap<string, string>
  readonly pages: ReadonlyMap<string, Element>
  /** one of them: whoever looks at single ones does not wait for the printed document, which has all of them again */
  readonly page: (path: string) => Element
}

const built = new WeakMap<Binder, Promise<BuiltPages>>()

/** By their texts: most pages of one state are those of another to the letter. */
const roots = new Map<string, Element>()
const readOnce = (text: string): Element => {
  const root = roots.get(text) ?? readHtml(text)
  roots.set(text, root)
  return root
}

/** By the paths of the site, without styles. */
export const builtPages = (binder: Binder): Promise<BuiltPages> => {
  const known = built.get(binder)
  if (known) return known
  const made = buildPages(siteData(binder.frame, binder.sheets, '', 'en')).then((pages) => {
    const texts = new Map(pages.map(({ path, content }) => [path, content]))
    let all: ReadonlyMap<string, Element> | undefined
    return {
      texts,
      get pages() {
        all ??= new Map(pages.map(({ path, content }) => [path, readOnce(content)]))
        return all
      },
      page: (path: string) => {
        const text = texts.get(path)
        if (text === undefined) throw new Error(`No page ${path}.`)
        return readOnce(text)
      },
    }
  })
  built.set(binder, made)
  return made
}
