/** The build sheet of a block mould: for a woodworker who has nothing else. */
import type { BoundMould } from '../binder/bind-mould.ts'
import { type MouldDrawingWords, mouldDrawings } from '../drawing/mould-drawings.ts'
import type { Drawing, Projection } from '../drawing/types.ts'
import { isChannel, isHole, type Part } from '../geometry/part.ts'
import { box, empty, finishSheet, inlineWords, maker, number, pickSources, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Cell, Figure, Inline, Sheet, Step, Table, Value } from './model.ts'
import { type PageRoom, templateBlocks } from './template-figures.ts'

/** Room for a drawing between the margins of either paper [mm]. */
const DRAWING_BOX = { width: 175, height: 222 } as const

/** @param order place among the fixture sheets, from 1: its number is 7.order
 *  @param room between the margins of a page [mm] */
export const mouldSheet = (
  frame: Frame,
  bound: BoundMould,
  order: number,
  projection: Projection,
  room: PageRoom,
): Sheet => {
  const { say, show } = frame
  const { mould } = bound
  const drawings = mouldDrawings(mould, {
    box: DRAWING_BOX,
    formatter: (metres) => ({ shown: show.size('', metres).shown }),
    projection,
    words: drawingWords(frame, mould.parts),
  })
  const blocks: Record<string, Block> = {
    'at-a-glance': {
      kind: 'facts',
      size: 'plain',
      items: [
        fact(say('mould.inside-length'), show.length('mould.inside.length', mould.inside.length)),
        fact(say('mould.inside-width'), show.length('mould.inside.width', mould.inside.width)),
        fact(say('mould.inside-height'), show.length('mould.inside.height', mould.inside.height)),
        fact(say('mould.rim'), show.length('mould.rimAboveBench', mould.rimAboveBench)),
        fact(say('mould.block'), show.length('mould.block.height', mould.block.setHeight)),
        fact(say('mould.bars'), show.count('mould.bars', mould.block.barCount)),
        fact(say('mould.mass'), show.heavy('mould.mass', mould.mass)),
        fact(say('mould.gap'), show.size('mould.base.clearance', mould.input.base.clearance)),
      ],
    },
    parts: partsTable(frame, bound),
    cuts: cutList(frame, mould.parts),
    features: featureTable(frame, mould.parts),
    hardware: hardwareTable(frame, bound),
    assembly: { kind: 'steps', first: 1, items: assemblySteps(frame, bound) },
    inspection: inspectionTable(frame, bound),
    proof: proofFacts(frame, bound),
    loads: loadFacts(frame, bound),
    saw: {
      kind: 'cautions',
      signal: 'warning',
      heading: say('mould.saw.heading'),
      items: ['dado', 'hands', 'eyes', 'dust', 'rags'].map((key) => say(`mould.saw.${key}`)),
    },
    finish: {
      kind: 'cautions',
      signal: 'notice',
      heading: say('mould.finish.heading'),
      items: ['use', 'not', 'metal', 'cure'].map((key) => say(`mould.finish.${key}`)),
    },
  }
  // One block for all drawings, in the order in which they are read.
  const names = drawings.map((drawing) => `drawing-${drawing.name}`)
  for (const [index, drawing] of drawings.entries()) blocks[names[index] ?? ''] = figure(frame, drawing)
  const templates = templateBlocks(frame, mould.parts, room)
  Object.assign(blocks, templates)
  const listed = (keys: readonly string[]) => keys.map((name) => `[[${name}]]`).join('\n\n')
  const template = frame
    .template('mould')
    .replace(/^\[\[drawings\]\]$/m, listed(names))
    .replace(/^\[\[templates\]\]$/m, listed(Object.keys(templates)))
  return finishSheet({
    ...frame.sheet(
      'fixture',
      `fixture/${bound.key}`,
      say('section.fixture'),
      `7.${order}`,
      say('mould.title', { title: bound.title }),
    ),
    template,
    fill: {},
    blocks,
    sources: pickSources(frame.sources, [
      'international-inch',
      'timoshenko-plates',
      'shigley',
      'apa-plywood',
      'birch-datasheet',
      'dado-practice',
      'unified-threads',
      'asme-b18-2-8',
      'iso-129',
      'common-practice',
    ]),
  })
}

