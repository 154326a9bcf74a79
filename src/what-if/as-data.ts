/** What a change of the files does, as data for another program: every number a row of its own. */
import type { InputNode } from '../revisions/input-changes.ts'
import type { NamedSheet, Shown, State } from './differences.ts'
import type { Telling } from './told.ts'

/** Raised when a name or its meaning changes; names that come do not raise it. */
const FORMAT = 1

interface DataNumber {
  /** of the sheet */
  readonly number: string
  readonly sheet: string
  readonly title: string
  /** steady from print to print */
  readonly name: string
  /** as the sheet has it */
  readonly label: string
  /** SI, or what kind of text it is */
  readonly unit: string
  /** null where there is none, or where only its text is known */
  readonly before: number | string | null
  readonly beforeShown: string | null
  readonly after: number | string | null
  readonly afterShown: string | null
  /** of `settings`, from 1; empty where only one was given or none was found */
  readonly settings: readonly number[]
}

export interface WhatIfData {
  readonly format: number
  readonly settings: readonly {
    readonly address: string
    readonly file: string
    readonly before: InputNode | null
    readonly after: InputNode | null
  }[]
  /** every sheet on which something is read otherwise, those that come and go too */
  readonly sheets: readonly (NamedSheet & {
    readonly change: 'other' | 'comes' | 'goes'
    readonly before: State | null
    readonly after: State | null
    readonly numberBefore: string
    readonly reasons: readonly string[]
    readonly lines: readonly { readonly before: string | null; readonly after: string | null }[]
    readonly drawings: readonly string[]
  })[]
  readonly conflicts: readonly {
    readonly sheet: string
    readonly change: 'comes' | 'goes'
    readonly reason: string
  }[]
  readonly papers: readonly { readonly sheet: string; readonly number: string; readonly where: string }[]
  readonly numbers: readonly DataNumber[]
}

export const dataOf = ({ settings, differences, papers, causeOf }: Telling): WhatIfData => ({
  format: FORMAT,
  settings: settings.map(({ setting, place, before, after }) => ({
    address: setting.address,
    file: place.below,
    before: before ?? null,
    after: after ?? null,
  })),
  sheets: differences.sheets.map(
    ({ id, number, title, change, before, after, numberBefore, reasons, lines, drawings }) => ({
      id,
      number,
      title,
      change,
      before: before ?? null,
      after: after ?? null,
      numberBefore: numberBefore ?? number,
      reasons,
      lines: lines.map((line) => ({ before: line.before ?? null, after: line.now ?? null })),
      drawings,
    }),
  ),
  conflicts: differences.conflicts.map(({ sheet, change, reason }) => ({ sheet: sheet.id, change, reason })),
  papers: papers.map(({ id, number, where }) => ({ sheet: id, number, where })),
  numbers: differences.sheets.flatMap(({ id, number, title, numbers }) =>
    numbers.map(
      ({ name, label, unit, before, after }): DataNumber => ({
        number,
        sheet: id,
        title,
        name,
        label,
        unit,
        before: siOf(before),
        beforeShown: before?.shown ?? null,
        after: siOf(after),
        afterShown: after?.shown ?? null,
        settings: causeOf?.(id, name) ?? [],
      }),
    ),
  ),
})

const siOf = (shown: Shown | undefined): number | string | null => shown?.value ?? null
