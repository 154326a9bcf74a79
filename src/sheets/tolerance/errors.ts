/** Where the difference between bars comes from: the greatest three in words, all in a table and as a bar. */
import type { BoundTolerance } from '../../binder/bind-tolerance.ts'
import {
  type ShareBarGroup,
  type ShareBarPart,
  type SharePattern,
  shareBar,
} from '../../drawing/share-bar.ts'
import { type Fill, inlineWords, number, words } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Figure, Table, Value } from '../model.ts'
import { ERROR_WORDS, livingErrors, toleranceValue, whatWords } from './error-words.ts'

const TOP = 3
/** mm; what Letter and A4 have between binding margin and outer edge, with room to spare */
const BAR_WIDTH = 172

/** Decimals of a share of the spread: whole percents are finer than anybody knows a tolerance. */
const WHOLE = 0

const shareValue = ({ show }: Frame, key: string, share: number) =>
  show.percent(`error.${key}.share`, share, WHOLE)

/** The three that matter most, each with what makes it smaller. */
export const matterSteps = (frame: Frame, tolerance: BoundTolerance, numbers: FixtureNumbers): Block => {
  const { say, show } = frame
  const sheets = {
    mould: numbers.mould,
    gauge: numbers.gauge ?? numbers.mould,
    grid: numbers.gridCutter ?? '',
    bar: numbers.barCutter ?? '',
  }
  return {
    kind: 'steps',
    first: 1,
    items: livingErrors(tolerance)
      .slice(0, TOP)
      .map((error) => ({
        text: say('tolerance.matters', {
          what: whatWords(frame, error.key),
          bars: show.count(`error.${error.key}.bars`, error.bars),
          all: show.count('kind.all.bars', tolerance.drawn.all.bars),
          without: withoutValue(frame, tolerance, error),
          how: say(ERROR_WORDS[error.key].how, { ...sheets, ...gapsFill(frame, tolerance, error.key) }),
        }),
      })),
  }
}

/** ± of nearly all bars, were this error gone. */
const withoutValue = (
  { show }: Frame,
  { barMass }: BoundTolerance,
  { key, without }: BoundTolerance['errors'][number],
): Value => show.lightWeight(`error.${key}.without`, without * barMass)

/** What the frame's step says of gaps. */
const gapsFill = ({ show }: Frame, { centred, barMass }: BoundTolerance, key: string): Fill =>
  key === 'frame-centred' && centred
    ? {
        room: show.thousandths('centred.room', centred.room),
        off: show.thousandths('centred.off', centred.off),
        difference: show.thousandths('centred.difference', centred.difference),
        card: show.thousandths('centred.card', centred.card),
        'gauge-part': show.thousandths('centred.gauge-part', centred.gaugePart),
        kept: show.lightWeight('centred.spread', centred.nearlyAll * barMass),
      }
    : {}

export const errorTable = (frame: Frame, tolerance: BoundTolerance): Table => {
  const { say, show } = frame
  const right = (key: string, width: number) => ({ head: say(key), align: 'right' as const, width })
  return {
    kind: 'table',
    caption: say('tolerance.errors.caption'),
    columns: [
      { head: say('tolerance.errors.what'), align: 'left' },
      right('tolerance.errors.tolerance', 19),
      right('tolerance.errors.weight', 16),
      right('tolerance.errors.bars', 9),
      right('tolerance.errors.share', 8),
      right('tolerance.errors.without', 16),
    ],
    rows: livingErrors(tolerance).map((error): Cell[] => {
      const { key, weightChange, bars, ofVariance, isTyped } = error
      const what = whatWords(frame, key)
      return [
        words(isTyped ? say('tolerance.errors.typed', { what }) : what),
        number(toleranceValue(frame, error)),
        number(show.lightWeight(`error.${key}.weight`, weightChange * tolerance.barMass)),
        number(show.count(`error.${key}.bars`, bars)),
        number(shareValue(frame, key, ofVariance)),
        number(withoutValue(frame, tolerance, error)),
      ]
    }),
  }
}

const GROUPS = [
  { key: 'bar-cutter', words: 'tolerance.group.bar-cutter', pattern: 'slanted' },
  { key: 'grid-cutter', words: 'tolerance.group.grid-cutter', pattern: 'upright' },
  { key: 'mould', words: 'tolerance.group.mould', pattern: 'crossed' },
  { key: 'soap', words: 'tolerance.group.soap', pattern: 'blank' },
] as const satisfies readonly { key: string; words: string; pattern: SharePattern }[]

/** The spread of weights as one bar, by what it comes from, the greatest first. */
export const errorFigure = (frame: Frame, tolerance: BoundTolerance): Figure => {
  const { say, show } = frame
  const errors = livingErrors(tolerance)
  const groups = GROUPS.map((group): ShareBarGroup => {
    const own = errors.filter(({ key }) => ERROR_WORDS[key].group === group.key)
    const share = own.reduce((sum, { ofVariance }) => sum + ofVariance, 0)
    return {
      name: `from.${group.key}`,
      label: inlineWords(say(group.words)),
      shown: show.percent('', share, WHOLE).shown,
      share,
      pattern: group.pattern,
      // what is all of its group is named once, below the bar
      parts: (own.length > 1 ? own : []).map(
        ({ key, ofVariance }): ShareBarPart => ({
          name: key,
          label: inlineWords(say(ERROR_WORDS[key].short)),
          shown: shareValue(frame, key, ofVariance).shown,
          share: ofVariance,
        }),
      ),
    }
  })
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share)
  const bar = shareBar({
    name: 'spread',
    label: inlineWords(say('tolerance.bar.label')),
    width: BAR_WIDTH,
    groups,
  })
  return {
    kind: 'figure',
    svg: bar.svg,
    caption: say('tolerance.bar.caption'),
    values: groups
      .flatMap((group): ShareBarPart[] => [group, ...group.parts])
      .filter(({ name }) => bar.written.includes(name))
      .map(({ name, share, shown }) => ({ name: `drawing.spread.${name}`, value: share, unit: '1', shown })),
  }
}
