/** The demo's folder with a few lines changed, and what becomes of it: how tests reach every state of a binder. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type Composed, compose } from '../../src/commands/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import type { Catalogue } from '../../src/text/catalogue.ts'

export const demo = fileURLToPath(new URL('../../content/', import.meta.url))

/** In place of edits: everything that the demo has, as it is. */
export const WHOLE_DEMO = 'whole'

/** Per file below the folder: what stands there and what shall stand there instead; or a whole new text. */
export type Edits = Readonly<Record<string, string | readonly (readonly [string | RegExp, string])[]>>

/** What the demo has beside its first batch, left out where a test is about one batch, one recipe, one mould. */
const BESIDE =
  /(batches|recipes|markets)\/(?!(2027-03-14-)?hearth\.yaml$).*\.yaml$|materials\/certificates\.yaml$|content\/records\b/

/** A copy of the demo's first batch with all that it needs, or of all of the demo, and edits. @throws Error when a text to replace does not stand in its file exactly once */
export const editedDemo = (
  edits: Edits | typeof WHOLE_DEMO,
  of?: typeof WHOLE_DEMO,
): { readonly folder: string; readonly remove: () => void } => {
  const base = mkdtempSync(join(tmpdir(), 'edited-demo-'))
  const folder = join(base, 'shop')
  cpSync(demo, folder, {
    recursive: true,
    filter: (path) => edits === WHOLE_DEMO || of === WHOLE_DEMO || !BESIDE.test(path.replaceAll('\\', '/')),
  })
  for (const [name, edit] of edits === WHOLE_DEMO ? [] : Object.entries(edits)) {
    const file = join(folder, name)
    if (typeof edit === 'string') {
      mkdirSync(dirname(file), { recursive: true })
      writeFileSync(file, edit)
      continue
    }
    let text = readFileSync(file, 'utf8')
    for (const [before, after] of edit) {
      const found = typeof before === 'string' ? text.split(before).length - 1 : before.test(text) ? 1 : 0
      if (found !== 1) throw new Error(`"${before}" does not stand once in ${name}.`)
      text = text.replace(before, () => after)
    }
    writeFileSync(file, text)
  }
  return { folder, remove: () => rmSync(base, { recursive: true, force: true }) }
}

/** The same shop with a mould alone, whose binder is a third as long: for tests that print a whole binder and look at none of the cutters. */
export const withoutCutters = (edits: Edits): Edits => {
  const name = 'fixtures/five-by-three.yaml'
  let text = readFileSync(join(demo, name), 'utf8')
  const own = edits[name] ?? []
  if (typeof own === 'string') throw new Error(`${name} is new as a whole.`)
  for (const [before, after] of own) text = text.replace(before, () => after)
  const section =
    /^(grid-cutter|bar-cutter|tolerances|lever-press|trial-frame|cutting-load|cutting-trial):[^\n]*\n((?![a-z]).*\n)*/gm
  return { ...edits, [name]: text.replace(section, '') }
}

export type Binder = NonNullable<Composed['binder']>

/** Binders as they were composed, by their edits: all of a binder is readonly, and many tests ask for the same ones. */
const composed = new Map<string, Promise<Binder>>()

/** @throws Error with the diagnostics when the edited folder has mistakes */
export const composeEdited = (
  edits: Edits | typeof WHOLE_DEMO,
  words?: (language: string) => Catalogue,
): Promise<Binder> => {
  if (words) return composeAnew(edits, words)
  const key = JSON.stringify(edits, (_name, part) => (part instanceof RegExp ? String(part) : part))
  const known = composed.get(key)
  if (known) return known
  const binder = composeAnew(edits)
  composed.set(key, binder)
  return binder
}

const composeAnew = async (
  edits: Edits | typeof WHOLE_DEMO,
  words?: (language: string) => Catalogue,
): Promise<Binder> => {
  const { folder, remove } = editedDemo(edits)
  try {
    const { binder, diagnostics } = await compose(folder, 'shop', words)
    if (!binder) throw new Error(diagnostics.map(({ file, message }) => `${file}: ${message}`).join('\n'))
    return binder
  } finally {
    remove()
  }
}

export const BATCH = 'batch/2027-03-14-hearth'
export const MOULD = 'fixture/five-by-three'

export const sheetOf = ({ sheets }: { readonly sheets: readonly Sheet[] }, id: string): Sheet => {
  const sheet = sheets.find((one) => one.id === id)
  if (!sheet) throw new Error(`No sheet ${id} among ${sheets.map((one) => one.id).join(', ')}.`)
  return sheet
}

