/** What the program is made of: each package pinned, hashed, under a licence that is known, and installed without a script of its own. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { licenceTexts } from '../../src/made-with/made-with.ts'
import { fontPackages } from '../../src/print/fonts.ts'
import { bundledPackages } from '../../src/site/scripts.ts'
import { importsOf, sourceFiles } from '../architecture-rules.ts'

const root = fileURLToPath(new URL('../../', import.meta.url))
const read = (path: string): string => readFileSync(`${root}${path}`, 'utf8')

interface Locked {
  readonly version: string
  readonly license?: string
  readonly integrity?: string
  readonly resolved?: string
  readonly dev?: boolean
  readonly hasInstallScript?: boolean
  readonly deprecated?: string
  readonly engines?: { readonly node?: string } | readonly string[]
  readonly dependencies?: Readonly<Record<string, string>>
  readonly optionalDependencies?: Readonly<Record<string, string>>
  readonly devDependencies?: Readonly<Record<string, string>>
}
const lock = JSON.parse(read('package-lock.json')) as {
  readonly lockfileVersion: number
  readonly packages: Readonly<Record<string, Locked>>
}
const packages = Object.entries(lock.packages).filter(([at]) => at !== '')
const own = JSON.parse(read('package.json')) as Locked

/** All let everybody use, change and hand on what they are for; MPL-2.0 is for tests alone, which nobody is handed. */
const FREE = new Set(['MIT', '0BSD', 'ISC', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', 'BlueOak-1.0.0', 'Python-2.0', 'PSF-2.0', 'OFL-1.1', 'MIT OR Apache-2.0']) // biome-ignore format: a list reads better in rows
const FREE_FOR_TESTS = new Set([...FREE, 'MPL-2.0'])

describe('by hand: the lock file', () => {
  it('is all that an installation goes by, with a hash of each package', () => {
    expect(lock.lockfileVersion).toBe(3)
    expect(packages.length).toBeGreaterThan(300)
    expect(
      packages.filter(([, { integrity }]) => !/^sha512-/.test(integrity ?? '')).map(([at]) => at),
    ).toEqual([])
    // whoever installs says where from
    expect(packages.filter(([, { resolved }]) => resolved !== undefined).map(([at]) => at)).toEqual([])
  })

  it('has nothing that its makers gave up', () => {
    expect(packages.filter(([, { deprecated }]) => deprecated !== undefined).map(([at]) => at)).toEqual([])
  })

  it('asks for each library by one version, and has that one', () => {
    const asked = { ...own.dependencies, ...own.optionalDependencies, ...own.devDependencies }
    for (const [name, version] of Object.entries(asked)) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/)
      expect(lock.packages[`node_modules/${name}`]?.version, name).toBe(version)
    }
  })

  it('has only licences that let the program be used and handed on, as the packages themselves say', () => {
    const odd = packages.filter(([, { license, dev }]) => !(dev ? FREE_FOR_TESTS : FREE).has(license ?? ''))
    expect(odd.map(([at, { license }]) => `${at}: ${license}`)).toEqual([])
    let compared = 0
    for (const [at, { license, version }] of packages) {
      // of packages for other kinds of machines nothing is installed
      if (!existsSync(`${root}${at}/package.json`)) continue
      const said = JSON.parse(read(`${at}/package.json`)) as {
        version: string
        license?: unknown
        licenses?: unknown
      }
      const named = said.license ?? said.licenses
      expect(said.version, at).toBe(version)
      expect(JSON.stringify(named), at).toContain(license)
      compared += 1
    }
    expect(compared).toBeGreaterThan(250)
  })

  it('has two packages with a script of their own for installing, and none is run', () => {
    const scripted = packages.filter(([, { hasInstallScript }]) => hasInstallScript).map(([at]) => at)
    // the first tries its program, which is a package of its own; the second fetches a browser, which is one, too
    expect(scripted).toEqual(['node_modules/esbuild', 'node_modules/puppeteer'])
    expect(read('src/launch/install.mjs')).toContain("'--ignore-scripts'")
  })

  it('names nothing that is not used, and what is used is named', () => {
    const used = new Set(
      sourceFiles()
        .flatMap(importsOf)
        .filter(({ to, outside, typeOnly }) => outside && !typeOnly && !to.startsWith('node:'))
        .map(({ to }) => to),
    )
    const named = Object.keys({ ...own.dependencies, ...own.optionalDependencies })
    // fonts are files, found by their folder; templates of pages are Nunjucks, which Eleventy runs
    const files = [...fontPackages(), 'nunjucks']
    expect(
      readdirSync(`${root}layouts/pages`).filter((name) => name.endsWith('.njk')).length,
    ).toBeGreaterThan(0)
    expect([...used].filter((name) => !named.includes(name))).toEqual([])
    expect(named.filter((name) => !used.has(name) && !files.includes(name))).toEqual([])
  })
})

describe('by hand: licences that go with a binder', () => {
  it('are there word for word for what is copied: letters, and what searches', () => {
    const copied = [...bundledPackages(), ...fontPackages()]
    expect(copied).toEqual(['minisearch', '@fontsource/noto-sans', '@fontsource/noto-sans-mono'])
    const text = licenceTexts(copied)
    expect(text.match(/SIL OPEN FONT LICENSE Version 1\.1/gi)?.length).toBeGreaterThanOrEqual(2)
    expect(text).toContain('Permission is hereby granted, free of charge')
    expect(text).toContain('Copyright 2022 The Noto Project Authors')
  })
})
