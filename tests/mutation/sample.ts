/** A sample of all mutants, and what became of it in a table. */
import { randomSource } from '../../src/numerics/random.ts'
import { CALCULATORS, type Folder, type Numbered } from './bundles.ts'
import { MUTATOR_NAMES, MUTATORS } from './mutators.ts'
import type { Tried } from './trial.ts'

/** Of each folder as many as its share, but no fewer than this. */
const FEWEST = 40

export const shuffled = <T>(list: readonly T[], random: () => number): T[] => {
  const out = [...list]
  for (let last = out.length - 1; last > 0; last -= 1) {
    const other = Math.floor(random() * (last + 1))
    const [one, two] = [out[last] as T, out[other] as T]
    out[last] = two
    out[other] = one
  }
  return out
}

/** @param count about so many in all */
export const sampleOf = (
  mutants: readonly Numbered[],
  count: number,
  seed: number,
): Map<Folder, Numbered[]> => {
  const random = randomSource(seed)
  return new Map(
    CALCULATORS.map((folder) => {
      const here = mutants.filter((mutant) => mutant.folder === folder)
      const wanted = Math.max(FEWEST, Math.round((count * here.length) / mutants.length))
      return [folder, shuffled(here, random).slice(0, wanted)]
    }),
  )
}

export const isCaught = ({ outcome }: Tried): boolean => ['caught', 'hung', 'refused'].includes(outcome)

/** What each is known by; it does not move with its line. Of several that read the same the later ones are counted. */
export const keysOf = (mutants: readonly Numbered[]): Map<Numbered, string> => {
  const seen = new Map<string, number>()
  return new Map(
    mutants.map((mutant) => {
      const { file, place, mutator, before, after } = mutant
      const key = `${file} · ${place} · ${MUTATOR_NAMES[mutator]} · \`${before}\` → \`${after}\``
      const count = (seen.get(key) ?? 0) + 1
      seen.set(key, count)
      return [mutant, count === 1 ? key : `${key} (${count})`]
    }),
  )
}

const row = (name: string, all: number, tried: readonly Tried[]): string => {
  const caught = tried.filter(isCaught).length
  const share = tried.length === 0 ? '' : `${((caught / tried.length) * 100).toFixed(1)} %`
  const seconds = tried.reduce((sum, { time }) => sum + time, 0) / 1000
  return `| ${name} | ${all} | ${tried.length} | ${caught} | ${share} | ${seconds.toFixed(0)} |`
}

/** Counts by folder and by mutator, as Markdown. */
export const tableOf = (mutants: readonly Numbered[], tried: readonly Tried[]): string => {
  const rows = (names: readonly (readonly [string, (mutant: Numbered) => boolean])[]): string[] =>
    names.map(([name, is]) =>
      row(
        name,
        mutants.filter(is).length,
        tried.filter(({ mutant }) => is(mutant)),
      ),
    )
  const head = (name: string): string[] => [
    `| ${name} | there are | tried | caught | | seconds |`,
    '| --- | --: | --: | --: | --: | --: |',
  ]
  return [
    ...head('folder'),
    ...rows(CALCULATORS.map((folder) => [folder, (mutant) => mutant.folder === folder])),
    row('all', mutants.length, tried),
    '',
    ...head('mutator'),
    ...rows(MUTATORS.map((mutator) => [MUTATOR_NAMES[mutator], (mutant) => mutant.mutator === mutator])),
  ].join('\n')
}
