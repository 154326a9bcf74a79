/** A maker's folder with something wrong in it, or merely something else: by seed, so that a case can be had again. */
import { isMap, isPair, isScalar, isSeq, type Node, parseDocument, type Scalar, visit } from 'yaml'
import { kindOf } from '../../src/schema/file-kinds.ts'
import { type AnySchema, isMarkedAt, metaAt, schemaAt } from '../../src/schema/schema-walk.ts'

/** Files by their paths below the folder, a character for each byte: a file need not be UTF-8. */
export type Files = ReadonlyMap<string, string>

/** In one file bytes cut out and others put in their place; a file that is not there is empty before. */
export interface Splice {
  readonly file: string
  readonly at: number
  readonly cut: number
  readonly put: string
  /** which mutator made it */
  readonly how: string
}

export const bytesOf = (text: string): string => Buffer.from(text, 'utf8').toString('latin1')
export const textOf = (bytes: string): string => Buffer.from(bytes, 'latin1').toString('utf8')

/** Splices of one file do not overlap, and all of them tell places as they were before any of them. */
export const spliced = (files: Files, splices: readonly Splice[]): Map<string, string> => {
  const changed = new Map(files)
  for (const { file, at, cut, put } of [...splices].sort((one, other) => other.at - one.at)) {
    const text = changed.get(file) ?? ''
    changed.set(file, text.slice(0, at) + put + text.slice(at + cut))
  }
  return changed
}

export interface Chance {
  /** [0..1) */
  readonly next: () => number
  readonly below: (most: number) => number
  readonly of: <T>(list: readonly T[]) => T
}

export const chanceOf = (next: () => number): Chance => {
  const below = (most: number): number => Math.floor(next() * most)
  return { next, below, of: <T>(list: readonly T[]) => list[below(list.length)] as T }
}

/** Where a YAML file has something, in characters of its text. */
interface Part {
  readonly path: readonly (string | number)[]
  readonly from: number
  readonly to: number
  /** with its name before it, or its dash */
  readonly entry?: readonly [from: number, to: number]
  readonly scalar?: string
  /** what its schema knows of it */
  readonly meta: Readonly<Record<string, unknown>>
  readonly words: readonly string[]
  readonly isText: boolean
}

const rangeOf = (node: Node | null | undefined): readonly [number, number] | undefined =>
  node?.range ? [node.range[0], node.range[1]] : undefined

const enumOf = (schema: AnySchema | undefined): readonly string[] => {
  const found: string[] = []
  const walk = (one: AnySchema | undefined, depth: number): void => {
    if (!one || depth > 6) return
    const {
      entries,
      innerType,
      in: input,
      options,
    } = one._zod.def as unknown as {
      entries?: Record<string, string>
      innerType?: AnySchema
      in?: AnySchema
      options?: readonly AnySchema[]
    }
    found.push(...Object.values(entries ?? {}))
    for (const next of [innerType, input, ...(options ?? [])]) walk(next, depth + 1)
  }
  walk(schema, 0)
  return found
}

const known = new Map<string, readonly Part[]>()

/** What stands in a file, if it is YAML of a kind that is known. */
const partsOf = (below: string, text: string): readonly Part[] => {
  const key = `${below}\n${text}`
  const before = known.get(key)
  if (before) return before
  const parts: Part[] = []
  const schema = kindOf(below)?.schema
  if (schema) {
    const document = parseDocument(text, { schema: 'failsafe', keepSourceTokens: false })
    const data: unknown = document.toJS()
    const pathOf = (key: unknown, ancestors: readonly unknown[]): (string | number)[] => {
      const all = [...ancestors]
      const path: (string | number)[] = []
      all.forEach((above, index) => {
        const next = all[index + 1]
        if (isPair(above)) path.push(String((above.key as Scalar).value))
        else if (isSeq(above) && next !== undefined) path.push(above.items.indexOf(next as never))
      })
      const last = all.at(-1)
      if (isSeq(last) && typeof key === 'number') path.push(key)
      return path
    }
    visit(document, {
      Node: (key, node, ancestors) => {
        const range = rangeOf(node)
        if (!range || key === 'key') return
        const path = pathOf(key, ancestors)
        const above = ancestors.at(-1)
        const entry =
          isPair(above) && rangeOf(above.key as Node)
            ? ([rangeOf(above.key as Node)?.[0] ?? 0, range[1]] as const)
            : undefined
        const at = path.length > 0 ? schemaAt(schema, path, data) : schema
        const form = (at as { meta?: () => Record<string, unknown> } | undefined)?.meta?.()
        parts.push({
          path,
          from: range[0],
          to: range[1],
          ...(entry ? { entry } : {}),
          ...(isScalar(node) ? { scalar: String(node.value) } : {}),
          meta: { ...form, ...metaAt(schema, path, data), ...formBelow(at) },
          words: isScalar(node) ? enumOf(at) : [],
          isText: isScalar(node) && isTextField(at, schema, path, data),
        })
        if (isMap(node) || isSeq(node)) return undefined
        return undefined
      },
    })
  }
  known.set(key, parts)
  return parts
}

