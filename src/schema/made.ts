/** "made" in batches/NAME.yaml: what was done, copied from the paper after the day. */
import { z } from 'zod'
import { count, date, mark, oneOf, quantity, report, timeOfDay, words } from './fields.ts'
import { lotName, ofLot } from './ledger.ts'

export const DECISIONS = ['released', 'held', 'rejected'] as const

const warmth = () => quantity('temperature', { min: '-20 C', max: '130 C' }).optional()

/** A day and an hour of it: what is done at the block falls on other days than the pour. */
const moment = () =>
  z
    .strictObject({ date: date().describe('The day.'), at: timeOfDay().describe('The time of day.') })
    .optional()

const who = () => mark({ max: 40 })

/** What thermometers, clocks, rules and scales showed, each written down at its step of the batch sheet. */
const readings = z.strictObject({
  'lye-peak': warmth().describe('The hottest that the lye was in its pail.'),
  lye: warmth().describe('Temperature of the lye as it went into the fats.'),
  fats: warmth().describe('Temperature of the fats then.'),
  'lye-in': timeOfDay().optional().describe('When the lye went into the fats.'),
  trace: timeOfDay().optional().describe('When drops first left a mark that stayed.'),
  poured: timeOfDay().optional().describe('When the last of the batter was in the mould.'),
  'below-rim': quantity('length', { min: '0 mm', max: '1 m' })
    .optional()
    .describe('From the rim of the mould down to the batter.'),
  'core-hottest': warmth().describe('The hottest that was read in the core of the block.'),
  'sides-off': moment().describe('When the sides came off.'),
  'set-height': quantity('length', { min: '1 mm', max: '1 m' })
    .optional()
    .describe('Height of the block on its base, before it is cut.'),
  push: quantity('mass', { min: '0 g', max: '50 kg' }).optional().describe('What the push test read.'),
  cut: moment().describe('When the block was cut.'),
})

const bars = z
  .strictObject({
    cut: count({ min: 1, max: 10_000 }).describe('Bars that were cut, all together.'),
    tests: count({ min: 0, max: 10_000 })
      .optional()
      .describe('Cut open or kept as samples; none where it is left out.'),
    rejected: count({ min: 0, max: 10_000 })
      .optional()
      .describe('Broken, or off in shape or weight; none where it is left out.'),
  })
  .superRefine(({ cut, tests = 0, rejected = 0 }, context) => {
    if (tests + rejected <= cut) return
    report(context, {
      code: 'more-bars-than-cut',
      message: `Tests and rejected bars make ${tests + rejected}, and ${cut} bars were cut`,
      advice: 'Count again: a bar is a test, or rejected, or fit for sale, and never two of them.',
      path: [rejected > 0 ? 'rejected' : 'tests'],
    })
  })

