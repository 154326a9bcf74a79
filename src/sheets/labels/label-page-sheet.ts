/** The page of labels of a batch, on paper of its own; or the page that says why there are none. */
import type { BoundLabel } from '../../binder/bind-labels.ts'
import { type LabelPlaces, labelPage } from '../../drawing/labels/label-page.ts'
import type { Finding } from '../../findings.ts'
import { finishSheet, inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { readingOf } from '../frame.ts'
import type { Inline, Sheet, Value } from '../model.ts'
import { INCH } from '../shown.ts'
import { stopSheet } from '../stop-sheet.ts'
import { labelTitle } from './label-title.ts'
import { runsOf, type SetLabel } from './label-words.ts'

/** m to mm */
const MM = 1000
/** mm: two inches, or five centimetres */
const SCALE = { in: 2 * INCH * MM, mm: 50 } as const

/** The id of the page, which its label sheet and the plan lead to. */
export const labelPageId = ({ batch }: BoundLabel): string => `labels/${batch.key}`

/** Everything in the way of labels: an open gate alone prints them, with what they bear then. */
const inTheWay = (label: BoundLabel, set: SetLabel): Finding[] =>
  [...label.findings, ...set.findings]
    .filter(
      ({ severity, code }) => severity === 'stop' || (severity === 'hold' && code !== 'label-gate-open'),
    )
    .map((finding) => ({ ...finding, severity: 'stop' }))

export const labelPageSheet = (frame: Frame, label: BoundLabel, set: SetLabel, number: string): Sheet => {
  const { say, show, template } = frame
  const stops = inTheWay(label, set)
  const id = labelPageId(label)
  if (stops.length > 0)
    return stopSheet(frame, {
      kind: 'label',
      id,
      number,
      title: labelTitle(frame, label, 'label.page.title'),
      findings: stops,
      placesOf: label.placesOf,
      words: { heading: say('label.page.none'), template: 'label-stopped' },
    })
  const title = labelTitle(
    frame,
    label,
    label.state === 'for-sale' ? 'label.page.title' : 'label.page.title-unsold',
  )
  const places = placesOf(label)
  const length: Value = {
    ...show.wholeSize('drawing.labels.scale', SCALE[show.lengthUnit] / MM),
  }
  const head: Inline = say('label.page.head', {
    sheet: number,
    title,
    edition: frame.issued,
    distance: readingOf(show, 'label-page').at,
  })
  const { svg, hasScale } = labelPage({
    places,
    label: set.layout.marks,
    head: runsOf(head),
    scale: { length: SCALE[show.lengthUnit], runs: runsOf(say('label.page.scale', { length })) },
    listener: inlineWords(say('label.page.listener')),
  })
  const draft = frame.sheet('label-page', id, say('section.label'), number, title)
  return finishSheet({
    ...draft,
    wholePage: places.paper,
    template: template('label-page'),
    fill: {},
    blocks: {
      page: {
        kind: 'figure',
        svg,
        caption: { text: '', fill: {} },
        values: [...set.values, ...(hasScale ? [length] : [])],
      },
    },
    sources: [],
  })
}

const placesOf = ({ grid, paper }: BoundLabel): LabelPlaces => {
  if (!grid) throw new Error('No labels to place.')
  return {
    paper: { width: paper.width * MM, height: paper.height * MM },
    columns: grid.columns,
    rows: grid.rows,
    width: grid.width * MM,
    height: grid.height * MM,
    left: grid.left * MM,
    top: grid.top * MM,
    gapAcross: (grid['gap-across'] ?? 0) * MM,
    gapDown: (grid['gap-down'] ?? 0) * MM,
    cutMarks: grid['cut-marks'] ?? true,
  }
}
