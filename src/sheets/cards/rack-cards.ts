/** Cards that hang on the rack and at the wrapping table: days of one batch's bars. */
import { type BoundCure, barGap } from '../../binder/bind-calendar.ts'
import type { PlannedTask } from '../../cure/task-times.ts'
import type { ShopFile } from '../../schema/shop.ts'
import type { CardDraft, CardSize } from '../card-sheet.ts'
import { printedTasks } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Value } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { batchTitle, fromSheet } from './batch-words.ts'

/** kg; what a weigh-in is given to */
const GRAM = 0.001

const taskOf = (cure: BoundCure, name: string): PlannedTask | undefined =>
  printedTasks(cure).find(({ task }) => task === name || task.startsWith(`${name}-`))

/** @returns nothing where nobody knows when the bars will stand there, or none is left to weigh */
export const rackCard = (
  frame: Frame,
  shop: ShopFile,
  cure: BoundCure,
  log: string,
  size: CardSize,
): CardDraft | undefined => {
  const { say, show } = frame
  const { batch } = cure
  const [first] = cure.plan
  const test = taskOf(cure, 'release-test')
  if (!first || !test || !taskOf(cure, 'weigh-in')) return undefined
  return {
    id: `rack/${batch.key}`,
    title: batchTitle(frame, batch, 'card.rack.title', size),
    card: {
      caution: { signal: 'caution', words: say('card.rack.caution') },
      number: {
        label: say('card.rack.number', fixedLinks),
        words: { text: '[[day]]', fill: { day: show.shortDate('cure.releaseTest', test.at.date) } },
      },
      ...(batch.state === 'hold' ? { hold: say('card.hold') } : {}),
      wear: say('card.wear-fresh'),
      steps: [
        say('card.rack.stand', { gap: show.length('rack.gap', barGap(shop)) }),
        say('card.rack.mark'),
        say('card.rack.weigh', { log }),
        say('card.rack.ought', {
          day: show.shortDate('cure.firstWeighIn', first.date),
          low: show.weight(`cure.plan.${first.days}.low`, first.low, GRAM),
          high: show.weight(`cure.plan.${first.days}.high`, first.high, GRAM),
        }),
        say('card.rack.test'),
      ],
      stop: say('card.rack.stop'),
      from: fromSheet(frame, log),
    },
  }
}

/** @returns nothing where no day can be named */
export const wrapCard = (
  frame: Frame,
  cure: BoundCure,
  sheet: string,
  size: CardSize,
): CardDraft | undefined => {
  const { say, show } = frame
  const { batch, label: plan } = cure
  const { declared } = plan
  const least = plan.leastOn(plan.from ?? plan.until)
  const label = taskOf(cure, 'label')
  const until = taskOf(cure, 'sell-by')
  if (!label || !until) return undefined
  const day = (name: string, { at }: PlannedTask): Value => show.date(name, at.date)
  return {
    id: `wrap/${batch.key}`,
    title: batchTitle(frame, batch, 'card.wrap.title', size),
    card: {
      caution: { signal: 'warning', words: say('card.wrap.caution') },
      number: {
        label: say('card.wrap.number'),
        words: { text: '[[day]]', fill: { day: day('cure.labelFrom', label) } },
      },
      ...(batch.state === 'hold' ? { hold: say('card.hold') } : {}),
      wear: say('card.wrap.wear'),
      steps: [
        say('card.wrap.test', { sheet }),
        say('card.wrap.scale'),
        least === undefined
          ? say('card.wrap.no-weight', { most: show.weight('cure.most', plan.most, GRAM) })
          : say('card.wrap.weigh', { least: show.weight('cure.label.first.least', least, GRAM) }),
        declared === undefined
          ? say('card.wrap.label-open', { code: batch.key })
          : say('card.wrap.label', {
              declared: show.weight('cure.declared', declared, GRAM),
              code: batch.key,
            }),
        say('card.wrap.keep', { until: day('cure.sellBy', until) }),
      ],
      stop: say('card.wrap.stop'),
      from: fromSheet(frame, sheet),
    },
  }
}
