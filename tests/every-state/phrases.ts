/** Holds the program and its words together: no phrase is missing, none is left over, every placeholder is filled. */
import { beforeAll, describe, expect, it } from 'vitest'
import { BUILD_PIECES } from '../../src/schema/build.ts'
import { ACIDS, HARDWARE_KINDS } from '../../src/schema/materials.ts'
import { VESSEL_MATERIALS } from '../../src/schema/shop.ts'
import { placeholders } from '../../src/sheets/compose.ts'
import type { Inline, Sheet } from '../../src/sheets/model.ts'
import { sheetBody } from '../../src/site/markdown.ts'
import { sourceFiles } from '../architecture-rules.ts'
import { isSoak } from '../long.ts'
import { type FindingCode, findingCodes, reachedFrom } from '../text/finding-codes.ts'
import { everyState, PATIENCE, said, words } from './composed.ts'

const files = sourceFiles()
const calculators = files.filter(({ path }) =>
  /^(batch|chemistry|fixtures|wires|tolerance|solids|binder|cure|supply|labelling)\//.test(path),
)
const reached = new Set(reachedFrom(files, 'binder').map(({ path }) => path))
const codes = findingCodes(calculators)
/** the proof of a mould is handed to the binder by whoever has loaded the solids */
const spoken = codes.filter(({ file }) => reached.has(file) || file.startsWith('solids/'))

/** What functions report that no binder asks yet, though it asks others of the same file. */
const NOT_ASKED = [
  'lift-out-of-reach',
  'lift-too-heavy-for-two',
  'lift-needs-two',
  'lift-by-two',
  'too-few-pots',
  'several-pots',
  'ice-cannot-hold-limit',
  'cooling-readings-unusable',
  'koh-heat-known-at-dilution-only',
  'gross-check-misses-small-draws',
  'glycerol-does-not-match-alkali',
]
/** Of kinds of parts, hardware and layouts that no fixture of these states has, and of pieces named where they meet. */
const WAITING: readonly string[] = [
  ...['cutter-side-2', 'cutter-end-2'].flatMap((key) => [
    `part.${key}`,
    `part.${key}.what`,
    `drawing.face.${key}`,
    `drawing.label.${key}`,
  ]),
  ...['wire-short', 'wire-long', 'peg-post', 'peg-body', 'peg-button', 'anchor-head'].map(
    (key) => `part.${key}`,
  ),
  ...['anchor-pin', 'anchor-pin.what'].map((key) => `part.${key}`),
  ...['hardware.anchor-pin', 'peg.open-gear', 'wires.short-2', 'wires.long-2'].map((key) => `grid.${key}`),
  ...['log.short-pair', 'log.long-pair'].map((key) => `grid.${key}`),
  'bar-cutter.note.hinge-drilled-in-place',
  ...[
    'recess-bits-1',
    'recess-bits-2',
    'build.back-pins-pairs',
    'build.back-pins-single',
    'string.tune-plain',
  ].map((key) => `bar-cutter.${key}`),
  ...['screws.none'].map((key) => `grid.${key}`),
  ...['mark.measure-rest', 'mark.measure-rest.do'].map((key) => `layout.${key}`),
]
/** Said in other words, in a step or for several fats at once. */
const SAID_OTHERWISE = [
  'pot-over-lift-limit',
  'saponification-value-is-middle-of-range',
  // slips of the pen, told before anything is printed
  'lot-unknown',
  'lot-received-twice',
  'lot-before-received',
]
const asked = spoken.filter(({ code }) => !NOT_ASKED.includes(code))

