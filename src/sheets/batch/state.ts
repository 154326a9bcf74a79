/** What a batch sheet says of the batch as a whole: go or hold, and what is worth knowing. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { placesOf } from '../../binder/finding-places.ts'
import type { Finding } from '../../findings.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline } from '../model.ts'
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
  if (batch.state !== 'hold')
    return { kind: 'stamp', heading: say('batch.state.go'), items: [say('batch.state.go-why', fill)] }
  return {
    kind: 'stamp',
    heading: say('batch.state.hold'),
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

/** Said in the steps where they matter, so not said again. */
const SAID_IN_STEPS = new Set([
  'pot-over-lift-limit',
  'rim-above-elbow',
  'pot-lip-above-shoulder',
  'lye-never-cools-to-goal',
])

/** What was found that forbids nothing: each once, the fats of one kind of remark together. */
export const knownNotice = (frame: Frame, batch: BoundBatch): Block => {
  const warnings = batch.findings.filter(
    ({ severity, code }) => severity === 'warn' && !SAID_IN_STEPS.has(code),
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
  const [first] = places
  if (!first) return remark
  const named = places.map(({ line, key }) => say('stop.place', { line: String(line), key }))
  return say('batch.known.at', {
    remark,
    file: first.file,
    places: named.reduce((before, next) => say('stop.places', { before, next })),
  })
}

/** What would clear a doubtful superfat, ranked; a block with nothing in it is not printed. */
export const remedyTable = (frame: Frame, batch: BoundBatch): Block => ({
  kind: 'cautions',
  signal: 'notice',
  heading: frame.say('remedy.heading'),
  items: remedyWords(frame, batch),
})

const MIDDLE_OF_RANGE = 'saponification-value-is-middle-of-range'
