/** Which format the files of a folder are in: a number in shop.yaml, so that a later program knows how to read them. */
import type { Diagnostic, SourceDocument } from '../diagnostics.ts'
import type { FolderFile } from './read-folder.ts'
import { valueBelow } from './schema-walk.ts'
import { readYaml } from './yaml.ts'

/** As this program writes it. */
export const FORMAT = 2
/** Of a folder that says nothing. */
export const FIRST_FORMAT = 1
/** The first format that `upgrade` can begin with. */
export const OLDEST_FORMAT = 1

const SHOP = 'shop.yaml'

export interface FoundFormat {
  readonly format: number
  readonly document?: SourceDocument
  /** missing where no line of the file says it */
  readonly isStated: boolean
}

/** Of the shop's file as it was typed; what is no whole number is left to the schema and counts as the present format. */
export const formatOf = (files: readonly FolderFile[]): FoundFormat => {
  const shop = files.find(({ below, refused }) => below === SHOP && !refused)
  const document = shop && readYaml(shop.file, shop.bytes).document
  if (!document) return { format: FORMAT, isStated: false }
  const typed = valueBelow(document.data, 'format')
  if (typed === undefined) return { format: FIRST_FORMAT, document, isStated: false }
  const isNumber = typeof typed === 'string' && /^\d{1,4}$/.test(typed.trim())
  return { format: isNumber ? Number(typed) : FORMAT, document, isStated: true }
}

/** What keeps a folder from being read at all; everything else in it would be told wrongly. */
export const formatFault = ({ format, document }: FoundFormat): Diagnostic | undefined => {
  if (!document) return undefined
  const common = { severity: 'error', file: document.file, path: '/format', at: 'value' } as const
  if (format > FORMAT)
    return {
      ...common,
      code: 'format-too-new',
      message: `This folder was written by a newer version of the program: its format is ${format}, and this program knows formats up to ${FORMAT}`,
      advice:
        'Get the newer program and use it for this folder. Do not lower the number: the newer program may mean something else by the same line.',
    }
  if (format < OLDEST_FORMAT)
    return {
      ...common,
      code: 'format-unknown',
      message: `There never was a format ${format}`,
      advice: `Take the line out, or run "npm run upgrade" with this folder; the format of this program is ${FORMAT}.`,
    }
  return undefined
}
