/** What a bar costs, batches side by side: what it is made of, what drives it, and what the losses take. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCost, CostGroupKey } from '../../binder/bind-costs.ts'
import { type SharePattern, shareBar } from '../../drawing/share-bar.ts'
import type { BarCost, CostLine } from '../../supply/bar-cost.ts'
import { empty, finishSheet, inlineWords, nothing, number, pickSources, words } from '../compose.ts'
import { batchWords } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Figure, Inline, Sheet, Table, Value } from '../model.ts'
import { SUPPLY } from './supply-places.ts'
import { materialName } from './supply-words.ts'

/** Batches beside each other in one table: more would leave no room for their names. */
const SIDE_BY_SIDE = 5

interface Priced extends BoundCost {
  readonly cost: BarCost
}

export const costSheet = (frame: Frame, binder: BoundBinder): Sheet => {
  const { say } = frame
  const priced = binder.costs.filter((one): one is Priced => one.cost !== undefined && one.cost.batch > 0)
  const dearest = Math.max(0, ...priced.map(({ cost }) => cost.exact))
  const groups = Array.from({ length: Math.ceil(priced.length / SIDE_BY_SIDE) }, (_, index) =>
    priced.slice(index * SIDE_BY_SIDE, (index + 1) * SIDE_BY_SIDE),
  )
  const blocks: Record<string, Block> = {}
  for (const [index, some] of groups.entries()) {
    blocks[`cost-${index + 1}`] = costTable(frame, binder, some)
    blocks[`loss-${index + 1}`] = lossTable(frame, binder, some)
  }
  for (const one of priced) blocks[`bar-${one.batch.key}`] = costFigure(frame, binder, one, dearest)
  const listed = (...kinds: readonly string[]): string =>
    Object.keys(blocks)
      .filter((name) => kinds.some((kind) => name.startsWith(kind)))
      .map((name) => `[[${name}]]`)
      .join('\n\n')
  return finishSheet({
    ...frame.sheet('supply', SUPPLY.cost.id, say('section.supply'), SUPPLY.cost.number, say('cost.title')),
    template: frame
      .template('cost')
      .replace(/^\[\[costs\]\]$/m, listed('cost-'))
      .replace(/^\[\[bars\]\]$/m, listed('bar-'))
      .replace(/^\[\[losses\]\]$/m, listed('loss-')),
    fill: {},
    blocks: { ...blocks, open: openBlock(frame, binder) },
    sources: pickSources(frame.sources, ['common-practice', 'largest-remainder']),
  })
}

const currencyOf = ({ content }: BoundBinder): string => content.shop.value.currency ?? ''

const columnsFor = (frame: Frame, binder: BoundBinder, costs: readonly Priced[]) =>
  costs.map(({ batch }) => ({
    head: batchWords(frame, binder, batch.key),
    align: 'right' as const,
    width: 15,
  }))

const nameOf = ({ say }: Frame, { stock }: BoundBinder, { kind, name }: CostLine): Inline =>
  kind === 'labour' ? say('cost.labour') : say('cost.line', { name: materialName(stock, name) })

const costTable = (frame: Frame, binder: BoundBinder, costs: readonly Priced[]): Table => {
  const { say, show } = frame
  const currency = currencyOf(binder)
  const all = new Map<string, { readonly line: CostLine; readonly most: number }>()
  for (const line of costs.flatMap(({ cost }) => cost.lines)) {
    const key = `${line.kind} ${line.name}`
    all.set(key, { line, most: Math.max(line.bar, all.get(key)?.most ?? 0) })
  }
  const rows = [...all.values()].sort((a, b) => b.most - a.most)
  const sums = (key: string, value: (one: Priced) => Cell): Cell[] => [
    words(say(`cost.${key}`)),
    ...costs.map(value),
  ]
  const amount = (name: string, minor: number): Cell => number(show.amount(name, { currency, minor }))
  return {
    kind: 'table',
    caption: say('cost.caption', { currency }),
    columns: [{ head: say('cost.what'), align: 'left' }, ...columnsFor(frame, binder, costs)],
    rows: rows.map(({ line }) => [
      words(nameOf(frame, binder, line)),
      ...costs.map(({ batch, cost }): Cell => {
        const own = cost.lines.find(({ kind, name }) => kind === line.kind && name === line.name)
        return own ? amount(`cost.${batch.key}.${line.kind}.${line.name}`, own.bar) : empty
      }),
    ]),
    foot: [
      sums('a-bar', ({ batch, cost }) => amount(`cost.${batch.key}.bar`, cost.bar)),
      sums('sold', ({ batch, cost }) => number(show.count(`cost.${batch.key}.sold`, cost.sold))),
      sums('batch', ({ batch, cost }) => amount(`cost.${batch.key}.batch`, cost.batch)),
      sums('basis', ({ isMade }) => words(say(isMade ? 'cost.made' : 'cost.planned'))),
    ],
  }
}

