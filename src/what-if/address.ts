/** `batch.2027-03-14-hearth.oils` to its file and the place in it: what is meant, what may stand there, what is known there. */
import { type InputNode, type Inputs, isList, isMap } from '../revisions/input-changes.ts'
import type { FileKind } from '../schema/file-kind.ts'
import { FILE_KINDS, kindOf } from '../schema/file-kinds.ts'
import { namesAllowedAt, schemaAt } from '../schema/schema-walk.ts'
import { didYouMean } from '../units/spelling.ts'

export interface Place {
  /** path below the folder: `batches/2027-03-14-hearth.yaml` */
  readonly below: string
  /** names, and places in lists from 0; empty for the whole file */
  readonly path: readonly (string | number)[]
}

/** Why an address leads nowhere, in words. */
export interface Refusal {
  readonly message: string
  readonly advice: string
}

export type Found = { readonly place: Place } | { readonly refusal: Refusal }

/**
 * Finds what an address means.
 *
 * A kind of file comes first, by its own name or that of its folder, then the name of the file where there are several,
 * then names as they stand in it, entries of lists by their number from 1. What stands in a file of materials begins with
 * its section, wherever that file is.
 *
 * @param address   as typed
 * @param inputs    data of all files, by path below the folder
 * @param leavesOut whether it must be there; otherwise what may be there is enough
 */
export const placeOf = (address: string, inputs: Inputs, leavesOut: boolean): Found => {
  const names = address.trim().split('.')
  if (names.some((name) => name.trim() === ''))
    return refused(`"${address}" has no name before or after one of its dots`, EXAMPLE)
  const [first = '', ...others] = names
  const section = SECTIONS.includes(first) ? first : undefined
  if (section !== undefined) return inMaterials(section, others, inputs, leavesOut)
  const kind = KINDS.get(first)
  if (!kind) {
    if (first === 'page' || first === 'pages')
      return refused('Pages are text, and have no values to set', `Begin with one of: ${FIRST.join(', ')}.`)
    return unknown(address, 0, FIRST, `Nothing here is called "${first}"`)
  }
  if ('file' in kind.place) return inFile(kind.place.file, names, 1, inputs, leavesOut)
  const { folder } = kind.place
  const [name, ...below] = others
  const known = namesIn(inputs, folder)
  if (name === undefined)
    return refused(`Which ${kind.name} is meant is not said`, `Write ${first}.NAME. ${listed(known)}`)
  const file = `${folder}/${name}.yaml`
  // a whole new file is a thing to ask for, too; part of one that is not there is a slip
  if (!inputs.has(file) && (below.length > 0 || leavesOut))
    return unknown(address, 1, known, `There is no ${kind.name} "${name}"`)
  return inFile(file, names, 2, inputs, leavesOut)
}

/** Files of the folder that this command may change; what was printed is written down by another. */
const SETTABLE: readonly FileKind[] = Object.values<FileKind>(FILE_KINDS).filter(
  ({ place }) => !('file' in place && place.file.includes('/')),
)
const SECTIONS = namesAllowedAt(FILE_KINDS.materials.schema, [], undefined)
const KINDS: ReadonlyMap<string, FileKind> = new Map(
  SETTABLE.flatMap((kind) => [
    [kind.name, kind] as const,
    ...('folder' in kind.place ? [[kind.place.folder, kind] as const] : []),
  ]),
)
const FIRST = [...SETTABLE.map(({ name }) => name), ...SECTIONS]
const EXAMPLE = 'Write, for example, batch.2027-03-14-hearth.oils or alkalis.soda-beads.purity.'
const MATERIALS = FILE_KINDS.materials.place.folder

const namesIn = (inputs: Inputs, folder: string): string[] =>
  [...inputs.keys()].flatMap((below) =>
    below.startsWith(`${folder}/`) ? [below.slice(folder.length + 1).replace(/\.yaml$/, '')] : [],
  )

