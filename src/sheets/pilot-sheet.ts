/** The pilot sheet: one loaf of an untried recipe, and what to write down so that the big batch may go. */
import type { BoundPilot } from '../binder/bind-pilot.ts'
import { additionWords } from './batch/weights.ts'
import { box, empty, finishSheet, maker, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Cell, Sheet, Step, Table } from './model.ts'
import { fixedLinks } from './places.ts'

/** @param order place in the batch section, after the batches */
export const pilotSheet = (frame: Frame, pilot: BoundPilot, order: number): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet(
      'pilot',
      `pilot/${pilot.recipeKey}`,
      say('section.batch'),
      `4.${order}`,
      say('pilot.title', { recipe: pilot.recipeTitle }),
    ),
    template: frame.template('pilot'),
    fill: {},
    blocks: {
      weights: weights(frame, pilot),
      steps: { kind: 'steps', first: 1, items: steps(frame, pilot) },
      record: {
        kind: 'table',
        style: 'log',
        columns: [
          { head: say('pilot.record.what'), align: 'left', width: 50 },
          { head: say('pilot.record.written'), align: 'left' },
        ],
        rows: ['minutes', 'behaviour', 'peak', 'cut', 'test', 'verdict'].map((key) => [
          words(say(`pilot.record.${key}`)),
          empty,
        ]),
      },
    },
    sources: [],
  })
}

const weights = (frame: Frame, pilot: BoundPilot): Table => {
  const { say, show } = frame
  const row = (what: Cell, name: string, plan: BoundPilot['water']): Cell[] => [
    what,
    number(show.weight(`pilot.${name}`, plan.sum, plan.scale.division)),
    box,
  ]
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('pilot.weights'),
    columns: [
      { head: say('batch.weights.what'), align: 'left' },
      { head: say('batch.oils.target'), align: 'right', width: 24, main: true },
      { head: say('batch.oils.done'), align: 'centre', width: 10 },
    ],
    rows: [
      ...pilot.fats.map(({ key, name, plan }) => row(maker(name), `fat.${key}.mass`, plan)),
      ...pilot.alkalis.map(({ kind, name, plan }) => row(maker(name), `${kind.toLowerCase()}.mass`, plan)),
      row(
        pilot.formula.liquid ? maker(pilot.formula.liquid.name) : words(say('batch.weights.water')),
        'water.mass',
        pilot.water,
      ),
      ...pilot.additions.map((addition) =>
        row(words(additionWords(frame, addition)), `addition.${addition.key}.mass`, addition.plan),
      ),
    ],
  }
}

const steps = ({ say, show }: Frame, pilot: BoundPilot): Step[] => [
  { text: say('pilot.step.wear') },
  { text: say('pilot.step.oils') },
  {
    caution: { signal: 'danger', words: say('batch.lye.portion-caution') },
    text: say('pilot.step.lye', {
      portions: show.count('pilot.portions', pilot.lye.portions.length),
      peak: show.temperature('pilot.lye.peak', pilot.lye.peak),
      below: show.temperature('pilot.lye.nextBelow', pilot.lye.waitBelow),
    }),
  },
  {
    text: say('pilot.step.blend', {
      temperature: show.temperature('pilot.pour.temperature', pilot.pourTemperature),
    }),
  },
  { text: say('pilot.step.watch') },
  { text: say('pilot.step.enter', fixedLinks) },
]
