/** For a market: how many batches, by when each is poured, and why no later. */
import type { BoundMarket, MarketItem, PlannedBars } from '../../binder/bind-market.ts'
import type { Reason } from '../../cure/market.ts'
import type { Finding } from '../../findings.ts'
import { minutesAt, momentAt } from '../../units/civil-day.ts'
import { empty, finishSheet, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet, Table } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { taskKind, withRemedy } from './tasks.ts'

const MINUTES_A_DAY = 1440

export const marketSheet = (frame: Frame, market: BoundMarket, order: number): Sheet => {
  const { say, show } = frame
  const stops = market.items.flatMap(({ findings }) => findings)
  const reasons = findingsWords(frame, stops).map((said, index) =>
    withRemedy(frame, stops[index] as Finding, said),
  )
  const blocks: Record<string, Block> = {
    stops: {
      kind: 'cautions',
      signal: 'warning',
      ...(stops.length > 0 ? { heading: say('market.not-ready') } : {}),
      items: reasons,
    },
    covered: {
      kind: 'cautions',
      signal: 'notice',
      items: market.items
        .filter(({ covered }) => covered)
        .flatMap(({ recipeKey, recipeTitle, bars, planned, decideBy }) => [
          say(decideBy ? 'market.covered' : 'market.covered-no-more', {
            ...(decideBy ? { decide: show.shortDate(`market.${recipeKey}.decide`, decideBy) } : {}),
            recipe: recipeTitle,
            wanted: show.count(`market.${recipeKey}.bars`, bars),
            bars: show.count(
              `market.${recipeKey}.covered`,
              planned.reduce((sum, one) => sum + one.bars, 0),
            ),
          }),
          ...lightWords(frame, recipeKey, recipeTitle, planned),
        ]),
    },
    wanted: wantedTable(frame, market),
    pours: poursTable(frame, market),
    between: daysTable(frame, market),
    chain: chainTable(frame, market),
    planned: plannedTable(frame, market),
  }
  const sheet = finishSheet({
    ...frame.sheet(
      'cure',
      `market/${market.key}`,
      say('section.cure'),
      `6.${order}`,
      say('market.title', { market: market.title, date: show.date('market.date', market.date) }),
    ),
    template: frame.template('market'),
    fill: {
      readyBy: show.date('market.readyBy', market.readyBy),
      days: show.days('market.daysBefore', market.daysBefore),
    },
    blocks,
    sources: pickSources(frame.sources, ['common-practice']),
  })
  if (stops.length === 0) return sheet
  const place = `${market.file.document.file}`
  return {
    ...sheet,
    conflicts: stops.map(({ code }, index) => ({ code, reason: reasons[index] as Inline, place })),
  }
}

/** What is too light waits, and a new batch would wait longer. */
const lightWords = (
  { say, show }: Frame,
  recipeKey: string,
  recipe: string,
  planned: readonly PlannedBars[],
): Inline[] => {
  const days = planned.flatMap(({ light }) => (light ? [light.date] : []))
  if (days.length === 0) return []
  const last = days.every((day) => day !== undefined) ? [...days].sort().at(-1) : undefined
  return [
    last === undefined
      ? say('market.light-never', { recipe })
      : say('market.light', { recipe, light: show.shortDate(`market.${recipeKey}.light`, last) }),
  ]
}

const poursOf = ({ items }: BoundMarket) =>
  items.flatMap((item) => (item.back?.pours ?? []).map((pour, index) => ({ item, pour, index })))

