/** The site from a folder, as from a USB stick, and from a plain server: it asks for nothing but what lies beside it. */
import { readFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { OpenSite } from './site-folder.ts'

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.woff2': 'font/woff2',
  '.pdf': 'application/pdf',
}

/** Hands out files of a folder, and nothing else. */
const serve = (folder: string): Promise<Server> =>
  new Promise((ready) => {
    const server = createServer((request, response) => {
      const path = decodeURIComponent(
        (request.url ?? '/').replace(/[?#].*$/, '').replace(/\/$/, '/index.html'),
      )
      try {
        const content = readFileSync(join(folder, path))
        response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' })
        response.end(content)
      } catch {
        response.writeHead(404)
        response.end()
      }
    })
    server.listen(0, '127.0.0.1', () => ready(server))
  })

/** Names that every file system takes, that of a USB stick too, where capitals count for nothing. */
const SAFE = /^[a-z0-9][a-z0-9._-]{0,99}$/i
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i

interface Seen {
  readonly asked: string[]
  readonly failed: string[]
  readonly said: string[]
}

export const describeFolder = (open: () => OpenSite): unknown =>
  describe('by hand: the site stands by itself', () => {
    let server: Server
    beforeAll(async () => {
      server = await serve(open().site.folder)
    })
    afterAll(() => {
      server?.close()
    })

    const look = async (address: string): Promise<Seen & { readonly state: Record<string, unknown> }> => {
      const page = await open().browser.newPage()
      const seen: Seen = { asked: [], failed: [], said: [] }
      page.on('request', (request) => seen.asked.push(request.url()))
      page.on('requestfailed', (request) => seen.failed.push(request.url()))
      page.on('response', (response) => {
        if (response.status() >= 400) seen.failed.push(response.url())
      })
      page.on('console', (message) => seen.said.push(message.text()))
      page.on('pageerror', (error) => seen.said.push(String(error)))
      await page.goto(address)
      await page.focus('#looked-for')
      await page.waitForFunction('globalThis.kettleSearch !== undefined')
      const state = (await page.evaluate(async () => {
        await document.fonts.ready
        const inline = document.createElement('script')
        inline.textContent = 'globalThis.sneaked = true'
        document.head.append(inline)
        return {
          isScripted: document.documentElement.classList.contains('scripted'),
          isStyled: getComputedStyle(document.querySelector('.site-bar') as Element).position,
          fonts: [...document.fonts].filter((face) => face.status === 'loaded').length,
          broken: [...document.fonts].filter((face) => face.status === 'error').length,
          sneaked: 'sneaked' in globalThis,
        }
      })) as Record<string, unknown>
      await page.close()
      return { ...seen, state }
    }

    const stands = (
      { asked, failed, said, state }: Awaited<ReturnType<typeof look>>,
      below: string,
    ): void => {
      expect(failed).toEqual([])
      expect(asked.length).toBeGreaterThan(5)
      expect(asked.filter((one) => !one.startsWith(below))).toEqual([])
      expect(state).toEqual({
        isScripted: true,
        isStyled: 'sticky',
        fonts: expect.any(Number),
        broken: 0,
        sneaked: false,
      })
      expect(state.fonts).toBeGreaterThan(0)
      // the one that was tried by this test
      expect(said.filter((one) => !one.includes('inline script'))).toEqual([])
      expect(said).toHaveLength(1)
    }

    it('in a folder: scripts, styles and letters load, nothing else is asked for, and no script that is written into a page runs', async () => {
      const { site, address } = open()
      stands(await look(address('index.html')), address(''))
      stands(await look(address(`sheets/${site.sheets[0]?.anchor}.html`)), address(''))
    })

    it('behind a plain server just as well', async () => {
      const here = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`
      stands(await look(here), here)
      stands(await look(`${here}sheets/${open().site.sheets[1]?.anchor}.html`), here)
    })

    it('with names that every file system takes', () => {
      const { files } = open().site
      expect(files.length).toBeGreaterThan(40)
      for (const file of files)
        for (const name of file.split('/')) {
          expect(name).toMatch(SAFE)
          expect(name).not.toMatch(RESERVED)
        }
      expect(new Set(files.map((file) => file.toLowerCase())).size).toBe(files.length)
      expect('nul.css').toMatch(RESERVED)
      expect('a:b.html').not.toMatch(SAFE)
    })

    it('offers to print a sheet alone only where the foot of its pages is set', async () => {
      const { site, browser, address } = open()
      const of = address(`sheets/${site.sheets[1]?.anchor}.html`)
      const isOffered = 'document.querySelector(".print-alone").hidden === false'
      const page = await browser.newPage()
      await page.goto(of)
      expect(await page.evaluate(isOffered)).toBe(true)
      await page.setJavaScriptEnabled(false)
      await page.goto(of)
      expect(await page.evaluate(isOffered)).toBe(false)
      const link = await page.$eval('.to-paper a', (one) => one.getAttribute('href'))
      expect(link).toBe(`../binder.pdf#page=${site.paper.sheets[1]?.firstPage}`)
      await page.setJavaScriptEnabled(true)
      // a browser that knows @page, and nothing of what stands in its margins
      await page.evaluateOnNewDocument(() => {
        const { replaceSync } = CSSStyleSheet.prototype
        CSSStyleSheet.prototype.replaceSync = function (text) {
          replaceSync.call(this, text.replace(/@bottom-left \{[^}]*\}/, ''))
        }
      })
      await page.goto(of)
      expect(await page.evaluate(isOffered)).toBe(false)
      await page.close()
    })

    it('leads from sheet to sheet, and to the page of each in the binder', async () => {
      const { site, browser, address } = open()
      const page = await browser.newPage()
      await page.goto(address(`sheets/${site.sheets[0]?.anchor}.html`))
      for (const { anchor } of site.sheets.slice(1, 4)) {
        await Promise.all([page.waitForNavigation(), page.click('.neighbours [rel=next]')])
        expect(page.url()).toBe(address(`sheets/${anchor}.html`))
      }
      await Promise.all([page.waitForNavigation(), page.click('.neighbours [rel=prev]')])
      expect(page.url()).toBe(address(`sheets/${site.sheets[2]?.anchor}.html`))
      await page.close()
    })
  })
