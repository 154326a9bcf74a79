/** The page that takes the place of a sheet which must not be used: why, and what would clear it; no weight, no size. */
import type { Finding } from '../findings.ts'
import type { FindingPlace } from '../schema/placed.ts'
import { type Fill, finishSheet, inlineWords, type Say } from './compose.ts'
import { filePlaces } from './file-places.ts'
import type { Frame } from './frame.ts'
import type { Inline, Sheet, Value } from './model.ts'
import type { ReadingKind } from './reading.ts'

export interface Stopped {
  /** of the sheet whose place it takes */
  readonly kind: ReadingKind
  /** another heading and another text than those of what must not be made */
  readonly words?: { readonly heading: Inline; readonly template: string }
  readonly id: string
  readonly number: string
  readonly title: Inline
  readonly findings: readonly Finding[]
  /** where the maker wrote what a finding is about */
  readonly placesOf?: (finding: Finding) => readonly FindingPlace[]
  /** more that would help, in words */
  readonly also?: readonly Inline[]
}

/** @throws Error when nothing in `findings` stops: a bug */
export const stopSheet = (frame: Frame, stopped: Stopped): Sheet => {
  const { say } = frame
  const causes = uniqueByWords(stopped.findings.filter(({ severity }) => severity === 'stop'))
  if (causes.length === 0) throw new Error(`Nothing stops ${stopped.id}.`)
  const words = findingsWords(frame, causes)
  const placesOf = (finding: Finding) => stopped.placesOf?.(finding) ?? []
  const reasons = causes.map((finding, index) => {
    const [first] = placesOf(finding)
    return {
      code: finding.code,
      reason: words[index] as Inline,
      ...(first ? { place: `${first.file}:${first.line}` } : {}),
    }
  })
  return finishSheet({
    ...frame.sheet(stopped.kind, stopped.id, say(`section.${stopped.kind}`), stopped.number, stopped.title),
    template: frame.template(stopped.words?.template ?? 'stopped'),
    fill: {},
    blocks: {
      stop: {
        kind: 'stamp',
        heading: stopped.words?.heading ?? say('stop.heading'),
        items: reasons.map(({ reason }) => reason),
      },
      remedies: {
        kind: 'steps',
        first: 1,
        items: [
          ...uniqueWords(causes.map((finding) => remedyWords(say, finding, placesOf(finding)))),
          ...(stopped.also ?? []),
        ].map((text) => ({ text })),
      },
    },
    sources: [],
    stopped: reasons,
  })
}

/**
 * What findings say to the reader, their numbers in the shop's units; the same remark about two things is two.
 * @param names what fills the names of batches, moulds and tasks in a finding
 */
export const findingsWords = (
  frame: Frame,
  findings: readonly Finding[],
  names: (finding: Finding) => Fill = () => ({}),
): Inline[] => {
  const seen = new Map<string, number>()
  return findings.map((finding) => {
    const nth = (seen.get(finding.code) ?? 0) + 1
    seen.set(finding.code, nth)
    return frame.say(`finding.${finding.code}`, { ...fillOf(frame, finding, nth), ...names(finding) })
  })
}

const remedyWords = (say: Say, finding: Finding, places: readonly FindingPlace[]): Inline => {
  const remedy = say(`finding.${finding.code}.do`)
  const there = filePlaces(say, places)
  return there ? say('stop.do-there', { remedy, places: there }) : remedy
}

/** Two causes may be cured by one thing. */
const uniqueWords = (all: readonly Inline[]): Inline[] => [
  ...new Map(all.map((words) => [inlineWords(words), words])).values(),
]

/** The same cause at three weighings is one cause. */
const uniqueByWords = (findings: readonly Finding[]): Finding[] => [
  ...new Map(
    findings.map((finding) => [`${finding.code} ${JSON.stringify(finding.values)}`, finding]),
  ).values(),
]

type Unit =
  | 'length'
  | 'mass'
  | 'temperature'
  | 'share'
  | 'volume'
  | 'count'
  | 'duration'
  | 'saponification'
  | 'area'
  | 'force'
  | 'hours'
  | 'days'
  | 'kelvins'
  | 'clock'
  | 'wire'
  | 'light'

