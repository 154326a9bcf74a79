/** Composes the small binder and says a hash of every word and value, for a process with another locale or time zone. */
import { createHash } from 'node:crypto'
import { bindAndCompose, contentOf, editedFiles } from './small-binder.ts'

// a decimal comma, an i that Turkish would write otherwise, and days at both ends of a year
const { sheets } = bindAndCompose(
  contentOf(
    editedFiles(
      ['recipes/plain.yaml', 'title: Plain bar', 'title: INIT ibis bar'],
      ['shop.yaml', 'edition: 2027-01-04', 'edition: 2026-12-31\ndecimal-mark: comma'],
      ['batches/2027-02-01-plain.yaml', 'date: 2027-02-01', 'date: 2027-01-01'],
    ),
  ),
)
const said = JSON.stringify(sheets, (_, value) =>
  value instanceof Map ? [...value] : typeof value === 'bigint' ? `${value}` : value,
)
const here = new Date(Date.UTC(2027, 0, 1, 0, 30))
process.stdout.write(
  `${createHash('sha256').update(said).digest('hex')} ${said.length} ${here.getDate()} ${new Intl.NumberFormat().format(1.5)}\n`,
)
