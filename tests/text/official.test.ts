/** Official wordings of hazards, word for word in every language that has them. */
import { describe, expect, test } from 'vitest'
import { languagesIn, readCatalogue } from '../../src/schema/read-catalogue.ts'

/** Regulation (EC) No 1272/2008, consolidated text of 2025-09-01, European Union, https://eur-lex.europa.eu, CC BY 4.0. */
const TEXTS: readonly (readonly [code: string, texts: Readonly<Record<string, string>>])[] = [
  [
    'H314',
    {
      en: 'Causes severe skin burns and eye damage.',
      es: 'Provoca quemaduras graves en la piel y lesiones oculares graves.',
    },
  ],
  [
    'H290',
    {
      en: 'May be corrosive to metals.',
      es: 'Puede ser corrosivo para los metales.',
    },
  ],
  [
    'P280',
    {
      en: 'Wear protective gloves/protective clothing/eye protection/face protection.',
      es: 'Llevar guantes/prendas/gafas/máscara de protección.',
    },
  ],
  [
    'P303+P361+P353',
    {
      en: 'IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water [or shower].',
      es: 'EN CASO DE CONTACTO CON LA PIEL (o el pelo): Quitar inmediatamente toda la ropa contaminada. Enjuagar la piel con agua [o ducharse].',
    },
  ],
  [
    'P310',
    {
      en: 'Immediately call a POISON CENTER/doctor/…',
      es: 'Llamar inmediatamente a un CENTRO DE TOXICOLOGÍA/médico/…',
    },
  ],
  [
    'P405',
    {
      en: 'Store locked up.',
      es: 'Guardar bajo llave.',
    },
  ],
  [
    'P233',
    {
      en: 'Keep container tightly closed.',
      es: 'Mantener el recipiente herméticamente cerrado.',
    },
  ],
  [
    'P301+P330+P331',
    {
      en: 'IF SWALLOWED: Rinse mouth. Do NOT induce vomiting.',
      es: 'EN CASO DE INGESTIÓN: Enjuagar la boca. NO provocar el vómito.',
    },
  ],
  [
    'P305+P351+P338',
    {
      en: 'IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.',
      es: 'EN CASO DE CONTACTO CON LOS OJOS: Enjuagar con agua cuidadosamente durante varios minutos. Quitar las lentes de contacto cuando estén presentes y pueda hacerse con facilidad. Proseguir con el lavado.',
    },
  ],
]

/** `P303+P361+P353` as the key of its phrase, and as it is printed. */
const keyOf = (code: string): string => `official.${code.toLowerCase().replaceAll('+', '-')}`
const shownOf = (code: string): string => code.replaceAll('+', ' + ')

describe.each(languagesIn())('published: CLP Annex III and Annex IV, read, in %s', (language) => {
  const words = readCatalogue(language)

  test.each(TEXTS)('%s', (code, texts) => {
    const text = texts[language]
    // a language of the Union brings its own column into the table
    expect(text, language).toBeDefined()
    expect(words.phrase(keyOf(code))).toBe(`${shownOf(code)}: ${text}`)
  })

  test('no other wording bears a code', () => {
    const coded = words.keys.filter((key) => /\b(H[2-4]\d{2}|P[1-5]\d{2}|EUH\d{3})\b/.test(words.phrase(key)))
    expect(coded.sort()).toEqual(TEXTS.map(([code]) => keyOf(code)).sort())
  })
})
