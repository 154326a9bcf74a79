/** What the label of a batch says and why: both lists of ingredients, scent, weight, letters, code, what is still open. */
import type { BoundLabel } from '../../binder/bind-labels.ts'
import type { StatementLine } from '../../labelling/ingredient-statement.ts'
import { blank, empty, finishSheet, maker, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Cell, Facts, Inline, Sheet, Step, Table } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { labelSources, RULES_PLACE } from './label-sources.ts'
import { labelTitle } from './label-title.ts'
import { listOf, netWords, type SetLabel } from './label-words.ts'

/** kg; what a label's lists are given to */
const GRAM = 0.001

export const labelSheetId = ({ batch }: BoundLabel): string => `label/${batch.key}`

export const labelSheet = (
  frame: Frame,
  label: BoundLabel,
  set: SetLabel | undefined,
  at: { readonly number: string; readonly page: Sheet | undefined },
): Sheet => {
  const { say, template } = frame
  return finishSheet({
    ...frame.sheet(
      'label',
      labelSheetId(label),
      say('section.label'),
      at.number,
      labelTitle(frame, label, 'label.title'),
    ),
    template: template('label'),
    fill: { law: say('label.law-short', { rules: linkTo(RULES_PLACE) }) },
    blocks: {
      state: stateOf(frame, label, set, at.page),
      parts: partsOf(frame, label),
      notes: notesOf(frame, label),
      lists: listsOf(frame, label),
      assumptions: assumptionsOf(frame, label),
      scents: scentsOf(frame, label),
      weight: weightOf(frame, label),
      weighed: weighedOf(frame, label),
      letters: lettersOf(frame, label, set),
      code: codeOf(frame, label),
      printing: printingOf(frame, label, at.page),
    },
    sources: pickSources(frame.sources, [...labelSources(label.region, label.gates.status)]),
  })
}

/** The first thing that is looked for: may these bars be sold under this label? */
const stateOf = (
  { say, show }: Frame,
  label: BoundLabel,
  set: SetLabel | undefined,
  page: Sheet | undefined,
): Block => {
  const open = label.gates.gates.filter(({ open: isOpen, due }) => isOpen && due === 'before-sale')
  const until = [
    ...open.map(({ gate, section }) => say('label.until.gate', { what: say(`label.gate.${gate}`), section })),
    ...(label.net.from === 'weighed' ? [] : [say('label.until.weighed')]),
    ...(label.findings.some(({ code }) => code === 'label-batch-held') ? [say('label.until.tested')] : []),
  ]
  const isNone = label.state === 'none' || page?.stopped !== undefined
  if (isNone)
    return {
      kind: 'stamp',
      heading: say('label.page.none'),
      items: [
        say(page ? 'label.none-see' : 'label.none-here', page ? { page: linkTo(page) } : {}),
        ...(until.length > 0 ? [say('label.none-also')] : []),
        ...until,
      ],
    }
  if (label.state === 'not-for-sale')
    return { kind: 'stamp', heading: say('label.not-for-sale'), items: [say('label.until'), ...until] }
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('label.for-sale'),
    items: [
      say(set ? 'label.for-sale-note' : 'label.for-sale-no-page'),
      say('label.for-sale-read'),
      label.released
        ? say('label.for-sale-released', {
            date: show.date('label.released', label.released.date),
            by: label.released.by,
          })
        : say('label.for-sale-test'),
    ],
  }
}

const part = (frame: Frame, key: string, says: Cell, section: string | undefined): Cell[] => [
  words(frame.say(`label.part.${key}`)),
  says,
  section === undefined ? words(frame.say('label.part.own')) : maker(section),
]

