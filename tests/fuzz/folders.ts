/** The folders that are changed: a small one, a new one as the program makes it, and the demo. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { readStarter } from '../../src/starter/read-starter.ts'
import { folderFiles } from '../../src/starter/starter-files.ts'
import { demo } from '../sites/edited-demo.ts'
import { smallBinderFiles } from '../sites/small-binder.ts'
import { bytesOf, type Files } from './mutate.ts'

const PAGE = `# Before we start

We weigh [[batch/2027-02-01-plain: naoh.mass]] of alkali today, and *nobody* talks.

## Who brings what

1. Gloves
2. Goggles

- see [the list](https://withy.example/list)

| who | what |
| --- | --- |
| R. Vale | towels |

::: notice
Hang this page up.
:::
`

const inBytes = (files: ReadonlyMap<string, string>): Files =>
  new Map([...files].map(([below, text]) => [below, bytesOf(text)]))

const demoFiles = (): Map<string, string> =>
  new Map(
    readdirSync(demo, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => relative(demo, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
      .filter(
        (below) =>
          /\.yaml$/.test(below) && !below.startsWith('records/as-printed/') && !below.startsWith('help/'),
      )
      .sort()
      .map((below) => [below, readFileSync(join(demo, below), 'utf8')]),
  )

export const FOLDERS = {
  small: () => inBytes(smallBinderFiles().set('pages/reminder.md', PAGE)),
  new: () =>
    inBytes(
      folderFiles(readStarter(), {
        name: 'Cook’s "shed": 2',
        language: 'en',
        paper: 'A4',
        length: 'mm',
        temperature: 'C',
        edition: '2027-03-01',
        date: '2027-03-14',
        fixture: { bar: ['57 mm', '70 mm', '28 mm'], columns: 3, rows: 2, slices: 6 },
      }),
    ),
  demo: () => inBytes(demoFiles()),
} as const satisfies Record<string, () => Files>

export type FolderName = keyof typeof FOLDERS
