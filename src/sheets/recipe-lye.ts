/** The lye and the additions of a formula, for each kilogram of its fats, and what the certificates say. */
import type { BoundRecipe } from '../binder/bind-recipe.ts'
import { additionWords } from './batch/weights.ts'
import { empty, maker, nothing, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Cell, Facts, Inline } from './model.ts'
import { perThousand } from './recipe-tables.ts'

/** Strength in all three ways of saying it, and what each kilogram of fats takes; no amounts of what must not be made. */
export const lyeFacts = (frame: Frame, bound: BoundRecipe): Facts => {
  const { say, show } = frame
  const { strength, alkalis, additions } = bound.formula
  const amounts = bound.stops.length === 0
  const way = (key: 'concentration' | 'water-to-lye' | 'water-share-of-oils', cell: Cell) => ({
    label: say(`recipe.lye.${key}`),
    cell,
    ...(strength.asked === key ? { note: say('recipe.lye.asked') } : {}),
  })
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      way('concentration', number(show.percent('lye.concentration', strength.concentration, 1))),
      way('water-to-lye', number(show.ratio('lye.waterToLye', strength.waterToLye))),
      way('water-share-of-oils', number(show.percent('lye.waterShareOfFats', strength.waterShareOfOils, 1))),
      {
        label: say('recipe.lye.clear'),
        cell: number(show.percent('lye.solubility', bound.solubility.limit, 0)),
        note: say('recipe.lye.clear-note', {
          temperature: show.temperature('room.temperature', bound.solubility.temperature),
        }),
      },
      ...(amounts
        ? alkalis.map(({ kind, name, purity, weighed, pure }) => {
            const key = kind.toLowerCase()
            return {
              label: say('recipe.lye.alkali', { name }),
              cell: number(perThousand(frame, `${key}.perFats`, weighed, 1)),
              note: say('recipe.lye.alkali-note', {
                pure: perThousand(frame, `${key}.pure`, pure, 1),
                purity: show.percent(`${key}.purity`, purity.nominal, 1),
                low: show.percent(`${key}.purity.low`, purity.low, 1),
                high: show.percent(`${key}.purity.high`, purity.high, 1),
              }),
            }
          })
        : []),
      ...(alkalis.length > 1
        ? [
            {
              label: say('recipe.lye.potassium'),
              cell: number(show.percent('koh.share', bound.potassiumShare, 1)),
              note: say('recipe.lye.potassium-note'),
            },
          ]
        : []),
      ...(amounts && additions.some(({ role }) => role === 'acid')
        ? [
            {
              label: say('recipe.lye.acids'),
              cell: number(perThousand(frame, 'acids.alkali', bound.alkaliForAcids, 1)),
              note: say('recipe.lye.acids-note'),
            },
          ]
        : []),
    ],
  }
}

/** What else goes in: a scent beside its supplier's limit, counted in the bar as it is sold. */
export const additionTable = (frame: Frame, bound: BoundRecipe): Block => {
  const { say, show } = frame
  const { additions, scents } = bound.formula
  if (additions.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('recipe.additions.caption', { loss: show.percent('cure.loss', bound.cureLoss, 0) }),
    columns: [
      { head: say('recipe.additions.what'), align: 'left' },
      { head: say('recipe.formula.share'), align: 'right', width: 12 },
      { head: say('recipe.additions.in-bar'), align: 'right', width: 13 },
      { head: say('recipe.additions.limit'), align: 'right', width: 13 },
      { head: say('recipe.additions.flash'), align: 'right', width: 19 },
      { head: say('recipe.additions.tried'), align: 'left', width: 22 },
    ],
    rows: additions.map(({ key, material, name, mass, acid, colour }) => {
      const scent = scents.find((one) => one.key === material)
      const entry = bound.fragrances.get(material)
      return [
        words(additionWords(frame, { key, name, colour, strength: acid?.strength, acid: acid?.acid })),
        number(show.percent(`addition.${key}.share`, mass, 2)),
        scent ? number(show.percent(`scent.${scent.key}.share`, scent.share, 2)) : empty,
        entry ? number(show.percent(`scent.${material}.limit`, entry.limit, 2)) : empty,
        entry?.['flash-point'] === undefined
          ? empty
          : number(show.temperature(`scent.${material}.flashPoint`, entry['flash-point'])),
        entry ? (entry.tried ? maker(entry.tried) : words(say('recipe.additions.not-tried'))) : empty,
      ]
    }),
  }
}

/** Which figures come from a certificate in place of what is published for the whole trade. */
export const certificateNotes = ({ say, show }: Frame, bound: BoundRecipe): Inline[] =>
  bound.fats.flatMap(({ key, name, certificate }) => {
    if (!certificate) return []
    const figures = CERTIFIED.filter((figure) => certificate[figure] !== undefined).map((figure) =>
      say(`recipe.certificate.${figure}`),
    )
    const list = figures.reduce((all, part) => say('batch.rescue.list', { all, part }))
    return [
      certificate.date === undefined
        ? say('recipe.certificate.lot', { name, lot: certificate.lot, figures: list })
        : say('recipe.certificate.lot-of', {
            name,
            lot: certificate.lot,
            figures: list,
            date: show.date(`fat.${key}.certificate`, certificate.date),
          }),
    ]
  })

const CERTIFIED = [
  'saponification-value', 'fatty-acids', 'iodine-value', 'density', 'unsaponifiable', 'acid-value',
] as const // biome-ignore format: one line reads better
