/** What a preview is told of a folder, and who makes its pages. */

/** What became of the folder as it was read last. */
export interface Outcome {
  /** `failed`: not even its mistakes can be told, for it cannot be read or the program is at fault */
  readonly kind: 'good' | 'wrong' | 'failed'
  /** what is wrong with its files, word for word as on the terminal; empty where nothing is */
  readonly text: string
  /** what the terminal gets */
  readonly terminal: { readonly out: string; readonly err: string }
}

/** What a page is told. */
export interface Told {
  readonly phase: 'working' | 'read' | 'good' | 'wrong' | 'failed'
  /** what is wrong, or of what was `read` what was changed, in lines */
  readonly text: string
}

/** While something is worked out nobody knows yet what a page will be. */
export const isAtWork = ({ phase }: Told): boolean => phase === 'working' || phase === 'read'

/** By their paths below the site. */
export type Files = ReadonlyMap<string, string | Uint8Array>

/** Reads a folder and makes pages of it. It may do so in a process of its own, so that pages are served meanwhile. */
export interface Maker {
  /** what pages need before anything was read, in the language that is known until then */
  readonly common: () => Promise<Files>
  /**
   * Works out the folder as it is now; what `file` gives is still what was accepted last.
   *
   * @param read called once nothing is wrong in the files, before what takes long, with what was changed since the
   *   binder that is shown, in lines; not before there is one
   */
  readonly make: (read: (changed: string) => void) => Promise<Outcome>
  /**
   * Lets the last good binder that was made be the one that is shown.
   *
   * @param paths of pages that somebody looks at
   * @returns these pages, and what all pages need in the language of the binder
   */
  readonly accept: (paths: readonly string[]) => Promise<Files>
  /** one file of the binder that is shown; nothing where it has none of that path */
  readonly file: (path: string) => Promise<string | Uint8Array | undefined>
  /** a few pages of it that nobody asked for yet; nothing once all are made */
  readonly more: () => Promise<Files | undefined>
  readonly end: () => void
}

/** Pages that stand in the place of others, among the common files. */
export const WAITING = 'preview/waiting.html'
export const MISTAKES = 'preview/mistakes.html'
export const GONE = 'preview/gone.html'

/** Nothing can be told of the folder but this. @param text in plain words */
export const failure = (text: string): Outcome => ({
  kind: 'failed',
  text: `${text}\n`,
  terminal: { out: '', err: `${text}\n` },
})

/** @param shown how messages name the folder */
export const goneFailure = (shown: string): Outcome =>
  failure(
    `The folder ${shown} is not there any more, or you may not read it. Put it back, and the preview goes on by itself.`,
  )

/** Something failed that no file of a maker may make fail. */
export const faultFailure = (error: unknown): Outcome =>
  failure(
    `The program failed: ${(error as Error)?.message ?? error}\nThis is a fault of the program. KETTLE_DEBUG=1 shows where it happened. The preview goes on with the next save.`,
  )
