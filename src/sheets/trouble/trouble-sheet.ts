/** Trouble: an index of what can be seen, then for each what to do now and what becomes of the bars. */
import type { BoundBinder } from '../../binder/bind.ts'
import { type Fill, finishSheet, pickSources } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Sheet } from '../model.ts'
import { PLACES, referencesTo } from '../places.ts'
import { shopLimits } from '../shop-limits.ts'
import { batchNumbers } from './batch-numbers.ts'
import { caseOf, codeLinks, SYMPTOMS } from './symptoms.ts'

/** @param sheets all that come before it, for references */
export const troubleSheet = (frame: Frame, binder: BoundBinder, sheets: readonly Sheet[]): Sheet => {
  const { say } = frame
  const fill: Fill = {
    ...referencesTo(frame, sheets),
    ...codeLinks,
    ...shopLimits(frame, binder.content.shop.value),
  }
  const groups = SYMPTOMS.map(({ key, symptoms }) => ({
    key,
    title: say(`trouble.group.${key}`),
    items: symptoms.map((one) => caseOf(frame, one, fill)),
  }))
  const labels = {
    see: say('trouble.label.see'),
    cause: say('trouble.label.cause'),
    now: say('trouble.label.now'),
    safe: say('trouble.label.safe'),
    next: say('trouble.label.next'),
  }
  return finishSheet({
    ...frame.sheet(
      'trouble',
      PLACES.trouble.id,
      say('section.trouble'),
      PLACES.trouble.number,
      say('trouble.title'),
    ),
    template: frame.template('trouble'),
    fill,
    blocks: {
      first: {
        kind: 'cautions',
        signal: 'danger',
        items: ['person', 'caustic', 'wire', 'fetch'].map((key) => say(`trouble.first.${key}`, fill)),
      },
      index: {
        kind: 'index',
        heads: {
          place: say('trouble.index.place'),
          sign: say('trouble.index.sign'),
          verdict: say('trouble.index.verdict'),
          page: say('frame.page'),
        },
        groups,
      },
      verdicts: {
        kind: 'cautions',
        signal: 'notice',
        items: ['yes', 'held', 'no'].map((key) => say(`trouble.means.${key}`, fill)),
      },
      numbers: batchNumbers(frame, binder, sheets),
      ...Object.fromEntries(
        groups.map(({ key, items }): [string, Block] => [key, { kind: 'cases', labels, items }]),
      ),
    },
    sources: pickSources(frame.sources, ['nj-right-to-know', 'indicator-range', 'common-practice']),
  })
}