/** The mould under batter: what pushes, what gives, how tight is tight enough. */
const loadFacts = ({ say, show }: Frame, { loads }: BoundMould): Block => ({
  kind: 'facts',
  size: 'plain',
  items: [
    {
      label: say('mould.loads.side'),
      cell: number(show.force('loads.sideForce', loads.sideForce)),
      note: say('mould.loads.side-note', { end: show.force('loads.endForce', loads.endForce) }),
    },
    {
      label: say('mould.loads.bulge'),
      cell: number(show.hundredths('loads.bulge', loads.bulge.high)),
      note: say('mould.loads.bulge-note', { low: show.hundredths('loads.bulge.low', loads.bulge.low) }),
    },
    {
      label: say('mould.loads.torque'),
      cell: number(show.torque('loads.torqueMost', loads.torqueMost)),
      note: say(loads.limitedBy === 'bow' ? 'mould.loads.torque-bow' : 'mould.loads.torque-crushing', {
        bow: show.millimetres('loads.bow', loads.bow),
        pull: show.force('loads.clampMost', loads.clampMost),
      }),
    },
    {
      label: say('mould.loads.needed'),
      cell: number(show.force('loads.clampNeeded', loads.clampNeeded)),
      note: say('mould.loads.needed-note'),
    },
  ],
})

/** What was proved before the sheet was printed; a block with nothing in it is not. */
const proofFacts = ({ say, show }: Frame, { proof }: BoundMould): Block => {
  if (!proof) return { kind: 'cautions', signal: 'notice', items: [] }
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('mould.proof.heading'),
    items: [
      say('mould.proof.pairs', { pairs: show.count('proof.pairs', proof.pairs) }),
      say('mould.proof.contacts', { contacts: show.count('proof.contacts', proof.contacts) }),
      say('mould.proof.rods', { room: show.millimetres('proof.rodClearance', proof.rodClearance) }),
      say('mould.proof.base', { room: show.millimetres('proof.baseClearance', proof.baseClearance) }),
      say('mould.proof.apart'),
    ],
  }
}

const fact = (label: Inline, value: Value) => ({ label, cell: number(value) })

const figure = ({ say }: Frame, drawing: Drawing): Figure => ({
  kind: 'figure',
  svg: drawing.svg,
  caption: say(`mould.drawing.${drawing.name}`),
  values: drawing.dimensions.map(({ name, value, shown }) => ({
    name: `drawing.${drawing.name}.${name}`,
    value,
    unit: 'm',
    shown,
  })),
})

const drawingWords = ({ say }: Frame, parts: readonly Part[]): MouldDrawingWords => {
  const word = (key: string) => inlineWords(say(`drawing.${key}`))
  const keys = parts.map(({ key }) => key)
  const labelled = ['assembly', ...keys, 'glue-up-strip', 'glue-up-base', 'glue-up-lid']
  return {
    scale: word('scale'),
    frontView: word('front-view'),
    topView: word('top-view'),
    topViewPlain: word('top-view-plain'),
    sideView: word('side-view'),
    section: word('section'),
    detail: word('detail'),
    edgeView: word('edge-view'),
    endEdgeView: word('end-edge-view'),
    grain: word('grain'),
    make: word('make'),
    through: word('through'),
    bevel: word('bevel'),
    face: Object.fromEntries(keys.map((key) => [key, word(`face.${key}`)])),
    labels: Object.fromEntries(labelled.map((key) => [key, word(`label.${key}`)])),
  }
}

const partName = ({ say }: Frame, part: Part): Inline => say(`part.${part.key}`)

