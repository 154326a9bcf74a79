/** Tests that take long: `npm test` leaves them to the soak, which tries random content more often, too. */
export const LONG = [
  'tests/binder/any-batch.test.ts',
  'tests/commands/build-elsewhere.test.ts',
  'tests/commands/new-refused.test.ts',
  'tests/commands/spanish-binder.test.ts',
  'tests/commands/templates.test.ts',
  'tests/dxf/read-back.test.ts',
  'tests/fuzz/own-page-on-paper.test.ts',
  'tests/mutation/calculators.test.ts',
  'tests/mutation/one-file.test.ts',
  'tests/output/killed.test.ts',
  'tests/output/makers-folder.test.ts',
  'tests/print/browser-lost.test.ts',
  'tests/print/kitchen-sink/pages.test.ts',
  'tests/print/legibility.test.ts',
  'tests/schema/content-limits.test.ts',
  'tests/sheets/every-fat.test.ts',
  'tests/sheets/narrow-blocks.test.ts',
  'tests/sheets/other-machines.test.ts',
  'tests/site/bench.test.ts',
  'tests/worked-examples/batch-properties.test.ts',
]

/** Tried a little in `npm test`, and more in the soak. */
export const BOTH = [
  'tests/binder/any-content.test.ts',
  'tests/binder/bar-cutter.test.ts',
  'tests/chemistry/superfat-margin.test.ts',
  'tests/commands/build.test.ts',
  'tests/docs/examples.test.ts',
  'tests/every-state/every-state.test.ts',
  'tests/fuzz/fuzz.test.ts',
  'tests/papers/any-edit.test.ts',
  'tests/papers/fingerprint.test.ts',
  'tests/safe-paper/no-unsafe-paper.test.ts',
  'tests/schema/help/agreement.test.ts',
  'tests/sheet-stock/lay-out.test.ts',
  'tests/sheet-stock/packing.test.ts',
  'tests/sheets/pages.test.ts',
  'tests/site/site.test.ts',
  'tests/solids/bar-cutter-proof.test.ts',
  'tests/solids/grid-cutter-proof.test.ts',
  'tests/solids/lever-press-proof.test.ts',
  'tests/starter/starter.test.ts',
  'tests/supply/pack-choice.test.ts',
  'tests/what-if/any-setting.test.ts',
]

/** Whether there is time. */
export const isSoak = process.env.KETTLE_SOAK === '1'
