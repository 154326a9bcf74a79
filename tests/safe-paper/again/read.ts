/** Numbers as they are typed in a maker's file or stand on a sheet, to kg, m, m3, K and shares. */

const UNITS: Readonly<Record<string, number>> = {
  g: 0.001, kg: 1, oz: 0.028349523125, lb: 0.45359237,
  mm: 0.001, cm: 0.01, m: 1, in: 0.0254,
  ml: 1e-6, l: 1e-3, L: 1e-3,
  '%': 0.01, 'kg/m3': 1, min: 60, h: 3600, s: 1, W: 1,
} // biome-ignore format: one kind a line

/** `12.5 kg`, `80 C`, `-5 %`, a bare number as it stands. @throws Error for what it does not know */
export const typed = (text: unknown): number => {
  if (typeof text === 'number') return text
  const match = /^(-?[\d.]+) ([A-Za-z%/0-9]+)$/.exec(String(text))
  if (!match) throw new Error(`"${String(text)}" was not typed as these files are`)
  const [, number = '', unit = ''] = match
  if (unit === 'C') return Number(number) + 273.15
  const factor = UNITS[unit]
  if (factor === undefined) throw new Error(`${unit} is no unit of these files`)
  return Number(number) * factor
}

/** `1 234.5 g`, `−2.5 %`, `176 °F (80 °C)`, `165 mm (6 1/2 in)`: the first amount in a unit that is known, Celsius of two. */
export const shownNumber = (text: string): number => {
  const plain = text.replaceAll('−', '-').replaceAll(/[\u00a0\u2009\u202f]/g, ' ')
  const celsius = /(-?\d[\d ]*(?:\.\d+)?) ?°C/.exec(plain)
  if (celsius) return Number(celsius[1]?.replaceAll(' ', '')) + 273.15
  for (const part of plain.split(/[()]/)) {
    const match = /^\s*(-?\d[\d ]*?(?:\.\d+)?) (g|kg|mm|cm|m|L|ml|%)\s*$/.exec(part)
    if (match) return Number(match[1]?.replaceAll(' ', '')) * (UNITS[match[2] ?? ''] ?? Number.NaN)
  }
  const bare = /^\s*(-?\d[\d ]*(?:\.\d+)?)\s*$/.exec(plain)
  if (bare) return Number(bare[1]?.replaceAll(' ', ''))
  throw new Error(`"${text}" is no number of a sheet`)
}