/** All that stands on the label, with the section that asks for it. */
const partsOf = (frame: Frame, label: BoundLabel): Table => {
  const { say } = frame
  const { show, ...onLabel } = frame.onLabel
  const { title, identity, printed, rules, gates, convention, statements, code, bestBefore } = label
  const section = (key: string): string | undefined => rules.find(({ rule }) => rule === key)?.section
  const gate = (key: string): string | undefined => gates.gates.find((one) => one.gate === key)?.section
  const net = netWords(frame, label, (name) => `label.${name}`)
  const { mayContain } = statements[convention]
  const own = (key: keyof typeof printed): Cell => {
    const text = printed[key]
    return text === undefined ? blank() : maker(text)
  }
  const row = (key: string, says: Cell, by?: string): Cell[] => part(frame, key, says, by)
  return {
    kind: 'table',
    columns: [
      { head: say('label.parts.what'), align: 'left', width: 20 },
      { head: say('label.parts.says'), align: 'left' },
      { head: say('label.parts.section'), align: 'left', width: 24 },
    ],
    rows: [
      row('name', maker(title)),
      row(
        'identity',
        identity === undefined ? words(onLabel.say('label.print.identity')) : maker(identity),
        section('identity'),
      ),
      ...(label.words.length > 0 ? [row('words', maker(label.words.join(' · ')))] : []),
      row(
        'ingredients',
        maker(listOf(frame, label)),
        section('ingredients') ?? section('ingredients-exempt'),
      ),
      ...(mayContain.length > 0 ? [row('may-contain', maker(show.list(mayContain)))] : []),
      row(
        label.net.from === 'weighed' ? 'net' : 'net-planned',
        net ? words(net) : blank(),
        section('net-quantity'),
      ),
      ...(gate('maker-name-and-place') || (printed['maker-name-and-place'] && !printed['responsible-person'])
        ? [row('maker', own('maker-name-and-place'), gate('maker-name-and-place'))]
        : []),
      ...(gate('responsible-person')
        ? [row('responsible', own('responsible-person'), gate('responsible-person'))]
        : []),
      ...(gate('domestic-contact')
        ? [row('contact', own('domestic-contact'), gate('domestic-contact'))]
        : []),
      ...(gate('durability')
        ? [
            row(
              'durability',
              bestBefore === undefined
                ? own('durability')
                : words(
                    onLabel.say('label.print.best-before', {
                      month: show.month('label.best-before', bestBefore),
                    }),
                  ),
              gate('durability'),
            ),
          ]
        : []),
      ...(gate('precautions') || printed.precautions
        ? [row('precautions', own('precautions'), gate('precautions'))]
        : []),
      row('batch', code ? maker(code.code) : blank(), section('batch-number')),
    ],
  }
}

/** Findings that are no reason to print none: a gate stands above. */
const notesOf = (frame: Frame, { findings }: BoundLabel): Block => {
  const told = findings.filter(({ severity, code }) => severity !== 'stop' && code !== 'label-gate-open')
  if (told.length === 0) return nothing
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: frame.say('label.notes'),
    items: findingsWords(frame, told),
  }
}

const slug = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')

/** Both lists, line by line beside one another. */
const listsOf = ({ say, show }: Frame, { batch, statements, convention, finished }: BoundLabel): Table => {
  const both = ['as-put-in', 'as-finished'] as const
  const cells = (which: (typeof both)[number], line: StatementLine | undefined): Cell[] => {
    if (!line) return [empty, empty, empty]
    const name = `label.${which}.${slug(line.name)}`
    return [
      line.group === 'descending'
        ? maker(line.name)
        : words(say(`label.list.${line.group}`, { name: line.name })),
      number(show.weight(`${name}.mass`, line.mass, GRAM)),
      number(show.percent(`${name}.share`, line.share, line.share < SMALL ? 2 : 1)),
    ]
  }
  const rows = Math.max(...both.map((which) => statements[which].lines.length))
  return {
    kind: 'table',
    caption: say('label.lists.caption', {
      how: say(batch.file.value.made ? 'label.lists.made' : 'label.lists.planned'),
      chosen: say(`label.convention.${convention}`),
      date: show.date('label.finished.date', finished.date),
    }),
    columns: both.flatMap((which) => [
      { head: say(`label.lists.${which}`), align: 'left' as const, width: 29 },
      { head: say('label.lists.mass'), align: 'right' as const, width: 11 },
      { head: say('label.lists.share'), align: 'right' as const, width: 11 },
    ]),
    rows: Array.from({ length: rows }, (_, index) =>
      both.flatMap((which) => cells(which, statements[which].lines[index])),
    ),
    foot: [
      both.flatMap((which): Cell[] => [
        words(say('label.lists.all')),
        number(show.weight(`label.${which}.total`, statements[which].total, GRAM)),
        empty,
      ]),
    ],
  }
}

/** Shares below this get another decimal [–] */
const SMALL = 0.02

const assumptionsOf = ({ say, show }: Frame, label: BoundLabel): Block => {
  const { statements, finished, masses, soapShare, gates } = label
  const percent = (name: string, mass: number) => show.percent(`label.finished.${name}`, mass / masses.all, 1)
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('label.rests-on'),
    items: [
      say('label.finished', {
        share: percent('middle', finished.middle),
        low: percent('low', finished.low),
        high: percent('high', finished.high),
      }),
      ...statements['as-finished'].assumptions.map((one) => say(`label.assumes.${one}`)),
      ...(gates.status === 'soap'
        ? [say('label.soap-share', { share: show.percent('label.soap-share', soapShare, 0) })]
        : []),
    ],
  }
}

