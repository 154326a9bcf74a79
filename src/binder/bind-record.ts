/** The record of one batch: what its sheets ask for beside what was typed back, and what does not fit together. */
import type { DrawPlan } from '../batch/draws.ts'
import type { SuperfatMargin } from '../chemistry/superfat-interval.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import type { Made } from '../schema/made.ts'
import { type FindingPlace, placeAt } from '../schema/placed.ts'
import {
  type BarBalance,
  type BatterBalance,
  balanceBatter,
  balancePackaging,
  type PackagingBalance,
  reconcileMaterials,
  releaseFindings,
  type UsedLot,
  WEIGHING_OFF,
} from '../supply/reconcile.ts'
import { dayNumber } from '../units/civil-day.ts'
import { barBalance, barsGone } from './bar-balance.ts'
import type { BoundBatch } from './bind-batch.ts'
import type { BoundCure } from './bind-calendar.ts'
import type { BoundStock } from './bind-stock.ts'
import type { PlacedFinding } from './finding-places.ts'
import { controlsOf, type RecordControl } from './record-controls.ts'
import { superfatOf } from './superfat-of.ts'
import { batterSum } from './weigh-out.ts'
import { type WeighedMaterial, weighedMaterials } from './weighed-materials.ts'

/** One row of the materials: what is drawn as one thing, whatever it is used for. */
export interface RecordedMaterial extends WeighedMaterial {
  /** kg, as all draws make it */
  readonly planned: number
  readonly lots: readonly UsedLot[]
  readonly weighed: number | undefined
  readonly off: number | undefined
}

export interface BoundRecord {
  readonly batch: BoundBatch
  readonly cure: BoundCure
  readonly made: Made | undefined
  readonly materials: readonly RecordedMaterial[]
  /** of each mass that it may be off [–] */
  readonly weighingOff: number
  readonly controls: readonly RecordControl[]
  /** of what was weighed; undefined until every fat and alkali was written down */
  readonly superfat: SuperfatMargin | undefined
  readonly bars: BarBalance
  readonly wrapped: number | undefined
  readonly went: number | undefined
  readonly batter: BatterBalance & { readonly planned: number }
  readonly packaging: readonly (PackagingBalance & { readonly material: string | undefined })[]
  /** what the shop wraps in, by its key */
  readonly packagingNames: ReadonlyMap<string, string>
  /** what does not fit together, or asks for a decision */
  readonly findings: readonly PlacedFinding[]
}

/** @returns a record for each batch that may be made */
export const bindRecords = (
  content: Content,
  cures: readonly BoundCure[],
  stock: BoundStock,
): BoundRecord[] => cures.map((cure) => bindRecord(content, cure, stock))

const bindRecord = (content: Content, cure: BoundCure, stock: BoundStock): BoundRecord => {
  const { batch } = cure
  const { made } = batch.file.value
  const used = (made?.used ?? []).map(
    ({ lot, amount }): UsedLot => ({ lot, amount, material: stock.lots.get(lot)?.material }),
  )
  const rows = weighedMaterials(batch)
  const { materials: reconciled, findings: weighing } = reconcileMaterials(
    rows.flatMap(({ material, plan }) =>
      material === undefined
        ? []
        : [{ material, mass: plan.sum, draws: plan.draws.length, division: plan.scale.division }],
    ),
    used,
  )
  const materials = rows.map((row): RecordedMaterial => {
    const found = reconciled.find(({ material }) => material === row.material)
    return {
      ...row,
      planned: row.plan.sum,
      lots: found?.lots ?? [],
      weighed: found?.weighed,
      off: found?.off,
    }
  })
  const controls = controlsOf(cure)
  const superfat = superfatAsWeighed(content, batch, materials)
  const { wrapped: wrapping, went: gone } = made ?? {}
  const bars = barBalance(made, batch.fill.bars)
  const wrapped = wrapping && (wrapping.bars ?? bars.fit)
  const packaging = packagingOf(content, made, wrapped, stock)
  const test = cure.planned.tasks.find(({ task }) => task === 'release-test')
  const { release } = made ?? {}
  const tested = batch.file.value['release-test']
  const findings: Finding[] = [
    ...weighing.map((finding) => named(finding, stock)),
    ...controls.flatMap(({ key, isWithin }): Finding[] =>
      isWithin === false ? [{ code: 'reading-outside', severity: 'warn', values: { reading: key } }] : [],
    ),
    ...(superfat && superfat.state !== 'go'
      ? [
          {
            code: 'superfat-as-weighed',
            severity: 'hold',
            values: { nominal: superfat.nominal, worst: superfat.worst.low },
          } as const,
        ]
      : []),
    ...bars.findings,
    ...packaging.findings,
    ...releaseFindings({
      testDay: test && dayNumber(test.at.date),
      tested: tested && { day: dayNumber(tested.date), passed: tested.result === 'passed' },
      release: release && { decision: release.decision, day: dayNumber(release.date) },
      went: (gone ?? []).map(({ date, bars: some }) => ({ day: dayNumber(date), bars: some })),
    }),
  ]
  if (findings.length > 0 && (made?.deviations ?? []).length === 0)
    findings.push({ code: 'deviation-unwritten', severity: 'warn', values: {} })
  const inPot = batterSum(batch) + materials.reduce((sum, { off }) => sum + (off ?? 0), 0)
  return {
    batch,
    cure,
    made,
    materials,
    weighingOff: WEIGHING_OFF,
    controls,
    superfat,
    bars,
    wrapped,
    went: barsGone(made),
    batter: {
      planned: inPot,
      ...balanceBatter({
        batter: inPot,
        leftInPot: made?.['left-in-pot'],
        trimmed: made?.trimmed,
        bars: made?.bars?.cut,
        barMass: cure.barMass,
      }),
    },
    packaging: packaging.lots,
    packagingNames: new Map([...content.packaging].map(([key, { value }]) => [key, value.name])),
    findings: findings.map((finding) => ({ ...finding, place: placeOf(batch, finding) })),
  }
}

