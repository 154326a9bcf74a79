/** What was written on paper and typed into the batch's file, in the words of a blank. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { ReadingKey } from '../../binder/record-controls.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Step } from '../model.ts'

/** kg */
const GRAM = 0.001

export type TypedReadings = ReadonlyMap<string, Inline>

/** @returns by the names that blanks of the batch sheet have */
export const typedReadings = ({ say, show }: Frame, batch: BoundBatch): TypedReadings => {
  const { readings = {} } = batch.file.value.made ?? {}
  const written = new Map<string, Inline>()
  const put = <T>(
    key: ReadingKey,
    found: T | undefined,
    shown: (found: T, name: string) => ShownValue,
  ): void => {
    if (found !== undefined) written.set(key, say('record.typed', { value: shown(found, `made.${key}`) }))
  }
  const warmth = (found: number, name: string) => show.temperature(name, found)
  const clock = (found: number, name: string) => show.time(name, found)
  const moment = ({ date, at }: { readonly date: string; readonly at: number }, name: string) =>
    show.moment(name, { date, minute: at })
  const length = (found: number, name: string) => show.length(name, found)
  put('lye-peak', readings['lye-peak'], warmth)
  put('lye', readings.lye, warmth)
  put('fats', readings.fats, warmth)
  put('lye-in', readings['lye-in'], clock)
  put('trace', readings.trace, clock)
  put('poured', readings.poured, clock)
  put('below-rim', readings['below-rim'], length)
  put('core-hottest', readings['core-hottest'], warmth)
  put('sides-off', readings['sides-off'], moment)
  put('set-height', readings['set-height'], length)
  put('push', readings.push, (found, name) => show.weight(name, found, GRAM))
  put('cut', readings.cut, moment)
  return written
}

type ShownValue = ReturnType<Frame['show']['date']>

/** A step with what was written on its lines. */
export const withTyped = (step: Step, written: TypedReadings): Step =>
  step.blanks?.some(({ reading }) => reading !== undefined && written.has(reading))
    ? {
        ...step,
        blanks: step.blanks.map((line) => {
          const typed = line.reading === undefined ? undefined : written.get(line.reading)
          return typed ? { ...line, typed } : line
        }),
      }
    : step
