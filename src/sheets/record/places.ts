/** Where the record of a batch stands: behind the blank logs of its section, in the order of the batches. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { Place } from '../links.ts'
import { PLACES } from '../places.ts'

const SECTION = '12'

/** Sheets of the section that every binder has. */
const LOGS = Object.values(PLACES).filter(({ number }) => number.startsWith(`${SECTION}.`)).length

/** @throws Error for a batch that must not be made, which has no record: a bug */
export const recordPlace = ({ records }: Pick<BoundBinder, 'records'>, key: string): Place => {
  const index = records.findIndex(({ batch }) => batch.key === key)
  if (index < 0) throw new Error(`The batch "${key}" has no record.`)
  return { id: `record/${key}`, number: `${SECTION}.${LOGS + index + 1}` }
}
