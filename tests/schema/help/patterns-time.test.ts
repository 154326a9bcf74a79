/** Patterns that an editor tries at every key that is pressed. */
import { describe, expect, test } from 'vitest'
import { quantityPattern, textPattern } from '../../../src/schema/help/patterns.ts'
import { leastProcessorTime } from '../../processor-time.ts'

describe('by hand: no text keeps an editor waiting', () => {
  test.each([
    ['parts', quantityPattern('length'), `${'1 ft        '.repeat(40)}x`],
    ['digits', quantityPattern('mass'), `${'1'.repeat(20_000)}x`],
    ['blanks of a text', textPattern(200, false), `a${' '.repeat(20_000)}b`],
    ['marks of a text', textPattern(4000, true), `${'e\u0301'.repeat(4001)}`],
  ])('%s', (_, pattern, text) => {
    const shape = new RegExp(pattern, 'u')
    expect(shape.test(text)).toBe(false)
    // ms
    expect(leastProcessorTime(100, 3, () => shape.test(text))).toBeLessThan(500)
  })
})
