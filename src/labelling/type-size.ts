/** How tall the figures of a net weight must be, and whether a text of that size fits its panel. */
import type { Finding } from '../findings.ts'
import { followsEurope, type Region } from './regions.ts'

const INCH = 0.0254
const SQUARE_INCH = INCH * INCH

/** Sizes [m], areas [m²] of the side that faces a buyer. */
export type Panel =
  | { readonly shape: 'rectangular'; readonly width: number; readonly height: number }
  | { readonly shape: 'cylindrical'; readonly height: number; readonly circumference: number }
  | { readonly shape: 'other'; readonly surface: number; readonly face?: number }

/** Of a cylinder and of other shapes, what counts as the side that faces a buyer [–], read. */
const SHARE_OF_SURFACE = 0.4

/**
 * Area of the principal display panel.
 *
 *     rectangular: width · height;  cylindrical: 0.4 · height · circumference;  other: its obvious face, or 0.4 · surface
 *
 * Top, bottom, flanges, shoulders and neck do not count.
 *
 * @param panel sizes [m], areas [m²]
 * @returns area [m²]
 * @source cfr-16-500-21
 */
export function panelArea(panel: Panel): number {
  if (panel.shape === 'rectangular') return panel.width * panel.height
  if (panel.shape === 'cylindrical') return SHARE_OF_SURFACE * panel.height * panel.circumference
  return panel.face ?? SHARE_OF_SURFACE * panel.surface
}

/** Heights [in] by area [in²]; the first was read, the others are from memory. */
const BY_AREA = [
  { upTo: 5, height: 1 / 16 },
  { upTo: 25, height: 1 / 8 },
  { upTo: 100, height: 3 / 16 },
  { upTo: 400, height: 1 / 4 },
] as const
/** Above the last area [in]: soap; cosmetics keep the last height. From memory. */
const LARGEST = 1 / 2
/** More, of what is moulded into the bar or embossed [in]; from memory. */
const MOULDED = 1 / 16

/** Heights [mm] by content [g]; from memory. */
const BY_CONTENT = [
  { upTo: 50, height: 2 },
  { upTo: 200, height: 3 },
  { upTo: 1000, height: 4 },
] as const
/** Above the last content [mm]. */
const TALLEST = 6

/** So that 25 square inches are not taken for more by their last bit [–]. */
const SLACK = 1e-9

export interface LetterHeightInput {
  readonly region: Region
  /** of the panel [m²] */
  readonly area: number
  /** weight on the label [kg] */
  readonly declared: number
  readonly kind: 'soap' | 'cosmetic'
  /** pressed into the bar, not printed */
  readonly moulded?: boolean
}

/**
 * Least height of the net weight on a label.
 *
 *     US, by panel:    to 5 in² 1/16 in;  25 in² 1/8;  100 in² 3/16;  400 in² 1/4;  above 1/2 (cosmetics 1/4);  moulded + 1/16
 *     EU, by content:  to 50 g 2 mm;  200 g 3;  1 kg 4;  above 6, of the figures
 *
 * In the United States it counts on capitals, or on the small o where small letters are used. Great Britain keeps the
 * heights of the directive.
 *
 * @param input region, area [m²], weight [kg]
 * @returns height [m]; undefined for Canada, whose figures are not here, and for what is no size
 * @source cfr-16-500, cfr-21-701-13, directive-76-211-figures
 * @example leastLetterHeight({ region: 'US', area: 0.004, declared: 0.12, kind: 'soap' }) // 0.003175
 */
export function leastLetterHeight(input: LetterHeightInput): number | undefined {
  const { region, area, declared } = input
  if (followsEurope(region)) {
    if (!(declared > 0)) return undefined
    const step = BY_CONTENT.find(({ upTo }) => declared * 1000 <= upTo * (1 + SLACK))
    return (step?.height ?? TALLEST) / 1000
  }
  if (region !== 'US' || !(area > 0)) return undefined
  const step = BY_AREA.find(({ upTo }) => area / SQUARE_INCH <= upTo * (1 + SLACK))
  const printed = step?.height ?? (input.kind === 'soap' ? LARGEST : 1 / 4)
  return (printed + (input.moulded === true ? MOULDED : 0)) * INCH
}

/** [m], on the small o; both from memory: ingredients of cosmetics in the United States, and food in the Union. */
const LEAST_TEXT = { ingredients: INCH / 16, food: 0.0012 } as const

/**
 * Least height of all words on a label but the net weight.
 *
 *     US: 1/16 in;   elsewhere: 1.2 mm, both of the small o
 *
 * Outside of the United States the law asks for words that are easily legible and gives no figure: that of food labels
 * is taken over.
 *
 * @param region whose label it is
 * @returns height of the small o [m]
 * @source cfr-21-701-3, common practice
 */
