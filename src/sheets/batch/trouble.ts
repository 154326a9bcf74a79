/** The end of a batch sheet: what to do when it goes wrong, and what is written down. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { PREMIX } from '../../binder/weigh-out.ts'
import { empty, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Table } from '../model.ts'
import { shopLimits } from '../shop-limits.ts'
import { linkToTrouble, referencesElsewhere, SYMPTOMS, stepsOf } from '../trouble/symptoms.ts'

/** The troubles of the day itself, in the words of the trouble sheet, with where each goes on. */
export const troubleTable = (frame: Frame, { shopFile }: BoundBatch): Table => ({
  kind: 'table',
  caption: frame.say('batch.trouble.caption'),
  columns: [
    { head: frame.say('batch.trouble.sign'), align: 'left', width: 22 },
    { head: frame.say('batch.trouble.now'), align: 'left' },
  ],
  rows: SYMPTOMS.flatMap(({ symptoms }) => symptoms)
    .filter(({ onBatchSheet }) => onBatchSheet.length > 0)
    .map((symptom) => [
      words(frame.say(`trouble.${symptom.key}.sign`)),
      words(
        [
          ...stepsOf(
            frame,
            symptom,
            { ...referencesElsewhere, ...shopLimits(frame, shopFile.value) },
            symptom.onBatchSheet,
          ),
          frame.say('batch.trouble.more', { place: linkToTrouble(symptom.key) }),
        ].reduce((before, next) => frame.say('batch.trouble.then', { before, next })),
      ),
    ]),
})

type Mistake = BoundBatch['mistakes'][number]

/** What a missed or doubled draw does to the superfat, what puts it right, and what is then over the line; for the person who is called. */
export const rescueTable = (frame: Frame, batch: BoundBatch): Block => {
  const { say, show } = frame
  if (batch.mistakes.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('batch.rescue.caption'),
    columns: [
      { head: say('batch.rescue.what'), align: 'left', width: 27 },
      { head: say('batch.rescue.superfat'), align: 'right', width: 12 },
      { head: say('batch.rescue.do'), align: 'left' },
      { head: say('batch.rescue.over-line'), align: 'right', width: 13 },
    ],
    // What was left out and can simply go in needs no line: the caption says so.
    rows: batch.mistakes
      .filter(({ kind }) => kind !== 'fat-draw-missed')
      .map((mistake): Cell[] => {
        const name = `rescue.${mistake.kind}.${mistake.of.toLowerCase()}.${mistake.draws[0] ?? 1}`
        return [
          words(
            say(`batch.rescue.${mistake.kind}`, {
              mass: grams(frame, `${name}.mass`, mistake.mass),
              of: nameOf(frame, batch, mistake.of),
            }),
          ),
          mistake.superfat === undefined || Math.abs(mistake.superfat) > 1
            ? words(say('batch.rescue.none-left'))
            : number(show.percent(`${name}.superfat`, mistake.superfat, 1)),
          words(
            mistake.overflow
              ? say(`batch.rescue.full.${mistake.kind}`)
              : remedyOf(frame, batch, mistake, name),
          ),
          overLine(mistake) < SEEN ? empty : number(show.weight(`${name}.overLine`, overLine(mistake), 0.01)),
        ]
      }),
  }
}

/** kg; less is lost on the tools */
const SEEN = 0.05

/** What does not go to the line of the mould [kg]: of what is not put right, what went in twice. */
const overLine = ({ kind, mass, overflow, overPlan }: Mistake): number =>
  kind === 'alkali-portion-missed' ? 0 : overflow ? mass : overPlan

const grams = ({ show }: Frame, name: string, mass: number) => show.weight(name, mass, 0.001)

const nameOf = ({ say, show }: Frame, batch: BoundBatch, key: string): Inline => {
  const alkali = batch.alkalis.find(({ kind }) => kind === key)
  if (alkali) return say(`batch.lye.kind.${alkali.kind.toLowerCase()}`)
  const oil = batch.oils.find((one) => one.key === key)
  const name = oil ? show.list(oil.fats.map((fat) => fat.name)) : key
  return oil?.key === PREMIX ? say('batch.oils.blend', { fats: name }) : say('batch.oils.fat', { name })
}

const remedyOf = (frame: Frame, batch: BoundBatch, { kind, remedy }: Mistake, name: string): Inline => {
  const { say } = frame
  switch (remedy.kind) {
    // a fat that was left out has no line
    case 'add-the-fat':
    case 'none-small':
      return say('batch.rescue.leave')
    case 'add-fats':
      return say('batch.rescue.add-fats', {
        mass: grams(frame, `${name}.add`, remedy.mass),
        fats: joined(
          frame,
          remedy.fats.map((fat) =>
            say('batch.rescue.amount', {
              mass: grams(frame, `${name}.add.${fat.key}`, fat.mass),
              of: nameOf(frame, batch, fat.key),
            }),
          ),
        ),
      })
    case 'add-alkali':
      // a lye takes longer to make than batter waits: what is not in the pail yet goes in there, or not at all
      if (kind === 'alkali-portion-missed') return say('batch.rescue.add-portion')
      return say('batch.rescue.add-alkali', {
        alkalis: joined(
          frame,
          remedy.alkalis.map((one) =>
            say('batch.rescue.amount', {
              mass: grams(frame, `${name}.add.${one.alkali.toLowerCase()}`, one.mass),
              of: nameOf(frame, batch, one.alkali),
            }),
          ),
        ),
        water: grams(frame, `${name}.add.water`, remedy.water),
      })
  }
}

/** Amounts one after the other, as the language joins a list. */
const joined = ({ say }: Frame, parts: readonly Inline[]): Inline =>
  parts.reduce((all, part) => say('batch.rescue.list', { all, part }))
