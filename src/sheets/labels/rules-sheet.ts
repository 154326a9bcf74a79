/** What labels are written by: region, rules with their sections, and what must be entered before a sale, of shop and recipes. */
import type { ShopRules } from '../../binder/bind-labels.ts'
import { blank, finishSheet, inlineList, maker, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Column, Inline, Sheet, Table } from '../model.ts'
import { labelSources, RULES_PLACE } from './label-sources.ts'

export const rulesSheet = (frame: Frame, rules: ShopRules): Sheet => {
  const { say, template } = frame
  const { selling } = rules
  return finishSheet({
    ...frame.sheet(
      'label',
      RULES_PLACE.id,
      say('section.label'),
      RULES_PLACE.number,
      say('label.rules.title'),
    ),
    template: template('label-rules'),
    fill: {},
    blocks: {
      law: {
        kind: 'cautions',
        signal: 'notice',
        heading: say('label.law.heading'),
        items: [
          say('label.law'),
          say('label.law.wording'),
          // whoever reads a label may speak another language than who prints it
          ...(frame.onLabel.language === frame.language
            ? []
            : [say('label.law.language', { language: frame.onLabel.name })]),
        ],
      },
      about: {
        kind: 'facts',
        size: 'plain',
        items: [
          { label: say('label.about.region'), cell: words(say(`label.region.${selling.region}`)) },
          { label: say('label.about.language'), cell: maker(frame.onLabel.name) },
          { label: say('label.about.status'), cell: words(say(`label.status.${rules.gates.status}`)) },
          {
            label: say('label.about.convention'),
            cell: words(say(`label.convention.${selling.ingredients ?? 'as-put-in'}`)),
          },
          {
            label: say('label.about.weight'),
            cell: words(say(`label.rule.weight.${selling.weight ?? 'least'}`)),
          },
        ],
      },
      rules: rulesTable(frame, rules),
      gates: gatesTable(frame, rules),
      recipes: recipesTable(frame, rules),
    },
    sources: pickSources(frame.sources, [...labelSources(selling.region, rules.gates.status)]),
  })
}

const known = ({ say }: Frame, evidence: 'read' | 'recalled'): Cell => words(say(`label.known.${evidence}`))

const column = ({ say }: Frame, key: string, width?: number): Column => ({
  head: say(`label.column.${key}`),
  align: 'left',
  ...(width === undefined ? {} : { width }),
})

const rulesTable = (frame: Frame, { rules }: ShopRules): Table => ({
  kind: 'table',
  caption: frame.say('label.rules.caption'),
  columns: [column(frame, 'rule'), column(frame, 'section', 25), column(frame, 'known', 17)],
  rows: rules.map(({ rule, section, evidence }) => [
    words(frame.say(`label.rule.${rule}`)),
    section === undefined ? words(frame.say('label.rule.no-section')) : maker(section),
    known(frame, evidence),
  ]),
})

/** An entry of the shop; a line to write on where it has none, since some are of one recipe alone. */
const gatesTable = (frame: Frame, { gates, recipes, keeps }: ShopRules): Table => {
  const { say, show } = frame
  const entry = (gate: string, text: string, date: string | undefined): Inline =>
    date === undefined
      ? say('label.gates.entered', { text })
      : say('label.gates.entered-on', { text, date: show.date(`label.gate.${gate}.date`, date) })
  const isByRecipe = (gate: string): boolean =>
    recipes.some((recipe) => recipe.gates.gates.some((one) => one.gate === gate && !one.open))
  return {
    kind: 'table',
    caption: say('label.gates.caption'),
    columns: [
      column(frame, 'gate', 28),
      column(frame, 'section', 20),
      column(frame, 'known', 17),
      column(frame, 'entered'),
    ],
    rows: gates.gates.map((one): Cell[] => [
      words(say(`label.gate.${one.gate}`)),
      maker(one.section),
      known(frame, one.evidence),
      one.gate === 'durability' && keeps !== undefined
        ? words(say('label.gates.keeps', { days: show.days('label.keeps', keeps) }))
        : one.entry && !one.open
          ? words(entry(one.gate, one.entry.text, one.entry.date))
          : isByRecipe(one.gate)
            ? words(say('label.gates.by-recipe'))
            : blank(),
    ]),
  }
}

const recipesTable = (frame: Frame, { recipes }: ShopRules): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('label.recipes.caption'),
    columns: [column(frame, 'recipe', 28), column(frame, 'open-count', 12), column(frame, 'open')],
    rows: recipes.map(({ key, title, gates }): Cell[] => {
      const open = gates.gates.filter((one) => one.open && one.due === 'before-sale')
      return [
        maker(title),
        number(show.count(`label.open.${key}`, open.length)),
        words(
          inlineList(
            say,
            open.map(({ gate }) => say(`label.gate.${gate}`)),
            say('label.recipes.none-open'),
          ),
        ),
      ]
    }),
  }
}