export const leastTextHeight = (region: Region): number =>
  region === 'US' ? LEAST_TEXT.ingredients : LEAST_TEXT.food

/** Of the type size, each [–]. */
export interface FontMetric {
  /** average width of a letter, its space with it */
  readonly advance: number
  /** what the law measures: capitals or figures, or the small o of a text in small letters */
  readonly measured: number
  /** width of the capital N */
  readonly capitalN: number
}

export interface TextFit {
  /** [m] */
  readonly letterHeight: number
  readonly font: FontMetric
  /** letters of each line, spaces too */
  readonly lines: readonly number[]
  /** from line to line, in type sizes [–] */
  readonly leading: number
  /** [m] */
  readonly panel: { readonly width: number; readonly height: number }
  /** a net weight keeps clear space round it and, in the United States, to the bottom of its panel */
  readonly netWeightOf?: Region
}

export interface FittedText {
  readonly fits: boolean
  /** [m] */
  readonly typeSize: number
  /** of the text itself, and what it needs with the space round it [m] */
  readonly width: number
  readonly height: number
  readonly widthNeeded: number
  readonly heightNeeded: number
  /** that a line of this panel holds */
  readonly lettersALine: number
  /** lowest part of the panel that the text must stand in [m]; undefined: all of it */
  readonly zone: number | undefined
  readonly findings: readonly Finding[]
}

/** US: the lowest part of the panel for the net weight, on panels above 5 in² [–]; from memory. */
const BOTTOM = 0.3
const NO_BOTTOM_UP_TO = 5 * SQUARE_INCH
/** US: clear widths of N at either side, heights of a letter above and below [–]; from memory. */
const CLEAR_WIDTHS = 2
const CLEAR_HEIGHTS = 1
/** US: a letter is at most so many times as tall as wide [–]; from memory. */
const TALL_FOR_WIDE = 3

/**
 * Whether a text fits a panel at a height of letters.
 *
 *     type size = letter height / measured;   width = letters of the longest line · advance · type size
 *     height = letter height + (lines − 1) · leading · type size
 *     net weight, US: + 2 N at either side, + 1 letter above and below; in the lowest 30 % of panels above 5 in²
 *
 * An average letter is an estimate: a line of wide letters is wider. So a text that fits by a hair is to be looked at.
 *
 * @param text letters a line, sizes [m], font [–]
 * @returns sizes [m] and findings for what does not fit
 * @source cfr-21-701-13, cfr-16-500
 */
export function fitText(text: TextFit): FittedText {
  const { font, lines, letterHeight, panel } = text
  const us = text.netWeightOf === 'US'
  const typeSize = letterHeight / font.measured
  const letter = font.advance * typeSize
  const width = Math.max(0, ...lines) * letter
  const height = lines.length === 0 ? 0 : letterHeight + (lines.length - 1) * text.leading * typeSize
  const side = us ? CLEAR_WIDTHS * font.capitalN * typeSize : 0
  const widthNeeded = width + 2 * side
  const heightNeeded = height + (us ? 2 * CLEAR_HEIGHTS * letterHeight : 0)
  const area = panel.width * panel.height
  const zone = us && area > NO_BOTTOM_UP_TO * (1 + SLACK) ? BOTTOM * panel.height : undefined
  const findings: Finding[] = []
  const over = (needed: number, is: number): boolean => needed > is * (1 + SLACK)
  if (over(widthNeeded, panel.width))
    findings.push({
      code: 'label-text-too-wide',
      severity: 'stop',
      values: { needed: widthNeeded, is: panel.width },
    })
  if (over(heightNeeded, panel.height))
    findings.push({
      code: 'label-text-too-tall',
      severity: 'stop',
      values: { needed: heightNeeded, is: panel.height },
    })
  else if (zone !== undefined && over(height, zone))
    findings.push({ code: 'label-text-above-zone', severity: 'stop', values: { needed: height, is: zone } })
  if (us && over(font.measured, TALL_FOR_WIDE * font.capitalN))
    findings.push({
      code: 'label-letters-too-narrow',
      severity: 'stop',
      values: { needed: letterHeight / TALL_FOR_WIDE, is: font.capitalN * typeSize },
    })
  return {
    fits: findings.length === 0,
    typeSize,
    width,
    height,
    widthNeeded,
    heightNeeded,
    lettersALine: Math.max(0, Math.floor((panel.width - 2 * side) / letter + SLACK)),
    zone,
    findings,
  }
}

/**
 * Letters of each line of a text that is broken between words.
 *
 *     as many words a line as it holds
 *
 * A word that is longer than a line has a line of its own, which then does not fit.
 *
 * @param text words between spaces
 * @param lettersALine that a line holds
 * @returns the lines
 * @source common practice
 */
export function breakLines(text: string, lettersALine: number): string[] {
  const lines: string[] = []
  for (const word of text.split(/\s+/).filter((one) => one !== '')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= lettersALine)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}
