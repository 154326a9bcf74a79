/** What was planned of a batch beside what was done: materials, batter, bars and what they were wrapped in. */
import type { Finding } from '../findings.ts'
import { grains, ofGrains } from './amounts.ts'

/** What is weighed for a batch, as planned. */
export interface PlannedMaterial {
  readonly material: string
  /** kg */
  readonly mass: number
  /** draws it is weighed in, and the smallest step of its scale [kg] */
  readonly draws: number
  readonly division: number
}

/** What was weighed of one lot. */
export interface UsedLot {
  readonly lot: string
  /** undefined where nobody wrote down what the lot is of */
  readonly material: string | undefined
  /** kg */
  readonly amount: number
}

export interface ReconciledMaterial extends PlannedMaterial {
  readonly lots: readonly UsedLot[]
  /** kg; undefined where no lot of it was written down */
  readonly weighed: number | undefined
  /** weighed less planned [kg] */
  readonly off: number | undefined
  /** kg that it may be off at most */
  readonly allowed: number
}

/** Of the mass; a weighing that is off by more is decided on [–] (common practice) */
export const WEIGHING_OFF = 0.005

/**
 * What was weighed of each material beside its plan.
 *
 *     off = Σ weighed − planned;   allowed = max(0.5 % of planned, a division a draw)
 *
 * Validity: one material a line of the plan; a material that stands in several lines is looked up in the first.
 * @param planned  in the order of the sheet
 * @param used     lot by lot, as written down
 * @returns materials; `weighed-off-plan`, `material-without-lot` and `material-not-planned`
 * @source common practice
 */
export function reconcileMaterials(
  planned: readonly PlannedMaterial[],
  used: readonly UsedLot[],
): { readonly materials: readonly ReconciledMaterial[]; readonly findings: readonly Finding[] } {
  const findings: Finding[] = []
  const materials = planned.map((one): ReconciledMaterial => {
    const lots = used.filter(({ material }) => material === one.material)
    const allowed = Math.max(WEIGHING_OFF * one.mass, one.draws * one.division)
    if (lots.length === 0) return { ...one, lots, weighed: undefined, off: undefined, allowed }
    const weighed = lots.reduce((sum, { amount }) => sum + grains(amount), 0)
    const off = ofGrains(weighed - grains(one.mass))
    if (Math.abs(off) > allowed)
      findings.push({
        code: 'weighed-off-plan',
        severity: 'warn',
        values: { key: one.material, what: one.material, planned: one.mass, weighed: ofGrains(weighed) },
      })
    return { ...one, lots, weighed: ofGrains(weighed), off, allowed }
  })
  if (used.length > 0)
    for (const { material, weighed } of materials)
      if (weighed === undefined)
        findings.push({
          code: 'material-without-lot',
          severity: 'warn',
          values: { key: material, what: material },
        })
  for (const { lot, material, amount } of used)
    if (material !== undefined && !planned.some((one) => one.material === material))
      findings.push({
        code: 'material-not-planned',
        severity: 'warn',
        values: { key: material, what: material, lot, weighed: amount },
      })
  return { materials, findings }
}

/** Bars of a batch as far as somebody wrote them down. */
export interface CountedBars {
  readonly planned?: number | undefined
  readonly cut?: number | undefined
  readonly tests?: number | undefined
  readonly rejected?: number | undefined
  readonly wrapped?: number | undefined
  /** sold or given away */
  readonly went?: number | undefined
}

export interface BarBalance {
  /** cut less tests and rejected; undefined where nobody counted what was cut */
  readonly fit: number | undefined
  /** fit for sale and not wrapped; undefined where nobody counted */
  readonly loose: number | undefined
  /** fit for sale and not gone */
  readonly kept: number | undefined
  /** of the planned bars, those fit for sale [–] */
  readonly yield: number | undefined
  readonly findings: readonly Finding[]
}

/**
 * Where the bars of a batch are.
 *
 *     fit = cut − tests − rejected;   loose = fit − wrapped;   kept = fit − went;   yield = fit / planned
 *
 * Validity: counts as written down; what nobody counted is not taken for nothing.
 * @param bars counts
 * @returns the balance; `bars-unaccounted` where fewer were wrapped than are fit for sale
 * @source common practice
 */
export function balanceBars({ planned, cut, tests, rejected, wrapped, went }: CountedBars): BarBalance {
  if (cut === undefined)
    return { fit: undefined, loose: undefined, kept: undefined, yield: undefined, findings: [] }
  const fit = cut - (tests ?? 0) - (rejected ?? 0)
  const loose = wrapped === undefined ? undefined : fit - wrapped
  return {
    fit,
    loose,
    kept: went === undefined ? undefined : fit - went,
    yield: planned !== undefined && planned > 0 ? fit / planned : undefined,
    findings:
      loose !== undefined && loose > 0
        ? [
            {
              code: 'bars-unaccounted',
              severity: 'warn',
              values: { fitBars: fit, wrappedBars: wrapped ?? 0, looseBars: loose },
            },
          ]
        : [],
  }
}