/** What is known of a field below its wrappers. */
const formBelow = (schema: AnySchema | undefined): Readonly<Record<string, unknown>> => {
  for (let each = schema; each; ) {
    const meta = (each as { meta?: () => Record<string, unknown> | undefined }).meta?.()
    if (meta?.['x-form'] !== undefined) return meta
    const {
      innerType,
      in: input,
      options,
    } = each._zod.def as unknown as {
      innerType?: AnySchema
      in?: AnySchema
      options?: readonly AnySchema[]
    }
    each = innerType ?? input ?? options?.[0]
  }
  return {}
}

const isTextField = (
  at: AnySchema | undefined,
  schema: AnySchema,
  path: readonly (string | number)[],
  data: unknown,
): boolean =>
  ['text', 'lines'].includes(String(formBelow(at)['x-form'])) || isMarkedAt(schema, path, data, 'x-words')

/** No word of ours or of a maker has this: where it stands, a mutator put it. */
export const CANARY = 'zzlive'

/** What some program would run, follow or be led astray by, if it were more than text to it. */
export const LIVE: readonly string[] = [
  `<script>globalThis.${CANARY}=1</script>`,
  `<img src=x onerror="globalThis.${CANARY}=1">`,
  `<b id="${CANARY}">bold</b>`,
  `</span></p></section><${CANARY}>`,
  `"><svg onload=${CANARY}()>`,
  `' onmouseover='${CANARY}()`,
  `&lt;${CANARY}&gt; &#60;${CANARY}&#62; &amp;lt;`,
  `<!-- ${CANARY}`,
  `]]><${CANARY}/>`,
  `zz{{ 7*191 }}zz`,
  `zz{% set a = 7*191 %}{{ a }}zz`,
  `{{ range.constructor("globalThis.${CANARY}=1")() }}`,
  `{{ binder | dump }}`,
  `{# zz #}`,
  `zz\${7*191}zz`,
  `\${globalThis.${CANARY}=1}`,
  `<%= 7*191 %>`,
  `zz[[naoh.mass]]zz`,
  `[[${CANARY}]]`,
  `zz[[batch/2027-02-01-plain: naoh.mass]]zz`,
  `[a link](javascript:${CANARY})`,
  `[a link](data:text/html,${CANARY})`,
  `![a picture](https://${CANARY}.example/x.png)`,
  `<https://${CANARY}.example>`,
  `javascript:${CANARY}()`,
  `::: danger`,
  `| a | b |`,
  `# ${CANARY}`,
  `- 1. * _${CANARY}_ **b** \`c\``,
  `%PDF- \\u003cscript\\u003e \\x3c`,
  `\${jndi:${CANARY}} $(touch ${CANARY}) \`touch ${CANARY}\``,
  `../../${CANARY}`,
  `$& $1 $\` $'`,
  `__proto__`,
  `constructor`,
  `toString`,
  `BEGIN:VEVENT;,\\n:END:VCALENDAR`,
]

/** Letters that no program counts right at once. */
const ODD: readonly string[] = [
  '\u0000',
  '\u0007\u001b[31mred\u001b[0m',
  '\u202Eright to left\u202C',
  '\u200F',
  '\u00AD\u200B\u2060',
  '\uFEFF',
  '\uFFFD\uFFFF',
  '\u{1F9FC}',
  'e\u0301\u0301\u0301',
  '\u2028\u2029',
  '\u00A0',
  '\uE000naoh.mass\uE000',
  'W'.repeat(90),
  'W'.repeat(200),
  'i'.repeat(5000),
  'long '.repeat(39),
  'ǅ ß ﬁ İ ı',
  '½ ⅞ ١٢٣',
  ' ',
  '',
  '~',
  'null',
  '-',
  'true',
  'no',
  '0',
]

