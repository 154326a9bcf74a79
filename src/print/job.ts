/** What is handed to the printer (one complete document and its sheets) and what comes back. */

/** A paper size as the maker names it; width is the short side. [mm] */
export interface PaperSize {
  readonly name: 'Letter' | 'A4'
  readonly width: number
  readonly height: number
}

/** The two paper sizes of a binder, upright. [mm] (Letter 8.5 × 11 in, A4 of ISO 216: both read) */
export const PAPER_SIZES: Readonly<Record<PaperSize['name'], PaperSize>> = {
  Letter: { name: 'Letter', width: 215.9, height: 279.4 },
  A4: { name: 'A4', width: 210, height: 297 },
}

export interface PrintBookmark {
  readonly title: string
  /** html id inside the sheet */
  readonly anchor: string
}

/** The three words of a sheet's foot line. */
export interface SheetFoot {
  /** beside the spine: the shop, the sheet's title */
  readonly inner: string
  /** revision and date */
  readonly middle: string
  /** `{x}` becomes the page within the sheet, `{y}` the sheet's page count */
  readonly pageOf: string
}

export interface PrintSheet {
  /** stable name, such as `batch/2027-03-14-oat` */
  readonly id: string
  /** html id of its `<section class="sheet">` */
  readonly anchor: string
  readonly title: string
  readonly foot: SheetFoot
  readonly orientation: 'portrait' | 'landscape'
  /** a full-size template page: narrow margins, but the binding margin stays */
  readonly bleedFree?: boolean
  /** a page that is printed on paper of its own, such as labels: its sizes as it lies, no margins, no foot line [mm] */
  readonly wholePage?: { readonly width: number; readonly height: number }
  /** second level of the PDF's bookmarks */
  readonly bookmarks: readonly PrintBookmark[]
}

/** Margins of an upright right-hand page; `inner` is the binding margin. [mm] */
export interface PrintMargins {
  readonly inner: number
  readonly outer: number
  readonly top: number
  readonly bottom: number
}

/** Two settings, since a binder printed on one side may still start its sheets on right-hand pages. */
export interface DuplexSettings {
  /** put in blank pages so that every sheet starts on an odd page */
  readonly rightHandStarts: boolean
  /** the binding margin changes sides from page to page */
  readonly mirroredMargins: boolean
}

export interface PrintJob {
  /** complete document, everything inlined; each sheet one `<section class="sheet" id=anchor>`, in the order of `sheets` */
  readonly html: string
  readonly sheets: readonly PrintSheet[]
  readonly paper: PaperSize
  readonly margins: PrintMargins
  readonly duplex: DuplexSettings
  /** language tag, such as `en` */
  readonly language: string
  readonly title: string
  /** YYYY-MM-DD, becomes both dates of the PDF */
  readonly issued: string
  readonly author: string
  /** names of fonts that the PDF may hold; `NotoSans` allows `NotoSans-Bold` */
  readonly fontFamilies: readonly string[]
  /** `{n}` becomes the binder's page number, at the outer end of the foot line */
  readonly pageNumberWords: string
}

/** The browser that prints. */
export interface PrintBrowser {
  readonly path: string
  readonly arguments: readonly string[]
  /** made by the browser, removed afterwards */
  readonly profileFolder: string
  /** overall limit; the usual one when left out [s] */
  readonly limitSeconds?: number
  /** limit for its start; the usual one when left out [s] */
  readonly startSeconds?: number
}

/** Where a sheet stands in the printed binder, pages counted from 1. */
export interface PrintedSheet {
  readonly id: string
  readonly firstPage: number
  readonly pages: number
}

export interface PrintedBinder {
  readonly pdf: Uint8Array
  readonly sheets: readonly PrintedSheet[]
  readonly pageCount: number
  /** page of every id that something points to */
  readonly anchors: Readonly<Record<string, number>>
  /** classes that each sheet got, in their order, to keep to one page */
  readonly narrower: readonly (readonly string[])[]
  /** page rules of each sheet, in their order, for whoever prints it without the rest: its paper comes out the same */
  readonly alone: readonly string[]
  /** such as `HeadlessChrome/147.0.7727.0` */
  readonly browserVersion: string
  readonly stages: readonly { readonly name: string; readonly seconds: number }[]
}
