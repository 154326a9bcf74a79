/** Router files as they are written beside the binder: their paths, and the words in them. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { RouterPart, RouterSet } from '../../binder/bind-router-files.ts'
import { type Chamfer, isChamfer } from '../../geometry/part.ts'
import type { RouterFile } from '../../router/router-file.ts'
import { inlineWords } from '../compose.ts'
import { partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'
import { cutLater } from '../mould/steps.ts'

export interface WrittenRouterFile {
  /** below the output folder */
  readonly path: string
  readonly file: RouterFile
  readonly notes: readonly string[]
}

/** Folder of a set of fixtures, below the output folder. */
export const folderOf = ({ key }: Pick<RouterSet, 'key'>): string => `dxf/${key}`

export const nameOf = ({ name }: RouterFile): string => `${name}.dxf`

/** @returns every file of a binder, with the notes that stand in it */
export const routerFilesOf = (
  frame: Frame,
  { routerSets }: Pick<BoundBinder, 'routerSets'>,
): readonly WrittenRouterFile[] =>
  routerSets.flatMap((set) =>
    set.groups.flatMap(({ parts }) =>
      parts.flatMap((part) =>
        part.files.map((file) => ({
          path: `${folderOf(set)}/${nameOf(file)}`,
          file,
          notes: notesOf(frame, part, file).map(inlineWords),
        })),
      ),
    ),
  )

/** What whoever opens a file has to know before anything is cut, a line each. */
const notesOf = (frame: Frame, { part, board, files }: RouterPart, file: RouterFile): readonly Inline[] => {
  const { say, show } = frame
  const other = files.find((one) => one !== file)
  const mm = (value: number) => show.millimetres('', value)
  return [
    say('router.note.part', { part: partName(frame, part), count: show.count('', part.count) }),
    say('router.note.size', {
      length: mm(part.length),
      width: mm(part.width),
      thickness: mm(part.thickness),
      board,
    }),
    say(`router.note.up-${file.face}`),
    ...(other ? [say(`router.note.set-up-${file.setUp}`, { file: nameOf(other) })] : []),
    say(`router.note.datum-${file.face}`),
    say('router.note.lines'),
    ...(part.grainless ? [] : [say(`router.note.grain-${part.grain}`)]),
    ...part.features
      .filter(isChamfer)
      .map(({ edges, size }: Chamfer) =>
        say(edges === 'short' ? 'router.note.bevel-short' : 'router.note.bevel-long', { size: mm(size) }),
      ),
    ...(cutLater(part.key) === undefined ? [] : [say('router.note.later')]),
    say('router.note.edition', { shop: frame.shopName, edition: frame.issued }),
  ]
}
