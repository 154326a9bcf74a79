/** `npm run preview`: shows a folder in a browser while it is edited. It prints nothing and writes nothing. */
import { readFile } from 'node:fs/promises'
import { networkInterfaces } from 'node:os'
import { childMaker } from '../preview/child-maker.ts'
import { type Preview, startPreview } from '../preview/preview.ts'
import { failure, goneFailure, type Outcome } from '../preview/types.ts'
import { fontFiles } from '../print/fonts.ts'
import { isLeftAlone } from '../schema/read-folder.ts'
import { qrLines } from '../site/qr.ts'
import { type Context, parsed, readOptions, UsageError } from './options.ts'
import { colourWanted, say } from './say.ts'

/** Tried first; the next free one where somebody has it already. */
const PORT = 4270

const HELP = `npm run preview -- [FOLDER] [--lan] [--port N]

Shows the binder of a folder (this program's own demo without one) in a browser, and follows each save: what changed is
there a moment later, and what is wrong stands above the page in the words of "npm run check". Writes nothing.
Page numbers and paper come with "npm start". Ctrl+C ends it.

  --lan     for a phone or a tablet, too: everybody on the same network can then read the binder
  --port    another number than ${PORT}

It ends with 0 when you end it, 2 when the program could not do its work.
`

/** Letters, by their path below the site. */
const fontAt = async (path: string): Promise<Uint8Array | undefined> => {
  const font = fontFiles().find(({ name }) => path === `assets/fonts/${name}`)
  return font && readFile(font.path)
}

const LOOPBACK = ['127.0.0.1', 'localhost', '[::1]']

export const run = async (args: string[], context: Context): Promise<number> => {
  const { values, positionals } = parsed(args, WHAT)
  if (values.help) {
    process.stdout.write(HELP)
    return 0
  }
  const port = portOf(values.port)
  const { folder, shown } = await readOptions(positionals, context, false)
  const addresses = values.lan ? lanAddresses() : []
  const ended = whenEnded()
  const preview = await startPreview({
    folder,
    isLeftAlone,
    maker: childMaker(
      new URL('./preview-process.mjs', import.meta.url),
      [folder, shown, colourWanted() ? 'colour' : 'plain'],
      () =>
        failure('The program ended while it worked out the folder. The preview goes on with the next save.'),
    ),
    same: fontAt,
    where: {
      host: values.lan ? '0.0.0.0' : '127.0.0.1',
      port,
      names: [...LOOPBACK, ...addresses],
    },
    report: tell,
    gone: () => goneFailure(shown),
  }).catch((error) => {
    throw portRefusal(error, port) ?? error
  })
  greet(preview, shown, port, values.lan === true, addresses)
  await ended
  preview.end()
  return 0
}

const WHAT = {
  help: { type: 'boolean', short: 'h' },
  lan: { type: 'boolean' },
  port: { type: 'string' },
} as const

const LARGEST_PORT = 65_535

/** @throws UsageError in plain words */
const portOf = (typed: string | undefined): number => {
  if (typed === undefined) return PORT
  const port = /^\d{1,5}$/.test(typed.trim()) ? Number(typed) : Number.NaN
  if (port >= 1 && port <= LARGEST_PORT) return port
  throw new UsageError(
    `"${typed}" is no port. Write a number from 1 to ${LARGEST_PORT}, for example --port ${PORT}.`,
  )
}

/** Of this machine, as others on its network reach it. @throws UsageError where there is none */
const lanAddresses = (): string[] => {
  const found = Object.values(networkInterfaces()).flatMap((all) =>
    (all ?? [])
      .filter(({ family, internal }) => family === 'IPv4' && !internal)
      .map(({ address }) => address),
  )
  if (found.length > 0) return found
  throw new UsageError('This machine is on no network that a phone could reach it by. Leave --lan away.')
}

const portRefusal = (error: unknown, port: number): UsageError | undefined => {
  const { code } = error as { code?: unknown }
  if (code === 'EADDRINUSE')
    return new UsageError(`Port ${port} and those after it are taken. Say another --port.`)
  if (code === 'EACCES') return new UsageError(`You may not take port ${port}. Say a --port above 1023.`)
  return undefined
}

const whenEnded = (): Promise<void> =>
  new Promise((done) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => done())
    // nobody reads any more, so nobody would end it
    process.stdout.once('error', () => done())
  })

const tell = ({ terminal }: Outcome): void => {
  process.stderr.write(terminal.err)
  process.stdout.write(terminal.out)
}

const greet = (
  { port }: Preview,
  shown: string,
  asked: number,
  isLan: boolean,
  addresses: readonly string[],
): void => {
  if (port !== asked) say(`Port ${asked} is taken, so this takes ${port}.`)
  say(`Preview of ${shown}: open http://127.0.0.1:${port}/ in a browser. Ctrl+C ends it.`)
  if (!isLan) return
  say('Everybody on this network can read the binder while this runs. On a phone or a tablet open:')
  for (const address of addresses) {
    say(`  http://${address}:${port}/`)
    if (process.stdout.isTTY === true)
      // light squares are drawn, so the ground must be dark whatever the terminal's own colours are
      for (const line of qrLines(`http://${address}:${port}/`)) say(`\u001b[97;40m${line}\u001b[0m`)
  }
}