const recipe = 'recipes/hearth.yaml'
const fixture = 'fixtures/five-by-three.yaml'
const batch = 'batches/2027-03-14-hearth.yaml'
const TRIED = `tried:                         # a recipe that was never tried small is held back
  where: { en: pilot loaf 4, es: barra piloto 4 }
  oils: 700 g
  minutes-to-thick: 22
  behaviour: { en: "medium trace, no surprise", es: "traza media, sin sorpresas" }
`

/** Bars that were weighed at wrapping: a hundred, within four grams of one another, and one that is light. */
export const WEIGHED = `made:
  used: [{ lot: O-1241, amount: 3 kg }]
  bars: { cut: 105, tests: 4 }
  wrapped:
    date: 2027-04-25
    weights: [${['106 g', ...Array.from({ length: 100 }, (_, index) => `${107 + ((index * 7) % 9) * 0.5} g`)].join(', ')}]
`

/** All that Europe asks for before a sale, and what the label says of it. */
export const EUROPE = `  best-before: 52 weeks
  entered:
    safety-assessment: { text: report of the assessor in the second drawer }
    product-information-file: { text: in the second drawer }
    notification: { text: on the portal, date: 2027-01-12 }
    responsible-person: { text: 'Withy Corner Soap Shed, Alder Ford' }
    good-manufacturing-practice: { text: records of this binder }
    precautions: { text: Rinse eyes at once. }
    language: { text: English }
`

/** Boards that a lever press is made from. */
export const PRESS_BOARDS = `  lumber-38:
    name: Framing lumber
    thickness: 38 mm
    density: 450 kg/m3
    source: plastics-recalled
    grain: length
  hardboard-3:
    name: Hardboard
    thickness: 3 mm
    density: 900 kg/m3
    source: plastics-recalled
    grain: none
`

/** Hands on a bench at shoulder height press less than the wires bear: a press, for the end of a fixture's file. */
export const PRESS = `
lever-press:
  lumber: { board: lumber-38, width: 3 1/2 in }
  panel: birch-18
  packer: hardboard-3
`

/** A grid cutter on a bench, and a lever press for it. */
export const pressOf = (more = '', cutter = ''): Edits => ({
  [fixture]: [
    ['  wire: 0.020 in\n', `  wire: 0.020 in\n  stand-height: 30 in\n${cutter}`],
    ['\n# Cut a test block', `${PRESS}${more}\n# Cut a test block`],
  ],
  'materials/panels.yaml': [['  polyethylene-5:\n', `${PRESS_BOARDS}  polyethylene-5:\n`]],
})

/** What was done of the batch, and hardly anything of it as planned. */
const MADE = `release-test: { date: 2027-04-01, result: failed, by: R. Vale }
made:
  weighed: R. Vale
  used:
    - { lot: O-1241, amount: 3.7 kg }
    - { lot: C-1187, amount: 1.2 kg }
    - { lot: C-1120, amount: 1.076 kg }
    - { lot: P-552, amount: 2.086 kg }
    - { lot: S-31, amount: 948 g }
    - { lot: N-88, amount: 1.3 kg }
    - { lot: W-5, amount: 10 g }
  readings:
    lye-peak: 190 F
    lye-in: 9:38 am
    trace: 10:40 am
    poured: 10:50 am
    sides-off: { date: 2027-03-14, at: 6 pm }
    push: 900 g
  left-in-pot: 150 g
  trimmed: 900 g
  bars: { cut: 105, tests: 6, rejected: 2 }
  samples: [{ what: looked at each month, bars: 1, place: drawer }]
  wrapped:
    date: 2027-04-25
    bars: 95
    weights: [101 g, 102 g, 99 g]
    packaging:
      - { lot: WP-3, pieces: 98 }
      - { lot: LB-3, pieces: 90, spoiled: 1 }
  release: { decision: released, date: 2027-04-25, by: R. Vale, why: the scent has gone }
  went: [{ date: 2027-04-20, bars: 12, to: Fair }]

`

