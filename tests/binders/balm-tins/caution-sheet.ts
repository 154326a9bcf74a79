/** Hot wax, fire and allergies: the page that hangs beside the stove. */
import {
  finishSheet,
  inlineNumbers,
  maker,
  nothing,
  pickSources,
  words,
} from '../../../src/sheets/compose.ts'
import type { Frame } from '../../../src/sheets/frame.ts'
import { linkTo } from '../../../src/sheets/links.ts'
import type { Block, Inline, Sheet, Steps } from '../../../src/sheets/model.ts'
import type { BalmBinder } from './bind.ts'
import { BALM_PLACES, placeOf } from './words.ts'

/** s; how long a burn is cooled. @source first-aid-burns */
const COOL_BURN = 20 * 60

const RULES = ['bath', 'blanket', 'water', 'wear', 'stay', 'hottest', 'dry', 'carry'] as const

export const waxSheet = (frame: Frame, { content, batches }: BalmBinder): Sheet => {
  const { say, show } = frame
  const { hottest } = content.shop.value.heating
  const { contacts } = content.shop.value
  const { id, number: sheetNumber } = BALM_PLACES.wax
  const pours = batches.map(({ figures }) => figures.pourAt)
  const flash = [...content.materials.values()].flatMap(({ value }) => value['flash-point'] ?? [])
  const lowest = flash.reduce((low, { at }) => Math.min(low, at), Number.POSITIVE_INFINITY)
  return finishSheet({
    ...frame.sheet('cautions', id, say('section.cautions'), sheetNumber, say('wax.title')),
    template: frame.template('balm-wax'),
    fill: { 'allergy-note': say('wax.allergy.note') },
    blocks: {
      hazards: {
        kind: 'cautions',
        signal: 'danger',
        heading: say('wax.hazards.heading'),
        items: [
          ...(pours.length > 0
            ? [say('wax.hazards.burn', { pour: show.temperature('pour.hottest', Math.max(...pours)) })]
            : []),
          flash.length > 0
            ? say('wax.hazards.flame', { flash: show.temperature('flash', lowest) })
            : say('wax.hazards.flame-unsaid'),
        ],
      },
      aid: {
        kind: 'cautions',
        signal: 'danger',
        heading: say('wax.aid.heading'),
        items: ['fire', 'skin', 'eyes', 'clothes'].map((key) =>
          say(`wax.aid.${key}`, { minutes: show.minutes('burn.cool', COOL_BURN) }),
        ),
      },
      contacts: {
        kind: 'table',
        columns: [
          { head: say('wax.contacts.who'), align: 'left', width: 30 },
          { head: say('wax.contacts.reach'), align: 'left' },
        ],
        rows: contacts.map(({ who, reach }) => [maker(who), maker(reach)]),
      },
      rules: ticks(
        RULES.map((key) => say(`wax.rules.${key}`, { hottest: show.temperature('hottest', hottest) })),
      ),
      allergies: allergyTable(frame, { content, batches }),
    },
    sources: pickSources(frame.sources, [
      'first-aid-burns',
      ...flash.map(({ source }) => source),
      'common-practice',
    ]),
  })
}

const ticks = (items: readonly Inline[]): Steps => ({
  kind: 'steps',
  first: 1,
  items: items.map((text) => ({ text })),
})

/** What is in any batch, and in which. */
const allergyTable = ({ say, show }: Frame, { content, batches }: BalmBinder): Block => {
  const rows = [...content.materials.values()].flatMap(({ key, value: { name, allergen } }) => {
    const of = batches.flatMap((batch, index) =>
      Object.hasOwn(content.recipes.get(batch.file.value.recipe)?.value.parts ?? {}, key)
        ? [linkTo(placeOf('batch', batch, index))]
        : [],
    )
    return allergen === undefined || of.length === 0
      ? []
      : [[maker(name), maker(allergen), words(inlineNumbers(show, of))]]
  })
  if (rows.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('wax.allergy.caption'),
    columns: [
      { head: say('wax.allergy.what'), align: 'left', width: 30 },
      { head: say('wax.allergy.from'), align: 'left' },
      { head: say('wax.allergy.in'), align: 'left', width: 18 },
    ],
    rows,
  }
}
