/** Fatty acids of a formula as a bar, as a table, and what follows from them. */
import type { BoundRecipe } from '../binder/bind-recipe.ts'
import type { AcidGroup, AcidGroupKey, BlendMakeUp, Estimate } from '../chemistry/blend-make-up.ts'
import type { FattyAcidName } from '../chemistry/fatty-acids.ts'
import { type ShareBarGroup, type ShareBarPart, type SharePattern, shareBar } from '../drawing/share-bar.ts'
import { inlineWords, number, words } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Cell, Facts, Figure, Inline, Table, Value } from './model.ts'

const ACID_WORDS: Readonly<Record<FattyAcidName, string>> = {
  'C6:0': 'recipe.acid.c6-0',
  'C8:0': 'recipe.acid.c8-0',
  'C10:0': 'recipe.acid.c10-0',
  'C12:0': 'recipe.acid.c12-0',
  'C14:0': 'recipe.acid.c14-0',
  'C14:1': 'recipe.acid.c14-1',
  'C16:0': 'recipe.acid.c16-0',
  'C16:1': 'recipe.acid.c16-1',
  'C17:0': 'recipe.acid.c17-0',
  'C17:1': 'recipe.acid.c17-1',
  'C18:0': 'recipe.acid.c18-0',
  'C18:1': 'recipe.acid.c18-1',
  'C18:1OH': 'recipe.acid.c18-1oh',
  'C18:2': 'recipe.acid.c18-2',
  'C18:3': 'recipe.acid.c18-3',
  'C18:3n6': 'recipe.acid.c18-3n6',
  'C20:0': 'recipe.acid.c20-0',
  'C20:1': 'recipe.acid.c20-1',
  'C20:2': 'recipe.acid.c20-2',
  'C22:0': 'recipe.acid.c22-0',
  'C22:1': 'recipe.acid.c22-1',
  'C22:2': 'recipe.acid.c22-2',
  'C24:0': 'recipe.acid.c24-0',
  'C24:1': 'recipe.acid.c24-1',
}

const GROUPS: Readonly<Record<AcidGroupKey, { readonly words: string; readonly pattern: SharePattern }>> = {
  saturated: { words: 'recipe.group.saturated', pattern: 'blank' },
  oneDoubleBond: { words: 'recipe.group.one-double-bond', pattern: 'slanted' },
  hydroxy: { words: 'recipe.group.hydroxy', pattern: 'upright' },
  twoOrMoreDoubleBonds: { words: 'recipe.group.two-or-more-double-bonds', pattern: 'crossed' },
}

/** mm: what Letter and A4 have between binding margin and outer edge, with room to spare */
const BAR_WIDTH = 172

/** `C18:1OH` in the name of a value: a colon would not do there. */
const keyOf = (acid: FattyAcidName): string => acid.toLowerCase().replace(':', '-')

/** A share and its limits, all with one decimal: what is listed adds up, and no limit looks passed by rounding. */
export const estimateValues = (
  { show }: Frame,
  name: string,
  estimate: Estimate,
): { readonly middle: Value; readonly low: Value; readonly high: Value } => ({
  middle: show.percent(name, estimate.middle, 1),
  low: show.percent(`${name}.low`, estimate.low, 1),
  high: show.percent(`${name}.high`, estimate.high, 1),
})

export const makeUpFigure = (frame: Frame, makeUp: BlendMakeUp): Figure => {
  const { say } = frame
  const part = (name: string, label: Inline, share: Estimate): ShareBarPart => ({
    name,
    label: inlineWords(label),
    shown: estimateValues(frame, name, share).middle.shown,
    share: share.middle,
  })
  const groups = makeUp.groups.map(
    (group): ShareBarGroup => ({
      ...part(group.key, say(GROUPS[group.key].words), group.share),
      pattern: GROUPS[group.key].pattern,
      parts: [
        ...group.acids.map(({ name, share }) =>
          part(`acid.${keyOf(name)}.share`, say(ACID_WORDS[name]), share),
        ),
        ...(group.other ? [part(`${group.key}.other`, say('recipe.acids.other-short'), group.other)] : []),
      ],
    }),
  )
  const bar = shareBar({
    name: 'make-up',
    label: inlineWords(say('recipe.make-up.label')),
    width: BAR_WIDTH,
    groups,
  })
  return {
    kind: 'figure',
    svg: bar.svg,
    caption: say('recipe.make-up.caption'),
    values: groups
      .flatMap((group): ShareBarPart[] => [group, ...group.parts])
      .filter(({ name }) => bar.written.includes(name))
      .map(({ name, share, shown }) => ({ name: `drawing.make-up.${name}`, value: share, unit: '1', shown })),
  }
}

export const acidTable = (frame: Frame, makeUp: BlendMakeUp): Table => {
  const { say } = frame
  const row = (what: Cell, name: string, share: Estimate): Cell[] => {
    const { middle, low, high } = estimateValues(frame, name, share)
    return [what, number(middle), number(low), number(high)]
  }
  const rows = (group: AcidGroup): Cell[][] => [
    row(words(say('recipe.acids.strong', { group: say(GROUPS[group.key].words) })), group.key, group.share),
    ...group.acids.map(({ name, share }) =>
      row(
        words(say('recipe.acid.named', { name: say(ACID_WORDS[name]), code: name })),
        `acid.${keyOf(name)}.share`,
        share,
      ),
    ),
    ...(group.other ? [row(words(say('recipe.acids.other')), `${group.key}.other`, group.other)] : []),
  ]
  return {
    kind: 'table',
    caption: say('recipe.acids.caption'),
    columns: [
      { head: say('recipe.acids.acid'), align: 'left' },
      { head: say('recipe.acids.share'), align: 'right', width: 16 },
      { head: say('recipe.acids.low'), align: 'right', width: 16 },
      { head: say('recipe.acids.high'), align: 'right', width: 16 },
    ],
    rows: makeUp.groups.filter(({ share }) => share.high > 0).flatMap(rows),
  }
}

export const chemistryFacts = (frame: Frame, bound: BoundRecipe): Facts => {
  const { say, show } = frame
  const { iodineValue, iodineCovered } = bound.makeUp
  const iodine = (name: string, value: number): Value => ({
    name,
    value,
    unit: 'kg/kg',
    shown: show.plainNumber(value * 100),
  })
  const iodineLimits = {
    low: iodine('iodineValue.low', iodineValue.low),
    high: iodine('iodineValue.high', iodineValue.high),
  }
  const never = estimateValues(frame, 'unsaponifiable', bound.unsaponifiable)
  const { unknown } = bound.unsaponifiable
  const limits = { low: never.low, high: never.high }
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      ...(iodineCovered > 0
        ? [
            {
              label: say('recipe.figures.iodine'),
              cell: number(iodine('iodineValue', iodineValue.middle)),
              note:
                iodineCovered > 1 - 1e-9
                  ? say('recipe.figures.iodine-whole', iodineLimits)
                  : say('recipe.figures.iodine-part', {
                      ...iodineLimits,
                      share: show.percent('iodineValue.covered', iodineCovered, 1),
                    }),
            },
          ]
        : []),
      {
        label: say('recipe.figures.unsaponifiable'),
        cell: number(never.middle),
        note:
          unknown.length === 0
            ? say('recipe.between', limits)
            : say('recipe.figures.unsaponifiable-unknown', {
                ...limits,
                fats: show.list(unknown.map(({ name }) => name)),
              }),
      },
    ],
  }
}
