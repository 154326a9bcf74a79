/**
 * The shapes that the drawing engine passes along: model points in metres, paper marks in millimetres, and the
 * finished drawing.
 */

/** A point of a view: to the right and up; model [m] or paper [mm] as the user says. */
export interface Point {
  readonly x: number
  readonly y: number
}

/** Rectangle by its corner with the smallest x and y. */
export interface Rect {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export type LineClass =
  | 'visible'
  | 'hidden'
  | 'centre'
  | 'phantom'
  | 'dimension'
  | 'extension'
  | 'section'
  | 'hatch'
  | 'break'

/** One thing on paper [mm, y up]. */
export type Mark =
  | { readonly kind: 'line'; readonly class: LineClass; readonly a: Point; readonly b: Point }
  | {
      readonly kind: 'outline'
      readonly class: LineClass
      readonly points: readonly Point[]
      readonly closed: boolean
    }
  | { readonly kind: 'circle'; readonly class: LineClass; readonly centre: Point; readonly radius: number }
  | { readonly kind: 'arrow'; readonly points: readonly Point[] }
  | TextMark

export interface TextMark {
  readonly kind: 'text'
  readonly class: 'dimension-text' | 'view-title' | 'note-text'
  /** a number with its unit, not words */
  readonly value?: boolean
  /** the maker's own words or data, not the catalogue's */
  readonly maker?: boolean
  /** name of the value that the text shows, if it shows one */
  readonly name?: string
  readonly runs: readonly TextRun[]
  /** middle of the baseline [mm] */
  readonly at: Point
  /** true when the text reads from the right-hand side of the sheet */
  readonly turned: boolean
  /** stands on its head: turned half round this point, which is a fold [mm] */
  readonly headDown?: Point
  /** [mm] */
  readonly size: number
  /** around ascenders and descenders [mm] */
  readonly box: Rect
}

/** A piece of text; `diameter` is the sign of a circle with a stroke, drawn rather than typed. */
export type TextRun =
  | {
      readonly kind: 'plain' | 'fraction'
      readonly text: string
      readonly name?: string
      /** a number with its unit among words */
      readonly value?: boolean
      /** the maker's own words or data among the catalogue's */
      readonly maker?: boolean
    }
  | { readonly kind: 'diameter' }

/** A length in the maker's unit, e.g. '2 1/4 in' with a narrow no-break space before the fraction. */
export type LengthFormatter = (metres: number) => { readonly shown: string }

export interface DrawnDimension {
  readonly name: string
  /** measured from the geometry [m] */
  readonly value: number
  readonly shown: string
  /** names of the feature coordinates that the dimension fixes */
  readonly locates: readonly string[]
  /** of the text, from the drawing's top left corner, y down [mm] */
  readonly box: Rect
}

export interface Drawing {
  readonly name: string
  readonly widthMm: number
  readonly heightMm: number
  readonly scale: Scale
  /** what it shows, for readers who cannot see it */
  readonly label: string
  readonly svg: string
  /** the elements inside the svg, for a page that carries several drawings */
  readonly body: string
  readonly dimensions: readonly DrawnDimension[]
}

/** Length on paper to length of the thing. */
export interface Scale {
  readonly paper: number
  readonly model: number
}

export type Projection = 'third-angle' | 'first-angle'

/** Sizes of dimensions and lettering on paper [mm]. */
export interface DrawingStyle {
  readonly textSize: number
  readonly titleSize: number
  readonly arrowLength: number
  readonly arrowWidth: number
  readonly firstRow: number
  readonly nextRow: number
  readonly extensionGap: number
  readonly overshoot: number
  readonly textLift: number
}

export const capitalHeight = 0.714 // of the type size: Noto Sans 400, OS/2 table of the font file (read)

export const drawingStyle: DrawingStyle = {
  textSize: 3.5 / capitalHeight, // capitals 3.5 mm, the ISO 3098 step above its smallest for print (from memory)
  titleSize: 3.5 / capitalHeight,
  arrowLength: 3, // 3:1 filled arrow (read)
  arrowWidth: 1,
  firstRow: 10, // outline to first dimension line (read)
  nextRow: 8, // between dimension lines (read)
  extensionGap: 1, // common practice (from memory)
  overshoot: 2, // common practice (from memory)
  textLift: 1, // common practice (from memory)
}
