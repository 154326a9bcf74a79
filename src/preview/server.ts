/** Serves the pages of a preview out of memory, to this machine or, if asked, to its network, and tells them what is new. */
import { createHash } from 'node:crypto'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import { isAtWork, type Told } from './types.ts'

export interface Served {
  readonly status: number
  readonly content: string | Uint8Array
}

export interface Source {
  /** @param path below the site, without a slash before it */
  readonly file: (path: string) => Promise<Served>
  readonly told: () => Told
}

export interface PreviewServer {
  readonly port: number
  /** pages that somebody looks at, by their paths */
  readonly open: () => readonly string[]
  /** tells all of them what is so now */
  readonly tell: () => Promise<void>
  readonly end: () => void
}

export interface Where {
  /** what it listens on */
  readonly host: string
  readonly port: number
  /** names and addresses under which somebody may ask for it */
  readonly names: readonly string[]
}

/** Where pages listen for what is new. */
const EVENTS = 'preview/events'
/** ms between signs of life, by which a page that went away is noticed */
const ALIVE = 20_000
/** ports that are tried after the first one */
const MORE_PORTS = 30

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  ics: 'text/calendar; charset=utf-8',
  woff2: 'font/woff2',
  woff: 'font/woff',
}

/** With each answer: nothing is kept, no page of another place shows or reads it. */
const ALWAYS = {
  'Cache-Control': 'no-store',
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
}

interface Listener {
  readonly path: string
  readonly response: ServerResponse
}

/** @throws Error of the system where no port can be had */
export const servePreview = async (source: Source, where: Where): Promise<PreviewServer> => {
  const listeners = new Set<Listener>()
  let hosts: ReadonlySet<string> = new Set()

  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const refused = refusal(request, hosts)
    if (refused) return plain(response, refused.status, refused.words, refused.headers)
    const url = addressOf(request.url ?? '/')
    if (!url) return plain(response, 400, 'This address cannot be read.')
    if (url.path === EVENTS) return listen(request, response, url.page)
    const { status, content } = await source.file(url.path)
    const isPage = typeof content === 'string' && typeOf(status, url.path) === TYPES.html
    const body = isPage ? withMark(content) : content
    response.writeHead(status, {
      ...ALWAYS,
      'Content-Type': typeOf(status, url.path) ?? 'application/octet-stream',
      'Content-Length': Buffer.byteLength(body),
    })
    response.end(request.method === 'HEAD' ? undefined : body)
  }

  const listen = (request: IncomingMessage, response: ServerResponse, page: string): void => {
    response.writeHead(200, { ...ALWAYS, 'Content-Type': 'text/event-stream; charset=utf-8' })
    if (request.method === 'HEAD') {
      response.end()
      return
    }
    const listener = { path: page, response }
    listeners.add(listener)
    response.on('close', () => listeners.delete(listener))
    response.write('retry: 1000\n\n')
    void tellOne(listener)
  }

  const tellOne = async ({ path, response }: Listener): Promise<void> => {
    const told = source.told()
    const mark = isAtWork(told) ? undefined : markOf((await source.file(path)).content)
    if (!response.writableEnded) response.write(`data: ${JSON.stringify({ ...told, mark })}\n\n`)
  }

  const server = createServer((request, response) => {
    answer(request, response).catch(() => {
      if (!response.headersSent) plain(response, 500, 'This page could not be made.')
      else response.end()
    })
  })
  const port = await listening(server, where)
  hosts = new Set(where.names.flatMap((name) => [`${name}:${port}`, ...(port === 80 ? [name] : [])]))
  const alive = setInterval(() => {
    for (const { response } of listeners) response.write(': \n\n')
  }, ALIVE)
  alive.unref()
  return {
    port,
    open: () => [...new Set([...listeners].map(({ path }) => path))],
    tell: async () => {
      await Promise.all([...listeners].map((listener) => tellOne(listener).catch(() => undefined)))
    },
    end: () => {
      clearInterval(alive)
      server.close()
      server.closeAllConnections()
    },
  }
}

/** By which a page knows whether it is still as it was served. */
export const markOf = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex').slice(0, 16)

const withMark = (page: string): string =>
  page.replace(
    '<meta charset="utf-8">',
    (charset) => `${charset}\n<meta name="preview-page" content="${markOf(page)}">`,
  )

const typeOf = (status: number, path: string): string | undefined =>
  status === 404 ? TYPES.html : TYPES[/\.([a-z0-9]+)$/.exec(path)?.[1] ?? '']

interface Refusal {
  readonly status: number
  readonly words: string
  readonly headers?: Readonly<Record<string, string>>
}

/**
 * Why a request is not answered. A page of another place may have a name of its own lead to this machine (then the
 * name is a wrong one), or may load our scripts as its own (then the browser says from where).
 */
const refusal = (
  { method = '', headers }: IncomingMessage,
  hosts: ReadonlySet<string>,
): Refusal | undefined => {
  if (!hosts.has((headers.host ?? '').toLowerCase()))
    return { status: 403, words: 'The preview is not known under this name.' }
  if (method !== 'GET' && method !== 'HEAD')
    return { status: 405, words: 'The preview is only to be read.', headers: { Allow: 'GET, HEAD' } }
  const site = headers['sec-fetch-site']
  const isLink = headers['sec-fetch-mode'] === 'navigate' && headers['sec-fetch-dest'] === 'document'
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !isLink)
    return { status: 403, words: 'The preview is not read by other pages.' }
  return undefined
}

const plain = (
  response: ServerResponse,
  status: number,
  words: string,
  headers: Readonly<Record<string, string>> = {},
): void => {
  response.writeHead(status, { ...ALWAYS, ...headers, 'Content-Type': 'text/plain; charset=utf-8' })
  response.end(`${words}\n`)
}

/** The file that an address names; for whoever listens also the page that it shows. */
export const addressOf = (asked: string): { readonly path: string; readonly page: string } | undefined => {
  try {
    const { pathname, searchParams } = new URL(asked, 'http://preview')
    return { path: fileAt(decodeURIComponent(pathname)), page: fileAt(searchParams.get('page') ?? '/') }
  } catch {
    return undefined
  }
}

const fileAt = (pathname: string): string => pathname.replace(/^\//, '').replace(/^$/, 'index.html')

const listening = async (server: ReturnType<typeof createServer>, { host, port }: Where): Promise<number> => {
  for (let tried = 0; ; tried += 1) {
    try {
      return await new Promise<number>((done, failed) => {
        server.once('error', failed)
        server.listen({ host, port: port === 0 ? 0 : port + tried, exclusive: true }, () => {
          server.off('error', failed)
          const address = server.address()
          done(typeof address === 'object' && address ? address.port : port)
        })
      })
    } catch (error) {
      const isTaken = ['EADDRINUSE', 'EACCES'].includes(String((error as { code?: unknown }).code))
      if (!isTaken || tried >= MORE_PORTS || port + tried >= 65_535) throw error
    }
  }
}
