/** Scripts of the site: each `browser/NAME.page.ts` becomes one classic script `assets/NAME.js`; the one place that knows esbuild. */
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { buildSync } from 'esbuild'
import type { Page } from './build-pages.ts'

const folder = fileURLToPath(new URL('./browser/', import.meta.url))
const ENTRY = '.page.ts'

/** It belongs to pages that are shown while their files are edited, and to no binder. */
const PREVIEW = `preview${ENTRY}`

let known: readonly Page[] | undefined
let knownPreview: Page | undefined

/**
 * Bundles all scripts, once in a process: our own files do not change while it runs.
 * Classic ones, since a browser loads no modules from a folder, and pages are read from one.
 */
export const siteScripts = (): readonly Page[] => {
  known ??= readdirSync(folder)
    .filter((name) => name.endsWith(ENTRY) && name !== PREVIEW)
    .sort()
    .map(asScript)
  return known
}

/** The one that keeps a preview up to date. */
export const previewScript = (): Page => {
  knownPreview ??= asScript(PREVIEW)
  return knownPreview
}

const asScript = (name: string): Page => ({
  path: `assets/${name.slice(0, -ENTRY.length)}.js`,
  content: bundled(name),
})

/** Packages of others that the scripts of a binder hold. */
export const bundledPackages = (): readonly string[] => {
  siteScripts()
  return [...packages].sort()
}

const packages = new Set<string>()

const bundled = (name: string): string => {
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
  for (const path of Object.keys(metafile.inputs)) {
    const named = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1]
    if (named) packages.add(named)
  }
  return outputFiles[0]?.text ?? ''
}

/** Data for scripts: a classic script that sets one name, since a page from a folder may fetch nothing. */
export const dataScript = (name: string, data: unknown): string =>
  `globalThis.${name}=${JSON.stringify(data).replace(/[\u2028\u2029<]/g, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`)};\n`
