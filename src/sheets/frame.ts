/** What all sheets of one binder share: its words, its shop, its date, its way of writing numbers. */
import { type MadeWith, NOTHING_KNOWN } from '../made-with/made-with.ts'
import type { Catalogue } from '../text/catalogue.ts'
import type { Draft, Say } from './compose.ts'
import { sayer } from './compose.ts'
import { composingOnce } from './known-sheets.ts'
import type { Inline, Source, Value } from './model.ts'
import { READINGS, type ReadingKind } from './reading.ts'
import type { Show } from './shown.ts'

/** One language: its words, and how it writes numbers. */
export interface Spoken {
  readonly language: string
  /** as its speakers call it */
  readonly name: string
  readonly say: Say
  readonly show: Show
}

export const spokenIn = (catalogue: Catalogue, show: Show): Spoken => ({
  language: catalogue.language,
  name: catalogue.locale.name,
  say: sayer(catalogue),
  show,
})

export interface Frame {
  readonly language: string
  /** made once for the same input in this process: for sheets that take long to draw */
  readonly once: <Made>(input: unknown, make: () => Made) => Made
  readonly say: Say
  /** the catalogue's Markdown template of a kind of sheet */
  readonly template: (name: string) => string
  readonly show: Show
  /** of what stands on a label: its readers are others than those of the binder */
  readonly onLabel: Spoken
  readonly shopName: string
  /** what a reader is told of a scale or a vessel, by the key that the shop's file has for it */
  readonly scaleName: (key: string) => string
  readonly vesselName: (key: string) => string
  /** between the margins of a page [mm] */
  readonly room: { readonly width: number; readonly height: number }
  readonly issued: Value
  readonly sources: ReadonlyMap<string, Source>
  readonly madeWith: MadeWith
  /** the parts that every sheet has */
  readonly sheet: (
    kind: ReadingKind,
    id: string,
    section: Inline,
    sheetNumber: string,
    title: Inline,
  ) => Pick<
    Draft,
    'id' | 'kind' | 'number' | 'section' | 'title' | 'issued' | 'revision' | 'orientation' | 'reading'
  >
}

/** Scales and vessels by their keys; one without a name is shown by its key. */
export interface Tools {
  readonly scales: Readonly<Record<string, Named>>
  readonly vessels: Readonly<Record<string, Named>>
}

interface Named {
  readonly name?: string | undefined
}

/**
 * @param issued the edition's date, which every sheet carries
 * @param tools  of the shop; without them all go by their keys
 */
export const frameOf = (
  catalogue: Catalogue,
  show: Show,
  shopName: string,
  room: Frame['room'],
  issued: string,
  sources: ReadonlyMap<string, Source>,
  onLabel = spokenIn(catalogue, show),
  { scales, vessels }: Tools = { scales: {}, vessels: {} },
  madeWith: MadeWith = NOTHING_KNOWN,
): Frame => {
  const say = sayer(catalogue)
  const date = show.date('edition', issued)
  const names = (tools: Tools['scales']): ReadonlyMap<string, string> =>
    new Map(Object.entries(tools).map(([key, { name }]) => [key, name ?? key]))
  const scaleNames = names(scales)
  const vesselNames = names(vessels)
  return {
    once: composingOnce(catalogue, [show.way, shopName, room, issued, sources, scaleNames, vesselNames]),
    language: catalogue.language,
    say,
    template: catalogue.template,
    show,
    onLabel,
    shopName,
    scaleName: (key) => scaleNames.get(key) ?? key,
    vesselName: (key) => vesselNames.get(key) ?? key,
    room,
    issued: date,
    sources,
    madeWith,
    sheet: (kind, id, section, sheetNumber, title) => ({
      id,
      kind,
      number: sheetNumber,
      section,
      title,
      issued: date,
      // in the place of a revision, until one is worked out of what the whole sheet shows
      revision: say('printed.made-new'),
      orientation: 'portrait',
      reading: readingOf(show, kind),
    }),
  }
}

/** What a sheet says of its reading distance. */
export const readingOf = (show: Show, kind: ReadingKind): Draft['reading'] => ({
  kind,
  at: show.distance('reading.distance', READINGS[kind].distance),
})
