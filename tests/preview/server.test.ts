/** Who may read a preview, and what of it: asked as browsers ask, and as nobody should. */
import { request } from 'node:http'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { addressOf, markOf, type PreviewServer, servePreview } from '../../src/preview/server.ts'
import type { Told } from '../../src/preview/types.ts'

let told: Told = { phase: 'good', text: '' }
let home = '<meta charset="utf-8">Home'
const pages = new Map([
  ['sheets/a b.html', '<meta charset="utf-8">Sheet'],
  ['assets/words.js', 'globalThis.words={}'],
])
let server: PreviewServer | undefined
beforeAll(async () => {
  server = await servePreview(
    {
      file: async (path) => {
        const content = path === 'index.html' ? home : pages.get(path)
        return content === undefined
          ? { status: 404, content: '<meta charset="utf-8">Gone' }
          : { status: 200, content }
      },
      told: () => told,
    },
    { host: '127.0.0.1', port: 0, names: ['127.0.0.1', 'localhost'] },
  )
})
afterAll(() => server?.end())

const port = (): number => server?.port ?? 0

interface Answer {
  readonly status: number
  readonly headers: Readonly<Record<string, unknown>>
  readonly body: string
}

const ask = (
  path: string,
  { method = 'GET', headers = {} }: { method?: string; headers?: Record<string, string> } = {},
): Promise<Answer> =>
  new Promise((done, failed) => {
    const asked = request(
      { host: '127.0.0.1', port: port(), path, method, headers, agent: false },
      (answer) => {
        let body = ''
        answer.on('data', (part) => {
          body += part
        })
        answer.on('end', () => done({ status: answer.statusCode ?? 0, headers: answer.headers, body }))
      },
    )
    asked.on('error', failed)
    asked.end()
  })

/** The first `count` messages that a page is told. */
const listen = async (path: string, count: number, meanwhile: () => Promise<void>): Promise<unknown[]> => {
  const heard: unknown[] = []
  return new Promise((done, failed) => {
    const asked = request({ host: '127.0.0.1', port: port(), path, agent: false }, (answer) => {
      let isFirst = true
      answer.on('data', (part) => {
        for (const [, data] of String(part).matchAll(/^data: (.*)$/gm)) {
          heard.push(JSON.parse(data ?? ''))
          if (isFirst) meanwhile().catch(failed)
          isFirst = false
        }
        if (heard.length < count) return
        asked.destroy()
        done(heard)
      })
    })
    asked.on('error', (error) => (heard.length < count ? failed(error) : undefined))
    asked.end()
  })
}

describe('by hand: the server of a preview', () => {
  it('gives pages with a mark of what they were, and nothing to keep', async () => {
    const answer = await ask('/')
    expect(answer.status).toBe(200)
    expect(answer.body).toBe(
      `<meta charset="utf-8">\n<meta name="preview-page" content="${markOf(home)}">Home`,
    )
    expect(answer.headers).toMatchObject({
      'cache-control': 'no-store',
      'content-type': 'text/html; charset=utf-8',
      'x-content-type-options': 'nosniff',
    })
    const script = await ask('/assets/words.js')
    expect(script).toMatchObject({ status: 200, body: 'globalThis.words={}' })
    expect(script.headers['content-type']).toBe('text/javascript; charset=utf-8')
    expect((await ask('/sheets/a%20b.html?x=1')).status).toBe(200)
  })

  it('tells nobody who asks by another name: a page elsewhere can make its own name lead here', async () => {
    for (const host of ['evil.example', `evil.example:${port()}`, 'localhost', `127.0.0.1:${port() + 1}`])
      expect((await ask('/', { headers: { Host: host } })).status, host).toBe(403)
    for (const host of [`localhost:${port()}`, `LOCALHOST:${port()}`, `127.0.0.1:${port()}`])
      expect((await ask('/', { headers: { Host: host } })).status, host).toBe(200)
  })

  it('lets pages of others lead here, but not read or load what is here', async () => {
    const from = (site: string, mode: string, dest: string): Promise<Answer> =>
      ask('/assets/words.js', {
        headers: { 'Sec-Fetch-Site': site, 'Sec-Fetch-Mode': mode, 'Sec-Fetch-Dest': dest },
      })
    expect((await from('cross-site', 'no-cors', 'script')).status).toBe(403)
    expect((await from('same-site', 'cors', 'empty')).status).toBe(403)
    expect((await from('cross-site', 'navigate', 'iframe')).status).toBe(403)
    expect((await from('same-origin', 'no-cors', 'script')).status).toBe(200)
    expect((await from('none', 'navigate', 'document')).status).toBe(200)
    expect((await from('cross-site', 'navigate', 'document')).status).toBe(200)
    const { headers } = await ask('/assets/words.js')
    expect(headers['access-control-allow-origin']).toBeUndefined()
    expect(headers['cross-origin-resource-policy']).toBe('same-origin')
    expect(headers['x-frame-options']).toBe('DENY')
  })

  it('is only read', async () => {
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH']) {
      const answer = await ask('/', { method })
      expect(answer.status, method).toBe(405)
      expect(answer.headers.allow).toBe('GET, HEAD')
    }
    const head = await ask('/', { method: 'HEAD' })
    expect(head).toMatchObject({ status: 200, body: '' })
    expect(Number(head.headers['content-length'])).toBe((await ask('/')).body.length)
    expect((await ask('/preview/events', { method: 'HEAD' })).status).toBe(200)
  })

  it('has what it was given, and no way to anything else', async () => {
    for (const path of [
      '/../package.json',
      '/..%2f..%2fpackage.json',
      '/%2e%2e/package.json',
      '/etc/passwd',
      '//etc/passwd',
      '/assets/',
      '/sheets/b.html',
    ])
      expect((await ask(path)).status, path).toBe(404)
    expect((await ask('/%zz')).status).toBe(400)
    expect(addressOf('/%zz')).toBeUndefined()
    expect(addressOf('/preview/events?page=%2Fsheets%2Fa.html')).toEqual({
      path: 'preview/events',
      page: 'sheets/a.html',
    })
  })

  it('takes the next port where one is taken', async () => {
    const second = await servePreview(
      { file: async () => ({ status: 200, content: '' }), told: () => told },
      { host: '127.0.0.1', port: port(), names: ['127.0.0.1'] },
    )
    second.end()
    expect(second.port).toBeGreaterThan(port())
  })

  it('tells a page what is so, whether it is still as it was, and nothing of that while nobody knows', async () => {
    const before = markOf(home)
    const heard = await listen('/preview/events?page=/', 3, async () => {
      expect(server?.open()).toEqual(['index.html'])
      told = { phase: 'working', text: '' }
      await server?.tell()
      home = '<meta charset="utf-8">Other'
      told = { phase: 'wrong', text: 'a </script>\nb' }
      await server?.tell()
    })
    expect(heard).toEqual([
      { phase: 'good', text: '', mark: before },
      { phase: 'working', text: '' },
      { phase: 'wrong', text: 'a </script>\nb', mark: markOf(home) },
    ])
    expect(markOf(home)).not.toBe(before)
  })
})
