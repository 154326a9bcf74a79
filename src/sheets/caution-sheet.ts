/** Lye, batter and first aid: the pages that hang where the work is done. */
import { empty, finishSheet, maker, pickSources, type Say, words } from './compose.ts'
import { missingContacts, type ShopContacts } from './contacts.ts'
import type { Frame } from './frame.ts'
import type { Cautions, Inline, Sheet, Signal, Steps } from './model.ts'
import { fixedLinks } from './places.ts'

/** Official CLP statements for sodium hydroxide; their wordings stand in the catalogue with their source. */
const OFFICIAL = [
  'h314',
  'h290',
  'p280',
  'p301-p330-p331',
  'p303-p361-p353',
  'p305-p351-p338',
  'p310',
] as const

/** The sheet of cautions. @param contacts who to call, as the shop wrote it */
export const cautionSheet = (frame: Frame, contacts: ShopContacts): Sheet => {
  const { say } = frame
  const list = (signal: Signal, heading: Inline | undefined, keys: readonly string[]): Cautions => ({
    kind: 'cautions',
    signal,
    ...(heading ? { heading } : {}),
    items: keys.map((key) => say(key)),
  })
  return finishSheet({
    ...frame.sheet('cautions', 'cautions/lye', say('section.cautions'), '2.1', say('cautions.title')),
    template: frame.template('cautions'),
    fill: fixedLinks,
    blocks: {
      'lye-hazards': {
        ...list('danger', say('cautions.hazards.heading'), []),
        items: [
          ...OFFICIAL.map((code) => say(`official.${code}`)),
          say('cautions.hazards.dilute'),
          say('cautions.hazards.always'),
        ],
      },
      'first-aid': list(
        'danger',
        say('cautions.aid.heading'),
        ['eyes', 'skin', 'swallowed', 'breathed', 'never'].map((key) => `cautions.aid.${key}`),
      ),
      contacts: {
        kind: 'table',
        caption: say('cautions.contacts.caption'),
        columns: [
          { head: say('cautions.contacts.who'), align: 'left', width: 30 },
          { head: say('cautions.contacts.reach'), align: 'left' },
        ],
        rows: [
          ...contacts.map(({ who, reach }) => [maker(who), maker(reach)]),
          ...missingContacts(say, contacts).map((who) => [words(who), empty]),
        ],
      },
      before: ticks(
        say,
        ['two', 'out', 'water', 'air', 'metal', 'floor'].map((key) => `cautions.before.${key}`),
      ),
      during: list(
        'warning',
        undefined,
        ['order', 'portions', 'cover', 'carry'].map((key) => `cautions.during.${key}`),
      ),
      batter: list(
        'warning',
        say('cautions.batter.heading'),
        ['hot', 'cut', 'rags'].map((key) => `cautions.batter.${key}`),
      ),
    },
    sources: pickSources(frame.sources, ['clp', 'inrs20', 'nj-right-to-know', 'common-practice']),
  })
}

const ticks = (say: Say, keys: readonly string[]): Steps => ({
  kind: 'steps',
  first: 1,
  items: keys.map((key) => ({ text: say(key) })),
})