const NUMBERS: readonly string[] = [
  '0',
  '-0',
  '-1',
  '0.000000000001',
  '1e-9',
  '1e9',
  '1e400',
  '-1e400',
  '9007199254740993',
  '99999999999999999999',
  '999999999999999999999999999999999999999',
  '0.30000000000000004',
  '0x1F',
  '0o17',
  '1_000',
  '1,5',
  '1 000',
  '1/0',
  '1/3',
  '3 1/3',
  '-2 1/4',
  '½',
  '.5',
  '5.',
  '+5',
  'NaN',
  'Infinity',
  '.inf',
  '--5',
  '١٢',
]

const NEAR = [0.5, 0.8, 0.9, 0.95, 0.99, 0.999, 1.001, 1.01, 1.05, 1.1, 1.25, 2]
const FAR = [0, -1, 1e-9, 1e-3, 0.01, 0.1, 10, 100, 1000, 1e6, 1e12]

const DAYS = ['2027-02-28', '2028-02-29', '2027-02-29', '0001-01-01', '9999-12-31', '2026-12-31', '2027-13-01', '1900-01-01', '2027-01-04', '2027-06-30', '-271821-04-20', '2027-1-4', '12027-01-01'] // biome-ignore format: a list reads better in rows
const TIMES = ['0:00', '24:00', '23:59', '12 am', '12:30 pm', '8:30', '25:00', '7', '00:60', '3 pm']

/** How a text stands in a file: with its marks where it needs them. */
const quoted = (text: string): string =>
  JSON.stringify(text).replace(/[\u007f-\uffff]/g, (unit) =>
    unit.charCodeAt(0) < 0xa0 || (unit.charCodeAt(0) >= 0xd800 && unit.charCodeAt(0) < 0xe000)
      ? `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`
      : unit,
  )

const plainDigits = (value: number): string => {
  const digits = Number(value.toPrecision(6))
  return Math.abs(digits) < 1e-6 || Math.abs(digits) > 1e20 ? String(digits) : digits.toString()
}

const otherNumber = (text: string, chance: Chance): string => {
  const number = /-?\d+(?:\.\d+)?/.exec(text)
  if (!number) return chance.of(NUMBERS)
  const roll = chance.next()
  const isWhole = /^-?\d+$/.test(text.trim())
  const times = roll < 0.8 ? chance.of(NEAR) : chance.of(FAR)
  const put =
    roll > 0.92
      ? chance.of(NUMBERS)
      : isWhole && roll < 0.8
        ? String(Number(number[0]) + chance.of([-3, -2, -1, 1, 2, 3, 10]))
        : plainDigits(Number(number[0]) * times)
  return text.slice(0, number.index) + put + text.slice(number.index + number[0].length)
}

/** Another value of the kind that stands there, one that the schema takes more often than not. */
const otherValue = (part: Part, all: readonly Part[], chance: Chance): string => {
  const { scalar = '', meta, words } = part
  const kind = meta['x-quantity']
  const form = meta['x-form']
  const alike = all.filter(
    (other) =>
      other !== part &&
      other.scalar !== undefined &&
      other.scalar !== scalar &&
      (kind === undefined
        ? other.meta['x-form'] === form && form !== undefined
        : other.meta['x-quantity'] === kind),
  )
  if (alike.length > 0 && chance.next() < 0.15) return quotedIfText(part, chance.of(alike).scalar ?? '')
  if (kind !== undefined) {
    const units = (meta['x-units'] as readonly string[] | undefined) ?? []
    const limits = [...String(meta['x-allowed'] ?? '').matchAll(/-?\d[\d.]*(?: ?[^\s]+)?/g)].map(
      ([one]) => one,
    )
    if (limits.length > 0 && chance.next() < 0.2) return chance.of(limits)
    if (units.length > 0 && chance.next() < 0.15) return scalar.replace(/[^\d\s./-].*$/, chance.of(units))
    return otherNumber(scalar, chance)
  }
  if (words.length > 1 && chance.next() < 0.9) return chance.of(words)
  if (form === 'date')
    return chance.next() < 0.5 ? chance.of(DAYS) : scalar.replace(/\d\d$/, String(10 + chance.below(18)))
  if (form === 'time') return chance.of(TIMES)
  if (/\d/.test(scalar)) return otherNumber(scalar, chance)
  return quotedIfText(part, chance.of([...LIVE, ...ODD]))
}

