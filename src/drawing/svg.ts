/**
 * Writes a sheet as SVG in millimetres: one unit is one millimetre on paper.
 */

import { textsOf } from './dimension-rows.ts'
import { moveMark } from './mark-bounds.ts'
import type { Sheet } from './sheet.ts'
import { diameterSignUnits, textWidth } from './text-width.ts'
import { capitalHeight, drawingStyle, type LineClass, type Mark, type Point, type TextMark } from './types.ts'

export interface SvgRequest extends Sheet {
  readonly name: string
  readonly label: string
  /** length of the lines that the printer measures; only on a drawing at full size [mm] */
  readonly checkScaleMm?: number
}

/**
 * The SVG of a sheet.
 *
 * Formula: y is turned over once, here; lines of one class of one view make one path. Validity: any sheet.
 * @param request views set on the sheet, foot, size [mm], label
 * @returns an svg element, and what is in it; classes are styled by the drawing's style sheet
 * @source common practice
 */
export function sheetSvg(request: SvgRequest): { readonly svg: string; readonly body: string } {
  const { views, foot, width, height, label, name } = request
  const flip = ({ x, y }: Point): Point => ({ x, y: height - y })
  const groups = views.map(({ view, at }) => {
    const marks = view.marks.map((mark) => moveMark(mark, at))
    const dimensions = view.dimensions.map((one) => {
      const moved = [...one.marks, ...textsOf(one)].map((mark) => moveMark(mark, at))
      return `<g class="dimension-group" data-name="${escapeXml(one.name)}">${marksSvg(moved, flip)}</g>`
    })
    return `<g data-view="${escapeXml(`${name}.${view.name}`)}">${marksSvg(marks, flip)}${dimensions.join('')}</g>`
  })
  const body = `${groups.join('')}<g class="drawing-foot">${marksSvg(foot, flip)}</g>`
  return { body, svg: svgElement({ width, height, label, body, checkScaleMm: request.checkScaleMm }) }
}

/** A figure that is one view without dimensions, as large as its paper; sizes in millimetres. */
export function figureSvg(of: {
  readonly name: string
  readonly label: string
  readonly width: number
  readonly height: number
  /** name of the view */
  readonly view: string
  readonly marks: readonly Mark[]
}): string {
  const { name, label, width, height, view, marks } = of
  const extent = { x: 0, y: 0, width, height }
  return sheetSvg({
    name,
    label,
    width,
    height,
    views: [{ view: { name: view, marks, dimensions: [], outline: extent, extent }, at: { x: 0, y: 0 } }],
    foot: [],
    style: drawingStyle,
    dimensions: [],
  }).svg
}

/** One drawing as an element of its own; sizes in millimetres of paper. */
export function svgElement(of: {
  readonly width: number
  readonly height: number
  readonly label: string
  readonly body: string
  /** length of the check scales that are drawn in it; the printer measures them */
  readonly checkScaleMm?: number
  /** at full size without a scale of its own, too */
  readonly fullSize?: boolean
}): string {
  const fullSize = of.checkScaleMm === undefined && of.fullSize !== true ? '' : ' full-size'
  const check = of.checkScaleMm === undefined ? '' : ` data-check-scale-mm="${number(of.checkScaleMm)}"`
  const size = `width="${number(of.width)}mm" height="${number(of.height)}mm" viewBox="0 0 ${number(of.width)} ${number(of.height)}"`
  return `<svg xmlns="http://www.w3.org/2000/svg" class="drawing${fullSize}"${check} ${size} role="img" aria-label="${escapeXml(of.label)}">${of.body}</svg>`
}

/** Elements moved to a place on the page [mm, y down]. */
export const placedSvg = (body: string, x: number, y: number): string =>
  `<g transform="translate(${number(x)} ${number(y)})">${body}</g>`

const drawingOrder: readonly LineClass[] = [
  'hatch',
  'hidden',
  'phantom',
  'section',
  'centre',
  'extension',
  'dimension',
  'break',
  'visible',
]

