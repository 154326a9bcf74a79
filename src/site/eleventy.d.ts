/** The part of Eleventy 3.1 that we use; the package ships no types. */
declare module '@11ty/eleventy' {
  export interface EleventyConfig {
    addGlobalData(name: string, data: unknown): void
    addFilter(name: string, filter: (...args: never[]) => unknown): void
    setNunjucksEnvironmentOptions(options: { throwOnUndefined: boolean; autoescape: boolean }): void
    setTemplateFormats(formats: string[]): void
    setUseGitIgnore(use: boolean): void
    benchmarkManager: { get(group: string): { setIsVerbose(verbose: boolean): void } }
  }
  export interface Page {
    readonly url: string
    readonly content: string
  }
  export default class Eleventy {
    constructor(
      input: string,
      output: string,
      options: { quietMode: boolean; configPath: string; config: (config: EleventyConfig) => void },
    )
    disableLogger(): void
    toJSON(): Promise<Page[]>
  }
}
