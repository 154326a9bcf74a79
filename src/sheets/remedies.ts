/** What would clear a batch whose superfat is in doubt, best first, in words. */
import type { BoundBatch } from '../binder/bind-batch.ts'
import type { Frame } from './frame.ts'
import type { Inline } from './model.ts'

type Remedy = BoundBatch['superfat']['remedies'][number]

/** What a batch and a recipe have in common here. */
interface Doubtful {
  readonly superfat: Pick<BoundBatch['superfat'], 'remedies'>
  readonly fats: readonly { readonly key: string; readonly name: string }[]
  readonly alkalis: readonly { readonly kind: string; readonly name: string }[]
}

/** More than this nobody weighs against each other; the first ones help most. */
const MOST = 5

/** @returns a sentence for each measure, those that bring the batch to go by themselves first; none when it is there */
export const remedyWords = (frame: Frame, batch: Doubtful): Inline[] =>
  batch.superfat.remedies.slice(0, MOST).map((remedy, index) => words(frame, batch, remedy, index + 1))

const words = (frame: Frame, batch: Doubtful, remedy: Remedy, rank: number): Inline => {
  const { say, show } = frame
  const value = `remedy.${rank}`
  const outcome =
    remedy.state === 'go'
      ? say(remedy.kind === 'together' ? 'remedy.together-clears' : 'remedy.clears')
      : say('remedy.helps', { worst: show.percent(`${value}.worst`, remedy.worst, 1) })
  switch (remedy.kind) {
    case 'fat-certificate':
      return say('remedy.fat-certificate', { of: nameOf(batch, remedy.of), outcome })
    case 'purity-certificate':
      return say('remedy.purity-certificate', { of: nameOf(batch, remedy.of), outcome })
    case 'finer-scale':
      return say('remedy.finer-scale', {
        of: frame.scaleName(remedy.of),
        division: show.weight(`${value}.division`, remedy.value ?? 0, remedy.value ?? 0.0001),
        outcome,
      })
    case 'together':
      return say('remedy.together', {
        of: remedy.of
          .split('+')
          .map((one) => partWords(frame, batch, one))
          .reduce((all, part) => say('remedy.part.list', { all, part })),
        outcome,
      })
    case 'superfat-at-least':
      return say('remedy.superfat-at-least', {
        superfat: show.percent(`${value}.superfat`, roundUp(remedy.value ?? 0), 1),
        outcome,
      })
  }
}

/** A least superfat is rounded up: rounded down it would not clear anything. */
const roundUp = (share: number): number => Math.ceil(share * 1000 - 1e-9) / 1000

/** Of a fat or an alkali its certificate, else the scale. */
const partWords = ({ say, scaleName }: Frame, batch: Doubtful, key: string): Inline => {
  const of = nameOf(batch, key)
  return of === key && !batch.fats.some((fat) => fat.name === key)
    ? say('remedy.part.scale', { of: scaleName(key) })
    : say('remedy.part.certificate', { of })
}

const nameOf = (batch: Doubtful, key: string): string =>
  batch.fats.find((fat) => fat.key === key)?.name ??
  batch.alkalis.find((alkali) => alkali.kind === key)?.name ??
  key
