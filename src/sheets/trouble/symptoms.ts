/** Every trouble that the binder knows, by when it shows itself; its words stand in the catalogue under its key. */
import { anchorOf, type Fill } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Case, Inline } from '../model.ts'
import { fixedLinks, PLACES } from '../places.ts'

type Verdict = 'yes' | 'held' | 'no'

export interface Symptom {
  readonly key: string
  /** steps of what is done now: `trouble.KEY.now.1` and so on */
  readonly steps: number
  readonly verdict: Verdict
  /** numbers of the steps that the batch sheet says too; it has no line of a trouble without any */
  readonly onBatchSheet: readonly number[]
}

export interface SymptomGroup {
  readonly key: string
  readonly letter: string
  readonly symptoms: readonly Symptom[]
}

const symptom = (
  key: string,
  steps: number,
  verdict: Verdict,
  onBatchSheet: readonly number[] = [],
): Symptom => ({ key, steps, verdict, onBatchSheet })

export const SYMPTOMS: readonly SymptomGroup[] = [
  {
    key: 'blending',
    letter: 'A',
    symptoms: [
      symptom('on-somebody', 5, 'held', [1, 4]),
      symptom('swallowed', 5, 'held'),
      symptom('on-the-floor', 4, 'held'),
      symptom('lye-too-hot', 4, 'held', [1, 3, 4]),
      symptom('wrong-draw', 4, 'held', [1, 2, 3]),
      symptom('false-trace', 5, 'held'),
      symptom('splits', 5, 'no', [1, 5]),
      symptom('thick-at-once', 6, 'held', [1, 2, 3, 4]),
      symptom('lye-not-used', 3, 'no', [1, 3]),
    ],
  },
  {
    key: 'mould',
    letter: 'B',
    symptoms: [symptom('rising', 6, 'held'), symptom('cracked-top', 5, 'held'), symptom('leak', 4, 'held')],
  },
  {
    key: 'cutting',
    letter: 'C',
    symptoms: [
      symptom('soft-centre', 5, 'yes'),
      symptom('crumbling', 6, 'yes'),
      symptom('snapped-wire', 8, 'held'),
      symptom('lye-pockets', 6, 'no'),
      symptom('air-pockets', 3, 'held'),
      symptom('drag-marks', 4, 'yes'),
      symptom('crooked-cut', 4, 'yes'),
      symptom('gel-ring', 2, 'yes'),
      symptom('clear-veins', 2, 'yes'),
    ],
  },
  {
    key: 'curing',
    letter: 'D',
    symptoms: [
      symptom('white-bloom', 4, 'held'),
      symptom('warped', 3, 'yes'),
      symptom('sweat', 3, 'yes'),
      symptom('test-fails', 3, 'no'),
    ],
  },
  {
    key: 'shelf',
    letter: 'E',
    symptoms: [symptom('orange-spots', 4, 'no'), symptom('under-weight', 4, 'held')],
  },
]

const placeOf = (key: string): { readonly code: string; readonly anchor: string } => {
  for (const { letter, symptoms } of SYMPTOMS) {
    const index = symptoms.findIndex((one) => one.key === key)
    if (index >= 0) return { code: `${letter}${index + 1}`, anchor: `${anchorOf(PLACES.trouble.id)}--${key}` }
  }
  throw new Error(`No trouble is called "${key}".`)
}

/** The entry of a trouble: its sheet and its code, which lead to it. */
export const linkToTrouble = (key: string): Inline => linkTo(PLACES.trouble, placeOf(key))

/** The bare code of every entry, for words that send the reader from one to the other on the same sheet. */
export const codeLinks: Fill = Object.fromEntries(
  SYMPTOMS.flatMap(({ symptoms }) =>
    symptoms.map(({ key }) => {
      const { code, anchor } = placeOf(key)
      return [key, { text: '[[code]]', fill: { code }, to: anchor }]
    }),
  ),
)

/** References of a sheet that is not that of trouble: all fixed ones, and entries with the number of their sheet. */
export const referencesElsewhere: Fill = {
  ...fixedLinks,
  ...Object.fromEntries(
    SYMPTOMS.flatMap(({ symptoms }) => symptoms.map(({ key }) => [key, linkToTrouble(key)])),
  ),
}

/** What is done now, in order. @param only numbers of the steps that are wanted; all of them where it is left out */
export const stepsOf = (
  { say }: Frame,
  { key, steps }: Symptom,
  fill: Fill,
  only: readonly number[] = Array.from({ length: steps }, (_, index) => index + 1),
): Inline[] => only.map((step) => say(`trouble.${key}.now.${step}`, fill))

/** An entry with all of its words. @param fill references and numbers that any of them may name */
export const caseOf = (frame: Frame, symptom: Symptom, fill: Fill): Case => {
  const { say } = frame
  const { key, verdict } = symptom
  const words = (part: string): Inline => say(`trouble.${key}.${part}`, fill)
  return {
    ...placeOf(key),
    sign: say(`trouble.${key}.sign`),
    see: words('see'),
    cause: words('cause'),
    now: stepsOf(frame, symptom, fill),
    verdict: say(`trouble.verdict.${verdict}`),
    safe: words('safe'),
    next: words('next'),
  }
}
