/** The recipe sheet: a formula explained by its chemistry, for the maker at the desk. */
import type { BoundRecipe, RecipeFat } from '../binder/bind-recipe.ts'
import { finishSheet, maker, number, pickSources } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Sheet } from './model.ts'
import { acidTable, chemistryFacts, makeUpFigure } from './recipe-acids.ts'
import { additionTable, certificateNotes, lyeFacts } from './recipe-lye.ts'
import { causeTable, formulaTable, keepingNotice, productFacts, superfatFacts } from './recipe-tables.ts'
import { remedyWords } from './remedies.ts'
import { findingsWords } from './stop-sheet.ts'

/** @param order place among the recipe sheets, from 1: its number is 3.order */
export const recipeSheet = (frame: Frame, bound: BoundRecipe, order: number): Sheet => {
  const { say } = frame
  const covered = bound.makeUp.covered > 0
  const stopped = bound.stops.length > 0
  const blocks: Record<string, Block> = {
    ...(stopped ? { state: stopStamp(frame, bound) } : {}),
    formula: formulaTable(frame, bound),
    notes: notes(frame, bound),
    lye: lyeFacts(frame, bound),
    additions: additionTable(frame, bound),
    ...(covered
      ? { 'make-up': makeUpFigure(frame, bound.makeUp), acids: acidTable(frame, bound.makeUp) }
      : {}),
    figures: chemistryFacts(frame, bound),
    superfat: superfatFacts(frame, bound),
    causes: causeTable(frame, bound),
    remedies: {
      kind: 'cautions',
      signal: 'notice',
      heading: say('remedy.heading'),
      items: remedyWords(frame, bound),
    },
    // Of what must not be made no amounts are printed.
    ...(stopped ? {} : { products: productFacts(frame, bound) }),
    keeping: keepingNotice(frame, bound),
    tried: tried(frame, bound),
  }
  return finishSheet({
    ...frame.sheet(
      'recipe',
      `recipe/${bound.key}`,
      say('recipe.section'),
      `3.${order}`,
      say('recipe.title', { recipe: bound.title }),
    ),
    template: without(frame.template('recipe'), blocks),
    fill: {},
    blocks,
    sources: pickSources(frame.sources, [
      ...bound.fats.flatMap(sourcesUsed),
      ...(bound.fats.some(({ certificate }) => certificate) ? ['certificate'] : []),
      'iupac-atomic-weights',
      'aocs-cd-3a',
      'aocs-cd-1c',
      'jcgm100',
      'jcgm101',
      'common-practice',
    ]),
  })
}

/** Keys of what this sheet says about a fat. */
const sourcesUsed = ({ entry }: RecipeFat): string[] => [
  entry['saponification-value'].source,
  ...(entry['fatty-acids'] ? [entry['fatty-acids'].source] : []),
  ...(entry.unsaponifiable ? [entry.unsaponifiable.source] : []),
  ...(entry.kind === 'wax' && entry['iodine-value'] ? [entry['iodine-value'].source] : []),
]

/** Leaves out the places of blocks that this recipe does not have, and headings that stand over nothing then. */
const without = (template: string, blocks: Readonly<Record<string, Block>>): string =>
  template
    .split('\n')
    .filter((line) => {
      const name = /^\[\[([^\]]+)\]\]$/.exec(line)?.[1]
      return name === undefined || Object.hasOwn(blocks, name)
    })
    .join('\n')
    .replace(/^## [^\n]*\n\s*(?=^## )/gm, '')

const stopStamp = (frame: Frame, bound: BoundRecipe): Block => ({
  kind: 'stamp',
  heading: frame.say('recipe.state.stop'),
  items: findingsWords(frame, bound.stops).flatMap((reason, index) => [
    reason,
    frame.say(`finding.${bound.stops[index]?.code}.do`),
  ]),
})

const notes = (frame: Frame, bound: BoundRecipe): Block => {
  const { say, show } = frame
  const { fats, uncovered, solid, makeUp } = bound
  const names = (list: readonly { readonly name: string }[]): string =>
    show.list(list.map(({ name }) => name))
  const recalled = fats.filter(({ entry }) => entry['fatty-acids']?.evidence === 'recalled')
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('recipe.notes.heading'),
    items: [
      ...certificateNotes(frame, bound),
      ...(uncovered.length > 0
        ? [
            say('recipe.notes.uncovered', {
              fats: names(uncovered),
              share: show.percent('uncovered', 1 - makeUp.covered, 1),
            }),
          ]
        : []),
      ...(recalled.length > 0 ? [say('recipe.notes.recalled', { fats: names(recalled) })] : []),
      ...(solid.length > 0 ? [say('recipe.notes.solid', { fats: names(solid) })] : []),
    ],
  }
}

const tried = ({ say, show }: Frame, { recipe }: BoundRecipe): Block => {
  if (!recipe.tried)
    return {
      kind: 'cautions',
      signal: 'caution',
      heading: say('recipe.tried.not-heading'),
      items: [say('recipe.tried.not')],
    }
  const { where, oils, behaviour } = recipe.tried
  return {
    kind: 'table',
    columns: [
      { head: say('recipe.tried.where'), align: 'left', width: 22 },
      { head: say('recipe.tried.oils'), align: 'right', width: 14 },
      { head: say('recipe.tried.minutes'), align: 'right', width: 18 },
      { head: say('recipe.tried.behaviour'), align: 'left' },
    ],
    rows: [
      [
        maker(where),
        number(oils < 10 ? show.weight('tried.oils', oils, 0.001) : show.heavy('tried.oils', oils)),
        number(show.count('tried.minutesToThick', recipe.tried['minutes-to-thick'])),
        maker(behaviour),
      ],
    ],
  }
}