const inMaterials = (
  section: string,
  others: readonly string[],
  inputs: Inputs,
  leavesOut: boolean,
): Found => {
  const [name, ...below] = others
  const files = [...inputs.keys()].filter((file) => file.startsWith(`${MATERIALS}/`))
  const inSection = (file: string): string[] => {
    const there = under(inputs.get(file), section)
    return isMap(there) ? Object.keys(there) : []
  }
  const known = files.flatMap(inSection)
  if (name === undefined)
    return refused(`Which of the ${section} is meant is not said`, `Write ${section}.NAME. ${listed(known)}`)
  const isAnyName = namesAllowedAt(FILE_KINDS.materials.schema, [section], undefined).length === 0
  if (isAnyName && !known.includes(name) && (below.length > 0 || leavesOut))
    return unknown([section, ...others].join('.'), 1, known, `There is no "${name}" among the ${section}`)
  const file =
    files.find((one) => inSection(one).includes(name)) ??
    files.find((one) => inSection(one).length > 0) ??
    files[0] ??
    `${MATERIALS}/${section}.yaml`
  return inFile(file, [section, ...others], 0, inputs, leavesOut)
}

/** @param from the first of the names that stands in the file */
const inFile = (
  file: string,
  names: readonly string[],
  from: number,
  inputs: Inputs,
  leavesOut: boolean,
): Found => {
  const schema = kindOf(file)?.schema
  const data = inputs.get(file)
  const address = names.join('.')
  if (!schema) return refused(`Nothing can be set in ${file}`, EXAMPLE)
  if (from === names.length && KINDS.get(names[0] ?? '')?.place && from === 1)
    return refused(
      `What of ${file} is meant is not said`,
      `Write ${address}.NAME. ${listed(namesAllowedAt(schema, [], data))}`,
    )
  const path: (string | number)[] = []
  let node: InputNode = data
  for (const [index, name] of [...names.entries()].slice(from)) {
    const isLast = index === names.length - 1
    const where = names.slice(0, index).join('.')
    if (isList(node) || (node === undefined && /^\d+$/.test(name))) {
      const entries: readonly InputNode[] = node ?? []
      const number = /^\d{1,5}$/.test(name) ? Number(name) : 0
      const most = entries.length + (leavesOut ? 0 : 1)
      if (number < 1 || number > most)
        return refused(
          `${where} is a list, and "${name}" is no entry of it`,
          `${entries.length === 0 ? 'It has none yet.' : `Its entries are 1 to ${entries.length}.`}${leavesOut ? '' : ` ${most} adds one at its end.`}`,
        )
      path.push(number - 1)
      node = entries[number - 1]
      continue
    }
    const present = isMap(node) ? Object.keys(node) : []
    if (!present.includes(name)) {
      const allowed = namesAllowedAt(schema, path, data)
      const isAllowed = allowed.includes(name)
      if (leavesOut) {
        const there = isAllowed ? `${address} is not given, so it cannot be left out` : notKnown(name, where)
        return unknown(address, index, present, there)
      }
      if (allowed.length > 0 && !isAllowed) return unknown(address, index, allowed, notKnown(name, where))
      if (allowed.length === 0) {
        if (schemaAt(schema, [...path, name], data) === undefined)
          return refused(
            `${where} holds one value, and nothing stands below it`,
            `Set ${where} itself, or compare the address with the file.`,
          )
        // a thing of the maker's own name: a new one is given whole, else a misspelt one would be half a thing
        if (!isLast) return unknown(address, index, present, notKnown(name, where))
      }
    }
    path.push(name)
    node = under(node, name)
  }
  return { place: { below: file, path } }
}

const notKnown = (name: string, where: string): string => `"${name}" is not known in ${where}`

const refused = (message: string, advice: string): Found => ({ refusal: { message, advice } })

/** @param at which of its names is none that is known */
const unknown = (address: string, at: number, known: readonly string[], message: string): Found => {
  const names = address.trim().split('.')
  const near = didYouMean(names[at] ?? '', known)
  const meant = near === undefined ? '' : names.map((name, index) => (index === at ? near : name)).join('.')
  return refused(message, [meant === '' ? '' : `Did you mean ${meant}?`, listed(known)].join(' ').trim())
}

const MOST_LISTED = 24
const listed = (known: readonly string[]): string =>
  known.length === 0
    ? 'Nothing is known there.'
    : `Known there: ${known.slice(0, MOST_LISTED).join(', ')}${known.length > MOST_LISTED ? ', …' : ''}.`

/** What stands under a name; nothing where that is no map. */
const under = (node: InputNode, name: string): InputNode =>
  isMap(node) && Object.hasOwn(node, name) ? node[name] : undefined

/** What stands at a place; nothing where nothing does. */
export const nodeAt = (node: InputNode, path: Place['path']): InputNode =>
  path.reduce<InputNode>(
    (at, step) => (typeof step === 'number' ? (isList(at) ? at[step] : undefined) : under(at, step)),
    node,
  )
