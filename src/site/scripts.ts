/** Scripts of the site: each `browser/NAME.page.ts` becomes one classic script `assets/NAME.js`; the one place that knows esbuild. */
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { buildSync } from 'esbuild'
import type { Page } from './build-pages.ts'

const folder = fileURLToPath(new URL('./browser/', import.meta.url))
const ENTRY = '.page.ts'

/** It belongs to pages that are shown while their files are edited, and to no binder. */
const PREVIEW = `preview${ENTRY}`

interface Bundled {
  readonly page: Page
  /** of others, that are in it */
  readonly packages: readonly string[]
}

let known: { readonly pages: readonly Page[]; readonly packages: readonly string[] } | undefined
let knownPreview: Bundled | undefined

/** All scripts of a binder, bundled once in a process: our own files do not change while it runs. */
const bundles = (): NonNullable<typeof known> => {
  if (known) return known
  const all = readdirSync(folder)
    .filter((name) => name.endsWith(ENTRY) && name !== PREVIEW)
    .sort()
    .map(bundled)
  known = {
    pages: all.map(({ page }) => page),
    packages: [...new Set(all.flatMap(({ packages }) => packages))].sort(),
  }
  return known
}

/** Classic ones, since a browser loads no modules from a folder, and pages are read from one. */
export const siteScripts = (): readonly Page[] => bundles().pages

/** Packages of others that they hold, each once. */
export const bundledPackages = (): readonly string[] => bundles().packages

/** The one that keeps a preview up to date. */
export const previewScript = (): Page => {
  knownPreview ??= bundled(PREVIEW)
  return knownPreview.page
}

const bundled = (name: string): Bundled => {
  const { outputFiles, metafile } = buildSync({
    absWorkingDir: folder,
    entryPoints: [name],
    bundle: true,
    write: false,
    metafile: true,
    format: 'iife',
    platform: 'browser',
    target: 'es2020',
    minify: true,
    charset: 'utf8',
    // settings of ours for Node do not concern a browser
    tsconfigRaw: {},
    logLevel: 'silent',
  })
  return {
    page: { path: `assets/${name.slice(0, -ENTRY.length)}.js`, content: outputFiles[0]?.text ?? '' },
    packages: Object.keys(metafile.inputs).flatMap(
      (path) => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? [],
    ),
  }
}

/** Data for scripts: a classic script that sets one name, since a page from a folder may fetch nothing. */
export const dataScript = (name: string, data: unknown): string =>
  `globalThis.${name}=${JSON.stringify(data).replace(/[\u2028\u2029<]/g, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`)};\n`
