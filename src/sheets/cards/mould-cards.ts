/** Cards at the bench: closing the mould, and cutting its block with the cutters that stand. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { CardDraft } from '../card-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'
import { spannerFill, strips } from '../mould/steps.ts'

/** who press a frame down together */
const PEOPLE = 2

const titleOf = ({ say }: Frame, key: string, { title }: BoundMould): Inline => say(key, { fixture: title })
export const mouldCard = (frame: Frame, bound: BoundMould): CardDraft => {
  const { say, show } = frame
  const { mould, loads } = bound
  const { torque, hung, arm } = spannerFill(frame, loads)
  return {
    id: `mould/${bound.key}`,
    title: titleOf(frame, 'card.mould.title', bound),
    card: {
      caution: { signal: 'warning', words: say('card.mould.caution') },
      number: {
        label: say('card.mould.number'),
        words: say('card.mould.hung', { hung, arm: show.millimetres('loads.armOut', Number(arm.value)) }),
      },
      wear: say('card.mould.wear'),
      steps: [
        say('card.mould.strips', strips(frame, mould)),
        say('card.mould.walls'),
        say('card.mould.rods', { torque }),
        say('card.mould.lining'),
        say('card.mould.bead', {
          gap: show.millimetres('mould.base.clearance', mould.input.base.clearance),
        }),
        say('card.mould.level'),
      ],
      stop: say('card.mould.stop'),
      from: say('card.from-fixture'),
    },
  }
}

export const gridCard = (frame: Frame, bound: BoundMould, { cutter, wires }: BoundGridCutter): CardDraft => {
  const { say, show } = frame
  // the mark at the first touch says nothing yet; a short block has no other
  const first = cutter.marks[1]
  // a cutter that stands has wires, and so a push
  const each = show.pressAtMost('push.half.most', (wires.push?.held.plan.push ?? 0) / PEOPLE)
  return {
    id: `grid-cut/${bound.key}`,
    title: titleOf(frame, 'card.grid.title', bound),
    card: {
      caution: { signal: 'warning', words: say('card.grid.caution') },
      number: {
        label: say('card.grid.number'),
        words: { text: '[[stroke]]', fill: { stroke: show.length('cutter.stroke', cutter.stroke) } },
      },
      wear: say('card.wear'),
      steps: [
        say('card.grid.strips', strips(frame, bound.mould)),
        say('card.grid.wires', { wires: show.count('cutter.wires', cutter.wires.length) }),
        say('card.grid.push'),
        ...(first ? [say('card.grid.marks', { step: show.length('cutter.markStep', first.travel) })] : []),
        say('card.grid.end'),
        say('card.grid.out'),
      ],
      stop: say('card.grid.stop', { each }),
      from: say('card.from-fixture'),
    },
  }
}

export const sliceCard = (frame: Frame, bound: BoundMould): CardDraft => {
  const { say, show } = frame
  const { block } = bound.mould
  const trim = block.trim.height.end
  return {
    id: `slice/${bound.key}`,
    title: titleOf(frame, 'card.slice.title', bound),
    card: {
      caution: { signal: 'warning', words: say('card.slice.caution') },
      number: {
        label: say('card.slice.number', { loaves: show.count('loaves', block.columns * block.rows) }),
        words: { text: '[[bars]]', fill: { bars: show.count('loaf.bars', block.slices) } },
      },
      wear: say('card.wear'),
      steps: [
        say('card.slice.open'),
        say('card.slice.loaf'),
        say('card.slice.close'),
        say('card.slice.lift'),
        ...(trim > 0 ? [say('card.slice.trim', { trim: show.length('loaf.trim', trim) })] : []),
        say('card.slice.dry'),
      ],
      stop: say('card.slice.stop'),
      from: say('card.from-fixture'),
    },
  }
}
