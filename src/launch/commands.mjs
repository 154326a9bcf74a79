// The commands, in the words that `--help` shows.
export const COMMANDS = [
  { name: 'build', npm: 'npm start', does: 'works everything out and writes the binder', kind: 'program' },
  {
    name: 'check',
    npm: 'npm run check',
    does: 'reads and works everything out, writes nothing',
    kind: 'program',
  },
  {
    name: 'new',
    npm: 'npm run new',
    does: 'makes a folder of your own, or one more recipe, batch or fixture in it',
    kind: 'program',
  },
  {
    name: 'upgrade',
    npm: 'npm run upgrade',
    does: 'brings a folder of an older version up to date, with a backup beside it',
    kind: 'program',
  },
  {
    name: 'preview',
    npm: 'npm run preview',
    does: 'shows the binder in a browser and follows each save; writes nothing',
    kind: 'program',
  },
  {
    name: 'recall',
    npm: 'npm run recall',
    does: 'calls back a lot or a batch on one page (-- LOT)',
    kind: 'program',
  },
  {
    name: 'printed',
    npm: 'npm run printed',
    does: 'writes down which papers were hung up or taken down',
    kind: 'program',
  },
  {
    name: 'what-if',
    npm: 'npm run what-if',
    does: 'says which numbers would change, writes nothing (-- --set "ADDRESS=VALUE")',
    kind: 'program',
  },
  { name: 'test', npm: 'npm test', does: 'checks the program itself: types, style, tests', kind: 'stages' },
  { name: 'soak', npm: 'npm run soak', does: 'tries the program for long (-- --minutes 10)', kind: 'stages' },
  { name: 'tidy', npm: 'npm run tidy', does: "puts the program's own files in order", kind: 'stages' },
]

export const helpText = () => {
  const width = Math.max(...COMMANDS.map((command) => command.npm.length))
  return [
    'Commands:',
    ...COMMANDS.map((command) => `  ${command.npm.padEnd(width)}  ${command.does}`),
    '',
    'What follows "--" goes to the command, for example: npm start -- my-shop',
    'When something goes wrong inside the program, KETTLE_DEBUG=1 shows where.',
  ].join('\n')
}