const partsTable = (frame: Frame, { mould, panelNames }: BoundMould): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('mould.parts.caption'),
    columns: [
      { head: say('mould.parts.part'), align: 'left', width: 26 },
      { head: say('mould.parts.count'), align: 'right', width: 10 },
      { head: say('mould.parts.board'), align: 'left' },
      { head: say('mould.parts.thickness'), align: 'right', width: 16 },
      { head: say('mould.parts.what'), align: 'left', width: 26 },
    ],
    rows: mould.parts.map((part): Cell[] => [
      words(partName(frame, part)),
      number(show.count(`part.${part.key}.count`, part.count)),
      maker(panelNames.get(part.material) ?? part.material),
      number(show.millimetres(`part.${part.key}.thickness`, part.thickness)),
      words(say(`part.${part.key}.what`)),
    ]),
  }
}

const cutList = (frame: Frame, parts: readonly Part[]): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('mould.cuts.caption'),
    columns: [
      { head: say('mould.parts.part'), align: 'left' },
      { head: say('mould.parts.count'), align: 'right', width: 9 },
      { head: say('mould.cuts.length'), align: 'right', width: 16, main: true },
      { head: say('mould.cuts.width'), align: 'right', width: 16, main: true },
      { head: say('mould.cuts.length-mm'), align: 'right', width: 15 },
      { head: say('mould.cuts.width-mm'), align: 'right', width: 15 },
      { head: say('mould.cuts.cut'), align: 'centre', width: 8 },
    ],
    rows: parts.map((part): Cell[] => [
      words(partName(frame, part)),
      number(show.count(`part.${part.key}.count`, part.count)),
      number(show.inches(`part.${part.key}.lengthIn`, part.length)),
      number(show.inches(`part.${part.key}.widthIn`, part.width)),
      number(show.millimetres(`part.${part.key}.length`, part.length)),
      number(show.millimetres(`part.${part.key}.width`, part.width)),
      box,
    ]),
  }
}

const featureTable = (frame: Frame, parts: readonly Part[]): Table => {
  const { say, show } = frame
  const row = (part: Part, what: Inline, at: Cell[]): Cell[] => [
    words(partName(frame, part)),
    words(what),
    ...at,
  ]
  const size = (name: string, value: number) => number(show.size(name, value))
  return {
    kind: 'table',
    caption: say('mould.features.caption'),
    columns: [
      { head: say('mould.parts.part'), align: 'left', width: 17 },
      { head: say('mould.features.what'), align: 'left', width: 25 },
      { head: say('mould.features.along'), align: 'right' },
      { head: say('mould.features.across'), align: 'right' },
      { head: say('mould.features.size'), align: 'right' },
      { head: say('mould.features.depth'), align: 'right' },
    ],
    rows: parts.flatMap((part) =>
      part.features.flatMap((feature): Cell[][] => {
        const name = `part.${part.key}.${feature.name}`
        if (isChannel(feature)) {
          const along = feature.runs === 'width'
          // A saw is set to the middle of a groove and to the wall of a dado, as on the drawings.
          const at = feature.kind === 'groove' ? feature.at + feature.size / 2 : feature.at
          return [
            row(part, say(`feature.${feature.kind}.${feature.face}.${feature.runs}`), [
              along ? size(`${name}.at`, at) : empty,
              along ? empty : size(`${name}.at`, at),
              size(`${name}.size`, feature.size),
              size(`${name}.depth`, feature.depth),
            ]),
          ]
        }
        if (isHole(feature))
          return [
            row(part, say('feature.hole'), [
              size(`${name}.u`, feature.u),
              size(`${name}.v`, feature.v),
              size(`${name}.diameter`, feature.diameter),
              words(say('feature.through')),
            ]),
          ]
        return [
          row(part, say(`feature.chamfer.${feature.edges}`), [
            empty,
            empty,
            size(`${name}.size`, feature.size),
            empty,
          ]),
        ]
      }),
    ),
  }
}

/** What the parts of each board take, by its key [m2]; saw cuts and waste come on top. */
const boardAreas = (parts: readonly Part[]): [string, number][] => {
  const areas = new Map<string, number>()
  for (const part of parts)
    areas.set(part.material, (areas.get(part.material) ?? 0) + part.count * part.length * part.width)
  return [...areas]
}

