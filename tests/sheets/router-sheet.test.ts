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
    const written = routerFilesOf(binder.frame, binder.bound).flatMap(({ file }) =>
      file.layers.filter(({ work }) => work !== 'outline' && !work.startsWith('done')),
    )
    // one more: the name that is explained
    expect(layers.map(({ value }) => value).sort()).toEqual(
      [...written.map(({ name }) => name), String(sheet.values.get('router.example')?.value)].sort(),
    )
    expect(sheet.values.get('router.five-by-three.mould-side.HOLE_D7P144_17P8MM.count')?.value).toBe(4)
    expect(sheet.values.get('router.five-by-three.mould-side.count')?.value).toBe(2)
  })

  it('names for each layer the cutters that go in and bear its depth', async () => {
    const { sheet } = await valuesOf('the whole demo')
    const shown = (layer: string) => sheet.values.get(`router.five-by-three.${layer}`)?.shown
    // the kerf of a rod of 1/8 in, 1/8 in deep
    expect(shown('grid-cutter-side.GROOVE_UPPER_3P375MM.cutter')).toMatch(/^1\/8/)
    // 15.875 / 4 = 3.97: 3/16 in (4.76) bears it, and goes into a groove of 3/16 in
    expect(shown('mould-base-top.GROOVE_UPPER_15P875MM.cutter')).toMatch(/^3\/16/)
    // a dado of 18.1 mm: the thickest on the list
    expect(shown('mould-side.DADO_UPPER_6P35MM.cutter')).toMatch(/^1\/2/)
    // 17.8 / 4 = 4.45: through the board with 3/16 in and no thinner
    expect(shown('grid-cutter-side.OUTLINE_THROUGH_17P8MM.least')).toMatch(/^3\/16/)
    // a recess of 9.525 mm, which is 3/8 in, and one of 7.938 mm, in which 3/8 in is too thick
    expect(shown('grid-cutter-stand-board.RECESS_UPPER_D9P525_3MM.cutter')).toMatch(/^3\/8/)
    expect(shown('grid-cutter-mark-stick.RECESS_UPPER_D7P938_2P5MM.cutter')).toMatch(/^1\/4/)
    // holes of 4.366 mm through 17.8 mm are drilled: 1/8 in goes in, 3/16 in would bear it
    expect(shown('grid-cutter-side.HOLE_D4P366_17P8MM.cutter')).toBeUndefined()
    // one of 10 mm takes 3/8 in
    expect(shown('bar-cutter-front-rail.HOLE_D10_17P8MM.cutter')).toMatch(/^3\/8/)
    // the wire slots of the fence through 17.8 mm
    expect(shown('bar-cutter-fence.OUTLINE_THROUGH_17P8MM.cutter')).toBeUndefined()
    expect(shown('bar-cutter-fence.OUTLINE_THROUGH_17P8MM.width')).toBeDefined()
    // a lap under an arm of 45 mm, open at the rail's end
    expect(shown('bar-cutter-front-rail-turned.REBATE_LOWER_8P9MM.width')).toMatch(/^45/)
  })

  it('calls parts narrow that have a side under 50 mm, and no others', async () => {
    const { sheet } = await valuesOf('the whole demo')
    const said = linesOf(sheet.blocks['files-five-by-three-bar-cutter'])
    const line = (file: string) => said.find((one) => one.includes(`${file}.dxf`))
    // 424.3 x 45.0; 268.2 x 73.9
    expect(line('bar-cutter-arm')).toContain('narrow')
    expect(line('bar-cutter-platform')).not.toContain('narrow')
  })

  it('writes each file under its fixture, with notes in it', async () => {
    const { binder } = await valuesOf('the whole demo')
    const paths = routerFilesOf(binder.frame, binder.bound).map(({ path }) => path)
    expect(paths).toContain('dxf/five-by-three/mould-side.dxf')
    expect(paths).toContain('dxf/five-by-three/grid-cutter-side-turned.dxf')
    expect(new Set(paths).size).toBe(paths.length)
    const turned = routerFilesOf(binder.frame, binder.bound).find(({ path }) =>
      path.endsWith('/grid-cutter-side-turned.dxf'),
    )
    expect(turned?.notes.join('\n')).toContain('grid-cutter-side.dxf')
    const end = routerFilesOf(binder.frame, binder.bound).find(({ path }) => path.endsWith('/mould-end.dxf'))
    expect(end?.notes.some((note) => /1\.5.mm on the short edges/.test(note))).toBe(true)
  })
})

describe('by hand: a stopped fixture', () => {
  it('gives no files, and the sheet says so', async () => {
    const { binder, sheet } = await valuesOf('dado too deep')
    // the mould is stopped, and with it what stands on it; the trial frame stands alone
    expect(routerFilesOf(binder.frame, binder.bound).length).toBeGreaterThan(0)
    for (const { path } of routerFilesOf(binder.frame, binder.bound)) expect(path).toContain('/trial-frame-')
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
