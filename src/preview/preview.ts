/** A preview: a folder that is watched, worked out again and shown, from the first look until it is ended. */
import { folderStamp } from './folder-stamp.ts'
import { keepUp } from './keep-up.ts'
import { type PreviewServer, type Served, servePreview, type Where } from './server.ts'
import {
  faultFailure,
  GONE,
  isAtWork,
  type Maker,
  MISTAKES,
  type Outcome,
  type Told,
  WAITING,
} from './types.ts'
import { watchFolder } from './watch.ts'

export interface Preview {
  readonly port: number
  /** until all that was noticed of the folder is shown */
  readonly settled: () => Promise<void>
  readonly end: () => void
}

export interface Previewed {
  /** the maker's folder, absolute */
  readonly folder: string
  /** names of files and folders in it that nobody reads */
  readonly isLeftAlone: (name: string) => boolean
  readonly maker: Maker
  /** files that are the same in every binder: a maker at work gives nothing */
  readonly same: (path: string) => Promise<Uint8Array | undefined>
  readonly where: Where
  /** told what came of the folder each time that it is shown */
  readonly report: (outcome: Outcome) => void
  /** what is said where the folder is not there */
  readonly gone: () => Outcome
}

/** ms without a save before pages are made that nobody asked for */
const IDLE = 400

const pause = (milliseconds: number): Promise<void> => new Promise((done) => setTimeout(done, milliseconds))

export const startPreview = async ({
  folder,
  isLeftAlone,
  maker,
  same,
  where,
  report,
  gone,
}: Previewed): Promise<Preview> => {
  let told: Told = { phase: 'working', text: '' }
  let hasBinder = false
  let isEnded = false
  // what comes before anything was read may be asked for while it is still made
  let files: Promise<Map<string, string | Uint8Array>> = maker.common().then((common) => new Map(common))
  files.catch(() => undefined)

  const common = async (name: string, status = 200): Promise<Served> => ({
    status,
    content: (await files).get(name) ?? '',
  })

  const file = async (path: string): Promise<Served> => {
    const fixed = await same(path)
    if (fixed) return { status: 200, content: fixed }
    const known = await files
    const content = known.get(path)
    if (content !== undefined && !path.startsWith('preview/')) return { status: 200, content }
    if (!hasBinder)
      return path.endsWith('.html') ? common(isAtWork(told) ? WAITING : MISTAKES) : common(GONE, 404)
    const made = await maker.file(path)
    if (made === undefined) return common(GONE, 404)
    // what was asked of one binder is not kept for the next
    if ((await files) === known) known.set(path, made)
    return { status: 200, content: made }
  }

  const accepted = async (outcome: Outcome): Promise<Outcome> => {
    if (outcome.kind !== 'good') return outcome
    try {
      const fresh = new Map(await maker.accept(server.open()))
      files = Promise.resolve(fresh)
      hasBinder = true
      return outcome
    } catch (error) {
      return faultFailure(error)
    }
  }

  const show = async (made: Outcome): Promise<void> => {
    const outcome = await accepted(made)
    if (isEnded) return
    told = { phase: outcome.kind, text: outcome.text }
    report(outcome)
    await server.tell()
    if (outcome.kind === 'good') void makeTheRest()
  }

  /** Pages of a good binder are at hand while the next one is worked out. */
  const makeTheRest = async (): Promise<void> => {
    const own = await files
    const isIdle = async (): Promise<boolean> => !isEnded && !isAtWork(told) && (await files) === own
    await pause(IDLE)
    while (await isIdle()) {
      const more = await maker.more().catch(() => undefined)
      if (!more) return
      for (const [path, content] of more) own.set(path, content)
      await pause(0)
    }
  }

  const server: PreviewServer = await servePreview({ file, told: () => told }, where)
  const stamp = (): Promise<string | undefined> => folderStamp(folder, isLeftAlone)
  const keeping = keepUp({
    stamp,
    make: () =>
      maker.make((changed) => {
        if (isEnded || told.phase !== 'working') return
        told = { phase: 'read', text: changed }
        void server.tell()
      }),
    begin: () => {
      // the words of a mistake stay until somebody knows whether it is mended
      told = { phase: 'working', text: told.phase === 'read' ? '' : told.text }
      void server.tell()
    },
    show,
    wait: pause,
    gone,
  })
  const watching = watchFolder({
    folder,
    isLeftAlone,
    isThere: async () => (await stamp()) !== undefined,
    changed: keeping.changed,
    look: keeping.look,
  })
  keeping.changed()
  return {
    port: server.port,
    settled: keeping.settled,
    end: () => {
      isEnded = true
      watching.end()
      server.end()
      maker.end()
    },
  }
}
