/** A new folder that stands: composed before anybody sees it, at an hour that meets nothing, in a block that can be made. */
import { asFolderFiles } from '../schema/read-folder.ts'
import { inlineWords } from '../sheets/compose.ts'
import { readStarter } from '../starter/read-starter.ts'
import { type FolderAnswers, folderFiles } from '../starter/starter-files.ts'
import { type Composed, composeFiles } from './compose.ts'
import { UsageError } from './options.ts'
import { say } from './say.ts'

/** What is usual. */
export const BAR = { in: '2 1/4 in x 2 3/4 in x 1 1/8 in', mm: '57 mm x 70 mm x 28 mm' } as const

const SHOWN = 'new'

/** A block that new folders cannot make: another size may do. */
class NoBlock extends UsageError {}

/** @param again asks for another bar and grid, where somebody can be asked; all other answers stay */
export const fittingOrAskedAgain = async (
  answers: FolderAnswers,
  again: (() => Promise<FolderAnswers['fixture']>) | undefined,
): ReturnType<typeof fitting> => {
  for (let one = answers; ; ) {
    say('Working out whether all of it can be built …')
    try {
      return await fitting(one)
    } catch (error) {
      if (!(error instanceof NoBlock) || !again) throw error
      say(error.message)
      one = { ...one, fixture: await again() }
    }
  }
}

/** The files of a folder that stands: composed before anybody sees it, so that nobody begins with a mistake. */
const fitting = async (
  answers: FolderAnswers,
): Promise<{ readonly files: ReadonlyMap<string, string>; readonly told: readonly string[] }> => {
  const starter = readStarter()
  const tried = async (one: FolderAnswers) => {
    const files = folderFiles(starter, one)
    const { binder, diagnostics } = await composeFiles(
      { files: asFolderFiles(files, SHOWN), diagnostics: [] },
      SHOWN,
    )
    if (!binder)
      throw new UsageError(
        `This cannot be put together: ${diagnostics[0]?.message ?? ''}. Nothing was written.`,
      )
    return { files, binder }
  }
  const first = await tried(answers)
  const stops = stopsAndConflicts(first.binder).stops
  if (stops.length > 0) {
    const { bar, columns, rows, slices } = answers.fixture
    const turned = [bar[1], bar[0], bar[2]] as const
    const isTurnable =
      bar[0] !== bar[1] &&
      stopsAndConflicts((await tried({ ...answers, fixture: { ...answers.fixture, bar: turned } })).binder)
        .stops.length === 0
    throw new NoBlock(
      [
        `A block of ${columns} by ${rows} loaves of this size, ${slices} bars each, cannot be made as new folders make it.`,
        isTurnable
          ? `Turned, ${turned.join(' x ')}, the same bar can be made: say it so.`
          : `Choose fewer loaves or bars, or begin with what is usual, ${BAR.in} or ${BAR.mm}, 5x3x7, and change the files.`,
        'Nothing was written. What stands in the way:',
        ...stops.map((one) => `  ${one}`),
      ].join('\n'),
    )
  }
  let best = first
  const hours = [freeHour(first.binder, answers.date), ...OTHER_HOURS].filter((hour) => hour !== undefined)
  for (const pourAt of hours) {
    if (stopsAndConflicts(best.binder).conflicts.length === 0) break
    const next = await tried({ ...answers, pourAt })
    if (stopsAndConflicts(next.binder).conflicts.length < stopsAndConflicts(best.binder).conflicts.length)
      best = next
  }
  return { files: best.files, told: stopsAndConflicts(best.binder).conflicts }
}

/** At which the plan says that the pour meets nothing. */
const freeHour = (binder: MadeBinder, date: string): string | undefined => {
  const free = binder.bound.calendar.plan.batches[0]?.nextFree
  return free?.date === date
    ? `${Math.floor(free.minute / 60)}:${String(free.minute % 60).padStart(2, '0')}`
    : undefined
}

/** Small blocks are hot soon and cut soon, large ones late; one of these leaves the night alone. */
const OTHER_HOURS = ['9:00', '12:00', '14:00']

export type MadeBinder = NonNullable<Composed['binder']>

/** Why sheets of a binder are stopped, and what its plan meets: each reason once. */
export const stopsAndConflicts = ({
  sheets,
}: Pick<MadeBinder, 'sheets'>): {
  readonly stops: readonly string[]
  readonly conflicts: readonly string[]
} => {
  const once = (
    reasons: readonly { readonly reason: Parameters<typeof inlineWords>[0] }[],
  ): readonly string[] => [...new Set(reasons.map(({ reason }) => inlineWords(reason)))]
  return {
    stops: once(sheets.flatMap(({ stopped = [] }) => stopped)),
    conflicts: once(sheets.flatMap(({ conflicts = [] }) => conflicts)),
  }
}
