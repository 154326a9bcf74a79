/** Every part of several binders: what is written for a router, read back by another library, is the part's own solid. */

import { fileURLToPath } from 'node:url'
import type { ReadEntity } from 'dxf'
import type { ManifoldToplevel } from 'manifold-3d'
import { beforeAll, describe, expect, it } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import type { RouterPart, RouterSet } from '../../src/binder/bind-router-files.ts'
import { dxfText } from '../../src/dxf/dxf-text.ts'
import { isChamfer, isChannel, isHole, isNotch, type Part } from '../../src/geometry/part.ts'
import { handOf, identityPlacement } from '../../src/geometry/placement.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { loadSolids, type Solids } from '../../src/solids/solids.ts'
import { demo, editedDemo, STATES } from '../sites/edited-demo.ts'
import {
  areaOf,
  cutSolid,
  depthOf,
  isCut,
  loadCutter,
  outlinesOf,
  type ReadFile,
  readDxf,
} from './read-solid.ts'

const setsOf = async (folder: string): Promise<readonly RouterSet[]> => {
  const { files } = await readFolder(folder, 'shop', FILE_KINDS)
  const { content } = loadContent(files, 'shop')
  if (!content) throw new Error(`${folder} has mistakes.`)
  return bind(content).binder.routerSets
}

const FOLDERS = {
  'the demo': () => setsOf(demo),
  'metric mould': () => setsOf(fileURLToPath(new URL('../binders/metric-mould/', import.meta.url))),
  // what stands beside it is that of the demo
  'a lever press': async () => {
    const { folder, remove } = editedDemo(STATES['metric shop, other paper'])
    try {
      const sets = await setsOf(folder)
      return sets.map((set) => ({
        ...set,
        groups: set.groups.filter(({ kind }) => kind === 'lever-press'),
      }))
    } finally {
      remove()
    }
  },
} as const

type Folder = keyof typeof FOLDERS

interface Written {
  readonly routed: RouterPart
  readonly texts: readonly string[]
  readonly read: readonly ReadFile[]
}

const NOTES = ['Side – make 2', '18 mm, “birch”']
const all = new Map<Folder, readonly Written[]>()
let solids: Solids
let cutter: ManifoldToplevel
beforeAll(async () => {
  solids = await loadSolids()
  cutter = await loadCutter()
  for (const name of Object.keys(FOLDERS) as Folder[]) {
    const sets = await FOLDERS[name]()
    all.set(
      name,
      sets
        .flatMap(({ groups }) => groups.flatMap(({ parts }) => parts))
        .map((routed) => {
          const texts = routed.files.map((file) => dxfText(file, NOTES))
          return { routed, texts, read: texts.map(readDxf) }
        }),
    )
  }
}, 60_000)

const MM = 1000

/** The solid that proofs use, but for bevels, which are made by hand [mm]. */
const proofSolid = (part: Part) => {
  const { body } = solids.part(
    { ...part, features: part.features.filter((feature) => !isChamfer(feature)) },
    identityPlacement,
  )
  const { numProp, vertProperties, triVerts } = body.getMesh()
  // the other loading of the library has a memory of its own
  return cutter.Manifold.ofMesh(new cutter.Mesh({ numProp, vertProperties, triVerts }))
}

interface Cut {
  readonly entity: ReadEntity
  readonly box: readonly [number, number, number, number]
}

/** Seen from the face that is drawn [mm]: left, right, near, far. */
const boxOf = (entity: ReadEntity, isFar: boolean, length: number): Cut['box'] => {
  const { x = 0, y = 0, r = 0, vertices = [] } = entity
  const xs = entity.type === 'CIRCLE' ? [x - r, x + r] : vertices.map((one) => one.x)
  const ys = entity.type === 'CIRCLE' ? [y - r, y + r] : vertices.map((one) => one.y)
  const ends = isFar ? xs.map((one) => length - one) : xs
  return [Math.min(...ends), Math.max(...ends), Math.min(...ys), Math.max(...ys)]
}