const LOSSES = ['in-bars', 'residue', 'trim', 'tests', 'rejected'] as const

const lossTable = (frame: Frame, binder: BoundBinder, costs: readonly Priced[]): Table => {
  const { say, show } = frame
  const currency = currencyOf(binder)
  return {
    kind: 'table',
    caption: say('cost.loss.caption', { currency }),
    columns: [{ head: say('cost.loss.what'), align: 'left' }, ...columnsFor(frame, binder, costs)],
    rows: LOSSES.map((kind) => [
      words(say(`cost.loss.${kind}`)),
      ...costs.map(({ batch, cost }): Cell => {
        const loss = cost.losses.find((one) => one.kind === kind)
        const name = `loss.${batch.key}.${kind}`
        return loss
          ? words(
              say('cost.loss.share', {
                amount: show.amount(name, { currency, minor: loss.bar }),
                share: show.percent(`${name}.share`, loss.share, 1),
              }),
            )
          : empty
      }),
    ]),
  }
}

const PATTERNS: Readonly<Record<CostGroupKey, SharePattern>> = {
  fats: 'blank',
  other: 'slanted',
  packaging: 'crossed',
  labour: 'upright',
}

/** A bar's cost as one bar, all batches at one scale. */
const costFigure = (
  frame: Frame,
  binder: BoundBinder,
  { batch, cost, groups }: Priced,
  dearest: number,
): Figure => {
  const { say, show, room } = frame
  const currency = currencyOf(binder)
  const values = new Map<string, Value>()
  const shown = (name: string, minor: number): string => {
    const value = show.amount(name, { currency, minor })
    values.set(name, { ...value, name: `drawing.cost.${name}` })
    return value.shown
  }
  const caption = say('cost.figure', {
    batch: batchWords(frame, binder, batch.key),
    bar: show.money(`figure.${batch.key}.bar`, { currency, minor: cost.bar }),
  })
  const part = (line: CostLine) => {
    const name = `${batch.key}.${line.kind}.${line.name}`
    const label = inlineWords(nameOf(frame, binder, line))
    return { name, label, shown: shown(name, line.bar), share: line.share, maker: line.kind !== 'labour' }
  }
  const figure = shareBar({
    name: `cost-${batch.key}`,
    label: inlineWords(say('cost.figure-label')),
    width: (room.width * cost.exact) / dearest,
    groups: groups.map(({ key, lines, bar, share }) => {
      // what is all of its group is named once, below the bar
      const name = `${batch.key}.all.${key}`
      const label = inlineWords(say(`cost.group.${key}`))
      return {
        name,
        label,
        shown: shown(name, bar),
        share,
        pattern: PATTERNS[key],
        parts: lines.length > 1 ? lines.map(part) : [],
      }
    }),
  })
  return {
    kind: 'figure',
    svg: figure.svg,
    caption,
    values: figure.written.flatMap((name) => values.get(name) ?? []),
  }
}

/** What is not in the sums. */
const openBlock = (frame: Frame, binder: BoundBinder): Block => {
  const { say } = frame
  const open = binder.costs.flatMap(({ batch, unpriced, cost }) => [
    ...(unpriced.length > 0
      ? [
          say('cost.unpriced', {
            batch: batchWords(frame, binder, batch.key),
            materials: frame.show.list(unpriced.map((key) => materialName(binder.stock, key))),
          }),
        ]
      : []),
    ...(cost === undefined ? [say('cost.none-sold', { batch: batchWords(frame, binder, batch.key) })] : []),
  ])
  return open.length === 0
    ? nothing
    : { kind: 'cautions', signal: 'notice', heading: say('cost.open'), items: open }
}
