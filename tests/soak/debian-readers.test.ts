/** The demo's binder read by the PDF programs of Debian: written by other people than any library of this project. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/build.ts'
import type { BinderData } from '../../src/sheets/binder-data.ts'
import { runCommand } from '../commands/run-command.ts'

const base = mkdtempSync(join(tmpdir(), 'soak-readers-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))
const pdf = join(base, 'demo', 'binder.pdf')

/** What a program prints. @throws Error when it is not there or ends with a fault */
const said = (program: string, ...args: string[]): string => {
  const { error, status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 })
  if (error) throw new Error(`${program} is not on this machine: install Debian's poppler-utils and qpdf.`)
  if (status !== 0) throw new Error(`${program}: ${status}, ${stderr}${stdout}`)
  return stdout
}

/** Pieces of text may be parted otherwise by each reader. */
const close = (text: string): string => text.replace(/[\s\u00a0\f]+/g, '').replaceAll('\u2044', '/')

let data: BinderData
beforeAll(async () => {
  const { code, err } = await runCommand(run, ['--out', 'demo'], base)
  if (code !== 0) throw new Error(err)
  data = JSON.parse(readFileSync(join(base, 'demo', 'binder.json'), 'utf8')) as BinderData
})

describe('by hand: the binder, read by programs of Debian', () => {
  it('is sound in every object, by qpdf', () => {
    expect(said('qpdf', '--check', pdf)).toContain('No syntax or stream encoding errors found')
  })

  it('is tagged, titled, dated by its edition, and asks for no script, by pdfinfo', () => {
    const info = new Map(
      said('pdfinfo', '-isodates', pdf)
        .split('\n')
        .map((line) => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).trim()]),
    )
    expect(info.get('Title')).toBe('Withy Corner Soap Shed: shop binder')
    expect(info.get('Tagged')).toBe('yes')
    expect(info.get('JavaScript')).toBe('no')
    expect(info.get('CreationDate')?.slice(0, 10)).toBe('2027-03-01')
    const last = data.sheets.at(-1)
    const end = (last?.firstPage ?? 0) + (last?.pages ?? 0) - 1
    // the last leaf is whole: it may have a blank back
    expect([end, end + 1]).toContain(Number(info.get('Pages')))
    expect(info.get('Page size')).toBe('612 x 792 pts (letter)')
  })

  it('carries every font, by pdffonts', () => {
    const fonts = said('pdffonts', pdf).trim().split('\n').slice(2)
    expect(fonts.length).toBeGreaterThan(2)
    for (const font of fonts)
      expect(font).toMatch(/^[A-Z]{6}\+NotoSans\S* +CID TrueType +Identity-H +yes yes yes/)
  })

  it('shows every value on its sheet, and how far its pages are counted, by pdftotext', () => {
    const pages = said('pdftotext', '-raw', pdf, '-').split('\f').map(close)
    for (const { id, kind, title, firstPage, pages: count, values } of data.sheets) {
      expect(pages[firstPage - 1], id).toContain(close(title))
      const whole = pages.slice(firstPage - 1, firstPage - 1 + count)
      // a page of labels has no foot
      if (kind !== 'label-page')
        for (const [index, page] of whole.entries()) expect(page, id).toContain(`page${index + 1}of${count}`)
      const text = whole.join('')
      expect(
        Object.entries(values)
          .filter(([, { shown }]) => !text.includes(close(shown)))
          .map(([name, { shown }]) => `${id} ${name}: ${shown}`),
      ).toEqual([])
    }
  })
})
