/** Scales and vessels are called by their names wherever a reader meets them; files and steps go on by their keys. */
import { beforeAll, describe, expect, it } from 'vitest'
import { compose } from '../../src/commands/compose.ts'
import { BATCH, type Binder, composeEdited, editedDemo, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { frame } from '../sites/small-binder.ts'

const SPANISH = ['language: en', 'language: es'] as const

/** Keys of the demo's tools, which are their English names, too; not as a part of what is typed into a file. */
const IN_ENGLISH = /(?<![\p{L}\p{N}-])(bench|floor|jug|cup|pail|kettle|pitcher)(?![\p{L}\p{N}])/iu

/** What is read on the sheets of a binder, by sheet: lines, and the values in them. */
const readOn = ({ revised }: Binder): Map<string, readonly string[]> =>
  new Map(
    revised.map(({ sheet, shown }) => [
      sheet.id,
      [
        ...shown.lines.map(({ text }) => text.replace(/\[\[[^\]]*\]\]/g, ' ')),
        ...shown.values.map((value) => value.shown),
      ],
    ]),
  )

let plain: Binder
let stopped: Binder
let nameless: Binder

beforeAll(async () => {
  const { folder, remove } = editedDemo({ 'shop.yaml': [SPANISH] }, WHOLE_DEMO)
  plain = (await compose(folder, 'shop')).binder!
  remove()
  stopped = await composeEdited({
    'shop.yaml': [
      SPANISH,
      ['material: stainless-304\n    volume: 9 l', 'material: aluminium\n    volume: 9 l'],
    ],
  })
  nameless = await composeEdited({ 'shop.yaml': [SPANISH, ['    name: { en: floor, es: de suelo }\n', '']] })
})

describe('by hand: names of scales and vessels', () => {
  it('stand on Spanish sheets in Spanish only', () => {
    for (const binder of [plain, stopped])
      for (const [id, texts] of readOn(binder))
        expect(
          texts.filter((text) => IN_ENGLISH.test(text.replace('Kettle & Kerf', ''))),
          id,
        ).toEqual([])
  })

  it.each([
    [BATCH, 'báscula de suelo'],
    [BATCH, 'jarra de verter'],
    ['records/scales', 'de mesa'],
    ['cautions/spill', '«cubo»'],
    ['training', 'báscula de suelo'],
    ['recipe/lather', 'en lugar de la báscula de mesa'],
    ['batch/2027-03-21-lather', 'más fina que la báscula de mesa'],
    ['trial-frame/five-by-three', 'báscula de suelo'],
  ])('stand on %s: %s', (id, name) => {
    const texts = readOn(plain).get(id) ?? []
    expect(texts.some((text) => text.includes(name))).toBe(true)
  })

  it('stand on a page that stops a batch', () => {
    const [reason] = stopped.sheets.find(({ id }) => id === BATCH)?.stopped ?? []
    expect(reason?.code).toBe('vessel-material-not-allowed')
    expect((readOn(stopped).get(BATCH) ?? []).join('\n')).toContain('recipiente «cubo»')
  })

  it('change nothing that files, phones and other sheets name things by', () => {
    const of = (binder: Binder) => binder.sheets.find(({ id }) => id === BATCH)
    // the whole demo has more lots than its first batch
    const names = (binder: Binder) =>
      [...(of(binder)?.values.keys() ?? [])].filter((name) => !name.startsWith('lots.'))
    expect(names(plain)).toContain('scale.floor.checkMass')
    expect(names(plain)).toEqual(names(nameless))
    expect(JSON.stringify(of(plain))).toContain('"name":"scale-floor"')
  })

  it('may be left out: the key stands for them', () => {
    expect((readOn(nameless).get(BATCH) ?? []).join('\n')).toContain('báscula floor')
    expect(frame.scaleName('bench')).toBe('bench')
    expect(frame.vesselName('can')).toBe('can')
  })
})
