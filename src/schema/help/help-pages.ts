/** A page in Markdown for every kind of file: what it is for, where it lies, an example, and all that may stand in it. */
import { readFileSync } from 'node:fs'
import type { FileKind } from '../file-kind.ts'
import { FILE_KINDS } from '../file-kinds.ts'
import { type Described, describedOf, isList, samenessOf } from './described.ts'
import { typedAs } from './sentences.ts'

const ownFile = (below: string): string => readFileSync(new URL(below, import.meta.url), 'utf8')

const placeOf = ({ place }: FileKind): string => ('file' in place ? place.file : `${place.folder}/NAME.yaml`)

/** The line by which an editor finds the schema, from where a file of the kind lies. */
export const schemaLine = (kind: FileKind): string =>
  `# yaml-language-server: $schema=${depthOf(kind)}help/${kind.name}.schema.json`

const depthOf = (kind: FileKind): string => '../'.repeat(placeOf(kind).split('/').length - 1)

/** A small whole file that is right. */
export const exampleFile = (kind: FileKind): string =>
  `${schemaLine(kind)}\n${ownFile(`examples/${kind.name}.yaml`)}`

const whereItLies = (kind: FileKind): string =>
  'file' in kind.place
    ? `There is one such file: \`${kind.place.file}\` in your folder.`
    : `Each is a file of its own in the folder \`${kind.place.folder}\`: \`${placeOf(kind)}\`. NAME is yours: small letters, digits and single hyphens. Other files call it by its name, without \`.yaml\`.`

/** @returns the page of one kind of file */
export const helpPage = (kind: FileKind): string => {
  const whole = describedOf(kind.schema)
  const told = groupsBelow(whole)
  return [
    `# ${placeOf(kind)}`,
    whole.description ?? '',
    whereItLies(kind),
    '## An example',
    `\`\`\`yaml\n${exampleFile(kind).trimEnd()}\n\`\`\``,
    '## What may stand in it',
    `A key with **must be there** cannot be left out where its group is there; all others may be. How to type amounts, days and texts is said in [README.md](README.md).`,
    keysOf(whole, told),
    ...[...told.values()].flatMap(({ heading, part }) => [`### ${heading}`, keysOf(part, told)]),
    '',
  ].join('\n\n')
}

/** A group of keys below the first, as a heading names it: `made` → `bars`. */
interface Group {
  readonly heading: string
  readonly part: Described
}

/** Groups by what they are, so that one that stands in several places is told once. */
type Told = ReadonlyMap<string, Group>

const MANY = 'each one'

/** Groups that a part leads to: lists and names of the maker's own are looked through. */
const groupsOf = (part: Described, path: readonly string[]): (readonly [readonly string[], Described])[] => {
  if (part.properties) return [[path, part]]
  const below = [
    ...(part.anyOf ?? []).map((one) => [path, one] as const),
    ...(typeof part.additionalProperties === 'object'
      ? [[[...path, MANY], part.additionalProperties] as const]
      : []),
    ...(part.items && !isList(part.items) ? [[[...path, MANY], part.items] as const] : []),
  ]
  return below.flatMap(([way, one]) => groupsOf(one, way))
}

/** All groups below a part, in the order in which a reader meets them. */
const groupsBelow = (whole: Described): Told => {
  const told = new Map<string, Group>()
  const walk = (part: Described, path: readonly string[]): void => {
    for (const [key, one] of Object.entries(part.properties ?? {}))
      for (const [way, group] of groupsOf(one, [...path, `\`${key}\``])) {
        if (told.has(samenessOf(group))) continue
        told.set(samenessOf(group), { heading: way.join(' → '), part: group })
        walk(group, way)
      }
  }
  walk(whole, [])
  return told
}

const keysOf = ({ properties = {}, required = [] }: Described, told: Told): string =>
  Object.entries(properties)
    .map(([key, part]) => {
      const needed = required.includes(key) ? ' (**must be there**)' : ''
      return `- \`${key}\`${needed}: ${part.description} _${shapeOf(part, told)}_`
    })
    .join('\n')

/** How a key is typed, and where the keys below it are told. */
const shapeOf = (part: Described, told: Told): string => {
  const typed = typedAs(part)
  if (typed !== '') return typed
  if (part.properties) return `A group of keys: see ${told.get(samenessOf(part))?.heading}.`
  if (part.anyOf) return part.anyOf.map((one) => shapeOf(one, told)).join(' Or: ')
  if (typeof part.additionalProperties === 'object')
    return `${part.propertyNames?.enum ? `Any of ${part.propertyNames.enum.join(', ')}` : 'Names'}, each with ${small(shapeOf(part.additionalProperties, told))}`
  const { items } = part
  if (isList(items))
    return `A list of ${items.length} in brackets, each ${small(shapeOf(items[0] ?? {}, told))}`
  return items ? `A list${countOf(part)}, each entry ${small(shapeOf(items, told))}` : ''
}

const small = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1)

const countOf = ({ minItems, maxItems }: Described): string =>
  maxItems === undefined
    ? ''
    : minItems === undefined || minItems === 0
      ? ` of up to ${maxItems}`
      : ` of ${minItems} to ${maxItems}`

/** The page on a maker's own pages. */
export const pagesPage = (): string => ownFile('words/page.md')

/** The first page of the folder: which kinds of files there are, and how values are typed. */
export const indexPage = (): string => {
  const kinds = Object.values<FileKind>(FILE_KINDS).map(
    (kind) => `- [${placeOf(kind)}](${kind.name}.md): ${describedOf(kind.schema).description}`,
  )
  const own =
    '- [pages/NAME.md](page.md): Pages of your own in the binder, with numbers from other sheets in them.'
  return ownFile('words/README.md').replace('[[kinds]]', [...kinds, own].join('\n'))
}
