/** What several files must agree on so that stock adds up: one name for a material, and one measure. */
import type { Diagnostic } from '../diagnostics.ts'
import type { LedgerFile } from './ledger.ts'
import type { Placed } from './placed.ts'
import type { PackEntry } from './supply.ts'

export interface SupplyFiles {
  /** by section of the materials, each by its keys */
  readonly stocked: Readonly<Record<string, ReadonlyMap<string, Placed<unknown>>>>
  readonly packs: ReadonlyMap<string, Placed<PackEntry>>
  readonly ledgers: ReadonlyMap<string, Placed<LedgerFile>>
}

/** The section whose things are counted. */
const COUNTED = 'packaging'

/** @returns a diagnostic for each material that packs and stock could take for another, or that is weighed here and counted there */
export const checkSupply = ({ stocked, packs, ledgers }: SupplyFiles): Diagnostic[] => {
  const named = [...packs.values()].map(({ value, document, path }): Named => ({ ...value, document, path }))
  for (const { value, document, path } of ledgers.values())
    for (const [index, entry] of value.entries.entries())
      if (entry.material !== undefined)
        named.push({ ...entry, material: entry.material, document, path: `${path}/entries/${index}` })
  return [...ambiguous(stocked, named), ...named.flatMap((one) => wrongMeasure(stocked, one))]
}

interface Named extends Pick<Placed<unknown>, 'document' | 'path'> {
  readonly material: string
  readonly amount?: number | undefined
  readonly pieces?: number | undefined
}

/** A name of two things is told once, however often it is used. */
const ambiguous = (stocked: SupplyFiles['stocked'], named: readonly Named[]): Diagnostic[] =>
  [...new Set(named.map(({ material }) => material))].flatMap((material): Diagnostic[] => {
    const [first, second] = Object.entries(stocked).flatMap(([section, things]) => {
      const thing = things.get(material)
      return thing ? [{ section, thing }] : []
    })
    if (!first || !second) return []
    return [
      {
        severity: 'error',
        code: 'material-of-two-kinds',
        file: second.thing.document.file,
        path: second.thing.path,
        at: 'key',
        message: `"${material}" is the name of one of the ${first.section} and of one of the ${second.section}, and stock is kept of it`,
        advice:
          'Give one of them another name, here and where it is used: nobody could tell their lots apart.',
        related: [
          { file: first.thing.document.file, path: first.thing.path, at: 'key', message: 'first named here' },
        ],
      },
    ]
  })

const wrongMeasure = (
  stocked: SupplyFiles['stocked'],
  { material, amount, pieces, document, path }: Named,
): Diagnostic[] => {
  const isCounted = stocked[COUNTED]?.has(material) === true
  const isKnown = Object.values(stocked).some((things) => things.has(material))
  if (!isKnown || (isCounted ? amount : pieces) === undefined) return []
  return [
    {
      severity: 'error',
      code: isCounted ? 'counted-not-weighed' : 'weighed-not-counted',
      file: document.file,
      path: `${path}/${isCounted ? 'amount' : 'pieces'}`,
      at: 'key',
      message: isCounted
        ? `"${material}" is packaging, which is counted and not weighed`
        : `"${material}" is weighed and not counted`,
      advice: isCounted
        ? 'Write how many there are, for example "pieces: 100".'
        : 'Write what it weighs, for example "amount: 5 kg".',
    },
  ]
}