const quotedIfText = (part: Part, text: string): string =>
  part.isText || /[:#{}[\],&*!|>'"%@`]|^\s|\s$|^$/.test(text) ? quoted(text) : text

type Mutator = (file: string, text: string, chance: Chance) => Omit<Splice, 'how' | 'file'> | undefined

const over = (part: Part, put: string) => ({ at: part.from, cut: part.to - part.from, put })

const ofScalars =
  (is: (part: Part) => boolean, put: (part: Part, all: readonly Part[], chance: Chance) => string): Mutator =>
  (file, text, chance) => {
    const all = partsOf(file, text)
    const fitting = all.filter((part) => part.scalar !== undefined && is(part))
    if (fitting.length === 0) return undefined
    const part = chance.of(fitting)
    return over(part, put(part, all, chance))
  }

const value = ofScalars(() => true, otherValue)
const number = ofScalars(({ scalar = '' }) => /^-?\d/.test(scalar), otherValue)
const choice = ofScalars(({ words }) => words.length > 1, otherValue)

/** The whole text, or a piece at its beginning, middle or end. */
const liveText = ofScalars(
  ({ isText }) => isText,
  ({ scalar = '' }, _all, chance) => {
    const odd = chance.next() < 0.75 ? chance.of(LIVE) : chance.of(ODD)
    const at = chance.of([0, Math.floor(scalar.length / 2), scalar.length])
    return quoted(chance.next() < 0.5 ? odd : `${scalar.slice(0, at)} ${odd} ${scalar.slice(at)}`.trim())
  },
)
/** Such a text where none is asked for. */
const strayText = ofScalars(
  () => true,
  (_part, _all, chance) => quoted(chance.of([...LIVE, ...ODD])),
)

const entryOf = (file: string, text: string, chance: Chance) => {
  const entries = partsOf(file, text).filter(({ entry }) => entry !== undefined)
  return entries.length === 0 ? undefined : chance.of(entries)
}

/** The lines of an entry, where it has lines to itself. */
const linesOf = (text: string, [from, to]: readonly [number, number]): readonly [number, number] => {
  const start = text.lastIndexOf('\n', from - 1) + 1
  const next = text.indexOf('\n', Math.max(from, to - 1))
  return /^[ -]*$/.test(text.slice(start, from)) ? [start, next < 0 ? text.length : next + 1] : [from, to]
}

const drop: Mutator = (file, text, chance) => {
  const entry = entryOf(file, text, chance)?.entry
  if (!entry) return undefined
  const [from, to] = linesOf(text, entry)
  // in a row of entries the comma goes with it
  const comma = /^\s*,\s*/.exec(text.slice(to))?.[0].length ?? 0
  return { at: from, cut: to - from + (text[from - 1] === '\n' || from === 0 ? 0 : comma), put: '' }
}

const double: Mutator = (file, text, chance) => {
  const part = entryOf(file, text, chance)
  if (!part?.entry) return undefined
  const [from, to] = linesOf(text, part.entry)
  const copy = text.slice(from, to)
  const name = String(part.path.at(-1))
  const isLines = copy.endsWith('\n')
  const other = chance.next() < 0.3 ? copy : copy.replace(name, `${name}-again`)
  return { at: from, cut: 0, put: isLines ? other : `${other}, ` }
}

const rename: Mutator = (file, text, chance) => {
  const part = entryOf(file, text, chance)
  if (!part?.entry) return undefined
  const name = String(part.path.at(-1))
  const put = chance.of(['__proto__', 'constructor', 'toString', 'hasOwnProperty', `${name}s`, name.slice(1), '"<b>"', '"{{ 7*191 }}"', 'null', '? ', '"a\\u0000b"', '"../x"', name.toUpperCase(), 'en', '1', 'x'.repeat(300)]) // biome-ignore format: a list reads better in rows
  return { at: part.entry[0], cut: name.length, put }
}

const swap: Mutator = (file, text, chance) => {
  const all = partsOf(file, text).filter(({ path }) => path.length > 0)
  if (all.length < 2) return undefined
  const [one, other] = [chance.of(all), chance.of(all)]
  return over(one, text.slice(other.from, other.to))
}

const deep = (levels: number, open: string, close: string): string =>
  open.repeat(levels) + close.repeat(levels)

const shape: Mutator = (file, text, chance) => {
  const all = partsOf(file, text)
  if (all.length === 0) return undefined
  const part = chance.of(all)
  const put = chance.of([
    '[]',
    '{}',
    '[[]]',
    '{ a: { b: c } }',
    '[1, 2, 3]',
    '{ en: one, es: uno }',
    '{ es: uno }',
    '{ xx: one }',
    '{ __proto__: { polluted: yes } }',
    '{ constructor: { prototype: { polluted: yes } } }',
    deep(19, '[', ']'),
    deep(300, '[', ']'),
    deep(20_000, '[', ']'),
    deep(2000, '{ a: ', ' }'),
    `[${'1, '.repeat(20_000)}]`,
    `{ ${Array.from({ length: 3000 }, (_, index) => `k${index}: 1`).join(', ')} }`,
    '!!js/function "function () { globalThis.zzlive = 1 }"',
    '!!python/object/apply:os.system ["touch zzlive"]',
    '!!binary aGVsbG8=',
    '&a [*a]',
    '*a',
    '<<',
    '|\n  a\n b\n',
    '> folded',
    '"\\x',
    '"\\ud800"',
    '',
    '~',
    "'",
    '? a : b',
    '2027-02-30T25:61:00Z',
  ])
  return over(part, put)
}

const BOMB = `a: &a [x, x, x, x, x, x, x, x, x]\n${[...'bcdefghij']
  .map((name, index) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghi'[index]}`).join(', ')}]`)
  .join('\n')}\n`

