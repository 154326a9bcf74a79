// Makes the embedded browser ready: unpacked beside the installed packages, whole or not at all.
import { chmodSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { embeddedBrowser, isUnpacked } from './browser-folder.mjs'
import { runChild } from './child.mjs'
import { writingTrouble } from './plain-error.mjs'

/** True when there is an embedded browser for this machine that is not unpacked yet: quick enough for every start. */
export const needsUnpacking = (root) => {
  const browser = embeddedBrowser(root)
  return browser !== undefined && !isUnpacked(browser)
}

/**
 * Unpacks it; the caller holds the lock.
 *
 * @returns undefined when all is well, otherwise what went wrong
 */
export const unpackBrowser = async (root) => {
  const browser = embeddedBrowser(root)
  if (!browser || isUnpacked(browser)) return undefined
  const staging = `${browser.folder}~unpacking`
  try {
    sweep(browser)
    mkdirSync(staging)
    const { code, output } = await runChild(
      process.execPath,
      [fileURLToPath(new URL('unpack.mjs', import.meta.url))],
      {
        keep: true,
        env: unpackingEnvironment(staging),
      },
    )
    if (code !== 0) return trouble(lastLine(output) ?? `the unpacking ended with code ${code}`, browser)
    const file = join(staging, 'chromium')
    // The package makes it private to the user who unpacked it; others of this machine may print too.
    chmodSync(staging, 0o755)
    chmodSync(file, 0o755)
    writeFileSync(join(staging, 'size'), String(statSync(file).size))
    renameSync(staging, browser.folder)
    return undefined
  } catch (error) {
    return trouble(error, browser)
  } finally {
    rmSync(staging, { recursive: true, force: true })
  }
}

/** With the place, where it is the place that refuses. */
const trouble = (said, browser) => {
  const words = writingTrouble(said)
  return words === String(said?.message ?? said) ? words : `${words} (${dirname(browser.folder)})`
}

/** Older versions and whatever a killed unpacking left. */
const sweep = (browser) => {
  for (const name of readdirSync(dirname(browser.folder))) {
    if (name.startsWith('.browser-'))
      rmSync(join(dirname(browser.folder), basename(name)), { recursive: true, force: true })
  }
}

/** The three names that decide the temporary folder; without the cloud settings that make the package unpack more. */
const unpackingEnvironment = (folder) => {
  const env = { ...process.env, TMPDIR: folder, TEMP: folder, TMP: folder }
  for (const name of Object.keys(env))
    if (/^(AWS_|CODEBUILD_|VERCEL|NODE_OPTIONS$)/.test(name)) delete env[name]
  return env
}

const lastLine = (text) =>
  text
    .split('\n')
    .filter((line) => /error/i.test(line))
    .at(-1)
    ?.trim()
