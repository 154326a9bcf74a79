/** Tests that take long: `npm test` leaves them to the soak, which tries random content more often, too. */
export const LONG = [
  'tests/binder/any-batch.test.ts',
  'tests/commands/templates.test.ts',
  'tests/schema/content-limits.test.ts',
  'tests/sheets/every-fat.test.ts',
  'tests/worked-examples/batch-properties.test.ts',
]

/** Tried a little in `npm test`, and more in the soak. */
export const BOTH = ['tests/binder/any-content.test.ts', 'tests/sheets/pages.test.ts']

/** Whether there is time. */
export const isSoak = process.env.KETTLE_SOAK === '1'
