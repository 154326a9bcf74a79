/** What readers know each error by, and how its size is written. */
import type { BoundTolerance, ErrorKey } from '../../binder/bind-tolerance.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Value } from '../model.ts'

interface ErrorWords {
  readonly what: string
  /** for a drawing */
  readonly short: string
  /** what makes it smaller */
  readonly how: string
  readonly group: 'bar-cutter' | 'grid-cutter' | 'mould' | 'soap'
}

export const ERROR_WORDS: Readonly<Record<ErrorKey, ErrorWords>> = {
  'slice-spacing': {
    what: 'tolerance.what.slice-spacing',
    short: 'tolerance.short.slice-spacing',
    how: 'tolerance.how.slice-spacing',
    group: 'bar-cutter',
  },
  'slice-led': {
    what: 'tolerance.what.slice-led',
    short: 'tolerance.short.slice-led',
    how: 'tolerance.how.slice-led',
    group: 'bar-cutter',
  },
  'end-stop': {
    what: 'tolerance.what.end-stop',
    short: 'tolerance.short.end-stop',
    how: 'tolerance.how.end-stop',
    group: 'bar-cutter',
  },
  'fill-height': {
    what: 'tolerance.what.fill-height',
    short: 'tolerance.short.fill-height',
    how: 'tolerance.how.fill-height',
    group: 'mould',
  },
  'wire-spacing': {
    what: 'tolerance.what.wire-spacing',
    short: 'tolerance.short.wire-spacing',
    how: 'tolerance.how.wire-spacing',
    group: 'grid-cutter',
  },
  'wire-led': {
    what: 'tolerance.what.wire-led',
    short: 'tolerance.short.wire-led',
    how: 'tolerance.how.wire-led',
    group: 'grid-cutter',
  },
  'inside-sawn': {
    what: 'tolerance.what.inside-sawn',
    short: 'tolerance.short.inside-sawn',
    how: 'tolerance.how.inside-sawn',
    group: 'mould',
  },
  'gauge-laid': {
    what: 'tolerance.what.gauge-laid',
    short: 'tolerance.short.gauge-laid',
    how: 'tolerance.how.gauge-laid',
    group: 'grid-cutter',
  },
  'frame-centred': {
    what: 'tolerance.what.frame-centred',
    short: 'tolerance.short.frame-centred',
    how: 'tolerance.how.frame-centred',
    group: 'grid-cutter',
  },
  density: {
    what: 'tolerance.what.density',
    short: 'tolerance.short.density',
    how: 'tolerance.how.density',
    group: 'soap',
  },
}

const STEP = 0.0254 / 64 // m, exact
const NEAR = 1e-6 // m

/** A few hundredths of a millimetre matter, and a fraction only where it is one. */
const offValue = ({ show }: Frame, name: string, length: number): Value => {
  const steps = length / STEP
  const isFraction = Math.round(steps) > 0 && Math.abs(steps - Math.round(steps)) * STEP < NEAR
  return isFraction ? show.length(name, length) : show.thousandths(name, length)
}

type BoundError = BoundTolerance['errors'][number]

/** Its tolerance, in the unit of what it is of. */
export const toleranceValue = (
  frame: Frame,
  { key, tolerance, sizeChange }: Pick<BoundError, 'key' | 'tolerance' | 'sizeChange'>,
): Value =>
  sizeChange === undefined
    ? frame.show.percent(`error.${key}.tolerance`, tolerance, 1)
    : offValue(frame, `error.${key}.tolerance`, tolerance)

export const whatWords = ({ say }: Frame, key: ErrorKey): Inline => say(ERROR_WORDS[key].what)

/** Those that do something. */
export const livingErrors = ({ errors }: BoundTolerance): readonly BoundError[] =>
  errors.filter(({ ofVariance }) => ofVariance > 0)
