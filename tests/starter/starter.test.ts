/** New folders: whatever is answered within bounds, what is written can be made. */
import { describe, expect, it } from 'vitest'
import { composeFiles } from '../../src/commands/compose.ts'
import { stopsAndConflicts } from '../../src/commands/fitting-folder.ts'
import { loadContent } from '../../src/schema/load.ts'
import { asFolderFiles } from '../../src/schema/read-folder.ts'
import { readStarter } from '../../src/starter/read-starter.ts'
import { type FolderAnswers, folderFiles } from '../../src/starter/starter-files.ts'
import { isSoak } from '../long.ts'

const IN = {
  name: 'Cook’s "shed": 2',
  language: 'en',
  paper: 'Letter',
  length: 'in',
  temperature: 'F',
  edition: '2027-03-01',
  date: '2027-03-14',
} as const
const MM = { ...IN, language: 'es', paper: 'A4', length: 'mm', temperature: 'C' } as const

type Bar = FolderAnswers['fixture']['bar']
const BARS_IN: readonly Bar[] = [
  ['2 1/4 in', '2 3/4 in', '1 1/8 in'],
  ['2 in', '3 in', '1 in'],
  ['2 1/2 in', '2 1/2 in', '1 in'],
]
const BARS_MM: readonly Bar[] = [
  ['57 mm', '70 mm', '28 mm'],
  ['60 mm', '60 mm', '25 mm'],
  ['55 mm', '80 mm', '25 mm'],
]

const answers = (units: typeof IN | typeof MM, bar: Bar, grid: string): FolderAnswers => {
  const [columns = 0, rows = 0, slices = 0] = grid.split('x').map(Number)
  return { ...units, fixture: { bar, columns, rows, slices } }
}

const starter = readStarter()
const read = (files: ReadonlyMap<string, string>) => asFolderFiles(files, 'shop')

describe('by hand: the files of a new folder', () => {
  const grids = ['2x2x3', '5x3x7', '3x2x6', '4x4x10', '8x6x12']
  it('say what the decoder takes, for every answer', () => {
    const wrong = [...BARS_IN.map((bar) => [IN, bar] as const), ...BARS_MM.map((bar) => [MM, bar] as const)]
      .flatMap(([units, bar]) => grids.map((grid) => answers(units, bar, grid)))
      .flatMap((one) => loadContent(read(folderFiles(starter, one)), 'shop').diagnostics)
      .map(({ file, message }) => `${file}: ${message}`)
    expect(wrong).toEqual([])
  })

  it('hold no gap that nothing filled, no price, no supplier and no path of this machine', () => {
    const all = [...folderFiles(starter, answers(IN, BARS_IN[0] as Bar, '5x3x7'))]
    for (const [below, text] of all) {
      expect(text, below).not.toMatch(/<<|>>|undefined|NaN|price|supplier: |USD|\/tmp|\/home/)
      expect(text.startsWith('# yaml-language-server: $schema='), below).toBe(true)
      expect(text.endsWith('\n'), below).toBe(true)
      expect(Math.max(...text.split('\n').map((line) => line.length)), below).toBeLessThan(180)
    }
  })

  it('take figures of fats with every source that they name', () => {
    const files = folderFiles(starter, answers(IN, BARS_IN[0] as Bar, '5x3x7'))
    const named = [
      ...`${files.get('materials/fats.yaml')}${files.get('materials/panels.yaml')}`.matchAll(
        /\bsource: ([a-z0-9-]+)/g,
      ),
    ].map(([, key]) => key)
    const listed = [...(files.get('sources.yaml') ?? '').matchAll(/^ {2}([a-z0-9-]+):/gm)].map(
      ([, key]) => key,
    )
    expect(named.length).toBeGreaterThan(20)
    expect([...new Set(named)].sort()).toEqual([...listed].sort())
  })

  it('has vessels that hold a larger block, too', () => {
    const litres = (grid: string, vessel: string): number => {
      const shop = folderFiles(starter, answers(IN, BARS_IN[0] as Bar, grid)).get('shop.yaml') ?? ''
      return Number(new RegExp(`${vessel}:[^]*?volume: (\\d+) l`).exec(shop)?.[1])
    }
    expect(litres('5x3x7', 'kettle')).toBeLessThan(litres('5x4x7', 'kettle'))
    expect(litres('2x2x4', 'kettle')).toBeLessThan(litres('5x3x7', 'kettle'))
    expect(litres('2x2x4', 'pail')).toBeLessThan(litres('5x3x7', 'pail'))
  })
})

/** Blocks as people make them, the longest loaf among them; all of it in the soak. A small one in millimetres: tests/commands/new.test.ts. */
const DAILY = [answers(IN, BARS_IN[0] as Bar, '5x3x7')]
const MORE = [
  ...BARS_IN.flatMap((bar) => ['5x3x6', '4x3x8', '3x3x10', '2x2x5'].map((grid) => answers(IN, bar, grid))),
  ...BARS_MM.flatMap((bar) => ['5x3x7', '4x3x8', '3x2x6', '2x2x5'].map((grid) => answers(MM, bar, grid))),
]

/** Wide blocks whose short wires bow the rails that a new folder has too far: `new` says so and writes nothing. */
const REFUSED = ['2 1/2 in × 2 1/2 in × 1 in, 5x3x6', '60 mm × 60 mm × 25 mm, 5x3x7']
const named = ({ fixture: { bar, columns, rows, slices } }: FolderAnswers): string =>
  `${bar.join(' × ')}, ${columns}x${rows}x${slices}`

describe('by hand: a new folder can be made as it stands', () => {
  it.each((isSoak ? [...DAILY, ...MORE] : DAILY).map((one) => [named(one), one] as const))(
    'a block of bars %s: nothing stopped, or refused for its rails',
    async (name, one) => {
      const { binder, diagnostics } = await composeFiles(
        { files: read(folderFiles(starter, one)), diagnostics: [] },
        'shop',
      )
      expect(diagnostics).toEqual([])
      expect(binder?.sheets.length).toBeGreaterThan(40)
      const stops = binder ? stopsAndConflicts(binder).stops : []
      if (REFUSED.includes(name)) expect(stops.length).toBeGreaterThan(0)
      else expect(stops).toEqual([])
    },
    120_000,
  )
})
