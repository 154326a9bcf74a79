/** What can still be changed of a block before anything is opened: what keeps it cooler, what lets it be cut in time. */
import type { Remedied, WayOut } from '../../batch/block-heat-variants.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { nothing } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline } from '../model.ts'
import { fixedLinks } from '../places.ts'

export const blockAhead = (frame: Frame, { blockHeat }: BoundBatch): Block => {
  if (!blockHeat) return nothing
  const { say, show } = frame
  const { heat, tooHot, remedies, ways } = blockHeat
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('block.ahead.heading'),
    items: [
      ...(remedies.length > 0
        ? [
            say('block.ahead.too-hot', {
              peak: show.temperature('block.peak', heat.peak.nominal),
              highest: show.temperature('block.peak.high', heat.peak.high),
              allowed: show.temperature('block.tooHot', tooHot),
              ways: listed(
                frame,
                remedies.map((one) => remedyWords(frame, one)),
              ),
            }),
          ]
        : []),
      ...(ways.length > 0
        ? [
            say('block.ahead.too-late', {
              ways: listed(
                frame,
                ways.map((one) => wayWords(frame, one)),
              ),
            }),
          ]
        : []),
    ],
  }
}

/** What would lift the stop of a block that would boil, and what would lead the estimate; nothing for others. */
export const coolerWays = (frame: Frame, batch: BoundBatch): Inline[] =>
  batch.findings.some(({ code }) => code === 'block-boils')
    ? [...enoughWords(frame, batch), frame.say('block.enough.logged')]
    : []

/** All of it together; nobody has to try remedies one by one. */
const enoughWords = (
  { say, show }: Frame,
  { blockHeat, pourTemperature, fill, heat }: BoundBatch,
): readonly Inline[] => {
  if (!blockHeat?.belowBoiling) return [say('block.enough.none')]
  const { bare, pour, height, peak, high, maySteam } = blockHeat.belowBoiling
  const now = show.temperature('block.now.pour', pourTemperature)
  const warmest = show.temperature('block.enough.pour', pour)
  const parts: readonly Inline[] = [
    ...(bare ? [say('block.enough.bare')] : []),
    ...(pour < pourTemperature ? [say('block.enough.pour', { pour: warmest, now })] : []),
    ...(height === undefined
      ? []
      : [
          say('block.enough.height', {
            height: show.length('block.enough.height', height),
            now: show.length('block.now.height', fill.pourHeight.nominal),
          }),
        ]),
  ]
  const { seeding } = heat
  return [
    say('block.enough', {
      ways: parts.reduce((before, next) => say('block.enough.and', { before, next })),
      peak: show.temperature('block.enough.peak', peak),
      high: show.temperature('block.enough.high', high),
    }),
    ...(maySteam ? [say('block.enough.steam', fixedLinks)] : []),
    ...(seeding && pour < seeding.temperature
      ? [
          say('block.enough.sets', {
            fat: seeding.fat.name,
            sets: show.temperature('block.enough.sets', seeding.temperature),
          }),
        ]
      : []),
  ]
}

const listed = ({ say }: Frame, ways: readonly Inline[]): Inline =>
  ways.reduce((before, next) => say('block.ahead.list', { before, next }))

const remedyWords = ({ say, show }: Frame, { remedy, setting = 0, peak }: Remedied): Inline => {
  const name = `block.remedy.${remedy}`
  const fill = { peak: show.temperature(name, peak) }
  switch (remedy) {
    case 'no-insulation':
      return say('block.remedy.no-insulation', fill)
    case 'cooler-pour':
      return say('block.remedy.cooler-pour', { ...fill, pour: show.temperature(`${name}.pour`, setting) })
    case 'shallower-block':
      return say('block.remedy.shallower-block', { ...fill, height: show.length(`${name}.height`, setting) })
  }
}

const wayWords = (frame: Frame, one: WayOut): Inline => {
  const { say } = frame
  const words = wayAlone(frame, one)
  return one.enough || one.earliestCut === undefined ? words : say('block.way.late', { way: words })
}

const wayAlone = ({ say, show }: Frame, { way, setting = 0, strip, earliestCut }: WayOut): Inline => {
  const name = `block.way.${way}`
  const cut =
    earliestCut === undefined
      ? say('block.way.never')
      : say('block.way.cut', { cut: show.hours(`${name}.cut`, earliestCut) })
  switch (way) {
    case 'strip-when-held':
      return strip === undefined
        ? say('block.way.holds-never')
        : say('block.way.strip-when-held', { cut, strip: show.hours(`${name}.strip`, strip) })
    case 'no-insulation':
      return say('block.way.no-insulation', { cut })
    case 'shallower-block':
      return say('block.way.shallower-block', { cut, height: show.length(`${name}.height`, setting) })
  }
}
