/** Enthalpy, heat capacity and boiling point of sodium hydroxide in water. */

/** One term of a polynomial in the water share after another, lowest power first. */
type Coefficients = readonly number[]

// Coefficients of the enthalpy [kJ/kg, t in °C], all read in a public transcription of the paper.
const ABOVE: Coefficients = [1288.4485, -4387.8908, 4938.2298, -1841.189]
const BELOW: Coefficients = [1, -0.49649131, -4.0915144, 7.2887292, -3.0202651]
const LINEAR: Coefficients = [
  2.3087919, -9.0004252, 167.59914, -1051.6368, 3394.3378, -6115.0986, 6220.8249, -3348.8098, 743.87432,
]
const SQUARE: Coefficients = [
  0.0230286, -0.37866056, 2.4529593, -8.2693542, 15.728833, -16.944427, 9.6254192, -2.2410628,
]
const CUBE: Coefficients = [
  -8.5131313e-5, 136.52823e-5, -875.68741e-5, 2920.0398e-5, -5488.2983e-5, 5841.8034e-5, -3278.7483e-5,
  754.45993e-5,
]

/**
 * Enthalpy of a solution of sodium hydroxide; its zero is near water at 0 °C.
 *
 *     h = c₁ + c₂ t + c₃ t² + c₄ t³;   c polynomials in the water share 1 − w, t in °C
 *
 * Valid 0 to 204 °C, w up to 0.46 at 15 °C, 0.54 at 25 °C, 0.60 at 40 °C, 0.70 at 60 °C. Outside, the same formula.
 *
 * @param massFraction pure NaOH in the solution [–]
 * @param temperature  [K]
 * @returns enthalpy [J/kg solution]
 * @source olsson1997
 */
export function solutionEnthalpy(massFraction: number, temperature: number): number {
  const x = 1 - massFraction
  const t = temperature - 273.15
  const constant = polynomial(ABOVE, x) / polynomial(BELOW, x)
  return (
    1000 * (constant + t * (polynomial(LINEAR, x) + t * (polynomial(SQUARE, x) + t * polynomial(CUBE, x))))
  )
}

/**
 * Heat capacity of a solution of sodium hydroxide: the slope of its enthalpy.
 *
 *     c = c₂ + 2 c₃ t + 3 c₄ t²
 *
 * Valid as the enthalpy is.
 *
 * @param massFraction pure NaOH in the solution [–]
 * @param temperature  [K]
 * @returns heat capacity [J/(kg K)]
 * @source olsson1997
 */
export function solutionHeatCapacity(massFraction: number, temperature: number): number {
  const x = 1 - massFraction
  const t = temperature - 273.15
  return 1000 * (polynomial(LINEAR, x) + t * (2 * polynomial(SQUARE, x) + 3 * t * polynomial(CUBE, x)))
}

// Coefficients of the boiling point [kPa, t in °C] in the logarithm of the water share, read in the same place.
const BOILING_1: Coefficients = [
  -113.93947, 209.82305, 494.77153, 6860.833, 2676.6433, -21740.328, -34750.872, -20122.157, -4102.989,
]
const BOILING_2: Coefficients = [
  16.240074, -11.864008, -223.47305, -1650.3997, -5997.3118, -12318.744, -15303.153, -11707.48, -5364.9554,
  -1338.5412, -137.96889,
]
const BOILING_3: Coefficients = [
  -226.80157, 293.17155, 5081.8791, 36752.126, 131262, 259399.54, 301696.22, 208617.9, 81774.024, 15648.526,
  906.29769,
]

/** Ordinary air pressure [kPa]. */
const AIR_PRESSURE = 101.325

/**
 * Boiling point of a solution of sodium hydroxide at ordinary air pressure.
 *
 *     t = (a₁ + a₃ ln p) / (ln p − a₂);   a polynomials in ln(1 − w), p in kPa, t in °C
 *
 * Valid for w up to 0.7.
 *
 * @param massFraction pure NaOH in the solution [–]
 * @returns boiling point [K]
 * @source olsson1997
 */
export function solutionBoilingPoint(massFraction: number): number {
  const x = Math.log(1 - massFraction)
  const logPressure = Math.log(AIR_PRESSURE)
  return (
    (polynomial(BOILING_1, x) + polynomial(BOILING_3, x) * logPressure) /
      (logPressure - polynomial(BOILING_2, x)) +
    273.15
  )
}

function polynomial(coefficients: Coefficients, x: number): number {
  let value = 0
  for (let i = coefficients.length - 1; i >= 0; i--) value = value * x + (coefficients[i] ?? 0)
  return value
}