const whole: Mutator = (_file, text, chance) => {
  const put = chance.of([
    BOMB,
    '---\n',
    '...\n',
    '%YAML 1.1\n---\n',
    '\uFEFF',
    '\t',
    '<<: { name: x }\n',
    '__proto__: { polluted: yes }\n',
    '#'.repeat(5000),
    `${'- '.repeat(500)}x\n`,
    `${'? '.repeat(500)}x\n`,
    '%TAG ! tag:zzlive,2000:\n---\n',
  ])
  const at = chance.next() < 0.7 ? 0 : text.length
  return { at, cut: 0, put: at > 0 ? `\n${put}` : put }
}

/** Of bytes: what a bad disk or another editor leaves. */
const bytes = (_file: string, text: string, chance: Chance) => {
  const at = chance.below(text.length + 1)
  return chance.of([
    () => ({ at, cut: 1, put: String.fromCharCode(chance.below(256)) }),
    () => ({ at, cut: 0, put: String.fromCharCode(chance.below(256)) }),
    () => ({ at, cut: 1 + chance.below(12), put: '' }),
    () => ({ at, cut: text.length - at, put: '' }),
    () => ({ at, cut: 0, put: text.slice(chance.below(at + 1), at).slice(-400) }),
    () => ({ at, cut: 0, put: '\u0000' }),
    () => ({ at, cut: 0, put: '\u00ff\u00fe' }),
    () => ({ at, cut: 0, put: '\u00c0\u0080' }),
    () => ({ at, cut: 0, put: '\u00ed\u00a0\u0080' }),
    () => ({ at: 0, cut: text.length, put: text.replaceAll('\n', '\r\n') }),
    () => ({ at: 0, cut: text.length, put: text.replaceAll('\n', '\r') }),
    () => ({ at: 0, cut: text.length, put: Buffer.from(text, 'utf16le').toString('latin1') }),
    () => ({ at: 0, cut: text.length, put: '' }),
  ])()
}

const line: Mutator = (_file, text, chance) => {
  const lines = text.split('\n')
  const index = chance.below(lines.length)
  const at = lines.slice(0, index).join('\n').length + (index > 0 ? 1 : 0)
  const own = lines[index] ?? ''
  return chance.of([
    { at, cut: own.length + 1, put: '' },
    { at, cut: 0, put: `${own}\n` },
    { at, cut: 0, put: '  ' },
    { at, cut: Math.min(2, own.length), put: '' },
    { at, cut: 0, put: '\t' },
    { at, cut: own.length, put: lines[chance.below(lines.length)] ?? '' },
    { at, cut: own.length, put: `# ${own}` },
  ])
}

