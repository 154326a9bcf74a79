export interface EmbeddedBrowser {
  readonly folder: string
  readonly path: string
  /** holds the size of the unpacked file in bytes, written when unpacking had ended well */
  readonly sizeFile: string
}
export const BROWSER_PACKAGE: string
export function embeddedBrowser(root: string, platform?: string, arch?: string): EmbeddedBrowser | undefined
export function isUnpacked(browser: EmbeddedBrowser): boolean
