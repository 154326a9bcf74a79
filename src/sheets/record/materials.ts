/** Every material with its plan, its lot, what was weighed, and who did and saw it. */
import type { BoundRecord, RecordedMaterial } from '../../binder/bind-record.ts'
import { PREMIX } from '../../binder/weigh-out.ts'
import { additionWords, liquidWords } from '../batch/weights.ts'
import { blank, box, empty, type Fill, inlineList, maker, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'
import { typedOr } from './cells.ts'

/** kg */
const GRAM = 0.001

export const materialTable = (frame: Frame, record: BoundRecord, links: Fill): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.materials.caption', {
      off: show.percent('record.weighingOff', record.weighingOff, 1),
    }),
    columns: [
      { head: say('record.materials.what'), align: 'left' },
      { head: say('record.materials.planned'), align: 'right', width: 11 },
      { head: say('record.materials.as-planned'), align: 'centre', width: 10 },
      { head: say('record.materials.weighed'), align: 'left', width: 17 },
      { head: say('record.materials.lot'), align: 'left', width: 18 },
      { head: say('record.materials.by'), align: 'left', width: 10 },
      { head: say('record.materials.checked'), align: 'left', width: 11 },
    ],
    rows: record.materials.map((one): Cell[] => {
      const name = `material.${one.key}`
      const { division } = one.plan.scale
      return [
        nameOf(frame, record, one),
        number(show.weight(`${name}.planned`, one.planned, division)),
        one.weighed === undefined ? box : empty,
        typedOr(
          frame,
          one.weighed === undefined || one.off === undefined
            ? undefined
            : say('record.materials.with-off', {
                weighed: show.weight(`${name}.weighed`, one.weighed, GRAM),
                off: show.weightOff(`${name}.off`, one.off, GRAM),
              }),
          blank(say('blank.grams')),
        ),
        one.material === undefined
          ? words(say('record.materials.no-lot'))
          : typedOr(frame, lotWords(frame, one, name)),
        empty,
        // a second person has read these back on the batch sheet, draw by draw
        one.kind === 'oils' ? empty : words(say('record.materials.read-back', links)),
      ]
    }),
  }
}

/** One lot by its name, several with what was taken of each. */
const lotWords = (
  { say, show }: Frame,
  { lots }: RecordedMaterial,
  name: string,
): Inline | string | undefined => {
  const [only, ...more] = lots
  if (!only) return undefined
  if (more.length === 0) return only.lot
  return inlineList(
    say,
    lots.map(({ lot, amount }, index) =>
      say('record.materials.of-lot', { lot, mass: show.weight(`${name}.lot.${index + 1}`, amount, GRAM) }),
    ),
  )
}

const nameOf = (frame: Frame, { batch }: BoundRecord, { kind, key }: RecordedMaterial): Cell => {
  const { say } = frame
  if (kind === 'water') return liquidWords(frame, batch)
  if (kind === 'ice') return words(say('batch.weights.ice'))
  if (kind === 'later') return words(say('batch.weights.later'))
  if (kind === 'alkali') {
    const alkali = batch.alkalis.find((one) => one.key === key)
    return maker(alkali?.name ?? key)
  }
  if (kind === 'addition') {
    const addition = batch.additions.find((one) => one.key === key)
    return addition ? words(additionWords(frame, { ...addition, colour: undefined })) : maker(key)
  }
  const fats = frame.show.list(
    (batch.oils.find((one) => one.key === key)?.fats ?? []).map(({ name }) => name),
  )
  return key === PREMIX ? words(say('batch.oils.blend', { fats })) : maker(fats)
}
