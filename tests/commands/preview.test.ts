/** `preview` as somebody starts it who has a mistake in the folder, and as somebody types it wrongly. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import jsQR from 'jsqr'
import { afterAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/preview.ts'
import { qrLines } from '../../src/site/qr.ts'
import { bytesBelow, runCommand } from './run-command.ts'

const scan = jsQR as unknown as typeof jsQR.default
const root = fileURLToPath(new URL('../../', import.meta.url))
const base = mkdtempSync(join(tmpdir(), 'preview-command-'))
mkdirSync(join(base, 'shop'))
writeFileSync(join(base, 'shop/shop.yaml'), 'name: [')
const started: ChildProcess[] = []
afterAll(() => {
  for (const child of started) child.kill('SIGKILL')
  rmSync(base, { recursive: true, force: true })
})

describe('by hand: preview', () => {
  it('serves the mistakes of a folder at the next free port, and ends at once with 0', async () => {
    const other = createServer()
    await once(other.listen({ host: '127.0.0.1', port: 0 }), 'listening')
    const { port } = other.address() as AddressInfo
    const before = bytesBelow(join(base, 'shop'))
    const child = spawn(
      process.execPath,
      ['src/launch.mjs', 'preview', join(base, 'shop'), '--port', `${port}`],
      {
        cwd: root,
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    )
    started.push(child)
    let out = ''
    let err = ''
    child.stdout.on('data', (part) => {
      out += part
    })
    child.stderr.on('data', (part) => {
      err += part
    })
    while (!/1 error\. Nothing was written\.\n$/.test(err) && child.exitCode === null)
      await new Promise((done) => setTimeout(done, 50))
    other.close()
    expect(out).toContain(`Port ${port} is taken, so this takes `)
    const address = /open (http:\S+) in a browser\. Ctrl\+C ends it\./.exec(out)?.[1] ?? ''
    const answer = await fetch(address)
    expect(answer.status).toBe(200)
    expect(await answer.text()).toContain('The binder cannot be shown yet')
    child.kill('SIGINT')
    expect(await once(child, 'exit')).toEqual([0, null])
    expect(out).not.toContain('fault of the program')
    expect(err.match(/error/g)).toHaveLength(2)
    expect(bytesBelow(join(base, 'shop'))).toEqual(before)
    await expect(fetch(address)).rejects.toThrow()
  })

  it.each([
    [['nowhere'], 'There is no folder nowhere.'],
    [['shop/shop.yaml'], 'shop/shop.yaml is a file.'],
    [['--port', 'many', 'shop'], '"many" is no port.'],
    [['--port', '70000', 'shop'], '"70000" is no port.'],
    [['--port', '0', 'shop'], '"0" is no port.'],
    [['--prot', '80'], 'Add --help'],
    [['--out', 'x'], 'Add --help'],
  ])('says what is wrong with %j', async (args, words) => {
    const ran = await runCommand(run, args, base)
    expect(ran.code).toBe(2)
    expect(ran.err).toContain(words)
  })

  it('explains itself', async () => {
    const helped = await runCommand(run, ['-h'], base)
    expect(helped).toMatchObject({ code: 0, err: '' })
    expect(helped.out).toContain('Writes nothing.')
  })

  it('draws an address that a camera reads off a dark ground', () => {
    const address = 'http://192.168.178.120:4270/'
    const lines = qrLines(address)
    const SIDE = 6 // px a module
    const width = (lines[0] ?? '').length * SIDE
    const height = lines.length * 2 * SIDE
    const pixels = new Uint8ClampedArray(width * height * 4)
    for (let y = 0; y < height; y += 1)
      for (let x = 0; x < width; x += 1) {
        const row = Math.floor(y / SIDE)
        const sign = lines[row >> 1]?.[Math.floor(x / SIDE)] ?? ' '
        const isLight = sign === '█' || sign === (row % 2 === 0 ? '▀' : '▄')
        pixels.fill(isLight ? 255 : 0, (y * width + x) * 4, (y * width + x) * 4 + 4)
      }
    expect(scan(pixels, width, height, { inversionAttempts: 'dontInvert' })?.data).toBe(address)
  })
})
