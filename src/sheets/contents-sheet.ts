/** The contents of a binder. */
import { finishSheet } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Inline, Sheet } from './model.ts'

/**
 * Every other sheet with its number; page numbers are filled in when it is printed.
 * @param template of a process, which tells its readers how a sheet is read
 * @param blocks   that the template names beside the contents
 * @param marked   a title with what somebody should know before its page is looked up
 */
export const contentsSheet = (
  frame: Frame,
  others: readonly Sheet[],
  template: string,
  blocks: Readonly<Record<string, Block>> = {},
  marked: (sheet: Sheet, title: Inline) => Inline = (_, title) => title,
): Sheet =>
  finishSheet({
    ...frame.sheet('contents', 'contents', frame.say('section.front'), '1.2', frame.say('contents.title')),
    template: frame.template(template),
    fill: {},
    blocks: {
      ...blocks,
      contents: {
        kind: 'contents',
        entries: others.map((sheet) => ({
          anchor: sheet.anchor,
          number: sheet.number,
          title: sheet.stopped
            ? frame.say('contents.stopped', { title: titleOf(sheet) })
            : marked(sheet, titleOf(sheet)),
        })),
      },
    },
    sources: [],
  })

/** A sheet's title as another sheet names it: its values keep the id of the sheet that they are of. */
const titleOf = ({ id, title }: Pick<Sheet, 'id' | 'title'>): Inline => ({
  text: title.text,
  fill: Object.fromEntries(
    Object.entries(title.fill).map(([key, filling]) => [
      key,
      typeof filling === 'string' || 'text' in filling
        ? filling
        : { ...filling, name: `${id}:${filling.name}` },
    ]),
  ),
})
