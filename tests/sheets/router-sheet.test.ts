/** The sheet for a friend with a router against the files that are written. */
import { describe, expect, it } from 'vitest'
import { routerFilesOf } from '../../src/sheets/router/files.ts'
import { inlineHtml, withFiles } from '../../src/site/markdown.ts'
import { composeEdited, STATES, sheetOf } from '../sites/edited-demo.ts'
import { linesOf, saidOf } from './rows.ts'

const ID = 'router/files'

const valuesOf = async (state: keyof typeof STATES) => {
  const binder = await composeEdited(STATES[state])
  return { binder, sheet: sheetOf(binder, ID) }
}

describe('by hand: the router sheet of the demo', () => {
  it('lists every layer that is cut, and how many shapes are on it', async () => {
    const { binder, sheet } = await valuesOf('the whole demo')
    const layers = [...sheet.values.values()].filter(({ unit }) => unit === 'layer')
    const written = binder.routerFiles.flatMap(({ file }) =>
      file.layers.filter(({ work }) => work !== 'outline' && !work.startsWith('done')),
    )
    // one more: the name that is explained
    expect(layers.map(({ value }) => value).sort()).toEqual(
      [...written.map(({ name }) => name), String(sheet.values.get('router.example')?.value)].sort(),
    )
    expect(sheet.values.get('router.five-by-three.side.HOLE_D7P144_17P8MM.count')?.value).toBe(4)
    expect(sheet.values.get('router.five-by-three.side.count')?.value).toBe(2)
  })

  it('names the thickest common cutter: 1/8 in for the kerf of a rod of 1/8 in, 3/16 in for a groove of 3/16 in', async () => {
    const { sheet } = await valuesOf('the whole demo')
    const cutter = (file: string) => sheet.values.get(`router.five-by-three.${file}.cutter`)
    expect(cutter('cutter-side')?.shown).toMatch(/^1\/8/)
    expect(cutter('base-top')?.shown).toMatch(/^3\/16/)
    // a dado of 18.1 mm: the thickest on the list
    expect(cutter('side')?.shown).toMatch(/^1\/2/)
    expect(cutter('strip')).toBeUndefined()
  })

  it('writes each file under its fixture, with notes in it', async () => {
    const { binder } = await valuesOf('the whole demo')
    const paths = binder.routerFiles.map(({ path }) => path)
    expect(paths).toContain('dxf/five-by-three/side.dxf')
    expect(paths).toContain('dxf/five-by-three/cutter-side-turned.dxf')
    expect(new Set(paths).size).toBe(paths.length)
    const turned = binder.routerFiles.find(({ path }) => path.endsWith('cutter-side-turned.dxf'))
    expect(turned?.notes.join('\n')).toContain('cutter-side.dxf')
    const end = binder.routerFiles.find(({ path }) => path.endsWith('/end.dxf'))
    expect(end?.notes.some((note) => /1\.5.mm on the short edges/.test(note))).toBe(true)
  })
})

describe('by hand: a stopped fixture', () => {
  it('gives no files, and the sheet says so', async () => {
    const { binder, sheet } = await valuesOf('dado too deep')
    // the mould is stopped, and with it what stands on it; the trial frame stands alone
    expect(binder.routerFiles.length).toBeGreaterThan(0)
    for (const { path } of binder.routerFiles) expect(path).toContain('/trial-')
    expect(linesOf(sheet.blocks.stopped)).toHaveLength(3)
    expect(saidOf(sheet.blocks.stopped)).toContain('Grid cutter')
    expect(Object.values(sheet.blocks).map(saidOf).join()).not.toContain('cutter-side')
  })

  it('leaves nothing where no fixture stands', () => {
    const none = {
      key: 'none',
      title: 'None',
      groups: [{ kind: 'mould', stopped: true, parts: [] }],
    } as const
    expect(routerFilesOf({} as never, { routerSets: [none] })).toEqual([])
  })
})

describe('by hand: names of files on a page', () => {
  const html = inlineHtml({ text: '[[file]]', fill: { file: 'a-2.dxf' }, file: 'dxf/x/a-2.dxf' })

  it('lead to the file on the site alone: paper keeps the name', () => {
    expect(html).toBe(
      '<span class="file" data-file="dxf/x/a-2.dxf"><span class="maker">a-2.dxf</span></span>',
    )
    expect(withFiles(`then ${html}, far`)).toBe(
      'then <a class="file" href="../dxf/x/a-2.dxf"><span class="maker">a-2.dxf</span></a>, far',
    )
  })
})
