/** Tasks of batches in words: which of them may be printed, and what a conflict of theirs is called. */
import { mouldNamed } from '../../binder/batch-plan.ts'
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import type { PlannedTask } from '../../cure/task-times.ts'
import { type Finding, isStopped } from '../../findings.ts'
import type { Fill } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'

/** What a task is, without the day that it is named by: turn-7 is a turn. */
export const taskKind = (task: string): string => task.replace(/-\d+$/, '')

const AFTER_CUT = new Set(['cut', 'slice', 'stamp', 'turn', 'weigh-in', 'release-test', 'label', 'sell-by'])
const BY_WEIGHT = new Set(['weigh-in', 'label'])

/** Nothing after a cut without a day, no label that bars do not keep, nothing by weighings that cannot be. */
export const printedTasks = ({ planned, cutUnknown, findings, label }: BoundCure): readonly PlannedTask[] =>
  planned.tasks.filter(({ task }) => {
    const kind = taskKind(task)
    if (cutUnknown && AFTER_CUT.has(kind)) return false
    if (kind === 'label' && label.from === undefined) return false
    return !(isStopped(findings) && BY_WEIGHT.has(kind))
  })

/** A batch by its recipe and the number of its sheet. */
export const batchWords = ({ say }: Frame, { batches }: BoundBinder, key: string): Inline => {
  const index = batches.findIndex((batch) => batch.key === key)
  return say('calendar.batch', { recipe: batches[index]?.recipeTitle ?? key, number: `4.${index + 1}` })
}

/** Sheets of the section before the weigh-in logs: the plan, the racks, the markets. */
export const sheetsBeforeLogs = ({ cures, calendar, markets }: BoundBinder): number =>
  (cures.length > 0 ? 1 : 0) + (cures.length > 0 && calendar.racks.length > 0 ? 1 : 0) + markets.length

/** Number of the sheet with a batch's weigh-in log. */
export const logNumber = (binder: BoundBinder, cure: BoundCure): string =>
  `6.${sheetsBeforeLogs(binder) + binder.cures.indexOf(cure) + 1}`

/** A mould by its title, with its place among equal ones. */
export const mouldWords = ({ say }: Frame, { moulds }: BoundBinder, name: string): Inline | string => {
  const { key, number } = mouldNamed(name)
  const title = moulds.find((mould) => mould.key === key)?.title ?? key
  return number === undefined ? title : say('calendar.mould-of-several', { mould: title, number })
}

/** Everything at which batches meet each other or the clock, each with what would be free. */
export const conflictWords = (
  frame: Frame,
  binder: BoundBinder,
): readonly { readonly finding: Finding; readonly batch: string; readonly words: Inline }[] =>
  binder.cures.flatMap(({ planned }) => {
    const { findings, nextFree, batch } = planned
    const words = findingsWords(frame, findings, (finding) => namesIn(frame, binder, finding))
    return findings.map((finding, index) => {
      const said = words[index] as Inline
      if (!nextFree || finding.code === 'no-cut-window')
        return { finding, batch, words: withRemedy(frame, finding, said) }
      const free = frame.show.moment(`calendar.${batch}.nextFree`, nextFree)
      return { finding, batch, words: frame.say('calendar.next-free', { conflict: said, free }) }
    })
  })

/** What stops is said with what to do. */
export const withRemedy = ({ say }: Frame, { code, severity }: Finding, said: Inline): Inline =>
  severity === 'stop' ? say('calendar.and-do', { conflict: said, remedy: say(`finding.${code}.do`) }) : said

const namesIn = (frame: Frame, binder: BoundBinder, { values }: Finding): Fill => {
  const { batch, occupant, task, othersTask, mould } = values
  return {
    ...(typeof batch === 'string' ? { batch: batchWords(frame, binder, batch) } : {}),
    ...(typeof occupant === 'string' ? { occupant: batchWords(frame, binder, occupant) } : {}),
    ...(typeof task === 'string' ? { task: frame.say(`calendar.task.${taskKind(task)}`) } : {}),
    ...(typeof othersTask === 'string'
      ? { othersTask: frame.say(`calendar.task.${taskKind(othersTask)}`) }
      : {}),
    ...(typeof mould === 'string' ? { mould: mouldWords(frame, binder, mould) } : {}),
  }
}