/** Edits that lead to each state that a binder can be in. */
export const STATES = {
  go: {},
  untried: { [recipe]: [[TRIED, '']] },
  'worst case below zero': { [recipe]: [['superfat: 6 %', 'superfat: 4.5 %']] },
  'superfat under the floor': { [recipe]: [['superfat: 6 %', 'superfat: 1 %']] },
  'lye too strong': { [recipe]: [['lye-concentration: 33 %', 'lye-concentration: 51 %']] },
  'bars that are stamped, one day for two pours': {
    [recipe]: [
      ['\ntried:', '\ncure: { stamp: { from: 1 day, to: 3 days }, turn: [2 days, 9 days] }\n\ntried:'],
    ],
    'batches/2027-03-14-second.yaml':
      'recipe: hearth\nmould: five-by-three\ndate: 2027-03-14\npour-at: 3 pm\nfill: to the line\nlye: { ice: as needed }\n',
    'markets/soon.yaml':
      'title: Fair\ndate: 2027-03-20\nmould: five-by-three\nlabel-weight: 108 g\nbars: { hearth: 300 }\n',
    [fixture]: [['\nlining:', '\nhow-many: 1\n\nlining:']],
  },
  'a batch that was made, and not as planned': { [batch]: [['\nlye:\n', `\n${MADE}lye:\n`]] },
  'dado too deep': { [fixture]: [['depth: 1/4 in', 'depth: 5/8 in']] },
  'a press for one alone, a trial typed in, a scale that draws the frame down': pressOf(
    `  alone: yes
trial-frame:
  scale: { capacity: 25 kg, division: 20 g, place: pulls-frame }
cutting-trial:
  readings: [3.0 kg, 3.1 kg, 3.1 kg]
  frame-mass: 790 g
  wires: 3
  width: 4 1/2 in
`,
    '  anchor: pin\n',
  ),
  'metric shop, other paper': {
    // with a press for two
    ...pressOf(),
    'shop.yaml': [
      ['size: Letter', 'size: A4'],
      ['length: in ', 'length: mm '],
      ['temperature: F ', 'temperature: C '],
      ['  region: US ', '  region: EU '],
      ['  ingredients: as-put-in ', '  ingredients: as-finished '],
      ['  entered:  ', `${EUROPE}    #`],
    ],
    [batch]: [['fill: to the line ', `${WEIGHED}fill: to the line `]],
  },
  'plain lye, no check weights': {
    [batch]: [['  ice: 40 %', '  ice: 0 %']],
    'shop.yaml': [
      ['    check-mass: 2 kg\n', ''],
      ['    capacity: 60 kg', '    capacity: 6 kg'],
      ['\nheater:', '\nblock: { insulation: 3 cm, cut-below: 38 C, walls-off: 20 h }\n\nheater:'],
    ],
  },
  'foam and lid that come off, a logged core': {
    'shop.yaml': [
      [
        '\nheater:',
        '\nblock: { insulation: 2 cm, insulation-off: 10 h, lid-off: 12 h, strip-not-before: 20 h }\n\nheater:',
      ],
    ],
    [batch]: [
      [
        'fill: to the line ',
        'core-temperatures: [{ after: 1 h, reads: 110 F }, { after: 2 h, reads: 121 F }, { after: 3 h, reads: 145 F }, { after: 4 h, reads: 188 F }, { after: 5 h, reads: 200 F }, { after: 6 h, reads: 196 F }, { after: 8 h, reads: 190 F }, { after: 12 h, reads: 170 F }, { after: 24 h, reads: 116 F }]\nfill: to the line ',
      ],
    ],
  },
  'a block that is opened too late': {
    'shop.yaml': [
      ['\nheater:', '\nblock: { insulation: 10 cm, cut-below: 30 C, walls-off: 60 h }\n\nheater:'],
    ],
    [batch]: [
      [
        'fill: to the line ',
        'core-temperatures: [{ after: 1 h, reads: 190 F }, { after: 4 h, reads: 110 F }, { after: 8 h, reads: 200 F }, { after: 12 h, reads: 120 F }]\nfill: to the line ',
      ],
    ],
  },
  'a block that would boil': { [recipe]: [['pour-temperature: 105 F', 'pour-temperature: 135 F']] },
  'a high stand, rods in the base': {
    'shop.yaml': [
      ['elbow-height: 41 in', 'elbow-height: 46 in'],
      ['shoulder-height: 53 in', 'shoulder-height: 60 in'],
    ],
    [fixture]: [
      ['in-base: 0', 'in-base: 2'],
      ['  top: 5/8 in', '  left: 5 mm\n  right: 6 mm\n  front: 5 mm\n  back: 6 mm\n  top: 5/8 in'],
      ['  in-base', '  washer-recess: 2 mm\n  in-base'],
      [
        'strip-width: 2 in',
        'strip-width: 2 in\nas-built: { base-length: 296 mm, parts: { strip: { width: 50 mm } } }',
      ],
    ],
  },
  'fixtures that were measured': {
    [fixture]: [
      [
        'strip-width: 2 in',
        `strip-width: 2 in
as-built:
  inside-width: 211 mm
  water: { weighed: 12.8 kg, below-rim: 1 1/2 in }
  grooves-across-width: [69.6 mm, 139.5 mm]
  grid-cutter:
    inside-length: 288 mm
    wires-across-length: [58.2 mm, 116.8 mm, 172.5 mm, 229.7 mm]
    speaking-length: { long-wires: 11 5/8 in }
  bar-cutter: { wires: [28.3 mm, 57.5 mm, 85.7 mm, 114.3 mm, 142.9 mm, 171.5 mm, 200 mm], speaking-length: 119 mm }`,
      ],
    ],
  },
  'oils by weight, own page': {
    [batch]: [
      // what bars that dry so much can keep
      ['label-weight: 99 g ', 'label-weight: 90 g '],
      [
        'fill: to the line ',
        // a cosmetic, by the average
        `${WEIGHED}weigh-ins: [{ date: 2027-03-17, weight: 116 g }, { date: 2027-03-21, weight: 113.5 g }, { date: 2027-03-28, weight: 111 g }, { date: 2027-04-04, weight: 109.5 g }, { date: 2027-04-18, weight: 108 g }]\noils: 9 kg `,
      ],
    ],
    'shop.yaml': [
      ['  sold-as: soap ', '  sold-as: cosmetic '],
      ['  weight: least ', '  face: { width: 3 in, height: 2 in }\n  weight: average '],
      [
        '  entered:  ',
        "  entered:\n    safety-assessment: { text: filed }\n    domestic-contact: { text: 'withy-corner.example' }\n    #",
      ],
    ],
    'pages/reminder.md': `# Before we start\n\nWe weigh [[${BATCH}: naoh.mass]] of alkali today.\n`,
  },
  'a stock lye that is heavy, fats that are short': {
    [batch]: [
      ['fill: to the line ', 'on-hand: { olive: 2500 g } #'],
      ['  ice: 40 %', '  stock: half-and-half #'],
    ],
    'shop.yaml': [
      ['    height: 12 in\n', '    height: 12 in\n    stands: 45 in\n    valve: yes\n'],
      ['hot-lift: 10 kg', 'hot-lift: 3 kg'],
      ['\nheater:', '\nfill: { left-in-kettle: 0.8 %, sinks-while-setting: 3.6 % }\n\nheater:'],
    ],
    'materials/certificates.yaml': `certificates:
  olive: { saponification-value: 190, iodine-value: 82, density: { value: 0.913, at: 20 C }, unsaponifiable: 9, acid-value: 1, lot: O-1 }
  coconut: { fatty-acids: { 'C8:0': 7, 'C10:0': 6, 'C12:0': 48, 'C14:0': 19, 'C16:0': 9, 'C18:0': 3, 'C18:1': 6, 'C18:2': 2 }, lot: C-1, date: 2027-01-19 }
`,
  },
  'small kettles, two colours, a blend of fats': {
    [recipe]: [
      ['pour-temperature: 105 F', 'later-liquid: 5 %\nlye-temperature: 90 F\npour-temperature: 105 F'],
      [
        'tried: ',
        'additions: { meadow-scent: 1 %, citric-acid: 0.5 % }\ncolours:\n  pale: { share: 70 % }\n  dark: { share: 30 %, with: { soot-black: 1 % } }\ntried: ',
      ],
    ],
    [batch]: [
      ['fill: to the line ', 'premix: winter-blend\nfill: to the line '],
      ['  ice: 40 %', '  ice: as needed'],
    ],
    'shop.yaml': [
      ['    volume: 20 l\n', '    volume: 10 l\n    how-many: 3\n'],
      ['hot-lift: 10 kg', 'hot-lift: 4 kg'],
      ['  region: US ', '  region: UK '],
    ],
    'materials/blends.yaml':
      'premixes:\n  winter-blend: { name: Winter blend, fats: { coconut: 52.17 %, palm: 47.83 % } }\n',
  },
  'the whole demo': WHOLE_DEMO,
} as const satisfies Record<string, Edits | typeof WHOLE_DEMO>

export type State = keyof typeof STATES
