/** A binder that was built, read back from its folder. */
import type { BinderData } from '../../src/sheets/binder-data.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { readStructure, type StructureRead } from '../print/kitchen-sink/read-back.ts'
import type { Read } from '../print/legible.ts'
import { type Element, readHtml } from '../sites/html.ts'
import { bytesBelow } from './run-command.ts'

export interface BuiltBinder {
  readonly files: Map<string, Buffer>
  readonly data: BinderData
  readonly pdf: Uint8Array
  readonly structure: StructureRead
  /** a page taken apart, once: most are asked for many times */
  readonly rootOf: (name: string) => Element
  /** sheets with their pages, for tests of letters */
  readonly printed: (sheets: readonly Sheet[]) => Read
}

export const builtBinder = async (out: string): Promise<BuiltBinder> => {
  const files = bytesBelow(out)
  const data = JSON.parse(String(files.get('binder.json'))) as BinderData
  const pdf = new Uint8Array(files.get('binder.pdf') as Buffer)
  const structure = await readStructure(pdf)
  const roots = new Map<string, Element>()
  const rootOf = (name: string): Element => {
    const root = roots.get(name) ?? readHtml(String(files.get(name)))
    roots.set(name, root)
    return root
  }
  return {
    files,
    data,
    pdf,
    structure,
    rootOf,
    printed: (sheets) => ({
      texts: structure.sizes,
      pdf,
      sheets: sheets.map((sheet, index) => ({
        sheet,
        ...(data.sheets[index] as BinderData['sheets'][number]),
        root: rootOf(`sheets/${sheet.anchor}.html`),
      })),
    }),
  }
}