const wantedTable = ({ say, show }: Frame, { items }: BoundMarket): Table => ({
  kind: 'table',
  caption: say('market.wanted.caption'),
  columns: [
    { head: say('market.wanted.recipe'), align: 'left' },
    { head: say('market.wanted.bars'), align: 'right', width: 16 },
    { head: say('market.wanted.per-batch'), align: 'right', width: 26 },
    { head: say('market.wanted.batches'), align: 'right', width: 16 },
  ],
  rows: items.map(({ recipeKey, recipeTitle, bars, barsPoured, barsPerBatch, back }): Cell[] => {
    const name = `market.${recipeKey}`
    return [
      { kind: 'maker', text: recipeTitle },
      number(show.count(`${name}.bars`, bars)),
      back
        ? words(
            say('market.wanted.good', {
              good: show.count(`${name}.perBatch`, barsPerBatch),
              all: show.count(`${name}.poured`, barsPoured),
            }),
          )
        : empty,
      back ? number(show.count(`${name}.batches`, back.batches)) : empty,
    ]
  }),
})

const poursTable = ({ say, show }: Frame, market: BoundMarket): Table | typeof nothing => {
  const pours = poursOf(market)
  if (pours.length === 0) return nothing
  return {
    kind: 'table',
    style: 'weigh',
    caption: say(
      market.items.every(({ covered }) => covered) ? 'market.pours.caption-covered' : 'market.pours.caption',
    ),
    columns: [
      { head: say('market.pours.box'), align: 'centre', width: 9 },
      { head: say('market.pours.recipe'), align: 'left' },
      { head: say('market.pours.begin'), align: 'left', width: 13 },
      { head: say('market.pours.by'), align: 'left', width: 31, main: true },
      { head: say('market.pours.watch'), align: 'left', width: 13 },
    ],
    rows: pours.map(({ item, pour, index }): Cell[] => {
      const name = `market.${item.recipeKey}.${index + 1}`
      const tasks = item.back?.plan.batches.find(({ batch }) => batch === pour.batch)?.tasks ?? []
      const of = (task: string) => tasks.find((one) => one.task === task)
      const hottest = of('hottest')?.closes
      return [
        { kind: 'box' },
        words(batchOf({ say, show }, item, index)),
        number(show.moment(`${name}.begin`, momentAt(minutesAt(pour.pour) - (of('pour')?.lead ?? 0)))),
        number(show.moment(`${name}.pour`, pour.pour)),
        hottest ? number(show.moment(`${name}.watch`, hottest)) : empty,
      ]
    }),
  }
}

/** What is looked up between the pour and the label of a batch that nobody has planned yet. */
const BETWEEN = ['strip', 'cut', 'latest-cut', 'slice', 'release-test', 'label'] as const

/** A batch's own days: until it has a file, they stand nowhere else. */
const daysTable = ({ say, show }: Frame, market: BoundMarket): Table | typeof nothing => {
  const pours = poursOf(market)
  if (pours.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('market.days.caption'),
    columns: [
      { head: say('market.pours.recipe'), align: 'left' },
      ...BETWEEN.map((column) => ({
        head: say(`calendar.plan.${column}`),
        align: 'left' as const,
        width: 14,
      })),
    ],
    rows: pours.map(({ item, pour, index }): Cell[] => {
      const tasks = item.back?.plan.batches.find(({ batch }) => batch === pour.batch)?.tasks ?? []
      return [
        words(batchOf({ say, show }, item, index)),
        ...BETWEEN.map((column): Cell => {
          const task = tasks.find((one) => one.task === (column === 'latest-cut' ? 'cut' : column))
          const name = `market.${item.recipeKey}.${index + 1}.${column}`
          const at = column === 'latest-cut' ? task?.closes : task?.at
          if (!task || !at) return empty
          return number(task.wholeDay ? show.shortDate(name, at.date) : show.moment(name, at))
        }),
      ]
    }),
  }
}

const batchOf = (
  { say, show }: Pick<Frame, 'say' | 'show'>,
  { recipeKey, recipeTitle, back }: MarketItem,
  index: number,
): Inline =>
  say('market.pours.of', {
    recipe: recipeTitle,
    number: show.count(`market.${recipeKey}.${index + 1}.number`, index + 1),
    batches: show.count(`market.${recipeKey}.batches`, back?.batches ?? 0),
  })