const scentsOf = ({ say, show }: Frame, { allergens, masses }: BoundLabel): Block => {
  const { lines, limit } = allergens
  if (masses.fragrances.length === 0)
    return {
      kind: 'facts',
      size: 'plain',
      items: [{ label: say('label.scents.scent'), cell: words(say('label.scents.none')) }],
    }
  return {
    kind: 'table',
    caption:
      limit === undefined
        ? say('label.scents.caption')
        : say('label.scents.caption-limit', { limit: show.percent('label.allergen.limit', limit, 3) }),
    columns: [
      { head: say('label.scents.substance'), align: 'left' },
      { head: say('label.scents.mass'), align: 'right', width: 18 },
      { head: say('label.scents.share'), align: 'right', width: 18 },
      { head: say('label.scents.named'), align: 'left', width: 30 },
    ],
    rows: lines.map(({ name, mass, share, verdict }) => [
      maker(name),
      number(show.weight(`label.allergen.${slug(name)}.mass`, mass, TENTH)),
      number(show.percent(`label.allergen.${slug(name)}.share`, share, 4)),
      words(say(`label.scents.${verdict}`)),
    ]),
  }
}

/** kg */
const TENTH = 0.0001

const weightOf = ({ say, show }: Frame, { net }: BoundLabel): Facts => {
  const grams = (name: string, mass: number) => number(show.weight(`label.weight.${name}`, mass, GRAM))
  const tenths = (name: string, mass: number) => number(show.weight(`label.weight.${name}`, mass, TENTH))
  const { quantity, declared } = net
  const items: Facts['items'][number][] = []
  if (quantity) {
    items.push({
      label: say('label.weight.bars'),
      cell: number(show.count('label.weight.bars', net.bars)),
      note:
        net.ofBars === undefined
          ? say('label.weight.bars-of-unknown')
          : say('label.weight.bars-of', { all: show.count('label.weight.of', net.ofBars) }),
    })
    if (declared !== undefined) {
      items.push({
        label: say('label.weight.lightest'),
        cell: tenths('lightest', quantity.lightest),
        note: say('label.weight.less'),
      })
      items.push({
        label: say('label.weight.mean'),
        cell: tenths('mean', quantity.mean),
        note: say('label.weight.less'),
      })
    }
  } else
    items.push({
      label: say('label.weight.planned'),
      cell: declared === undefined ? blank() : grams('planned', declared),
      note: say(`label.weight.${net.from}`),
    })
  items.push(
    {
      label: say('label.weight.still-to-lose'),
      cell: tenths('still-to-lose', net.stillToLose),
      note: say('label.weight.still-to-lose-note', {
        ...(net.date === undefined ? {} : { from: show.shortDate('label.weight.from', net.date) }),
        until: show.date('label.weight.until', net.lastSale),
      }),
    },
    {
      label: say('label.weight.scale'),
      cell: tenths('scale', net.scaleError),
      note: say('label.weight.scale-note'),
    },
  )
  if (quantity && declared !== undefined)
    items.push({
      label: say('label.weight.declared'),
      cell: grams('declared', declared),
      note: say(
        quantity.declared !== undefined && declared < quantity.declared
          ? 'label.weight.limit.typed'
          : `label.weight.limit.${quantity.limit ?? 'lightest-bar'}`,
      ),
    })
  if (quantity?.tolerance !== undefined)
    items.push({
      label: say('label.weight.tolerance'),
      cell: tenths('tolerance', quantity.tolerance),
      note: say('label.weight.beyond', {
        count: show.count('label.weight.beyond', quantity.beyondTolerance),
      }),
    })
  return { kind: 'facts', size: 'plain', items }
}

/** Before bars are weighed there are lines to write on: the bars decide. */
const weighedOf = ({ say, show }: Frame, { net, batch }: BoundLabel): Block => {
  if (net.from === 'weighed') return nothing
  const steps: Step[] = [
    {
      text: say('label.weigh.each', {
        declared: show.weight('label.weigh.declared', net.declared ?? 0, GRAM),
        least: show.weight('label.weigh.least', net.leastReading ?? 0, GRAM),
      }),
      blanks: [{ label: say('label.weigh.lightest'), after: say('blank.grams') }],
    },
    { text: say('label.weigh.type', { batch: batch.key }) },
  ]
  return { kind: 'steps', first: 1, items: steps }
}