/** Labels or wrapping of one lot. */
export interface TakenPieces {
  readonly lot: string
  readonly taken: number
  readonly spoiled: number | undefined
}

export interface PackagingBalance extends TakenPieces {
  /** taken, less spoiled ones and those on bars; below 0: more on bars than were taken */
  readonly unaccounted: number
}

/**
 * Labels and wrapping that left the stock against the bars that bear them.
 *
 *     unaccounted = taken − spoiled − bars · pieces a bar, over all lots of one material
 *
 * Validity: one material; its lots are used up one after the other.
 * @param lots    in the order in which they were taken
 * @param bars    that bear it
 * @param perBar  pieces on each
 * @returns each lot with what of it nobody accounts for; `pieces-unaccounted`
 * @source common practice
 */
export function balancePackaging(
  lots: readonly TakenPieces[],
  bars: number,
  perBar: number,
): { readonly lots: readonly PackagingBalance[]; readonly findings: readonly Finding[] } {
  let needed = bars * perBar
  const balanced = lots.map((one, index): PackagingBalance => {
    const good = one.taken - (one.spoiled ?? 0)
    // what the lots before it did not cover; of the last one also what none of them covers
    const on = index === lots.length - 1 ? needed : Math.min(needed, good)
    needed -= on
    return { ...one, unaccounted: good - on }
  })
  return {
    lots: balanced,
    findings: balanced
      .filter(({ unaccounted }) => unaccounted !== 0)
      .map(({ lot, unaccounted }) =>
        unaccounted > 0
          ? { code: 'pieces-unaccounted', severity: 'warn', values: { lot, pieces: unaccounted } }
          : { code: 'pieces-too-few', severity: 'warn', values: { lot, pieces: -unaccounted } },
      ),
  }
}

/** Batter and block, in kg; what is undefined nobody weighed. */
export interface WeighedBatter {
  readonly batter: number
  readonly leftInPot?: number | undefined
  readonly trimmed?: number | undefined
  readonly bars?: number | undefined
  /** of one bar as it is cut */
  readonly barMass: number
}

export interface BatterBalance {
  /** what reached the mould; undefined where nobody weighed what stayed in the pot */
  readonly poured: number | undefined
  readonly inBars: number | undefined
  /** poured, less bars and what was cut off: water that left, crumbs, what nobody weighed */
  readonly rest: number | undefined
  /** of the batter [–] */
  readonly share: number | undefined
}

/**
 * What became of the batter.
 *
 *     poured = batter − left in the pot;   in bars = bars · mass of one;   rest = poured − in bars − trimmed
 *
 * Validity: bars at the mass at which they are cut; a rest below 0 says that bars are lighter than reckoned.
 * @param weighed what was weighed and counted
 * @returns masses [kg], and the rest as a share of the batter
 * @source common practice
 */
export function balanceBatter({ batter, leftInPot, trimmed, bars, barMass }: WeighedBatter): BatterBalance {
  const poured = leftInPot === undefined ? undefined : batter - leftInPot
  const inBars = bars === undefined ? undefined : bars * barMass
  const rest =
    poured === undefined || inBars === undefined || trimmed === undefined
      ? undefined
      : poured - inBars - trimmed
  return { poured, inBars, rest, share: rest === undefined ? undefined : rest / batter }
}

/** Days since 1970-01-01. */
export interface Releasing {
  /** on which the test is planned, at the earliest */
  readonly testDay: number | undefined
  readonly tested?: { readonly day: number; readonly passed: boolean } | undefined
  readonly release?: { readonly decision: 'released' | 'held' | 'rejected'; readonly day: number } | undefined
  readonly went: readonly { readonly day: number; readonly bars: number }[]
}

/**
 * Whether a release, and what left the shop, were in order. Formula: none, days are compared.
 *
 * What was done too soon is no mistake of the file: it was done, and somebody decides what follows.
 * Validity: days as written down; a test or a release on the day itself counts as before what left on it.
 * @param releasing days and decisions
 * @returns `released-untested`, `released-after-failed-test`, `tested-before-test-day`, `went-unreleased`
 * @source common practice
 */
export function releaseFindings({ testDay, tested, release, went }: Releasing): Finding[] {
  const findings: Finding[] = []
  const released = release?.decision === 'released' ? release : undefined
  if (released && (!tested || tested.day > released.day))
    findings.push({ code: 'released-untested', severity: 'hold', values: {} })
  else if (released && tested && !tested.passed)
    findings.push({ code: 'released-after-failed-test', severity: 'hold', values: {} })
  if (tested && testDay !== undefined && tested.day < testDay)
    findings.push({
      code: 'tested-before-test-day',
      severity: 'hold',
      values: { early: testDay - tested.day },
    })
  const early = went.filter(({ day }) => !released || day < released.day)
  if (early.length > 0)
    findings.push({
      code: 'went-unreleased',
      severity: 'hold',
      values: { goneBars: early.reduce((sum, { bars }) => sum + bars, 0) },
    })
  return findings
}