export function marksSvg(marks: readonly Mark[], flip: (point: Point) => Point): string {
  const paths = drawingOrder.flatMap((kind) => {
    const d = marks.map((mark) => pathOf(mark, kind, flip)).join('')
    return d === '' ? [] : [`<path class="${kind}" d="${d}"/>`]
  })
  const arrows = marks
    .flatMap((mark) => (mark.kind === 'arrow' ? [polygon(mark.points.map(flip), true)] : []))
    .join('')
  const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [textSvg(mark, flip)] : []))
  return paths.join('') + (arrows === '' ? '' : `<path class="arrow" d="${arrows}"/>`) + texts.join('')
}

function pathOf(mark: Mark, kind: LineClass, flip: (point: Point) => Point): string {
  if (mark.kind === 'line' && mark.class === kind) return polygon([flip(mark.a), flip(mark.b)], false)
  if (mark.kind === 'outline' && mark.class === kind) return polygon(mark.points.map(flip), mark.closed)
  if (mark.kind === 'circle' && mark.class === kind) {
    const { x, y } = flip(mark.centre)
    return circlePath(x, y, mark.radius)
  }
  return ''
}

function circlePath(x: number, y: number, r: number): string {
  const arc = (to: number) => `A${number(r)} ${number(r)} 0 1 0 ${number(to)} ${number(y)}`
  return `M${number(x - r)} ${number(y)}${arc(x + r)}${arc(x - r)}Z`
}

function polygon(points: readonly Point[], closed: boolean): string {
  const steps = points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${number(x)} ${number(y)}`)
  return steps.join('') + (closed ? 'Z' : '')
}

function textSvg(mark: TextMark, flip: (point: Point) => Point): string {
  const { x, y } = flip(mark.at)
  const turn = turnOf(mark, flip)
  const name = mark.name === undefined ? '' : ` data-name="${escapeXml(mark.name)}"`
  const symbolWidth = (diameterSignUnits / 1000) * mark.size
  const hasSign = mark.runs.some((run) => run.kind === 'diameter')
  const runs = mark.runs.map((run, index) => {
    if (run.kind === 'diameter') return ''
    // The diameter sign is drawn, not typed, so the text after it starts where the sign ends.
    const shift = mark.runs[index - 1]?.kind === 'diameter' ? ` dx="${number(symbolWidth)}"` : ''
    const own = run.name === undefined ? '' : ` data-name="${escapeXml(run.name)}"`
    const frac =
      run.kind === 'fraction'
        ? ' class="frac"'
        : run.value
          ? ' class="value"'
          : run.maker
            ? ' class="maker"'
            : ''
    const text = escapeXml(run.text)
    return shift === '' && own === '' && frac === '' ? text : `<tspan${frac}${own}${shift}>${text}</tspan>`
  })
  const anchor = hasSign ? 'start' : 'middle'
  const start = hasSign ? x - mark.box.width / 2 : x
  const size = ` font-size="${number(mark.size)}"`
  const text = `<text class="${mark.class}${mark.maker ? ' maker' : ''}${mark.value ? ' value' : ''}"${name} x="${number(start)}" y="${number(y)}"${size} text-anchor="${anchor}" xml:space="preserve"${turn}>${runs.join('')}</text>`
  return hasSign ? text + diameterSign(mark, start, y) : text
}

const turnOf = ({ turned, headDown, at }: TextMark, flip: (point: Point) => Point): string => {
  if (!turned && !headDown) return ''
  const about = flip(headDown ?? at)
  return ` transform="rotate(${headDown ? 180 : -90} ${number(about.x)} ${number(about.y)})"`
}

function diameterSign(mark: TextMark, start: number, y: number): string {
  const before = mark.runs.findIndex((run) => run.kind === 'diameter')
  const ahead = textWidth(mark.runs.slice(0, before), mark.size)
  const r = 0.29 * mark.size
  const x = start + ahead + 0.42 * mark.size
  const middle = y - (capitalHeight * mark.size) / 2
  const stroke = `M${number(x - r)} ${number(middle + r * 1.35)}L${number(x + r)} ${number(middle - r * 1.35)}`
  return `<path class="sign" d="${circlePath(x, middle, r)}${stroke}"/>`
}

/** Three decimals: a micrometre on paper. */
function number(value: number): string {
  const text = (Math.round(value * 1000) / 1000).toString()
  return text === '-0' ? '0' : text
}

function escapeXml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
}
