/** Writes the style rules of the printed pages: size, margins and foot line of every sheet, and its blank pages. */
import type { PrintJob, PrintSheet, SheetFoot } from './job.ts'
import { contentSize, type PageBox, pageBox } from './page-layout.ts'

/** Page count of each sheet, in the order of the job's sheets; 0 when not known yet. */
export type SheetTotals = readonly number[]

/** Foot line: type size [pt], distance of the words from the rule [mm], weight of the rule [pt]. */
export const FOOT_FONT_SIZE = 7.5
const FOOT_GAP = 1.2
const FOOT_RULE = 0.5
/** Distance of the rule from the content box. [mm] */
const FOOT_CLEARANCE = 1.5
/** Shares of the foot line for its three words; the two ends are equal, so that no gap opens beside the middle. */
export const FOOT_SHARES = { end: 0.35, middle: 0.3 } as const

/** Between the page of the sheet and the page of the binder. */
export const FOOT_SPACER = '  ·  '

/** Name of the page of a sheet in the style rules. @param index place of the sheet in the job, from 0 */
export const pageName = (index: number): string => `sheet-${index + 1}`

/** Name of the page of a blank that follows a sheet of that orientation. */
export const blankPageName = (orientation: PrintSheet['orientation']): string => `blank-${orientation}`

/**
 * Writes all `@page` rules of a binder, and the custom properties with the size of each sheet.
 *
 * @param job paper, margins and sheets; only what the rules need is read
 * @param totals page count of each sheet, from the first pass; [] before it
 * @returns a style sheet; the same input gives the same text
 */
export function pageRulesCss(
  job: Pick<PrintJob, 'sheets' | 'paper' | 'margins' | 'duplex' | 'pageNumberWords'>,
  totals: SheetTotals = [],
): string {
  const { width, height } = job.paper
  const rules = [
    `@page ${blankPageName('portrait')} { size: ${width}mm ${height}mm; margin: 0 }`,
    `@page ${blankPageName('landscape')} { size: ${height}mm ${width}mm; margin: 0 }`,
    `.blank-page.portrait { page: ${blankPageName('portrait')} }`,
    `.blank-page.landscape { page: ${blankPageName('landscape')} }`,
  ]
  job.sheets.forEach((sheet, index) => {
    rules.push(...sheetRules(job, sheet, index, totals[index] ?? 0))
  })
  return rules.join('\n')
}

/**
 * The rules of one sheet that is printed without the rest of its binder. It begins on a right-hand page, as every leaf
 * does that is put into a binder, and counts on from its first page there.
 *
 * @param index place of the sheet in the job, from 0
 * @param total its pages
 * @param firstPage where it begins in the binder, from 1
 */
export function sheetAloneCss(
  job: Pick<PrintJob, 'sheets' | 'paper' | 'margins' | 'duplex' | 'pageNumberWords'>,
  index: number,
  total: number,
  firstPage: number,
): string {
  const sheet = job.sheets[index]
  if (!sheet) throw new RangeError(`There is no sheet ${index}.`)
  return [
    ...sheetRules(job, sheet, index, total),
    `@page ${pageName(index)}:first { counter-set: page ${firstPage} }`,
  ].join('\n')
}

function sheetRules(
  job: Pick<PrintJob, 'paper' | 'margins' | 'duplex' | 'pageNumberWords'>,
  sheet: PrintSheet,
  index: number,
  total: number,
): string[] {
  const name = pageName(index)
  const right = pageBox(job, sheet, 'right')
  const left = pageBox(job, sheet, 'left')
  const content = contentSize(job, sheet)
  const size = `size: ${right.width}mm ${right.height}mm; counter-increment: ${name};`
  const box = `#${cssName(sheet.anchor)} { page: ${name}; --sheet-width: ${content.width}mm; --sheet-height: ${content.height}mm }`
  if (sheet.wholePage) return [box, `@page ${name} { ${size} margin: 0 }`]
  const foot = footContents(job.pageNumberWords, sheet.foot, name, total)
  const rules = [box]
  if (job.duplex.mirroredMargins) {
    rules.push(
      `@page ${name} { ${size} }`,
      `@page ${name}:right { ${sideRules(right, foot)} }`,
      `@page ${name}:left { ${sideRules(left, foot)} }`,
    )
  } else {
    rules.push(`@page ${name} { ${size} ${sideRules(right, foot)} }`)
  }
  return rules
}

