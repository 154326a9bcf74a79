import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import type { Field } from '../../src/schema/fields.ts'
import {
  count,
  date,
  name,
  oneOf,
  paragraphs,
  plainNumber,
  quantity,
  share,
  words,
  yesOrNo,
} from '../../src/schema/fields.ts'

const value = <Value>(field: Field<Value>, text: string): Value | undefined => field.safeParse(text).data
const fault = (
  field: z.ZodType,
  text: unknown,
): { code: unknown; message: string; advice: unknown } | undefined => {
  const [issue] = field.safeParse(text).error?.issues ?? []
  if (issue === undefined) return undefined
  const { code, advice } = issue.code === 'custom' ? (issue.params ?? {}) : { code: issue.code, advice: '' }
  return { code, message: issue.message, advice }
}

describe('by hand: quantities', () => {
  const thickness = quantity('length', { min: '1 mm', max: '2 in' })
  test('limits themselves are allowed, in any unit', () => {
    expect(value(thickness, '1 mm')).toBe(0.001)
    expect(value(thickness, '50.8 mm')).toBe(0.0508)
    expect(value(thickness, '2 in')).toBe(0.0508)
    expect(fault(thickness, '0.999 mm')?.code).toBe('out-of-range')
    expect(fault(thickness, '50.801 mm')?.code).toBe('out-of-range')
  })
  test('beyond a limit both numbers are told, the limit also in the unit used', () => {
    expect(fault(thickness, '1/64 in')).toEqual({
      code: 'out-of-range',
      message: '"1/64 in" is less than the smallest allowed, 1 mm (0.03937 in)', // 1/25.4
      advice: 'Allowed from 1 mm up to 2 in.',
    })
    expect(fault(thickness, '60 mm')?.message).toBe(
      '"60 mm" is more than the largest allowed, 2 in (50.8 mm)',
    )
    expect(fault(quantity('mass', { max: '1 kg' }), '3 kg')?.message).toBe(
      '"3 kg" is more than the largest allowed, 1 kg',
    )
  })
  test('limits that are not allowed themselves', () => {
    const open = quantity('temperature', { above: '0 °C', below: '100 °C' })
    expect([fault(open, '0 °C')?.code, fault(open, '212 F')?.code]).toEqual(['out-of-range', 'out-of-range'])
    expect(value(open, '0.01 °C')).toBeCloseTo(273.16, 9)
    expect(fault(open, '212 F')?.advice).toBe('Allowed more than 0 °C and less than 100 °C.')
  })
  test('what parseQuantity refuses is passed on', () => {
    expect(fault(quantity('mass'), '450')).toMatchObject({
      code: 'unit-missing',
      message: '"450" has no unit',
    })
  })
  test('a limit that is no quantity is a bug', () => {
    expect(() => quantity('mass', { min: '1 mm' })).toThrow(RangeError)
  })
  test('shares', () => {
    expect([value(share(), '0 %'), value(share(), '33 %'), value(share(), '100 %')]).toEqual([0, 0.33, 1])
    expect(fault(share(), '100.1 %')?.code).toBe('out-of-range')
    expect(fault(share(), '0.33')?.code).toBe('unit-missing')
    // a limit that is not given stays the usual one
    expect([fault(share(), '-1 %')?.code, fault(share({ max: '50 %' }), '-1 %')?.code]).toEqual([
      'out-of-range',
      'out-of-range',
    ])
    expect(value(share({ min: '-5 %', max: '20 %' }), '-5 %')).toBe(-0.05)
  })
})

describe('by hand: numbers', () => {
  test('whole numbers', () => {
    const bars = count({ min: 1, max: 500 })
    expect([value(bars, '1'), value(bars, '500'), value(count(), '0')]).toEqual([1, 500, 0])
    const codes = [
      '0',
      '501',
      '1.5',
      '1e2',
      '0100',
      '1,000',
      '100 bars',
      '',
      '-1',
      'NaN',
      '0x10',
      '9'.repeat(21),
    ].map((text) => fault(bars, text)?.code)
    expect(codes).toEqual([
      'out-of-range',
      'out-of-range',
      'not-whole',
      'exponent',
      'leading-zero',
      'thousands-separator',
      'not-whole',
      'not-whole',
      'out-of-range',
      'not-a-number',
      'number-base',
      'not-whole',
    ])
    expect(fault(bars, '501')).toMatchObject({
      message: '"501" is more than the largest allowed, 500',
      advice: 'Allowed from 1 up to 500.',
    })
  })
  test('plain numbers', () => {
    const field = plainNumber({ min: -1, max: 1 })
    expect(['0.188', '-0.5', '1', '−0.5', '-0'].map((text) => value(field, text))).toEqual([
      0.188, -0.5, 1, -0.5, 0,
    ])
    expect(['1.001', '1e-3', '0,5', '.5', '1/2', '5 g'].map((text) => fault(field, text)?.code)).toEqual([
      'out-of-range',
      'exponent',
      'decimal-comma',
      'leading-point',
      'not-a-number',
      'not-a-number',
    ])
  })
})