/** Into a page of the maker's own, which is Markdown. */
const page: Mutator = (file, text, chance) => {
  if (!file.endsWith('.md')) return undefined
  const lines = text.split('\n')
  const at = lines.slice(0, 1 + chance.below(lines.length)).join('\n').length
  return { at, cut: 0, put: `\n\n${chance.of([...LIVE, ...ODD])}\n\n` }
}

const MUTATORS: readonly (readonly [name: string, weight: number, mutator: Mutator])[] = [
  ['value', 10, value],
  ['number', 16, number],
  ['choice', 6, choice],
  ['live text', 18, liveText],
  ['stray text', 3, strayText],
  ['drop', 8, drop],
  ['double', 6, double],
  ['rename', 5, rename],
  ['swap', 5, swap],
  ['shape', 7, shape],
  ['whole', 3, whole],
  ['line', 6, line],
  ['page', 6, page],
]
const BYTES_WEIGHT = 8
const TOTAL = MUTATORS.reduce((sum, [, weight]) => sum + weight, BYTES_WEIGHT)

/** One to three changes somewhere in the files. */
export const mutation = (files: Files, chance: Chance): readonly Splice[] => {
  const wanted = chance.of([1, 1, 1, 2, 3])
  const found: Splice[] = []
  const names = [...files.keys()]
  for (let turn = 0; turn < 60 && found.length < wanted; turn += 1) {
    const one = oneSplice(files, chance.of(names), chance)
    const overlaps = found.some(
      ({ file, at, cut }) => one?.file === file && one.at <= at + cut && at <= one.at + one.cut,
    )
    if (one && !overlaps) found.push(one)
  }
  return found
}

const oneSplice = (files: Files, file: string, chance: Chance): Splice | undefined => {
  const raw = files.get(file) ?? ''
  let roll = chance.below(TOTAL)
  for (const [how, weight, mutator] of MUTATORS) {
    roll -= weight
    if (roll >= 0) continue
    const text = textOf(raw)
    const found = mutator(file, text, chance)
    if (!found) return undefined
    const at = bytesOf(text.slice(0, found.at)).length
    const cut = bytesOf(text.slice(found.at, found.at + found.cut)).length
    return { file, at, cut, put: bytesOf(found.put), how }
  }
  return { file, ...bytes(file, raw, chance), how: 'bytes' }
}

/** Each field that takes any text, with one of the texts of LIVE in it, another one in each. */
export const inEveryText = (files: Files, first: number): Splice[] => {
  let next = first
  return [...files].flatMap(([file, raw]) => {
    const text = textOf(raw)
    return partsOf(file, text)
      .filter(({ isText, scalar }) => isText && scalar !== undefined)
      .map((part): Splice => {
        const live = LIVE[next % LIVE.length] ?? ''
        next += 1
        const at = bytesOf(text.slice(0, part.from)).length
        const cut = bytesOf(text.slice(part.from, part.to)).length
        return { file, at, cut, put: bytesOf(quoted(live)), how: 'live text' }
      })
  })
}

/** Lines of a file as they were and as they are, enough of them to stand in the file once. */
export interface LineEdit {
  readonly file: string
  readonly was: string
  readonly is: string
}

/** Splices as they are written down: whole lines, so that they are found again when the file has grown elsewhere. */
export const asLineEdits = (files: Files, splices: readonly Splice[]): LineEdit[] =>
  splices.map((splice) => {
    const text = files.get(splice.file) ?? ''
    let from = text.lastIndexOf('\n', splice.at - 1) + 1
    let to = text.indexOf('\n', splice.at + splice.cut)
    if (to < 0) to = text.length
    while (from > 0 && text.split(text.slice(from, to)).length > 2)
      from = text.lastIndexOf('\n', from - 2) + 1
    const was = text.slice(from, to)
    const put = was.slice(0, splice.at - from) + splice.put + was.slice(splice.at + splice.cut - from)
    return { file: splice.file, was, is: put }
  })

/** @throws Error for lines that do not stand in their file once */
export const withLineEdits = (files: Files, edits: readonly LineEdit[]): Map<string, string> => {
  const changed = new Map(files)
  for (const { file, was, is } of edits) {
    const text = changed.get(file) ?? ''
    const [before, after, more] = was === '' && text === '' ? ['', ''] : text.split(was)
    if (before === undefined || after === undefined || more !== undefined)
      throw new Error(`${file} has not exactly once: ${was}`)
    changed.set(file, before + is + after)
  }
  return changed
}
