/** Router files read by another library than wrote them, and put together to the solid that they would cut. */
import { parseString, type ReadEntity } from 'dxf'
import loadLibrary, { type Manifold, type ManifoldToplevel } from 'manifold-3d'

/** What one file says, by what its layers are called alone. */
export interface ReadFile {
  readonly layers: readonly string[]
  readonly units: number | undefined
  readonly entities: readonly ReadEntity[]
  /** drawn from the far face: some layer says so */
  readonly isFar: boolean
}

export const readDxf = (text: string): ReadFile => {
  const { header, tables, entities } = parseString(text)
  return {
    layers: Object.keys(tables.layers),
    units: header.insUnits,
    entities,
    isFar: Object.keys(tables.layers).some((name) => name.includes('_LOWER_')),
  }
}

/** mm; the number before MM at the end of a layer's name */
export const depthOf = (layer: string): number => {
  const text = /_(\d+(?:P\d+)?)MM$/.exec(layer)?.[1]
  if (text === undefined) throw new Error(`The layer ${layer} names no depth.`)
  return Number(text.replace('P', '.'))
}

export const isCut = (layer: string): boolean => !layer.endsWith('_NO_CUT') && depthOf(layer) > 0

/** Area inside a closed chain, above 0 when it runs against the clock [mm2]. */
export const areaOf = ({ vertices = [] }: ReadEntity): number =>
  vertices.reduce((sum, { x, y }, index) => {
    const next = vertices[(index + 1) % vertices.length] ?? { x, y }
    return sum + (x * next.y - next.x * y) / 2
  }, 0)

export const outlinesOf = ({ entities }: ReadFile): readonly ReadEntity[] =>
  entities.filter(({ layer }) => layer.startsWith('OUTLINE_') || layer.startsWith('DONE_OUTLINE'))

export const loadCutter = async (): Promise<ManifoldToplevel> => {
  const library = await loadLibrary()
  library.setup()
  return library
}

/** Cuts reach this far past a face, so that no skin is left [mm]. */
const OVER = 1

/** What is left when the files of a part are cut, in part coordinates [mm]. */
export const cutSolid = ({ Manifold }: ManifoldToplevel, files: readonly ReadFile[]): Manifold => {
  const first = files[0]
  if (!first) throw new Error('No file.')
  const outline = first.entities.filter(({ layer }) => layer.startsWith('OUTLINE_'))
  const thickness = depthOf(outline[0]?.layer ?? '')
  const length = Math.max(...outline.flatMap(({ vertices = [] }) => vertices.map(({ x }) => x)))
  const prism = (entity: ReadEntity, isFar: boolean, from: number, to: number): Manifold => {
    const over = (x: number): number => (isFar ? length - x : x)
    if (entity.type === 'CIRCLE')
      return Manifold.cylinder(to - from, entity.r ?? 0, -1, 48).translate([
        over(entity.x ?? 0),
        entity.y ?? 0,
        from,
      ])
    if (!entity.closed) throw new Error(`A chain on ${entity.layer} is open.`)
    const points = (entity.vertices ?? []).map(({ x, y }): [number, number] => [over(x), y])
    return Manifold.extrude([isFar ? points.reverse() : points], to - from).translate([0, 0, from])
  }
  const wood = Manifold.union(outline.map((entity) => prism(entity, first.isFar, 0, thickness)))
  const cuts = files.flatMap(({ entities, isFar }) =>
    entities
      .filter(({ layer }) => isCut(layer) && !layer.startsWith('OUTLINE_'))
      .map((entity) => {
        const depth = depthOf(entity.layer)
        if (entity.layer.startsWith('HOLE_')) return prism(entity, isFar, -OVER, thickness + OVER)
        const [from, to] = isFar ? [-OVER, depth] : [thickness - depth, thickness + OVER]
        return prism(entity, isFar, from, to)
      }),
  )
  return cuts.length === 0 ? wood : wood.subtract(Manifold.union(cuts))
}
