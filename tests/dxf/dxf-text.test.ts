import { describe, expect, it } from 'vitest'
import { dxfText, NOTES_LAYER, plainAscii } from '../../src/dxf/dxf-text.ts'
import type { RouterFile } from '../../src/router/router-file.ts'
import { areaOf, readDxf } from './read-solid.ts'

const file: RouterFile = {
  name: 'board',
  face: 'upper',
  setUp: 1,
  setUps: 1,
  length: 120,
  width: 50,
  thickness: 12,
  layers: [
    {
      name: 'HOLE_D8_12MM',
      work: 'hole',
      opening: 8,
      depth: 12,
      shapes: [{ kind: 'circle', centre: { x: 12.345678, y: 20 }, radius: 4 }],
    },
    {
      name: 'SCRIBE_UPPER_0MM',
      work: 'scribe',
      opening: undefined,
      depth: 0,
      shapes: [{ kind: 'line', from: { x: 0, y: 5 }, to: { x: 120, y: 5 } }],
    },
    {
      name: 'OUTLINE_THROUGH_12MM',
      work: 'outline',
      opening: undefined,
      depth: 12,
      shapes: [
        {
          kind: 'closed',
          points: [
            { x: 0, y: 0 },
            { x: 120, y: 0 },
            { x: 120, y: 50 },
            { x: 0, y: 50 },
          ],
        },
      ],
    },
  ],
}

describe('by hand: a file of three layers', () => {
  const read = () => readDxf(dxfText(file, ['Board – make 2', 'second line']))

  it('has each shape on its layer, and notes above the part on theirs', () => {
    const { entities, layers } = read()
    expect(layers).toEqual(['0', 'HOLE_D8_12MM', 'SCRIBE_UPPER_0MM', 'OUTLINE_THROUGH_12MM', NOTES_LAYER])
    expect(entities.map(({ type, layer }) => `${type} ${layer}`)).toEqual([
      'CIRCLE HOLE_D8_12MM',
      'LINE SCRIBE_UPPER_0MM',
      'LWPOLYLINE OUTLINE_THROUGH_12MM',
      `TEXT ${NOTES_LAYER}`,
      `TEXT ${NOTES_LAYER}`,
    ])
    expect(entities[0]).toMatchObject({ x: 12.345678, y: 20, r: 4 })
    expect(entities[1]).toMatchObject({ start: { x: 0, y: 5 }, end: { x: 120, y: 5 } })
    // 120 x 50
    expect(areaOf(entities[2] ?? { type: '', layer: '' })).toBe(6000)
    expect(entities.slice(3).map(({ string }) => string)).toEqual(['Board - make 2', 'second line'])
    // nothing left of zero or below it: programs that put zero at the lower left of all that is drawn find the same zero
    for (const { x = 0, y = 0 } of entities.slice(3)) {
      expect(x).toBe(0)
      expect(y).toBeGreaterThan(50)
    }
  })

  it('says millimetres', () => {
    expect(dxfText(file, [])).toContain('$INSUNITS\n70\n4\n')
    expect(dxfText(file, [])).toContain('$MEASUREMENT\n70\n1\n')
  })
})

describe('by hand: words in ASCII', () => {
  it.each([
    ['the shop’s board, “birch”', 'the shop\'s board, "birch"'],
    ['3 × 4 – 5 ½', '3 x 4 - 5 1/2'],
    ['Bräunung, façade, Œuf, ß', 'Braunung, facade, OEuf, ss'],
    ['a\nb\tc\u202fd', 'a b c d'],
    ['100 %%d', '100 % %d'],
    ['a^b \\U+00e9', "a'b /U+00e9"],
    ['板', '?'],
  ])('%s', (text, wanted) => expect(plainAscii(text)).toBe(wanted))
})