const hardwareTable = ({ say, show }: Frame, { mould, panelNames }: BoundMould): Table => ({
  kind: 'table',
  caption: say('mould.hardware.caption'),
  columns: [
    { head: say('mould.hardware.what'), align: 'left' },
    { head: say('mould.hardware.size'), align: 'left', width: 20 },
    { head: say('mould.parts.count'), align: 'right', width: 12 },
    { head: say('mould.hardware.got'), align: 'centre', width: 10 },
  ],
  rows: [
    ...mould.hardware.map((item): Cell[] => [
      words(
        say(`hardware.${item.key}`, {
          length: show.length('rod.stock', mould.input.rods.stockLength),
          diameter: show.size('washer.diameter', mould.rods.thread.washer.outsideDiameter),
        }),
      ),
      maker(item.size),
      number(show.count(`hardware.${item.key}.count`, item.count)),
      box,
    ]),
    ...boardAreas(mould.parts).map(([material, area]): Cell[] => [
      words(say('hardware.board', { board: panelNames.get(material) ?? material })),
      words(say('hardware.at-least', { area: show.area(`board.${material}.area`, area) })),
      empty,
      box,
    ]),
    [
      words(say('hardware.rod-cut')),
      number(show.length('rod.length', mould.rods.length)),
      number(show.count('rod.count', mould.rods.count)),
      box,
    ],
  ],
})

const assemblySteps = ({ say, show }: Frame, { mould, loads }: BoundMould): Step[] => [
  {
    text: say('mould.assembly.measure'),
    why: say('mould.assembly.measure-why'),
    blanks: [{ label: say('mould.assembly.thickness'), after: say('blank.millimetres') }],
  },
  { text: say('mould.assembly.cut') },
  { text: say('mould.assembly.dado'), why: say('mould.assembly.dado-why') },
  { text: say('mould.assembly.holes') },
  { text: say('mould.assembly.grooves') },
  { text: say('mould.assembly.strips') },
  { text: say('mould.assembly.base') },
  { text: say('mould.assembly.seal'), why: say('mould.assembly.seal-why') },
  {
    text: say('mould.assembly.together', {
      torque: show.torque('loads.torqueMost', loads.torqueMost),
      diagonal: show.length('mould.inside.diagonal', Math.hypot(mould.inside.length, mould.inside.width)),
    }),
    blanks: [{ label: say('mould.assembly.diagonal-1') }, { label: say('mould.assembly.diagonal-2') }],
  },
  {
    text: say('mould.assembly.inside', {
      length: show.length('mould.inside.length', mould.inside.length),
      width: show.length('mould.inside.width', mould.inside.width),
    }),
  },
  {
    text: say('mould.assembly.line', { freeboard: show.length('mould.freeboard', mould.input.freeboard) }),
    why: say('mould.assembly.line-why'),
  },
  { text: say('mould.assembly.water'), hold: true },
]

const inspectionTable = ({ say, show }: Frame, { mould }: BoundMould): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('mould.inspection.caption'),
  columns: [
    { head: say('mould.inspection.what'), align: 'left' },
    { head: say('mould.inspection.wanted'), align: 'right', width: 26 },
    { head: say('mould.inspection.tolerance'), align: 'right', width: 16 },
    { head: say('mould.inspection.found'), align: 'left', width: 20 },
  ],
  rows: [
    ['mould.inside-length', show.length('mould.inside.length', mould.inside.length)] as const,
    ['mould.inside-width', show.length('mould.inside.width', mould.inside.width)] as const,
    ['mould.inside-height', show.length('mould.inside.height', mould.inside.height)] as const,
    ['mould.rim', show.length('mould.rimAboveBench', mould.rimAboveBench)] as const,
  ].map(([key, value]): Cell[] => [
    words(say(key)),
    number(value),
    words(
      say('mould.inspection.plus-minus', { size: show.size('inspection.tolerance', INSPECTION_TOLERANCE) }),
    ),
    empty,
  ]),
})

/** m; 1/32 in for outlines: common practice, from memory */
const INSPECTION_TOLERANCE = 0.0254 / 32