const overlap = (a: Cut['box'], b: Cut['box']): boolean =>
  a[0] < b[1] - 1e-6 && b[0] < a[1] - 1e-6 && a[2] < b[3] - 1e-6 && b[2] < a[3] - 1e-6

/** A hole and the recess round it. */
const isRound = (a: ReadEntity, b: ReadEntity): boolean =>
  a.type === 'CIRCLE' &&
  b.type === 'CIRCLE' &&
  a.layer.startsWith('RECESS_') !== b.layer.startsWith('RECESS_')

/** Radius of the hole in the middle of a recess; files of one face have both. */
const holeIn = (recess: ReadEntity, cuts: readonly Cut[]): number => {
  const { box } = cuts.find(({ entity }) => entity === recess) as Cut
  const middle = (of: Cut['box']) => [(of[0] + of[1]) / 2, (of[2] + of[3]) / 2]
  const hole = cuts.find(
    (one) =>
      one.entity.layer.startsWith('HOLE_') &&
      middle(one.box).every((at, index) => Math.abs(at - (middle(box)[index] ?? 0)) < 1e-5),
  )
  if (!hole) throw new Error('A recess without its hole.')
  return hole.entity.r ?? 0
}

describe.each(Object.keys(FOLDERS) as Folder[])('by hand: router files of %s, read back', (name) => {
  const parts = (): readonly Written[] => all.get(name) as readonly Written[]

  it('are there for every part', () => {
    expect(parts().length).toBeGreaterThan(8)
    const names = parts().flatMap(({ routed }) => routed.files.map((file) => file.name))
    expect(new Set(names).size).toBe(names.length)
  })

  it('cut what the proofs take the part to be: nothing more, nothing less', () => {
    for (const { routed, read } of parts()) {
      const cut = cutSolid(cutter, read)
      const drawn = proofSolid(routed.part)
      const common = drawn.intersect(cut).volume()
      const more = drawn.volume() - common
      const less = cut.volume() - common
      // A layer's name gives its depth to a micrometre: half of one on all that is worked, and solids meet to 1e-4 mm3 or so.
      const worked = 0.0005 * routed.part.length * routed.part.width * MM * MM
      expect(more + less, routed.part.key).toBeLessThan(worked + 0.05)
      expect(drawn.volume(), routed.part.key).toBeGreaterThan(1000)
    }
  })

  it('leave outline x thickness less all that is cut, where no two cuts meet', () => {
    // the solids' rounds have 48 sides inside the circle: 24 sin(pi / 24) / pi of its area
    const round = (radius: number): number => 24 * Math.sin(Math.PI / 24) * radius ** 2
    let looked = 0
    for (const { routed, read } of parts()) {
      const cuts = read.flatMap(({ entities, isFar }) =>
        entities
          .filter(({ layer }) => isCut(layer) && !layer.startsWith('OUTLINE_'))
          .map((entity) => ({ entity, box: boxOf(entity, isFar, routed.part.length * MM) })),
      )
      // a recess lies round its hole: only the ring of it is taken away besides
      const meets = cuts.some((one, i) =>
        cuts.slice(i + 1).some((other) => overlap(one.box, other.box) && !isRound(one.entity, other.entity)),
      )
      if (meets) continue
      looked += 1
      const [first] = read
      const thickness = routed.part.thickness * MM
      const whole = outlinesOf(first as ReadFile).reduce((sum, one) => sum + areaOf(one), 0) * thickness
      const taken = cuts.reduce((sum, { entity }) => {
        const depth = depthOf(entity.layer)
        if (entity.type !== 'CIRCLE') return sum + areaOf(entity) * depth
        const hole = entity.layer.startsWith('RECESS_') ? holeIn(entity, cuts) : 0
        return sum + (round(entity.r ?? 0) - round(hole)) * depth
      }, 0)
      const solid = proofSolid(routed.part).volume()
      expect(Math.abs(whole - taken - solid), routed.part.key).toBeLessThan(1e-5 * solid)
    }
    expect(looked).toBeGreaterThan(5)
  })

  it('have an outline as large as the panel less its notches', () => {
    for (const { routed, read } of parts())
      for (const file of read) {
        const { length, width, features } = routed.part
        const notches = features.filter(isNotch).reduce((sum, { size, depth }) => sum + size * depth, 0)
        const area = outlinesOf(file).reduce((sum, one) => sum + areaOf(one), 0)
        expect(area / MM ** 2, routed.part.key).toBeCloseTo(length * width - notches, 9)
        for (const { closed } of outlinesOf(file)) expect(closed).toBe(true)
        const xs = outlinesOf(file).flatMap(({ vertices = [] }) => vertices.map(({ x }) => x))
        const ys = outlinesOf(file).flatMap(({ vertices = [] }) => vertices.map(({ y }) => y))
        expect([Math.min(...xs), Math.min(...ys)]).toEqual([0, 0])
      }
  })

  it('have every hole once, in its place, of its diameter, named on its layer', () => {
    for (const { routed, read } of parts()) {
      const { part } = routed
      const found = read.flatMap(({ entities, isFar }) =>
        entities
          .filter(({ layer }) => layer.startsWith('HOLE_'))
          .map(({ x = 0, y = 0, r = 0, layer }) => ({
            u: isFar ? part.length * MM - x : x,
            v: y,
            diameter: 2 * r,
            layer,
          })),
      )
      const holes = part.features.filter(isHole)
      expect(found.length, part.key).toBe(holes.length)
      for (const { u, v, diameter } of holes) {
        const same = found.filter(
          (one) =>
            Math.hypot(one.u - u * MM, one.v - v * MM) < 2e-6 &&
            Math.abs(one.diameter - diameter * MM) < 3e-6,
        )
        expect(same.length, `${part.key} ${u} ${v}`).toBe(1)
        expect(same[0]?.layer).toContain(`_D${String(Number((diameter * MM).toFixed(3))).replace('.', 'P')}_`)
      }
    }
  })

  it('have every channel and every recess on the face and at the depth that it has', () => {
    for (const { routed, read } of parts()) {
      const wanted = routed.part.features.flatMap((feature) => {
        if (isChannel(feature)) return [`${feature.kind} ${feature.face} ${(feature.depth * MM).toFixed(2)}`]
        const step = isHole(feature) ? feature.counterbore : undefined
        return step ? [`recess ${step.face} ${(step.depth * MM).toFixed(2)}`] : []
      })
      const found = read.flatMap(({ entities }) =>
        entities.flatMap(({ layer }) => {
          const [, kind, face] = /^(DADO|GROOVE|REBATE|RECESS)_(UPPER|LOWER)_/.exec(layer) ?? []
          return kind && face
            ? [`${kind.toLowerCase()} ${face.toLowerCase()} ${depthOf(layer).toFixed(2)}`]
            : []
        }),
      )
      expect(found.sort(), routed.part.key).toEqual(wanted.sort())
    }
  })

  it('have nothing for one face on a file of the other', () => {
    for (const { read } of parts())
      for (const { layers } of read) {
        const faces = new Set(layers.flatMap((layer) => /_(UPPER|LOWER)_/.exec(layer)?.[1] ?? []))
        expect(faces.size).toBeLessThan(2)
      }
  })

  it('serve all copies: none is a mirror image', () => {
    for (const { routed } of parts())
      for (const placement of routed.part.placements) expect(handOf(placement), routed.part.key).toBe(1)
  })

  it('can be read by old programs: ASCII, short names, plain numbers, millimetres', () => {
    for (const { texts, read } of parts()) {
      for (const text of texts) {
        expect(text).toMatch(/^[\n -~]*$/)
        // no number in powers of ten, none with noise behind the sixth place
        expect(text).not.toMatch(/^-?\d*\.?\d+e[-+]?\d+$/m)
        expect(text).not.toMatch(/^-?\d+\.\d{7,}$/m)
      }
      for (const { layers, units } of read) {
        expect(units).toBe(4)
        for (const layer of layers) expect(layer).toMatch(/^[A-Z0-9_-]{1,31}$/)
      }
    }
  })

  it('come out the same when they are written again', () => {
    for (const { routed, texts } of parts())
      expect(routed.files.map((file) => dxfText(file, NOTES))).toEqual(texts)
  })
})
