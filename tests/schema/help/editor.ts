/** A file as a general editor reads it, with the schema in hand, and as the program does. */
import { Ajv, type ValidateFunction } from 'ajv'
import { parseDocument } from 'yaml'
import { decode } from '../../../src/schema/decode.ts'
import type { FileKind } from '../../../src/schema/file-kind.ts'
import { FILE_KINDS } from '../../../src/schema/file-kinds.ts'
import { jsonSchemaOf } from '../../../src/schema/help/json-schema.ts'
import { inLanguage } from '../../../src/schema/translations.ts'
import { readYaml } from '../../../src/schema/yaml.ts'

export type KindName = keyof typeof FILE_KINDS
export const KIND_NAMES = Object.keys(FILE_KINDS) as KindName[]
export const kindNamed = (name: KindName): FileKind => FILE_KINDS[name]

const validators = new Map<KindName, ValidateFunction>()
const validatorOf = (name: KindName): ValidateFunction => {
  const known = validators.get(name)
  if (known) return known
  // what the draft does not know is for editors alone
  const made = new Ajv({ strict: false, allErrors: true }).compile(jsonSchemaOf(kindNamed(name)))
  validators.set(name, made)
  return made
}

/** What an editor underlines in data that it has read; nothing where all is well. */
export const underlinedIn = (name: KindName, data: unknown): readonly string[] => {
  const validate = validatorOf(name)
  if (validate(data)) return []
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`)
}

/** The same of a text, read by a parser of YAML 1.2 that knows nothing of this program. */
export const underlined = (name: KindName, text: string): readonly string[] => {
  const document = parseDocument(text)
  const syntax = document.errors.map(({ message }) => message)
  return syntax.length > 0 ? syntax : underlinedIn(name, document.toJS())
}

/** What the program says of a file by itself, by codes and places. */
export const told = (name: KindName, text: string): readonly string[] => {
  const { document, diagnostics } = readYaml('file.yaml', new TextEncoder().encode(text))
  if (!document) return diagnostics.map(({ code }) => code)
  const { schema } = kindNamed(name)
  const picked = inLanguage(document, schema, 'en', ['en', 'es'])
  return [...diagnostics, ...picked.diagnostics, ...decode(picked.document, schema).diagnostics]
    .filter(({ severity }) => severity === 'error')
    .map(({ code, path }) => `${code} ${path}`)
}
