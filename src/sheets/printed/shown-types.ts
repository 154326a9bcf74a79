/** What a printed sheet showed, as it is kept and compared: plain data, nothing of the sheet's own making. */

export interface ShownValue {
  readonly name: string
  readonly shown: string
  /** SI, or what kind of text it is: `kg`, `date` */
  readonly unit: string
  /** where it stands, in words of the sheet: `NaOH, Weigh` */
  readonly label: string
}

export interface ShownLine {
  /** a value as `[[name]]`; cells of a row are divided by a tab */
  readonly text: string
  /** what somebody may be hurt by who reads an old one */
  readonly about?: 'caution' | 'contact'
}

export interface ShownDrawing {
  readonly label: string
  /** SHA-256 of the drawing, in hexadecimal figures */
  readonly hash: string
}

export interface ShownSheet {
  readonly id: string
  readonly language: string
  readonly number: string
  readonly section: string
  readonly title: string
  /** every value, drawn ones too, in the order in which the sheet names them */
  readonly values: readonly ShownValue[]
  /** text of the sheet from top to bottom */
  readonly lines: readonly ShownLine[]
  readonly drawings: readonly ShownDrawing[]
}
