/** Pouring, the first hours, and washing up. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Step } from '../model.ts'
import { blockWatch } from './block-heat.ts'
import { degrees } from './lye.ts'

export const pourSteps = ({ say, show }: Pick<Frame, 'say' | 'show'>, batch: BoundBatch): Step[] => {
  const line = {
    height: show.length('fill.pourHeight', batch.fill.pourHeight.nominal),
    below: show.length('fill.belowRim', batch.fill.freeboard),
  }
  return [
    {
      caution: { signal: 'danger', words: say('batch.pour.by-jug-caution') },
      text: batch.byValve
        ? say('batch.pour.by-valve', line)
        : say('batch.pour.by-jug', {
            ...line,
            vessel: batch.vessels.pouring.key,
            mass: show.heavy('pour.jugMass', batch.pour.jug.mass),
            volume: show.volume('pour.jugVolume', batch.pour.jug.volume),
          }),
      blanks: [{ label: say('batch.pour.height') }, { label: say('batch.pour.time') }],
    },
    ...(batch.kettles > 1 ? [{ text: say('batch.pour.next-kettle') }] : []),
    { text: say('batch.pour.tap') },
    { text: coverWords({ say, show }, batch) },
  ]
}

const coverWords = ({ say, show }: Pick<Frame, 'say' | 'show'>, { blockHeat }: BoundBatch): Inline => {
  const foam = blockHeat?.insulation ?? 0
  if (foam === 0) return say('batch.pour.cover')
  return say('batch.pour.cover-foam', { thickness: show.length('block.insulation', foam) })
}

/** Of a block whose heat was reckoned it is said how long, and when its sides come off stands with its other hours. */
export const watchSteps = (frame: Frame, { blockHeat }: BoundBatch): Step[] => {
  const { say } = frame
  const hottest = [{ label: say('batch.watch.hottest'), after: degrees(frame) }, { label: say('blank.time') }]
  return [
    blockHeat ? blockWatch(frame, blockHeat, hottest) : { text: say('batch.watch.often'), blanks: hottest },
    {
      text: say('batch.watch.rise'),
      caution: { signal: 'warning', words: say('batch.watch.rise-caution') },
    },
    { text: say('batch.watch.wash') },
    ...(blockHeat ? [] : [{ text: say('batch.watch.open') }]),
  ]
}
