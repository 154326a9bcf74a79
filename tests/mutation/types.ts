/** Swapped arguments that the types refuse: nobody gets as far as the tests with them. */
import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Numbered } from './bundles.ts'

const ROOT = fileURLToPath(new URL('../../', import.meta.url))
/** src/wires/rail.ts(12,5): error … */
const PLACE = /^(src\/[^(]+)\((\d+),\d+\): error/gm

/**
 * All of them at once in a copy of the sources: each is refused where it stands.
 *
 * @param mutants swapped arguments, whose lines stay as many as they were
 * @returns those in whose lines there is an error
 */
export const refusedByTypes = (mutants: readonly Numbered[]): Set<Numbered> => {
  const refused = new Set<Numbered>()
  let left = mutants.filter(({ mutator }) => mutator === 'arguments')
  while (left.length > 0) {
    const round = apart(left)
    left = left.filter((mutant) => !round.includes(mutant))
    const wrong = errorsWith(round)
    for (const mutant of round) {
      const lines = wrong.get(mutant.file)
      const [from, to] = [mutant.start, mutant.end].map((at) => lineAt(mutant.file, at)) as [number, number]
      if ([...(lines ?? [])].some((line) => line >= from && line <= to)) refused.add(mutant)
    }
  }
  return refused
}

const textOf = (file: string): string => readFileSync(join(ROOT, file), 'utf8')
const lineAt = (file: string, at: number): number => textOf(file).slice(0, at).split('\n').length

/** Of one file no two in the same lines. */
const apart = (mutants: readonly Numbered[]): Numbered[] => {
  const taken = new Map<string, number>()
  return [...mutants]
    .sort((one, other) => one.file.localeCompare(other.file) || one.start - other.start)
    .filter(({ file, start, end }) => {
      if (lineAt(file, start) <= (taken.get(file) ?? 0)) return false
      taken.set(file, lineAt(file, end))
      return true
    })
}

/** Lines with errors, by file. */
const errorsWith = (mutants: readonly Numbered[]): Map<string, Set<number>> => {
  const folder = mkdtempSync(join(tmpdir(), 'swapped-'))
  try {
    for (const name of ['src', 'tsconfig.json', 'package.json'])
      cpSync(join(ROOT, name), join(folder, name), { recursive: true })
    symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'))
    for (const file of new Set(mutants.map((mutant) => mutant.file))) {
      let text = textOf(file)
      const here = mutants
        .filter((mutant) => mutant.file === file)
        .sort((one, other) => other.start - one.start)
      for (const { start, end, put } of here) text = text.slice(0, start) + put + text.slice(end)
      writeFileSync(join(folder, file), text)
    }
    const compiler = join(ROOT, 'node_modules/typescript/lib/tsc.js')
    const { stdout } = spawnSync(process.execPath, [compiler, '-p', '.', '--pretty', 'false'], {
      cwd: folder,
      encoding: 'utf8',
    })
    const lines = new Map<string, Set<number>>()
    for (const [, file = '', line] of stdout.matchAll(PLACE))
      lines.set(file, (lines.get(file) ?? new Set()).add(Number(line)))
    return lines
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