/** Files that say phrases of the catalogue; commands and the launcher speak for themselves. */
const speaking = files.filter(({ path }) => /^(sheets|site)\//.test(path))
/** Keys written out in the source: `say('batch.title')`, or in a list that is said. */
const written = new Set(
  speaking.flatMap(({ text }) =>
    [...text.matchAll(/'([a-z][\w-]*(?:\.[\w-]+)+)'/g)].map((match) => match[1] ?? ''),
  ),
)
/** Keys with a part that is filled in: `` say(`part.${key}.what`) `` */
const patterns = speaking.flatMap(({ text }) =>
  [...text.matchAll(/\bsay\(\s*`([^`]*\$\{[^`]*)`/g)].map((match) => match[1] ?? ''),
)

let sheets: readonly Sheet[] = []
beforeAll(async () => {
  sheets = [...(await everyState()).values()].flatMap((binder) => binder.sheets)
}, PATIENCE)

describe('by hand: the program says nothing that the catalogue lacks', () => {
  it('has every key that stands in the source', () => {
    const keys = speaking.flatMap(({ path, text }) =>
      [...text.matchAll(/\b(?:say|word|phrase)\(\s*'([^']+)'/g)].map((match) => ({
        path,
        key: match[1] ?? '',
      })),
    )
    expect(keys.length).toBeGreaterThan(150)
    const missing = keys.filter(({ key }) => !words.has(key) && !words.has(`drawing.${key}`))
    expect(missing).toEqual([])
  })

  it('has a phrase for every form that a key with a part to fill in can take', () => {
    expect(patterns.length).toBeGreaterThan(8)
    const empty = patterns.filter((pattern) => !words.keys.some((key) => formOf(pattern).test(key)))
    expect(empty).toEqual([])
  })

  it('says hundreds of phrases when every state of a binder is composed', () => {
    // a broken recording would make the next check empty
    expect(said.size).toBeGreaterThan(250)
  })
})

describe('by hand: the catalogue holds nothing that the program never says', () => {
  // what a few states say is too little to tell
  const inEveryState = isSoak ? it : () => {}
  inEveryState('uses every phrase', () => {
    // both have a check of their own below
    // and what no mould of these states does wrong: hardware, block and pieces of a cutter are named where they meet;
    // what gives first and who pushes depends on wires and soap: tests/sheets/wires-sheet.test.ts
    // who needs a press and why, which limits a trial reaches: tests/sheets/lever-press-sheet.test.ts and trial-frame-sheet.test.ts
    // hardware has its own name in the demo, and no state has all that can be made
    // labels of other regions, and what limits a weight: tests/sheets/labels.test.ts
    // and what forbids a later pour where none of these states has a market that close
    const possible =
      /^(template\.)?feature\.|^finding\.|^label\.(region|rule|weight\.limit)\.|^label\.(part\.may-contain|print\.may-contain|scents\.not-yet|print\.net-.*pounds|letters\.unknown|for-sale-no-page|how\.no-grid)$|^wires\.(loaded\.caption-|link\.|push\.by\.|harder\.)|^press\.(need\.|stage\.by\.|force\.(load|clamps)-)|^material\.|^acid\.|^market\.fails\.|^quote\.(hardware|piece)\.|^printed\.how\.|^as-built\.most\.|^part\.(rod|washer|nut|block|lining-side|lining-end|loaf|(cutter|hinge|peg|wire)-[a-z-]+)$/
    // which reading is worth the most care: that depends on what fixtures let pass
    const unused = words.keys.filter((key) => !said.has(key) && !written.has(key) && !possible.test(key))
    expect(unused.filter((key) => !WAITING.includes(key))).toEqual([])
  })

  it('has words only for findings that a calculator can report', () => {
    const known = new Set(codes.map(({ code }) => code))
    const orphans = words.keys.filter(
      (key) => key.startsWith('finding.') && !known.has(key.slice(8).replace(/\.do$/, '')),
    )
    expect(orphans).toEqual([])
  })

  it('has names for the hardware that may be priced and for what can be made, and no others', () => {
    const named = (part: string) =>
      words.keys.filter((key) => key.startsWith(`${part}.`)).map((key) => key.slice(part.length + 1))
    expect(named('quote.hardware').sort()).toEqual([...HARDWARE_KINDS].sort())
    expect(named('quote.piece').sort()).toEqual([...BUILD_PIECES].sort())
  })

  it('has names for the materials of vessels and the acids that a file may name, and no others', () => {
    const named = (part: string) =>
      words.keys.filter((key) => key.startsWith(`${part}.`)).map((key) => key.slice(part.length + 1))
    expect(named('material').sort()).toEqual([...VESSEL_MATERIALS].sort())
    expect(named('acid').sort()).toEqual([...ACIDS].sort())
  })

  it('has names for the channels that a part can have, and no others', () => {
    const channels = ['dado', 'groove', 'rebate'].flatMap((kind) =>
      ['upper', 'lower'].flatMap((face) =>
        ['width', 'length'].map((runs) => `feature.${kind}.${face}.${runs}`),
      ),
    )
    const others = [
      'feature.recess',
      'feature.notch.far',
      'feature.notch.near',
      'feature.fold',
      'feature.scribe',
      'feature.through',
      'feature.chamfer.short',
      'feature.chamfer.long',
    ]
    expect(words.keys.filter((key) => key.startsWith('feature.')).sort()).toEqual(
      [...channels, ...others].sort(),
    )
  })
})

describe('by hand: every placeholder is filled', () => {
  const inlines = (): Inline[] => {
    const found: Inline[] = []
    const walk = (thing: unknown): void => {
      if (Array.isArray(thing)) for (const one of thing) walk(one)
      else if (typeof thing === 'object' && thing !== null) {
        if ('text' in thing && 'fill' in thing) found.push(thing as Inline)
        for (const one of Object.values(thing)) walk(one)
      }
    }
    for (const { title, section, revision, blocks } of sheets) walk([title, section, revision, blocks])
    return found
  }

  it('on every sheet of every state, and nothing is filled in that has no place', () => {
    const all = inlines()
    expect(all.length).toBeGreaterThan(2000)
    const unfilled = all.filter(({ text, fill }) =>
      placeholders(text).some((name) => !Object.hasOwn(fill, name)),
    )
    expect(unfilled.map(({ text }) => text)).toEqual([])
  })

  it('in the Markdown of every sheet', () => {
    for (const sheet of sheets) expect(() => sheetBody(sheet)).not.toThrow()
  })

  it('has no placeholder that looks like one and is none', () => {
    for (const key of words.keys) {
      const text = words.phrase(key)
      expect(text.replace(/\[\[[a-z][\w-]*\]\]/gi, ''), key).not.toMatch(/\[\[|\]\]/)
      expect(text.trim(), key).not.toBe('')
    }
  })
})

describe('by hand: findings have words', () => {
  it('reads the codes out of the calculators', () => {
    const read = (code: string): FindingCode | undefined => codes.find((one) => one.code === code)
    expect(read('superfat-under-floor')).toMatchObject({ severities: ['stop'], values: ['nominal', 'floor'] })
    expect(read('mould-groove-too-deep')?.values).toEqual(['is', 'allowed', 'panel', 'web'])
    expect(read('vessel-material-unknown')?.values).toEqual(['vessel', 'duty', 'material'])
    expect(read('vessel-too-full')?.severities).toEqual(['stop', 'hold'])
    expect(read('scale-too-coarse')?.severities).toEqual(['stop', 'warn'])
    expect(codes.length).toBeGreaterThan(60)
    expect(codes.filter(({ severities }) => severities.length === 0)).toEqual([])
  })

  it('has the words of every finding that a binder may report', () => {
    const missing = asked.filter(
      ({ code }) => !words.has(`finding.${code}`) && !SAID_OTHERWISE.includes(code),
    )
    expect(missing.map(({ code }) => code)).toEqual([])
  })

  it('says of every stop what to do', () => {
    const missing = asked.filter(
      ({ code, severities }) =>
        severities.includes('stop') && !SAID_OTHERWISE.includes(code) && !words.has(`finding.${code}.do`),
    )
    expect(missing.map(({ code }) => code)).toEqual([])
  })

  it('fills the words of a finding from its values, and those of a remedy from nothing', () => {
    const wrong = asked.flatMap(({ file, code, values }) => {
      const phrase = words.has(`finding.${code}`) ? words.phrase(`finding.${code}`) : ''
      const remedy = words.has(`finding.${code}.do`) ? words.phrase(`finding.${code}.do`) : ''
      return [
        ...placeholders(phrase)
          // the binder adds what was being weighed to every finding of a weighing
          .filter((name) => !values.includes(name) && !(name === 'what' && values.includes('scale')))
          // and which wire it is to every finding of one
          .filter((name) => !(name === 'one' && file.startsWith('wires/')))
          .map((name) => `${code}: [[${name}]]`),
        ...placeholders(remedy).map((name) => `${code}.do: [[${name}]]`),
      ]
    })
    expect(wrong).toEqual([])
  })

  it('would notice a code without words, and a placeholder without value', () => {
    const made = findingCodes([
      {
        path: 'batch/a.ts',
        text: "findings.push({ code: 'made-up', severity: 'stop', values: { one, two: 2 } })",
      },
    ])
    expect(made).toEqual([
      { file: 'batch/a.ts', code: 'made-up', severities: ['stop'], values: ['one', 'two'] },
    ])
    expect(words.has('finding.made-up')).toBe(false)
  })
})

/** `part.${key}.what` as a pattern of the keys that it can become. */
const formOf = (pattern: string): RegExp =>
  new RegExp(
    `^${pattern
      .split(/\$\{[^}]*\}/)
      .map((piece) => piece.replace(/[.*+?^$()[\]\\|{}]/g, '\\$&'))
      .join('[\\w.-]+')}$`,
  )