/** What the numbers of findings measure, by their name; a name means the same in every finding. */
const UNITS: Readonly<Record<string, Unit>> = {
  nominal: 'share', floor: 'share', lower: 'share', upper: 'share', worst: 'share', superfat: 'share', limit: 'share',
  wantedShare: 'share', low: 'share', high: 'share', saponificationValue: 'saponification', publishedLow: 'saponification', publishedHigh: 'saponification',
  massFraction: 'share', fullness: 'share', fullnessAllowed: 'share', share: 'share', rise: 'share',
  peak: 'temperature', hottest: 'temperature', waitFor: 'temperature', boilingPoint: 'temperature', temperature: 'temperature',
  peakTemperature: 'temperature', temperatureAllowed: 'temperature', from: 'temperature', to: 'temperature', room: 'temperature',
  heatTo: 'temperature', potTemperature: 'temperature', wantedTemperature: 'temperature', seedingPoint: 'temperature',
  mass: 'mass', minimum: 'mass', emptyMass: 'mass', capacity: 'mass', worstError: 'mass', loadedMass: 'mass', oilMass: 'mass',
  oilMassNeeded: 'mass', recommended: 'mass', allowedAlone: 'mass', allowedTogether: 'mass', ice: 'mass', water: 'mass',
  dry: 'mass', wet: 'mass', count: 'count', placeDry: 'count', placeDamp: 'count', wanted: 'mass', allWater: 'mass', wantedCheck: 'mass', checkMass: 'mass',
  volumeNeeded: 'volume', volumeAllowed: 'volume', trayNeeded: 'volume', trayVolume: 'volume',
  highest: 'temperature', gelTemperature: 'temperature', soonest: 'hours', longest: 'hours', earliest: 'hours', latest: 'hours',
  takenOff: 'hours', stripped: 'hours', after: 'duration', logged: 'count', leastLogged: 'count', missed: 'kelvins', missAllowed: 'kelvins', slowest: 'share', fastest: 'share',
  load: 'mass', rating: 'mass', byRoom: 'count', byLoad: 'count', minute: 'clock', closesMinute: 'clock', untilMinute: 'clock', bars: 'count', short: 'count', batches: 'count',
  days: 'days', early: 'days', before: 'days', halfTimeLow: 'days', halfTimeHigh: 'days', have: 'count', gain: 'mass', noise: 'mass', residual: 'mass', declared: 'mass', labelMost: 'mass', weighIns: 'count',
  wire: 'wire', columns: 'count', rows: 'count', grooves: 'count', wires: 'count', number: 'count',
  tension: 'force', tensionLow: 'force', tensionHigh: 'force', holds: 'force', resistance: 'force', weight: 'force', stagePush: 'force', pushByOne: 'force', pushByTwo: 'force',
  // on each metre, as the sentence says
  cuttingLoad: 'force', loadLow: 'force', loadHigh: 'force', loadHalf: 'force', soapLoad: 'force', soapLoadHeld: 'force', soapLoadByLag: 'force', bowShare: 'share', bowAllowed: 'share', bowPinned: 'share', overstated: 'share', cents: 'count', readings: 'count',
  pullNeeded: 'force', pullAllowed: 'force', push: 'force', pushNeeded: 'force', slices: 'count', degrees: 'count', degreesNeeded: 'count', touching: 'area', face: 'area', mostPortions: 'count', blanks: 'count', draws: 'count', mostDraws: 'count', pots: 'count', potsAtHand: 'count', least: 'duration', usual: 'duration',
  spreadWanted: 'light', spreadOfRest: 'light',
  planned: 'mass', weighed: 'mass', fitBars: 'count', wrappedBars: 'count', looseBars: 'count', goneBars: 'count', pieces: 'count', made: 'count', sold: 'count', kept: 'count',
} // biome-ignore format: grouped by unit

const DAY = /^\d{4}-\d{2}-\d{2}$/

const fillOf = (
  { say, show, scaleName, vesselName }: Frame,
  finding: Finding,
  nth: number,
): Record<string, Value | string | Inline> => {
  const fill: Record<string, Value | string | Inline> = {}
  for (const [key, value] of Object.entries(finding.values)) {
    if (typeof value === 'string') {
      if (key === 'one' || key === 'other') fill[key] = say(`part.${value}`)
      else if (key === 'gate' || key === 'region') fill[key] = say(`label.${key}.${value}`)
      else if (key === 'scale') fill[key] = scaleName(value)
      else if (key === 'vessel' || key === 'container') fill[key] = vesselName(value)
      else if (key === 'material') fill[key] = say(`material.${value}`)
      else if (DAY.test(value))
        fill[key] = show.shortDate(
          `finding.${finding.code}.${finding.values.batch ?? ''}.${nth}.${key}`,
          value,
        )
      else fill[key] = value === '' ? say('batch.weights.water') : value
      continue
    }
    const about = finding.values.key ?? finding.values.batch
    const of = about === undefined ? '' : `.${about}`
    const name = `finding.${finding.code}${of}${nth === 1 ? '' : `.${nth}`}.${key}`
    switch (UNITS[key] ?? 'length') {
      case 'share':
        fill[key] = show.percent(name, value, 1)
        break
      case 'temperature':
        fill[key] = show.temperature(name, value)
        break
      case 'kelvins':
        fill[key] = show.kelvins(name, value)
        break
      case 'mass':
        fill[key] = value < 1 ? show.weight(name, value, 0.001) : show.heavy(name, value)
        break
      case 'volume':
        fill[key] = show.volume(name, value)
        break
      case 'count':
        fill[key] = show.count(name, value)
        break
      case 'duration':
        fill[key] = show.minutes(name, Math.max(0, value))
        break
      case 'days':
        fill[key] = show.days(name, Math.round(value))
        break
      case 'clock':
        fill[key] = show.time(name, value)
        break
      case 'hours':
        fill[key] = show.hours(name, Math.max(0, value))
        break
      case 'force':
        fill[key] = show.force(name, value)
        break
      case 'area':
        fill[key] = show.area(name, value)
        break
      case 'saponification':
        fill[key] = show.perThousand(name, value)
        break
      case 'wire':
        fill[key] = show.thousandths(name, value)
        break
      case 'light':
        fill[key] = show.lightWeight(name, value)
        break
      case 'length':
        fill[key] = show.length(name, value)
        break
    }
  }
  return fill
}