/** From the market back to each pour, a line a reason. */
const chainTable = (frame: Frame, market: BoundMarket): Table | typeof nothing => {
  const { say } = frame
  const pours = poursOf(market)
  if (pours.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('market.chain.caption'),
    columns: [
      { head: say('market.chain.day'), align: 'left', width: 24 },
      { head: say('market.chain.what'), align: 'left', width: 26 },
      { head: say('market.chain.why'), align: 'left' },
    ],
    rows: pours.flatMap(({ item, pour, index }) => {
      const name = `market.${item.recipeKey}.${index + 1}`
      const awkward = pourFindings(item, pour.batch)
      return [
        ...pour.reasons.map((reason, at) => reasonRow(frame, market, item, `${name}.${at + 1}`, reason)),
        ...findingsWords(frame, awkward, (finding) => ({
          batch: item.recipeTitle,
          ...(finding.values.task === undefined
            ? {}
            : { task: say(`calendar.task.${taskKind(String(finding.values.task))}`) }),
        })).map((said): Cell[] => [empty, words(say('market.chain.mind')), words(said)]),
      ]
    }),
  }
}

const pourFindings = ({ back }: MarketItem, batch: string): readonly Finding[] =>
  back?.plan.batches.find((one) => one.batch === batch)?.findings ?? []

const reasonRow = (
  { say, show }: Frame,
  market: BoundMarket,
  item: MarketItem,
  name: string,
  reason: Reason,
): Cell[] => {
  switch (reason.because) {
    case 'market':
      return [
        number(show.shortDate(`${name}.day`, reason.date)),
        words(say('market.chain.market')),
        words(say('market.chain.for', { recipe: item.recipeTitle, market: market.title })),
      ]
    case 'ready-before-market':
      return [
        number(show.shortDate(`${name}.day`, reason.date)),
        words(say('market.chain.ready')),
        words(say('market.chain.before', { days: show.days(`${name}.days`, reason.days) })),
      ]
    case 'task': {
      const kind = taskKind(reason.task)
      const days = show.days(`${name}.wait`, Math.round(reason.wait / MINUTES_A_DAY))
      const kept = kind === 'label' ? item.waitsFor : undefined
      return [
        number(
          reason.after === undefined
            ? show.moment(`${name}.day`, reason.at)
            : show.shortDate(`${name}.day`, reason.at.date),
        ),
        words(say(`calendar.task.${kind}`)),
        words(
          reason.after === undefined
            ? say('market.chain.pour')
            : kept === undefined
              ? say(reason.moved > 0 ? 'market.chain.waits-moved' : 'market.chain.waits', { days })
              : say('market.chain.keeps', { days, weight: show.weight(`${name}.label`, kept, 0.001) }),
        ),
      ]
    }
    case 'later-fails':
      return [
        number(show.shortDate(`${name}.day`, reason.date)),
        words(say('market.chain.no-later')),
        words(say(`market.fails.${reason.code}`)),
      ]
  }
}

const plannedTable = ({ say, show }: Frame, { items }: BoundMarket): Table | typeof nothing => {
  const rows = items.flatMap(({ recipeTitle, planned }) => planned.map((one) => ({ recipeTitle, ...one })))
  if (rows.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('market.planned.caption'),
    columns: [
      { head: say('market.planned.recipe'), align: 'left' },
      { head: say('market.planned.poured'), align: 'left' },
      { head: say('market.planned.label'), align: 'left' },
      { head: say('market.planned.bars'), align: 'right' },
      { head: say('market.planned.kept'), align: 'right' },
    ],
    rows: rows.map(({ recipeTitle, date, label, bars, kept }, index): Cell[] => [
      { kind: 'maker', text: recipeTitle },
      number(show.date(`market.planned.${index + 1}.poured`, date)),
      number(show.date(`market.planned.${index + 1}.label`, label)),
      number(show.count(`market.planned.${index + 1}.bars`, bars)),
      number(show.count(`market.planned.${index + 1}.kept`, kept)),
    ]),
  }
}
