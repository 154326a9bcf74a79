// Where the browser that comes with the installed packages is unpacked, and whether it is there whole.
import { readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'

export const BROWSER_PACKAGE = '@sparticuz/chromium'

/**
 * The browser's file, whether or not it is there; undefined where no such browser can run or is installed.
 *
 * @param root  the program's own folder
 */
export const embeddedBrowser = (root, platform = process.platform, arch = process.arch) => {
  if (platform !== 'linux' || arch !== 'x64') return undefined
  let version
  try {
    version = JSON.parse(
      readFileSync(join(root, 'node_modules', BROWSER_PACKAGE, 'package.json'), 'utf8'),
    ).version
  } catch {
    return undefined
  }
  const folder = join(root, 'node_modules', `.browser-${version}`)
  return { folder, path: join(folder, 'chromium'), sizeFile: join(folder, 'size') }
}

/** True when it was unpacked to the end and nothing was cut off since (a power cut can do that). */
export const isUnpacked = (browser) => {
  try {
    return statSync(browser.path).size === Number(readFileSync(browser.sizeFile, 'utf8'))
  } catch {
    return false
  }
}
