/** The contents of a binder. */
import { finishSheet, holdsOf } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Inline, Sheet } from './model.ts'

/**
 * Every other sheet with its number; page numbers are filled in when it is printed.
 * @param template of a process, which tells its readers how a sheet is read
 * @param blocks   that the template names beside the contents
 */
export const contentsSheet = (
  frame: Frame,
  others: readonly Sheet[],
  template: string,
  blocks: Readonly<Record<string, Block>> = {},
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
          title: markedTitle(frame, sheet),
        })),
      },
    },
    sources: [],
  })

/** With what somebody should know before its page is looked up: that it must not be used, or its bars must not leave. */
const markedTitle = ({ say }: Frame, sheet: Sheet): Inline => {
  const title = titleOf(sheet.id, sheet.title)
  if (sheet.stopped) return say('contents.stopped', { title })
  return holdsOf(sheet).length > 0 ? say('contents.held', { title }) : title
}

/** A sheet's title as another sheet names it: its values keep the id of the sheet that they are of. */
const titleOf = (id: string, title: Inline): Inline => ({
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