describe('by hand: dates', () => {
  test.each(['2027-03-14', '2028-02-29', '2000-02-29', '2027-12-31'])('%s is a day', (text) => {
    expect(value(date(), text)).toBe(text)
  })
  test.each([
    '2027-02-29',
    '2100-02-29', // no leap year
    '2027-04-31',
    '2027-13-01',
    '2027-00-10',
    '14.3.2027',
    '2027-3-14',
    '2027-03-14T10:00',
    '20270314',
    '+002027-03-14',
    '',
  ])('%s is none', (text) => {
    expect(fault(date(), text)?.code).toBe('not-a-date')
  })
})

describe('by hand: texts and names', () => {
  test('free text is trimmed and composed', () => {
    expect(value(words(), '  Rosemary & salt  ')).toBe('Rosemary & salt')
    expect(value(words(), 'cafe\u0301')).toBe('caf\u00e9')
    expect(value(paragraphs(), 'one\r\ntwo\n')).toBe('one\ntwo')
  })
  test.each([
    ['', 'text-empty'],
    ['  \n', 'text-empty'],
    ['x'.repeat(21), 'text-too-long'],
    ['one\ntwo', 'text-several-lines'],
    ['a → b', 'text-not-printable'],
    ['bell\u0007', 'text-not-printable'],
    ['soap 😀', 'text-not-printable'],
    ['right\u202eleft', 'text-not-printable'],
  ])('%j is %s', (text, code) => {
    expect(fault(words({ max: 20 }), text)?.code).toBe(code)
  })
  test('characters are named, invisible ones by number', () => {
    expect(fault(words(), 'a → b\u202e')?.message).toBe('the printing fonts do not have → (U+2192), U+202E')
  })
  test('20 characters fit, counted as a reader would', () => {
    expect(value(words({ max: 20 }), 'é'.repeat(20))).toBe('é'.repeat(20))
  })
  test('names', () => {
    expect(['olive-oil', 'a', '3x', 'a-1-b', 'a'.repeat(40)].map((text) => fault(name(), text))).toEqual(
      Array.from({ length: 5 }, () => undefined),
    )
    for (const text of ['Olive', 'olive oil', 'a--b', '-a', 'a-', 'ö', '', 'a_b', 'a\n', 'a'.repeat(41)])
      expect(fault(name(), text)?.code, text).toBe('not-a-name')
    expect(fault(name(), 'Crème Brûlée #2')?.advice).toContain('"creme-brulee-2"')
  })
  test('fixed words', () => {
    expect(value(oneOf(['liquid', 'solid']) as Field<string>, 'solid')).toBe('solid')
    expect(oneOf(['liquid', 'solid']).safeParse('Solid').success).toBe(false)
    expect([value(yesOrNo() as Field<boolean>, 'yes'), value(yesOrNo() as Field<boolean>, 'no')]).toEqual([
      true,
      false,
    ])
    expect(yesOrNo().safeParse('true').success).toBe(false)
  })
})

describe('by hand: a description of the file format', () => {
  test('examples, patterns and words are in it', () => {
    const schema = z.strictObject({
      mass: quantity('mass').describe('weight of the fat'),
      bars: count().optional(),
      kind: oneOf(['a', 'b']),
    })
    expect(z.toJSONSchema(schema, { io: 'input' })).toMatchObject({
      required: ['mass', 'kind'],
      additionalProperties: false,
      properties: {
        mass: { type: 'string', description: 'weight of the fat', examples: ['450 g'], 'x-quantity': 'mass' },
        bars: { type: 'string', examples: ['1'], pattern: expect.any(String) },
        kind: { enum: ['a', 'b'] },
      },
    })
  })
  test('an example keeps within the limits', () => {
    const examples = (field: z.ZodType): unknown =>
      (z.toJSONSchema(field, { io: 'input' }) as { examples?: unknown }).examples
    expect(examples(quantity('mass', { min: '1 kg' }))).toEqual(['1 kg'])
    expect(examples(count({ min: 10 }))).toEqual(['10'])
    expect(examples(share())).toEqual(['5 %'])
  })
})
