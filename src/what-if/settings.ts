/** What somebody would change: put into the data of the files, and what is wrong with it told where it was typed. */
import { type Diagnostic, pointer, type SourceDocument } from '../diagnostics.ts'
import { type InputNode, type Inputs, isList, isMap } from '../revisions/input-changes.ts'
import { readYaml } from '../schema/yaml.ts'
import { nodeAt, type Place, placeOf, type Refusal } from './address.ts'

/** As typed. */
export interface Setting {
  readonly address: string
  /** missing where it is left out */
  readonly value?: string
}

export interface Placed {
  readonly setting: Setting
  readonly place: Place
  /** what stood there, and what would; undefined for nothing */
  readonly before: InputNode
  readonly after: InputNode
  /** the value as it was typed, with the place of every part */
  readonly source: SourceDocument
}

export interface Applied {
  /** in the order in which they were typed */
  readonly placed: readonly Placed[]
  readonly inputs: Inputs
  readonly refused: readonly { readonly at: string; readonly refusal: Refusal }[]
  readonly diagnostics: readonly Diagnostic[]
  readonly documents: readonly SourceDocument[]
}

/** How messages name a setting, where a mistake in a file has its file and line. */
export const nameOf = ({ address, value }: Setting): string =>
  `${value === undefined ? '--leave-out' : '--set'} ${address}`

/**
 * Puts settings into the data of a folder, one after the other: a later one finds what an earlier one put there.
 *
 * @param settings as typed
 * @param inputs   data of all files, by path below the folder
 */
export const withSettings = (settings: readonly Setting[], inputs: Inputs): Applied => {
  const placed: Placed[] = []
  const refused: { at: string; refusal: Refusal }[] = []
  const diagnostics: Diagnostic[] = []
  const documents: SourceDocument[] = []
  let all = inputs
  for (const setting of settings) {
    const at = nameOf(setting)
    const found = placeOf(setting.address, all, setting.value === undefined)
    const read = setting.value === undefined ? undefined : readValue(at, setting.value)
    if (read) {
      documents.push(read.source)
      diagnostics.push(...read.diagnostics)
    }
    const isTwice = placed.some((one) => one.setting.address === setting.address)
    if ('refusal' in found) refused.push({ at, refusal: found.refusal })
    else if (isTwice) refused.push({ at, refusal: TWICE })
    else if (setting.value?.trim() === '') refused.push({ at, refusal: NOTHING })
    if ('refusal' in found || isTwice || read?.diagnostics.some(({ severity }) => severity === 'error'))
      continue
    const { place } = found
    const file = all.get(place.below)
    placed.push({
      setting,
      place,
      before: nodeAt(file, place.path),
      after: read?.data,
      source: read?.source ?? bare(at),
    })
    const changed = read ? withNode(file, place.path, read.data) : withoutNode(file, place.path)
    const others = new Map(all)
    if (changed === GONE) others.delete(place.below)
    else others.set(place.below, changed)
    all = others
  }
  return { placed, inputs: all, refused, diagnostics, documents }
}

const TWICE: Refusal = { message: 'This is set twice', advice: 'Keep one of the two.' }
const NOTHING: Refusal = {
  message: 'Nothing is given after "="',
  advice: 'Write a value as it would stand in the file, or take the line away with --leave-out.',
}

const bare = (file: string): SourceDocument => ({ file, text: '', placeOf: () => undefined })

const readValue = (at: string, value: string) => {
  if (value.trim() === '') return { data: undefined, source: bare(at), diagnostics: [] }
  const { document, source, diagnostics } = readYaml(at, new TextEncoder().encode(value))
  return { data: document?.data, source, diagnostics }
}

const GONE = Symbol('gone')

const withNode = (node: InputNode, path: Place['path'], value: InputNode): InputNode => {
  const [step, ...others] = path
  if (step === undefined) return value
  if (typeof step === 'number') {
    const entries = isList(node) ? [...node] : []
    entries[step] = withNode(entries[step], others, value)
    return entries
  }
  const names = isMap(node) ? node : {}
  return { ...names, [step]: withNode(names[step], others, value) }
}

const withoutNode = (node: InputNode, path: Place['path']): InputNode | typeof GONE => {
  const [step, ...others] = path
  if (step === undefined) return GONE
  if (typeof step === 'number') {
    const entries = isList(node) ? node : []
    return entries.flatMap((entry, index) => {
      const kept = index === step ? withoutNode(entry, others) : entry
      return kept === GONE ? [] : [kept]
    })
  }
  const { [step]: below, ...rest } = isMap(node) ? node : {}
  const kept = withoutNode(below, others)
  if (kept === GONE) return rest
  return { ...(isMap(node) ? node : {}), [step]: kept }
}

/**
 * Mistakes of the changed files, each told where it was typed: at its setting, or else where it stands in the file.
 *
 * @param diagnostics of the folder with all settings
 * @param applied     the settings, and the data with them
 * @param shown       how messages name the folder
 */
export const toldAtSettings = (
  diagnostics: readonly Diagnostic[],
  { placed, inputs }: Pick<Applied, 'placed' | 'inputs'>,
  shown: string,
): Diagnostic[] => {
  const changed = new Set(placed.map(({ place }) => `${shown}/${place.below}`))
  const told = (file: string, path: string): { file: string; path: string } => {
    // the last one stands where several were put one into the other
    for (const { setting, place } of [...placed].reverse()) {
      if (file !== `${shown}/${place.below}` || setting.value === undefined) continue
      const own = pointer(place.path)
      if (path === own || path.startsWith(`${own}/`))
        return { file: nameOf(setting), path: path.slice(own.length) }
    }
    return { file, path }
  }
  /** Of several ways to say one thing the file has one already: how it is taken away. */
  const takenAway = ({ code, file, path, message }: Omit<Diagnostic, 'range' | 'related'>): string => {
    const above = path.slice(0, path.lastIndexOf('/'))
    const near = placed.filter(
      ({ place }) => file === `${shown}/${place.below}` && pointer(place.path.slice(0, -1)) === above,
    )
    const [first] = near
    if (code !== 'more-than-one' || !first) return ''
    const { below, path: own } = first.place
    const base = first.setting.address.split('.').slice(0, -1).join('.')
    const others = [...message.matchAll(/"([^"]+)"/g)].flatMap(([, name = '']) => {
      const isThere = nodeAt(inputs.get(below), [...own.slice(0, -1), name]) !== undefined
      return isThere && !near.some(({ place }) => place.path.at(-1) === name) ? [name] : []
    })
    return others.map((name) => ` To do so here, add: --leave-out ${base}.${name}`).join('')
  }
  return diagnostics.map(({ range, related, ...diagnostic }) => ({
    ...diagnostic,
    ...told(diagnostic.file, diagnostic.path),
    advice: `${diagnostic.advice}${takenAway(diagnostic)}`,
    // what was changed has other places than the file
    ...(range && !changed.has(diagnostic.file) ? { range } : {}),
    ...(related ? { related: related.map((one) => ({ ...one, ...told(one.file, one.path) })) } : {}),
  }))
}
