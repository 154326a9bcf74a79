/** The emergency card: what is done first, and who is called, in letters that are read across the workbench. */
import { finishSheet, pickSources } from './compose.ts'
import { missingContacts, type ShopContacts } from './contacts.ts'
import type { Frame } from './frame.ts'
import type { Sheet } from './model.ts'
import { fixedLinks, PLACES } from './places.ts'

/** In the order in which they are looked for. */
const WHERE = ['eyes', 'skin', 'swallowed', 'breathed', 'spilt'] as const

/** @param contacts who to call, as the shop wrote it; a number is told by its digits */
export const emergencySheet = (frame: Frame, contacts: ShopContacts): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet(
      'emergency',
      PLACES.emergency.id,
      say('section.cautions'),
      PLACES.emergency.number,
      say('emergency.title'),
    ),
    template: frame.template('emergency'),
    fill: {},
    blocks: {
      aid: {
        kind: 'first-aid',
        always: say('emergency.always'),
        items: WHERE.map((where) => ({
          where: say(`emergency.${where}`),
          act: say(`emergency.${where}.act`, fixedLinks),
        })),
      },
      contacts: {
        kind: 'contacts',
        contacts: contacts.map(({ who, reach }) => (/\d/.test(reach) ? { who, reach } : { who })),
        toWrite: missingContacts(say, contacts),
      },
    },
    sources: pickSources(frame.sources, ['inrs20', 'nj-right-to-know', 'iso-9241-3', 'common-practice']),
  })
}
