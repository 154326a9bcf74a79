/** From format 1 to format 2: what moulds and cutters asked for before batter was kept out of grooves. */
import { type Diagnostic, pointer } from '../../diagnostics.ts'
import { parseQuantity } from '../../units.ts'
import { valueBelow } from '../schema-walk.ts'
import type { Edit } from '../text-edits.ts'
import type { YamlDocument } from '../yaml.ts'
import { asRemark } from './edits.ts'
import type { Step, StepResult } from './step.ts'

const isFixture = (below: string): boolean => below.startsWith('fixtures/')

const dataAt = (document: YamlDocument, ...path: readonly string[]): unknown =>
  path.reduce<unknown>((data, key) => valueBelow(data, key), document.data)

/** Sheets without grain by their names, with their thickness [m]. */
const sheetsIn = (files: ReadonlyMap<string, YamlDocument>): ReadonlyMap<string, number> => {
  const found = new Map<string, number>()
  for (const [below, document] of files) {
    if (!below.startsWith('materials/')) continue
    const panels = dataAt(document, 'panels')
    for (const key of Object.keys(Object(panels))) {
      const thickness = dataAt(document, 'panels', key, 'thickness')
      const read = typeof thickness === 'string' ? parseQuantity(thickness, 'length') : undefined
      if (read?.ok && dataAt(document, 'panels', key, 'grain') === 'none') found.set(key, read.value)
    }
  }
  return found
}

/** m: no calliper tells sheets apart that differ by less */
const ALIKE = 0.00005

/** Of the cutters: nobody types these any more, they follow from tension, soap and rails. */
const FOLLOWS_NOW = [
  ['grid-cutter', 'lag'],
  ['grid-cutter', 'pull'],
  ['grid-cutter', 'wire-hole'],
  ['bar-cutter', 'lag'],
  ['bar-cutter', 'pull'],
  ['bar-cutter', 'wire-hole'],
] as const

export const firstToSecond: Step = (files) => {
  const result = new Map<string, StepResult>()
  const sheets = sheetsIn(files)
  for (const [below, document] of files) if (isFixture(below)) result.set(below, fixture(document, sheets))
  const isOld = [...result.values()].some(({ edits, unknown }) => edits.length + unknown.length > 0)
  // a folder whose moulds are written as they are now is younger than the day on which the word changed its meaning
  if (isOld)
    for (const [below, document] of files)
      if (below.startsWith('recipes/')) result.set(below, recipe(document))
  return result
}

const fixture = (document: YamlDocument, sheets: ReadonlyMap<string, number>): StepResult => {
  const edits: Edit[] = []
  const told: StepResult['told'][number][] = []
  const unknown: Diagnostic[] = []
  const complain = (
    code: string,
    path: readonly string[],
    message: string,
    advice: string,
    where: 'key' | 'value' = 'value',
  ): void => {
    unknown.push({
      severity: 'error',
      code,
      file: document.file,
      path: pointer(path),
      at: where,
      message,
      advice,
    })
  }

  const lining = dataAt(document, 'lining')
  const thickness = typeof lining === 'string' ? parseQuantity(lining, 'length') : undefined
  const place = document.placeOf('/lining', 'value')
  if (thickness?.ok && place) {
    const fitting = [...sheets].filter(([, sheet]) => Math.abs(sheet - thickness.value) < ALIKE)
    const [only] = fitting
    if (only && fitting.length === 1) {
      edits.push({ range: place, text: only[0] })
      told.push({
        path: '/lining',
        text: `lining: ${only[0]}, the sheet of ${String(lining)} among your boards`,
      })
    } else
      complain(
        'lining-unnamed',
        ['lining'],
        `The lining was a thickness, and is the name of a sheet now; ${fitting.length === 0 ? 'no sheet of this thickness stands' : `${fitting.length} sheets of this thickness stand`} among your boards`,
        `Write the name of the sheet that you line the mould with, for example "lining: polypropylene-1". A smooth sheet of plastic is meant; it stands in the folder "materials" like a board, with "grain: none". The demo has one in content/materials/panels.yaml.`,
      )
  }

  const base = dataAt(document, 'base')
  const depth = dataAt(document, 'base', 'groove-depth')
  const [key, value] = [
    document.placeOf('/base/groove-depth', 'key'),
    document.placeOf('/base/groove-depth', 'value'),
  ]
  if (typeof depth === 'string' && key && value && dataAt(document, 'base', 'groove-depths') === undefined) {
    edits.push(
      { range: key, text: 'groove-depths' },
      { range: value, text: `{ short-wires: ${depth}, long-wires: ${depth} }` },
    )
    told.push({
      path: '/base/groove-depth',
      text: `groove-depths: ${depth} for the short and for the long wires, as all grooves were; deeper ones for the short wires are asked for now, and the sheet of the mould says how deep`,
    })
  }
  if (typeof base === 'object' && base !== null && dataAt(document, 'base', 'groove-strips') === undefined)
    complain(
      'strips-unnamed',
      ['base'],
      'Strips fill the grooves during the pour now, and nothing says which sheet they are sawn from',
      'Add a line below "base:" such as "groove-strips: polyethylene-5", with the name of a sheet a little thinner than the grooves are wide; it stands in the folder "materials" like a board. The demo has one in content/materials/panels.yaml.',
      'key',
    )

  for (const path of FOLLOWS_NOW) {
    if (dataAt(document, ...path) === undefined) continue
    const remark = asRemark(
      document,
      pointer(path),
      `no longer asked for, it follows from tension, soap and rails:`,
    )
    if (remark) {
      edits.push(remark)
      told.push({
        path: pointer(path),
        text: `${path.join(' ')} is a remark now: it follows from tension, soap and rails`,
      })
    } else
      complain(
        'no-longer-read',
        path,
        `"${path[1]}" is no longer asked for: it follows from tension, soap and rails`,
        'Take it out.',
        'key',
      )
  }
  const notes =
    thickness?.ok && dataAt(document, 'base', 'clearance') !== undefined
      ? [
          {
            path: '/base/clearance',
            text: 'clearance is measured to the bare walls now, and the lining stands in it. If yours was measured to the lining, add its thickness.',
          },
        ]
      : []
  return { edits, told, unknown, notes }
}

/** What a line means today where it once meant something else, and no file says which. */
const recipe = (document: YamlDocument): StepResult => ({
  edits: [],
  told: [],
  unknown: [],
  notes:
    dataAt(document, 'lye-concentration') === undefined
      ? []
      : [
          {
            path: '/lye-concentration',
            text: 'lye-concentration is the share of alkali as weighed. The very first version meant pure alkali: if this recipe is as old as that, divide by the purity (33 % pure of 98.5 % beads is 33.5 % as weighed).',
          },
        ],
})
