/** The emergency card: what is done first, and who is called, in letters that are read across the workbench. */
import { finishSheet, pickSources } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Sheet } from './model.ts'

/** In the order in which they are looked for. */
const WHERE = ['eyes', 'skin', 'swallowed', 'breathed', 'spilt'] as const

/** @param contacts who to call, as the shop wrote it; a number is told by its digits */
export const emergencySheet = (
  frame: Frame,
  contacts: readonly { readonly who: string; readonly reach: string }[],
): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet('emergency', 'cautions/emergency', say('section.cautions'), '2.2', say('emergency.title')),
    template: frame.template('emergency'),
    fill: {},
    blocks: {
      aid: {
        kind: 'first-aid',
        always: say('emergency.always'),
        items: WHERE.map((where) => ({
          where: say(`emergency.${where}`),
          act: say(`emergency.${where}.act`),
        })),
      },
      contacts: {
        kind: 'contacts',
        contacts: contacts.map(({ who, reach }) => (/\d/.test(reach) ? { who, reach } : { who })),
      },
    },
    sources: pickSources(frame.sources, ['inrs20', 'nj-right-to-know', 'iso-9241-3', 'common-practice']),
  })
}
