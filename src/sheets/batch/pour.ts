/** Pouring, washing up, and the first hours. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { Frame } from '../frame.ts'
import type { Inline, NamedStep } from '../model.ts'
import { FIRST_OF_KETTLE } from './blend.ts'
import { blockWatch, probeStep } from './block-heat.ts'

export const pourSteps = (
  { say, show, vesselName }: Pick<Frame, 'say' | 'show' | 'vesselName'>,
  batch: BoundBatch,
): NamedStep[] => {
  const line = {
    height: show.length('fill.pourHeight', batch.fill.pourHeight.nominal),
    below: show.length('fill.belowRim', batch.fill.freeboard),
  }
  return [
    {
      name: 'pour',
      caution: { signal: 'danger', words: say('batch.pour.by-jug-caution') },
      text: batch.byValve
        ? say('batch.pour.by-valve', line)
        : say('batch.pour.by-jug', {
            ...line,
            vessel: vesselName(batch.vessels.pouring.key),
            mass: show.heavy('pour.jugMass', batch.pour.jug.mass),
            volume: show.volume('pour.jugVolume', batch.pour.jug.volume),
          }),
      blanks: [
        { label: say('batch.pour.height'), reading: 'below-rim' },
        { label: say('batch.pour.time'), reading: 'poured', moment: 'poured' },
      ],
    },
    ...(batch.kettles > 1
      ? [{ name: 'next-kettle', text: say('batch.pour.next-kettle'), again: FIRST_OF_KETTLE }]
      : []),
    { name: 'tap', text: say('batch.pour.tap') },
    ...(batch.blockHeat ? [probeStep({ say, show }, batch)] : []),
    { name: 'cover', text: coverWords({ say, show }, batch) },
  ]
}

const coverWords = ({ say, show }: Pick<Frame, 'say' | 'show'>, { blockHeat }: BoundBatch): Inline => {
  const foam = blockHeat?.insulation ?? 0
  if (foam === 0) return say('batch.pour.cover')
  return say('batch.pour.cover-foam', { thickness: show.length('block.insulation', foam) })
}

/** Nobody may say how long a block is looked at whose heat was not reckoned: such a batch is stopped and has no sheet. */
export const watchSteps = (frame: Frame, { key, blockHeat }: BoundBatch): NamedStep[] => {
  if (!blockHeat) throw new Error(`The batch "${key}" has a sheet, and its block was not reckoned.`)
  return [{ name: 'wash', text: frame.say('batch.watch.wash') }, ...blockWatch(frame, blockHeat)]
}