interface FootContents {
  readonly inner: string
  readonly middle: string
  readonly pageOf: string
  readonly number: string
}

/** CSS `content` lists for the parts of the foot line. */
function footContents(numberWords: string, foot: SheetFoot, counter: string, total: number): FootContents {
  return {
    inner: cssString(foot.inner),
    middle: cssString(foot.middle),
    pageOf: contentList(foot.pageOf, { x: `counter(${counter})`, y: cssString(String(total)) }),
    number: contentList(numberWords, { n: 'counter(page)' }),
  }
}

/** Margins and foot line of one side. The unused corners and boxes stay away: nothing stands in the binding margin. */
function sideRules(box: PageBox, foot: FootContents): string {
  const margin = `margin: ${box.top}mm ${box.right}mm ${box.bottom}mm ${box.left}mm;`
  const gap = cssString(FOOT_SPACER)
  const outer = box.outerIsRight
    ? `${foot.pageOf} ${gap} ${foot.number}`
    : `${foot.number} ${gap} ${foot.pageOf}`
  const boxes: readonly (readonly ['left' | 'center' | 'right', string])[] = box.outerIsRight
    ? [
        ['left', foot.inner],
        ['center', foot.middle],
        ['right', outer],
      ]
    : [
        ['left', outer],
        ['center', foot.middle],
        ['right', foot.inner],
      ]
  const lines = boxes.map(([place, content]) => {
    const share = place === 'center' ? FOOT_SHARES.middle : FOOT_SHARES.end
    return `@${box.footEdge}-${place} { content: ${content}; width: ${share * 100}%; ${footStyle(box.footEdge, place)} }`
  })
  return [margin, ...lines].join(' ')
}

/** The rule lies between content and words: above them at the bottom edge, under them at the top edge. */
function footStyle(edge: PageBox['footEdge'], align: string): string {
  const toContent = edge === 'bottom' ? 'top' : 'bottom'
  return [
    `font: ${FOOT_FONT_SIZE}pt var(--foot-font, 'Noto Sans')`,
    'white-space: pre',
    `text-align: ${align}`,
    `vertical-align: ${toContent}`,
    `margin-${toContent}: ${FOOT_CLEARANCE}mm`,
    `padding-${toContent}: ${FOOT_GAP}mm`,
    `border-${toContent}: ${FOOT_RULE}pt solid #000`,
  ].join('; ')
}

/** Turns `Sheet 4 · page {x} of {y}` into a CSS `content` list. */
function contentList(words: string, values: Readonly<Record<string, string>>): string {
  const parts = words.split(/\{(\w+)\}/)
  const list = parts.map((part, index) =>
    index % 2 === 1 ? (values[part] ?? cssString(`{${part}}`)) : cssString(part),
  )
  return list.filter((part) => part !== '""').join(' ') || '""'
}

/** A CSS string that cannot end early, whatever the maker typed. */
export function cssString(text: string): string {
  const safe = text.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must not come through
    /[\u0000-\u001f"\\<>\u007f]/g,
    (character) => `\\${character.charCodeAt(0).toString(16)} `,
  )
  return `"${safe}"`
}

/** An id as a CSS selector name: everything but plain letters, later digits, `_` and `-` is escaped. */
export function cssName(id: string): string {
  const escaped = (character: string): string => `\\${character.codePointAt(0)?.toString(16)} `
  return id.replace(/[^a-z0-9_-]/giu, escaped).replace(/^-?[0-9]|^-$/, (start) => {
    return [...start].map(escaped).join('')
  })
}
