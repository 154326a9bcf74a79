/** Says what is wrong with the unit of a quantity: missing, of another kind, with two meanings, or misspelt. */
import type { NumberRefusal } from './number-text.ts'
import { didYouMean } from './spelling.ts'
import type { QuantityKind } from './tables.ts'
import { findUnit, KINDS, spellingsOf, symbolsOf } from './tables.ts'

/**
 * Explains why a spelling is no unit of a kind.
 *
 * @param spelling  what stands after the number, may be empty
 * @param kind      what the number measures
 * @returns code, fault and advice
 * @source common practice
 */
export function refuseUnit(spelling: string, kind: QuantityKind): NumberRefusal {
  const { noun, example } = KINDS[kind]
  const units = `Units of ${noun}: ${symbolsOf(kind).join(', ')}.`
  if (spelling === '')
    return {
      code: 'unit-missing',
      fault: 'has no unit',
      advice: `Write the unit after the number, for example "${example}". ${units}`,
    }
  const ambiguous = AMBIGUOUS[kind]?.[spelling]
  if (ambiguous !== undefined) return { code: 'unit-ambiguous', ...ambiguous }
  const other = OTHER_KINDS.find((each) => findUnit(each, spelling) !== undefined)
  if (other !== undefined)
    return {
      code: 'unit-wrong-kind',
      fault: `is a ${KINDS[other].noun}, and a ${noun} is needed here`,
      advice: `Write a ${noun}, for example "${example}". ${units}`,
    }
  const near =
    spelling.length > 1 ? didYouMean(spelling, spellingsOf(kind), spelling.length > 4 ? 2 : 1) : undefined
  const folded = spellingsOf(kind).find((each) => each.toLowerCase() === spelling.toLowerCase())
  const meant = near ?? folded
  return {
    code: 'unit-unknown',
    fault: `has a unit that is not known, "${spelling}"`,
    advice: meant === undefined ? units : `Did you mean "${meant}"? ${units}`,
  }
}

type Ambiguities = Readonly<Record<string, { readonly fault: string; readonly advice: string }>>

const SECONDS_MARK = {
  fault: 'has a mark that can mean inches, minutes or seconds',
  advice: 'Write the unit out, for example "30 min" or "20 s".',
}
const CALENDAR = {
  fault: 'counts in units that are not always the same length',
  advice: 'Write weeks or days, for example "4 weeks" or "30 days".',
}
const OUNCES = {
  fault: 'can mean a weight or a volume',
  advice: 'A volume is needed here: write "fl oz" for US fluid ounces, or use ml.',
}
const DEGREES = { fault: 'has degrees of no scale', advice: 'Write °C or °F, for example "43 °C".' }
const METRES = { fault: 'has the unit of metres', advice: 'Write "min" for minutes, for example "30 min".' }

const AMBIGUOUS: Partial<Record<QuantityKind, Ambiguities>> = {
  volume: { oz: OUNCES, ounce: OUNCES, ounces: OUNCES },
  temperature: { '°': DEGREES, deg: DEGREES, degrees: DEGREES, º: DEGREES },
  temperatureDifference: { '°': DEGREES, deg: DEGREES, degrees: DEGREES, º: DEGREES },
  duration: {
    '"': SECONDS_MARK,
    "'": SECONDS_MARK,
    '″': SECONDS_MARK,
    '′': SECONDS_MARK,
    m: METRES,
    month: CALENDAR,
    months: CALENDAR,
    year: CALENDAR,
    years: CALENDAR,
  },
}

/** Temperature difference shares its units with temperature and would only be named in its place. */
const OTHER_KINDS = (Object.keys(KINDS) as QuantityKind[]).filter((kind) => kind !== 'temperatureDifference')