const lettersOf = ({ say, show }: Frame, label: BoundLabel, set: SetLabel | undefined): Facts => {
  const { panel, letterHeight, textHeight, grid, measures } = label
  const tenths = (name: string, length: number) => number(show.millimetres(`label.letters.${name}`, length))
  const measured = say(`label.letters.${measures}`)
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('label.letters.face'),
        cell: words(
          say('label.letters.size', {
            width: show.millimetres('label.face.width', panel.width),
            height: show.millimetres('label.face.height', panel.height),
          }),
        ),
        note: say(label.selling.face ? 'label.letters.face-typed' : 'label.letters.face-bar'),
      },
      ...(grid
        ? [
            {
              label: say('label.letters.panel'),
              cell: words(
                say('label.letters.size', {
                  width: show.millimetres('label.width', grid.width),
                  height: show.millimetres('label.height', grid.height),
                }),
              ),
            },
          ]
        : []),
      {
        label: say('label.letters.net-least'),
        cell:
          letterHeight === undefined
            ? words(say('label.letters.unknown'))
            : tenths('net-least', letterHeight),
        note: measured,
      },
      ...(set?.net && letterHeight !== undefined
        ? [
            {
              label: say('label.letters.net-size'),
              cell: tenths('net-size', set.net.typeSize),
              ...(set.net.zone === undefined
                ? {}
                : {
                    note: say('label.letters.zone', {
                      zone: show.millimetres('label.letters.zone', set.net.zone),
                    }),
                  }),
            },
          ]
        : []),
      {
        label: say('label.letters.text-least'),
        cell: tenths('text-least', textHeight),
        note: say('label.letters.text-least-note'),
      },
      ...(set
        ? [{ label: say('label.letters.text-size'), cell: tenths('text-size', set.layout.text / 1000) }]
        : []),
    ],
  }
}

const codeOf = ({ say, show }: Frame, { code }: BoundLabel): Block => {
  if (!code)
    return {
      kind: 'facts',
      size: 'plain',
      items: [
        {
          label: say('label.code.code'),
          cell: words(say('label.code.none')),
          note: say('label.code.none-note'),
        },
      ],
    }
  const [day = '', key = '', check = ''] = code.code.split('-')
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      { label: say('label.code.code'), cell: maker(code.code), note: say('label.code.letters') },
      {
        label: say('label.code.day'),
        cell: maker(day),
        note: say('label.code.day-is', { date: show.date('batch.date', code.date) }),
      },
      { label: say('label.code.key'), cell: maker(key), note: say('label.code.key-is') },
      { label: say('label.code.check'), cell: maker(check), note: say('label.code.check-is') },
    ],
  }
}

const printingOf = ({ say, show }: Frame, label: BoundLabel, page: Sheet | undefined): Block => {
  const { grid, net, batch } = label
  if (!grid) return { kind: 'steps', first: 1, items: [{ text: say('label.how.no-grid') }] }
  if (!page) return { kind: 'steps', first: 1, items: [{ text: say('label.how.held') }] }
  if (page.stopped) return { kind: 'steps', first: 1, items: [{ text: say('label.how.none') }] }
  const each = grid.columns * grid.rows
  const bars = net.from === 'weighed' ? (net.ofBars ?? net.bars) : batch.fill.bars
  const across = grid.columns * grid.width + (grid.columns - 1) * (grid['gap-across'] ?? 0)
  const down = grid.rows * grid.height + (grid.rows - 1) * (grid['gap-down'] ?? 0)
  const steps: Inline[] = [
    say('label.how.print', { page: linkTo(page) }),
    say('label.how.measure', {
      across: show.millimetres('label.grid.across', across),
      down: show.millimetres('label.grid.down', down),
    }),
    say('label.how.cut'),
    say('label.how.many', {
      each: show.count('label.each', each),
      bars: show.count('label.bars', bars),
      times: show.count('label.times', Math.ceil(bars / each)),
    }),
    // what is printed before the bars are weighed is a trial, and ends in the bin
    ...(net.from === 'weighed'
      ? [
          say('label.how.spoiled'),
          say('label.how.until', { date: show.date('label.how.lastSale', net.lastSale) }),
        ]
      : []),
  ]
  return { kind: 'steps', first: 1, items: steps.map((text) => ({ text })) }
}