/** The superfat of what was really weighed: as that of the sheet, with the masses of the file. */
const superfatAsWeighed = (
  content: Content,
  batch: BoundBatch,
  materials: readonly RecordedMaterial[],
): SuperfatMargin | undefined => {
  const of = (kind: RecordedMaterial['kind'], key: string): RecordedMaterial | undefined =>
    materials.find((one) => one.kind === kind && one.key === key)
  const scaled = (plan: DrawPlan, row: RecordedMaterial | undefined): DrawPlan =>
    row?.weighed === undefined || row.planned === 0
      ? plan
      : { ...plan, sum: (plan.sum * row.weighed) / row.planned }
  const needed = materials.filter(({ kind }) => kind === 'oils' || kind === 'alkali')
  if (needed.some(({ weighed }) => weighed === undefined)) return undefined
  return superfatOf(
    content.shop.value,
    batch.formula,
    {
      fats: batch.fats.map((fat) => {
        const drawn = batch.oils.find(({ fats }) => fats.some(({ key }) => key === fat.key))
        return { key: fat.key, plan: scaled(fat.plan, of('oils', drawn?.key ?? fat.key)) }
      }),
      alkalis: batch.alkalis.map(({ key, plan }) => ({ plan: scaled(plan, of('alkali', key)) })),
      additions: batch.additions.map(({ key, plan }) => ({ key, plan: scaled(plan, of('addition', key)) })),
    },
    batch.lye,
  )
}

/** Labels and wrapping by material, since lots of one material follow each other. */
const packagingOf = (
  { packaging }: Content,
  made: Made | undefined,
  wrapped: number | undefined,
  stock: BoundStock,
): { readonly lots: BoundRecord['packaging']; readonly findings: readonly Finding[] } => {
  const taken = (made?.wrapped?.packaging ?? []).map(({ lot, pieces, spoiled }) => ({
    lot,
    taken: pieces,
    spoiled,
    material: stock.lots.get(lot)?.material,
  }))
  const balanced = [...new Set(taken.map(({ material }) => material))].map((material) => {
    const { lots, findings } = balancePackaging(
      taken.filter((one) => one.material === material),
      wrapped ?? 0,
      packaging.get(material ?? '')?.value['for-each-bar'] ?? 1,
    )
    // without a count of bars nobody can say what became of them
    return {
      lots: lots.map((one) => ({ ...one, material })),
      findings: wrapped === undefined ? [] : findings,
    }
  })
  return {
    lots: balanced.flatMap(({ lots }) => lots),
    findings: balanced.flatMap(({ findings }) => findings),
  }
}

/** A finding of a material says its name, not its key. */
const named = (finding: Finding, { materials }: BoundStock): Finding => {
  const { key } = finding.values
  if (typeof key !== 'string') return finding
  return { ...finding, values: { ...finding.values, what: materials.get(key)?.name ?? key } }
}

/** Where in the batch's file the line stands that a finding is about. */
const PLACES: Readonly<Record<string, string>> = {
  'weighed-off-plan': '/made/used',
  'material-without-lot': '/made/used',
  'material-not-planned': '/made/used',
  'reading-outside': '/made/readings',
  'superfat-as-weighed': '/made/used',
  'bars-unaccounted': '/made/wrapped/bars',
  'pieces-unaccounted': '/made/wrapped/packaging',
  'pieces-too-few': '/made/wrapped/packaging',
  'released-untested': '/made/release',
  'released-after-failed-test': '/made/release',
  'tested-before-test-day': '/release-test/date',
  'went-unreleased': '/made/went',
}

const placeOf = ({ file }: BoundBatch, { code, values }: Finding): FindingPlace | undefined => {
  const path = code === 'reading-outside' ? `/made/readings/${values.reading}` : PLACES[code]
  return path === undefined ? undefined : placeAt(file.document, path)
}