export const made = z
  .strictObject({
    weighed: who().optional().describe('Who weighed, stirred and poured.'),
    checked: who().optional().describe('Who read back and checked.'),
    cleared: who()
      .optional()
      .describe('Who found the place cleared of all other batches, and the equipment clean.'),
    began: timeOfDay().optional().describe('When work on it began.'),
    'washed-up': timeOfDay().optional().describe('When everything was washed up.'),
    room: warmth().describe('Temperature of the room at the pour.'),
    used: z
      .array(ofLot())
      .min(1)
      .max(200)
      .describe('What was weighed out, lot by lot; stock goes down by it.'),
    readings: readings.optional().describe('What thermometers, clocks, rules and scales showed.'),
    'left-in-pot': quantity('mass', { min: '0 g', max: '100 kg' })
      .optional()
      .describe('Batter that stayed in kettle and jugs; as planned where it is left out.'),
    trimmed: quantity('mass', { min: '0 g', max: '100 kg' })
      .optional()
      .describe('What was cut off and not sold as bars; as planned where it is left out.'),
    bars: bars.optional().describe('How many bars it came to.'),
    stands: words({ max: 60 }).optional().describe('Where the bars cure.'),
    wrapped: z
      .strictObject({
        date: date().describe('The day on which they were wrapped.'),
        bars: count({ min: 1, max: 10_000 })
          .optional()
          .describe('Bars that were wrapped; all that are fit for sale where it is left out.'),
        weights: z
          .array(quantity('mass', { min: '1 g', max: '10 kg' }))
          .min(1)
          .max(2000)
          .describe('Each of the bars that were weighed.'),
        label: words({ max: 60 }).optional().describe('Which edition of the label they bear.'),
        packaging: z
          .array(
            z
              .strictObject({
                lot: lotName().describe('What is written on the pack: a lot of the stock.'),
                pieces: count({ min: 1, max: 100_000 }).describe('Taken out of stock, spoiled ones too.'),
                spoiled: count({ min: 0, max: 100_000 })
                  .optional()
                  .describe('How many of these were torn, smeared or destroyed; none where it is left out.'),
              })
              .superRefine(({ pieces, spoiled = 0 }, context) => {
                if (spoiled <= pieces) return
                report(context, {
                  code: 'more-spoiled-than-taken',
                  message: `${spoiled} pieces were spoiled of ${pieces} that were taken`,
                  advice:
                    'Write after "pieces:" all that left the stock, and after "spoiled:" those of them that are on no bar.',
                  path: ['spoiled'],
                })
              }),
          )
          .max(40)
          .optional()
          .describe('What they were wrapped in, lot by lot; stock goes down by it.'),
      })
      .optional()
      .describe('What was weighed and wrapped; labels are printed by it.'),
    samples: z
      .array(
        z.strictObject({
          what: words({ max: 60 }).describe('What they are kept for.'),
          bars: count({ min: 1, max: 1000 }).describe('How many of them.'),
          place: words({ max: 60 }).describe('Where they are kept.'),
          until: date().optional().describe('Until when they are kept.'),
        }),
      )
      .max(20)
      .optional()
      .describe('Bars that are put away; they are counted among the tests.'),
    deviations: z
      .array(
        z.strictObject({
          date: date().optional().describe('The day on which it was seen.'),
          what: words({ max: 200 }).describe('What was not as planned.'),
          done: words({ max: 200 }).optional().describe('What was decided, and done.'),
          by: who().optional().describe('Who decided it.'),
        }),
      )
      .max(40)
      .optional()
      .describe('What was not as planned, each with what was done about it.'),
    release: z
      .strictObject({
        decision: oneOf(DECISIONS).describe('What was decided.'),
        date: date().describe('The day on which it was decided.'),
        by: who().describe('Who decided it.'),
        why: words({ max: 200 }).optional().describe('The reason, where it is held or rejected.'),
      })
      .optional()
      .describe('Whether the batch may be sold.'),
    went: z
      .array(
        z.strictObject({
          date: date().describe('The day on which they left.'),
          bars: count({ min: 1, max: 10_000 }).describe('How many of them.'),
          to: words({ max: 60 }).describe('Where they went.'),
        }),
      )
      .max(1000)
      .optional()
      .describe('Bars that left the shop, sold or given away.'),
  })
  .superRefine((one, context) => {
    const { cut } = one.bars ?? {}
    if (!one.bars || cut === undefined) return
    const { tests = 0, rejected = 0 } = one.bars
    const fit = cut - tests - rejected
    // a slip within the bars themselves is told there
    if (fit < 0) return
    const wrapped = one.wrapped?.bars ?? 0
    if (wrapped > fit)
      report(context, {
        code: 'more-bars-than-fit',
        message: `${wrapped} bars were wrapped, and ${fit} of ${cut} were fit for sale`,
        advice: 'Count again: cut bars less tests and rejected ones are those fit for sale.',
        path: ['wrapped', 'bars'],
      })
    const weighed = one.wrapped?.weights.length ?? 0
    if (weighed > fit)
      report(context, {
        code: 'more-bars-than-fit',
        message: `There are ${weighed} weights, and ${fit} of ${cut} bars were fit for sale`,
        advice: 'Take out the weights that stand here twice, or correct the bars above.',
        path: ['wrapped', 'weights'],
        at: 'key',
      })
    let gone = 0
    for (const [at, { bars: some }] of (one.went ?? []).entries()) {
      gone += some
      if (gone <= fit) continue
      report(context, {
        code: 'more-bars-than-fit',
        message: `With these, ${gone} bars have left the shop, and ${fit} of ${cut} were fit for sale`,
        advice: 'Count again, or take out a line that stands here twice.',
        path: ['went', at, 'bars'],
      })
      break
    }
    const kept = (one.samples ?? []).reduce((sum, { bars: some }) => sum + some, 0)
    if (kept > tests)
      report(context, {
        code: 'more-samples-than-tests',
        message: `${kept} bars are put away as samples, and ${tests} were taken for tests`,
        advice: 'Count the samples among "tests:" of "bars:".',
        path: ['samples'],
        at: 'key',
      })
  })

export type Made = z.output<typeof made>
