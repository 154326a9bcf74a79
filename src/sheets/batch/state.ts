/** What a batch sheet says of the batch as a whole: go or hold, and what is worth knowing. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { placesOf } from '../../binder/finding-places.ts'
import type { Finding } from '../../findings.ts'
import { filePlaces } from '../file-places.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline, Stamp } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { remedyWords } from '../remedies.ts'
import { findingsWords } from '../stop-sheet.ts'

/** Holds that the stamp says in words of its own. */
const SAID_ON_STAMP = new Set(['recipe-untried', 'superfat-worst-case-negative'])

const isOtherHold = ({ severity, code }: Finding): boolean => severity === 'hold' && !SAID_ON_STAMP.has(code)

export const stateStamp = (frame: Frame, batch: BoundBatch): Block => {
  const { say, show } = frame
  const { superfat } = batch
  const fill = {
    nominal: show.percent('superfat.nominal', superfat.nominal, 1),
    low: show.percent('superfat.low', superfat.monteCarlo.low, 1),
    high: show.percent('superfat.high', superfat.monteCarlo.high, 1),
    worst: show.percent('superfat.worstCase', superfat.worst.low, 1),
  }
  const hot = hotBlock(frame, batch)
  if (batch.state !== 'hold')
    return {
      kind: 'stamp',
      heading: say(hot ? 'batch.state.go-when-read' : 'batch.state.go'),
      items: [say('batch.state.go-why', fill)],
      ...hot,
    }
  return {
    kind: 'stamp',
    heading: say('batch.state.hold'),
    ...hot,
    items: [
      ...(superfat.state === 'hold'
        ? [say('batch.state.hold-why', fill)]
        : [say('batch.state.go-why', fill)]),
      ...(batch.tried
        ? []
        : [say('batch.state.untried', { mass: show.heavy('batter.heavy', batch.fill.batterMass) })]),
      ...findingsWords(frame, batch.findings.filter(isOtherHold)),
      say('batch.state.hold-test', fixedLinks),
      say('batch.state.signed'),
    ],
  }
}

/** What the maker reads and ticks before a block is poured that may get too hot: chemistry alone does not let it go. */
const hotBlock = (
  { say, show }: Frame,
  { blockHeat, pourTemperature }: BoundBatch,
): Pick<Stamp, 'ticks'> | undefined =>
  blockHeat?.watch.mayOverheat
    ? {
        ticks: [
          say('batch.state.hot', {
            allowed: show.temperature('block.tooHot', blockHeat.tooHot),
            peak: show.temperature('block.peak', blockHeat.heat.peak.nominal),
            highest: show.temperature('block.peak.high', blockHeat.heat.peak.high),
            pour: show.temperature('pour.temperature', pourTemperature),
          }),
        ],
      }
    : undefined

/** Said on the stamp or in the steps where they matter, so not said again. */
const SAID_ELSEWHERE = new Set([
  'block-overheats',
  'pot-over-lift-limit',
  'rim-above-elbow',
  'pot-lip-above-shoulder',
  'lye-never-cools-to-goal',
])

/** What was found that forbids nothing: each once, the fats of one kind of remark together. */
export const knownNotice = (frame: Frame, batch: BoundBatch): Block => {
  const warnings = batch.findings.filter(
    ({ severity, code }) => severity === 'warn' && !SAID_ELSEWHERE.has(code),
  )
  const middle = batch.fats.filter((fat) =>
    warnings.some(({ code, values }) => code === MIDDLE_OF_RANGE && values.fat === fat.key),
  )
  const others = warnings.filter(({ code }) => code !== MIDDLE_OF_RANGE)
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: frame.say('batch.known.heading'),
    items: [
      ...(middle.length > 0
        ? [frame.say('batch.known.middle-of-range', { fats: middle.map(({ name }) => name).join(', ') })]
        : []),
      ...findingsWords(frame, others).map((remark, index) => withPlaces(frame, batch, remark, others[index])),
    ],
  }
}

/** A remark on something that a maker wrote says where it stands. */
const withPlaces = (
  { say }: Frame,
  batch: BoundBatch,
  remark: Inline,
  finding: Finding | undefined,
): Inline => {
  const places = finding ? [batch.file, batch.shopFile].flatMap((file) => placesOf(file, finding)) : []
  const there = filePlaces(say, places)
  return there ? say('batch.known.at', { remark, places: there }) : remark
}

/** What would clear a doubtful superfat, ranked; a block with nothing in it is not printed. */
export const remedyTable = (frame: Frame, batch: BoundBatch): Block => ({
  kind: 'cautions',
  signal: 'notice',
  heading: frame.say('remedy.heading'),
  items: remedyWords(frame, batch),
})

const MIDDLE_OF_RANGE = 'saponification-value-is-middle-of-range'
