/** Runs the calculators on what the files say. */

import type { Placed } from '../../../src/schema/placed.ts'
import { type BatchFigures, batchFigures } from './calculate.ts'
import type { BalmContent } from './load.ts'
import type { BalmBatch, Material } from './schema.ts'

export interface BoundPart {
  readonly key: string
  readonly material: Material
  readonly share: number
  /** kg, to the division of its scale */
  readonly mass: number
  readonly scale: string
  readonly division: number
}

export interface BoundBalm {
  readonly key: string
  readonly file: Placed<BalmBatch>
  /** of the recipe, and of the tin */
  readonly title: string
  readonly tin: string
  readonly figures: BatchFigures
  readonly parts: readonly BoundPart[]
  /** keys of all sources of its figures */
  readonly sources: readonly string[]
}

export interface BalmBinder {
  readonly content: BalmContent
  /** in the order of their days */
  readonly batches: readonly BoundBalm[]
}

export const bindBalm = (content: BalmContent): BalmBinder => ({
  content,
  batches: [...content.batches.values()]
    .sort((one, other) => (one.value.date + one.key < other.value.date + other.key ? -1 : 1))
    .map((file) => bindBatch(content, file)),
})

const bindBatch = (content: BalmContent, file: Placed<BalmBatch>): BoundBalm => {
  const { room, heating, scales, vessels } = content.shop.value
  const { tins, vessel, loss } = file.value
  const recipe = got(content.recipes, file.value.recipe).value
  const tin = got(content.tins, file.value.tin).value
  const jug = vessels[vessel]
  if (!jug) throw new Error(`No vessel "${vessel}" was bound.`)
  const parts = Object.entries(recipe.parts).map(([key, share]) => ({
    key,
    share,
    material: got(content.materials, key).value,
  }))
  const figures = batchFigures({
    parts,
    tins,
    tinVolume: tin.volume * tin['full-to'],
    loss,
    jug: { key: vessel, volume: jug.volume, fullTo: jug['full-to'] },
    scales: Object.entries(scales).map(([key, scale]) => ({ key, ...scale })),
    cup: content.shop.value.cup,
    room: room['usual-temperature'],
    hottest: heating.hottest,
    meltAbove: heating['melt-above'],
    pourAbove: heating['pour-above'],
  })
  return {
    key: file.key,
    file,
    title: recipe.title,
    tin: tin.title,
    figures,
    parts: figures.parts.flatMap(({ key, mass, scale }) =>
      parts
        .filter((part) => part.key === key)
        .map(({ material, share }) => ({
          key,
          material,
          share,
          mass,
          scale: scale.key,
          division: scale.division,
        })),
    ),
    sources: parts.flatMap(({ material: { density, melting, 'flash-point': flash } }) =>
      [density, melting, flash].flatMap((figure) => (figure ? [figure.source] : [])),
    ),
  }
}

/** Names were looked up before. */
const got = <T>(map: ReadonlyMap<string, T>, key: string): T => {
  const found = map.get(key)
  if (found === undefined) throw new Error(`No "${key}" was bound.`)
  return found
}
