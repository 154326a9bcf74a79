/** How even the bars of a fixture come out, what that hangs on, and what is worth being exact at. */
import type { BoundTolerance } from '../../binder/bind-tolerance.ts'
import { NEGLIGIBLE } from '../../binder/bind-tolerance.ts'
import { finishSheet, number, pickSources, words } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import type { Block, Sheet } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { errorFigure, errorTable, matterSteps } from './errors.ts'
import { limitTable } from './limits.ts'
import { gapWords, reachSteps, spacingTable } from './spacing.ts'
import { sizeTable, wayTable } from './ways.ts'

/** @param logs numbers of the sheets with weigh-in logs, by the key of their batch */
export const toleranceSheet = (
  frame: Frame,
  tolerance: BoundTolerance,
  numbers: FixtureNumbers,
  logs: Readonly<Record<string, string>>,
): Sheet => {
  const { say, show } = frame
  const { drawn } = tolerance
  const sheets = {
    gauge: numbers.gauge ?? numbers.mould,
    grid: numbers.gridCutter ?? numbers.mould,
    bar: numbers.barCutter ?? numbers.mould,
  }
  const doubt = Math.max(0, ...tolerance.limits.map(({ standardError, bars }) => standardError * bars))
  const isTyped = tolerance.errors.some((error) => error.isTyped)
  return finishSheet({
    ...frame.sheet(
      'fixture',
      `tolerance/${tolerance.key}`,
      say('section.fixture'),
      numbers.tolerance ?? '',
      say('tolerance.title', { title: tolerance.title }),
    ),
    template: frame.template('tolerance'),
    fill: {
      file: fileOf(tolerance),
      gaps: gapWords(frame, tolerance),
      'no-gain': show.percent('no-gain', 1 - Math.sqrt(1 - NEGLIGIBLE), 0),
      blocks: show.count('drawn.blocks', drawn.blocks),
      bars: show.count('drawn.bars', drawn.draws),
      doubt: show.meanCount('drawn.doubt', Math.max(doubt, 0.1)),
      typed: say(isTyped ? 'tolerance.errors.some-typed' : 'tolerance.errors.none-typed'),
      deviations: show.count('drawn.deviations', tolerance.deviations),
    },
    blocks: {
      'at-a-glance': atAGlance(frame, tolerance),
      said: {
        kind: 'cautions',
        signal: 'notice',
        heading: say('tolerance.said.heading'),
        items: [
          ...findingsWords(frame, tolerance.findings),
          ...(isCentringEnough(tolerance)
            ? [
                say('tolerance.said.frame', {
                  sheet: sheets.grid,
                  kept: show.lightWeight('centred.spread', tolerance.centred.nearlyAll * tolerance.barMass),
                }),
              ]
            : []),
          ...(tolerance.isMeasured
            ? [say('tolerance.said.measured', { sheet: numbers.asBuilt ?? numbers.mould })]
            : []),
        ],
      },
      matters: matterSteps(frame, tolerance, numbers),
      bar: errorFigure(frame, tolerance),
      errors: errorTable(frame, tolerance),
      ways: wayTable(frame, tolerance),
      sizes: sizeTable(frame, tolerance),
      limits: limitTable(frame, tolerance, logs),
      spacing: spacingTable(frame, tolerance),
      reach: reachSteps(frame, tolerance, sheets),
    },
    sources: pickSources(frame.sources, ['scholz1995', 'tolerance-stack-up', 'jcgm101', 'common-practice']),
  })
}

const fileOf = ({ key }: BoundTolerance): string => `fixtures/${key}.yaml`

/** Where closer wires are not, the eye may do. */
const isCentringEnough = (
  tolerance: BoundTolerance,
): tolerance is BoundTolerance & { readonly centred: NonNullable<BoundTolerance['centred']> } =>
  tolerance.findings.length > 0 &&
  tolerance.centred !== undefined &&
  tolerance.centred.nearlyAll * tolerance.barMass <= tolerance.wanted.spread

/** Bars of which is told how many are outside. */
const THOUSAND = 1000

const atAGlance = (frame: Frame, tolerance: BoundTolerance): Block => {
  const { say, show } = frame
  const { barMass, isPlanned, nearlyAll, drawn, presumed, wanted } = tolerance
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('tolerance.glance.bar'),
        cell: number(show.lightWeight('bar.mass', barMass)),
        note: say(isPlanned ? 'tolerance.glance.bar-planned' : 'tolerance.glance.bar-usual'),
      },
      {
        label: say('tolerance.glance.spread'),
        cell: words(
          say('tolerance.plus-minus', { value: show.lightWeight('spread.nearly-all', nearlyAll * barMass) }),
        ),
        note: say('tolerance.glance.spread-note', {
          outside: show.meanCount('spread.outside', drawn.all.outside * THOUSAND),
          thousand: show.count('spread.thousand', THOUSAND),
        }),
      },
      {
        label: say('tolerance.glance.lightest'),
        cell: number(show.percent('spread.lightest', 1 - drawn.lightest, 1)),
        note: say('tolerance.glance.lightest-note', {
          presumed: show.percent('spread.presumed', presumed, 0),
          blocks: show.percent('spread.lighter', tolerance.lighterThanPresumed, 0),
        }),
      },
      {
        label: say('tolerance.glance.wanted'),
        cell: words(say('tolerance.plus-minus', { value: show.lightWeight('wanted.spread', wanted.spread) })),
        note: say(wanted.isTyped ? 'tolerance.glance.wanted-typed' : 'tolerance.glance.wanted-presumed', {
          file: fileOf(tolerance),
        }),
      },
    ],
  }
}
