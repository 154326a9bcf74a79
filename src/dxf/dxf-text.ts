/** A router file as the text of a DXF: the only import of the library that writes it. */
import { DxfWriter, LWPolylineFlags, point3d, Units } from '@tarikjabiri/dxf'
import type { RouterFile, RouterLayer, RouterPoint, RouterWork } from '../router/router-file.ts'

/** Layer of what is only read. */
export const NOTES_LAYER = 'NOTES_NO_CUT'

/** Colours of the old index that every reader knows: work in full colours, what is not cut in grey. */
const COLOURS: Readonly<Record<RouterWork, number>> = {
  outline: 7,
  hole: 1,
  recess: 6,
  dado: 5,
  groove: 4,
  rebate: 3,
  scribe: 2,
  fold: 2,
  'done-outline': 8,
  'done-hole': 8,
}

/** mm; letters of the notes, from line to line, and from the part to the nearest of them */
const LETTERS = 4
const LINE = 7
const ABOVE = 10

/**
 * The text of a file.
 *
 * Millimetres are declared, shapes are at height 0, notes stand above the part on a layer of their own. No date and no
 * name of a machine: the same file gives the same bytes.
 *
 * @param file  shapes on layers [mm]
 * @param notes lines of words; what is not ASCII is put into it
 * @returns text with line feeds, ASCII alone
 */
export const dxfText = (file: RouterFile, notes: readonly string[]): string => {
  const writer = new DxfWriter()
  const top = Math.ceil(file.width + ABOVE + Math.max(0, notes.length - 1) * LINE + LETTERS)
  writer.setUnits(Units.Millimeters)
  writer.setVariable('$MEASUREMENT', { 70: 1 })
  writer.setVariable('$LASTSAVEDBY', { 1: '' })
  writer.setVariable('$EXTMIN', { 10: 0, 20: 0, 30: 0 })
  writer.setVariable('$EXTMAX', { 10: file.length, 20: top, 30: 0 })
  for (const layer of file.layers) addLayer(writer, layer)
  writer.addLayer(NOTES_LAYER, 8, 'Continuous')
  writer.setCurrentLayerName(NOTES_LAYER)
  for (const [index, note] of notes.entries())
    writer.addText(
      point3d(0, file.width + ABOVE + (notes.length - 1 - index) * LINE),
      LETTERS,
      plainAscii(note),
    )
  writer.setZeroLayerAsCurrent()
  // The view that opens would carry the noise of floating sums; it is the whole file.
  writer.modelSpace.centerView = () => point3d(half(file.length), half(top))
  writer.modelSpace.viewHeight = () => Math.ceil(Math.max(top, file.length))
  return writer.stringify()
}

const addLayer = (writer: DxfWriter, { name, work, shapes }: RouterLayer): void => {
  writer.addLayer(name, COLOURS[work], 'Continuous')
  writer.setCurrentLayerName(name)
  for (const shape of shapes) {
    if (shape.kind === 'circle') writer.addCircle(at(shape.centre), shape.radius)
    else if (shape.kind === 'line') writer.addLine(at(shape.from), at(shape.to))
    else
      writer.addLWPolyline(
        shape.points.map((point) => ({ point })),
        { flags: LWPolylineFlags.Closed },
      )
  }
}

const at = ({ x, y }: RouterPoint) => point3d(x, y, 0)
const half = (size: number): number => Math.round(size / 2)

/** Signs that words carry and ASCII lacks. */
const SIGNS: Readonly<Record<string, string>> = {
  '’': "'",
  '‘': "'",
  '“': '"',
  '”': '"',
  '″': '"',
  '′': "'",
  '–': '-',
  '—': '-',
  '−': '-',
  '·': '.',
  '×': 'x',
  '÷': '/',
  '⁄': '/',
  '°': ' deg',
  '±': '+-',
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '…': '...',
  ß: 'ss',
  æ: 'ae',
  Æ: 'AE',
  œ: 'oe',
  Œ: 'OE',
  ø: 'o',
  Ø: 'O',
}

/**
 * Words in ASCII: signs spelt out, accents dropped, anything else a question mark. The codes that readers take for a
 * sign (two percent signs, a caret) or for a new line are parted.
 */
export const plainAscii = (text: string): string =>
  [...text]
    .map((character) => SIGNS[character] ?? character)
    .join('')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/\s+/g, ' ')
    .replace(/[^ -~]/g, '?')
    .replace(/\^/g, "'")
    .replace(/%(?=%)/g, '% ')
    .replace(/\\(?=[A-Za-z])/g, '/')
    .trim()
