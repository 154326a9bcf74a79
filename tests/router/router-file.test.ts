import { describe, expect, it } from 'vitest'
import type { Channel, Feature, Part } from '../../src/geometry/part.ts'
import { cuttersFor, edgesOf, type RouterFile, routerFiles } from '../../src/router/router-file.ts'
import { plainBoard } from '../geometry/plain-board.ts'

/** A board of 200 by 100 by 18 mm. */
const board = (...features: Feature[]): Part => ({
  ...plainBoard,
  features,
})

const dado = (face: 'upper' | 'lower', more: Partial<Channel> = {}): Feature => ({
  kind: 'dado',
  name: 'dado',
  face,
  runs: 'width',
  at: 0.03,
  size: 0.0183,
  depth: 0.00635,
  ...more,
})
const hole = (u: number, v: number, face?: 'upper' | 'lower'): Feature => ({
  kind: 'hole',
  name: `hole-${u}-${v}`,
  u,
  v,
  diameter: 0.005,
  ...(face ? { counterbore: { diameter: 0.012, depth: 0.0025, face } } : {}),
})
const notch = (at: number, size: number, depth: number, edge: 'near' | 'far'): Feature => ({
  kind: 'notch',
  name: 'notch',
  at,
  size,
  depth,
  edge,
})

const named = (file: RouterFile | undefined): string[] => (file?.layers ?? []).map(({ name }) => name)
const shapes = (file: RouterFile | undefined, layer: string) =>
  file?.layers.find(({ name }) => name === layer)?.shapes

describe('by hand: files of a part', () => {
  it('has its outline alone where there is nothing else to cut', () => {
    const [file, second] = routerFiles(board())
    expect(second).toBeUndefined()
    expect(file).toMatchObject({ name: 'board', face: 'upper', setUp: 1, setUps: 1, length: 200, width: 100 })
    expect(named(file)).toEqual(['OUTLINE_THROUGH_18MM'])
    expect(shapes(file, 'OUTLINE_THROUGH_18MM')).toEqual([
      {
        kind: 'closed',
        points: [
          { x: 0, y: 0 },
          { x: 200, y: 0 },
          { x: 200, y: 100 },
          { x: 0, y: 100 },
        ],
      },
    ])
  })

  it('names work, face, diameter and depth, in the order of cutting', () => {
    const [file] = routerFiles(board(dado('upper'), hole(0.05, 0.02, 'upper'), hole(0.15, 0.02)))
    expect(named(file)).toEqual([
      'RECESS_UPPER_D12_2P5MM',
      'DADO_UPPER_6P35MM',
      'HOLE_D5_18MM',
      'OUTLINE_THROUGH_18MM',
    ])
    expect(file?.layers.map(({ depth }) => depth)).toEqual([2.5, 6.35, 18, 18])
    expect(shapes(file, 'HOLE_D5_18MM')).toHaveLength(2)
    // 30 to 30 + 18.3, right across
    expect(shapes(file, 'DADO_UPPER_6P35MM')).toEqual([
      {
        kind: 'closed',
        points: [
          { x: 30, y: 0 },
          { x: 48.3, y: 0 },
          { x: 48.3, y: 100 },
          { x: 30, y: 100 },
        ],
      },
    ])
  })

  it('turns a part over like a page where all work is on the far face: x to 200 - x, y stays', () => {
    const [file, second] = routerFiles(board(dado('lower'), hole(0.05, 0.02)))
    expect(second).toBeUndefined()
    expect(file).toMatchObject({ name: 'board', face: 'lower', setUp: 1, setUps: 1 })
    // 200 - 48.3 to 200 - 30, still round with the wood on the left hand
    expect(shapes(file, 'DADO_LOWER_6P35MM')).toEqual([
      {
        kind: 'closed',
        points: [
          { x: 170, y: 100 },
          { x: 151.7, y: 100 },
          { x: 151.7, y: 0 },
          { x: 170, y: 0 },
        ],
      },
    ])
    expect(shapes(file, 'HOLE_D5_18MM')).toEqual([{ kind: 'circle', centre: { x: 150, y: 20 }, radius: 2.5 }])
  })

  it('has two files where both faces are worked, and cuts nothing twice', () => {
    const [first, second] = routerFiles(board(dado('upper'), hole(0.052, 0.02, 'lower')))
    expect(named(first)).toEqual(['DADO_UPPER_6P35MM', 'HOLE_D5_18MM', 'OUTLINE_THROUGH_18MM'])
    expect(second).toMatchObject({ name: 'board-turned', face: 'lower', setUp: 2, setUps: 2 })
    expect(named(second)).toEqual(['RECESS_LOWER_D12_2P5MM', 'DONE_HOLES_NO_CUT', 'DONE_OUTLINE_NO_CUT'])
    expect(shapes(second, 'RECESS_LOWER_D12_2P5MM')).toEqual([
      { kind: 'circle', centre: { x: 148, y: 20 }, radius: 6 },
    ])
  })

  it('leaves a hole on the wall of a channel to the other face, if that is worked too', () => {
    // the dado goes from 30 to 48.3: a hole of 5 at 50 begins at 47.5, one at 40 lies in it, one at 51 beside it
    const holes = [hole(0.05, 0.02), hole(0.04, 0.02), hole(0.051, 0.05)]
    const [first, second] = routerFiles(board(dado('upper'), dado('lower', { at: 0.1 }), ...holes))
    const middles = (file: RouterFile | undefined, layer: string) =>
      (shapes(file, layer) ?? []).map((shape) => shape.kind === 'circle' && shape.centre.x)
    expect(middles(first, 'HOLE_D5_18MM')).toEqual([40, 51])
    expect(middles(second, 'HOLE_D5_18MM')).toEqual([150])
    expect(middles(second, 'DONE_HOLES_NO_CUT')).toEqual([160, 149])
    // no second file, and no better face
    const [alone] = routerFiles(board(dado('upper'), ...holes))
    expect(middles(alone, 'HOLE_D5_18MM')).toHaveLength(3)
    const both = routerFiles(board(dado('upper'), dado('lower'), ...holes))
    expect(middles(both[0], 'HOLE_D5_18MM')).toHaveLength(3)
  })

  it('knows a hole on any wall of a channel, whichever way it runs', () => {
    const turned = (...holes: Feature[]) =>
      (
        shapes(
          routerFiles(
            board(
              dado('upper', { runs: 'length', at: 0.03, size: 0.02 }),
              dado('lower', { at: 0.17 }),
              ...holes,
            ),
          )[1],
          'HOLE_D5_18MM',
        ) ?? []
      ).map((shape) => shape.kind === 'circle' && [200 - shape.centre.x, shape.centre.y])
    // the dado goes from y = 30 to 50, holes of 5 mm reach 2.5 to either side
    expect(
      turned(hole(0.02, 0.027), hole(0.03, 0.028), hole(0.04, 0.032), hole(0.05, 0.033), hole(0.06, 0.04)),
    ).toEqual([
      [30, 28],
      [40, 32],
    ])
    expect(turned(hole(0.02, 0.047), hole(0.03, 0.048), hole(0.04, 0.052), hole(0.05, 0.053))).toEqual([
      [30, 48],
      [40, 52],
    ])
  })

  it('draws scribed lines and folds as lines of no depth', () => {
    const [file] = routerFiles(
      board({ kind: 'scribe', name: 'mark', at: 0.04 }, { kind: 'fold', name: 'fold', at: 0.07 }),
    )
    expect(named(file)).toEqual(['SCRIBE_UPPER_0MM', 'FOLD_UPPER_0MM', 'OUTLINE_THROUGH_18MM'])
    expect(shapes(file, 'SCRIBE_UPPER_0MM')).toEqual([
      { kind: 'line', from: { x: 0, y: 40 }, to: { x: 200, y: 40 } },
    ])
    expect(shapes(file, 'FOLD_UPPER_0MM')).toEqual([
      { kind: 'line', from: { x: 70, y: 0 }, to: { x: 70, y: 100 } },
    ])
  })

  it('leaves bevels to the hand', () => {
    const [file] = routerFiles(board({ kind: 'chamfer', name: 'bevel', edges: 'short', size: 0.002 }))
    expect(named(file)).toEqual(['OUTLINE_THROUGH_18MM'])
  })

  it('rounds away what floating sums leave over', () => {
    // 0.1 + 0.2 = 0.30000000000000004
    const [file] = routerFiles({ ...board(hole((0.1 + 0.2) / 2, 0.02)), length: 0.1 + 0.2 })
    expect(JSON.stringify(file)).not.toMatch(/\d\.\d{7,}/)
    expect(file?.length).toBe(300)
  })
})

describe('by hand: outlines', () => {
  const corners = (...features: Feature[]) =>
    edgesOf(board(...features)).map((chain) =>
      chain.map(({ x, y }) => `${Math.round(x * 1e3)},${Math.round(y * 1e3)}`).join(' '),
    )

  it('goes down into a slot from the far edge and up again', () => {
    expect(corners(notch(0.05, 0.01, 0.04, 'far'))).toEqual([
      '0,0 200,0 200,100 60,100 60,60 50,60 50,100 0,100',
    ])
  })

  it('takes a corner off where a notch is at the end', () => {
    expect(corners(notch(0, 0.02, 0.03, 'near'))).toEqual(['0,30 20,30 20,0 200,0 200,100 0,100'])
  })

  it('makes two pieces of a board that is cut through', () => {
    expect(corners(dado('upper', { depth: 0.018 }))).toHaveLength(2)
  })

  it('keeps two pieces apart that meet at a corner alone', () => {
    // near left and far right quarters are away: what is left meets at 100, 50
    const found = corners(notch(0, 0.1, 0.05, 'near'), notch(0.1, 0.1, 0.05, 'far'))
    expect(found.map((chain) => chain.split(' ').sort()).sort()).toEqual([
      ['0,100', '0,50', '100,100', '100,50'],
      ['100,0', '100,50', '200,0', '200,50'],
    ])
  })
})

describe('by hand: pieces that meet at a corner', () => {
  const corners = (...features: Feature[]) =>
    edgesOf(board(...features)).map((chain) =>
      chain
        .map(({ x, y }) => `${Math.round(x * 1e3)},${Math.round(y * 1e3)}`)
        .sort()
        .join(' '),
    )

  it('stay apart whichever corner it is, and wherever on the board', () => {
    // the other two quarters: what is left meets at 100, 50 again
    expect(corners(notch(0, 0.1, 0.05, 'far'), notch(0.1, 0.1, 0.05, 'near')).sort()).toEqual([
      '0,0 0,50 100,0 100,50',
      '100,100 100,50 200,100 200,50',
    ])
    // stairs of three pieces that meet at 60, 60 and 140, 30
    expect(
      corners(
        notch(0, 0.06, 0.06, 'near'),
        notch(0.06, 0.08, 0.03, 'near'),
        notch(0.06, 0.08, 0.04, 'far'),
        notch(0.14, 0.06, 0.07, 'far'),
      ).sort(),
    ).toEqual(['0,100 0,60 60,100 60,60', '140,0 140,30 200,0 200,30', '140,30 140,60 60,30 60,60'])
  })
})

describe('by hand: cutters', () => {
  const sizes = [3.175, 4.7625, 6.35, 12.7]
  const range = (opening: number | undefined, depth: number) => cuttersFor({ opening, depth }, sizes)

  it('takes the thickest that goes in', () => {
    expect(range(6.4, 1).most).toBe(6.35)
    expect(range(6.35, 1).most).toBe(6.35)
    expect(range(6.3, 1).most).toBe(4.7625)
    expect(range(undefined, 1).most).toBe(12.7)
    expect(range(3, 1).most).toBeUndefined()
  })

  it('takes none that is thinner than a quarter of the depth', () => {
    // 17.8 / 4 = 4.45; 12.7 / 4 = 3.175; 50.8 / 4 = 12.7
    expect(range(undefined, 17.8).least).toBe(4.7625)
    expect(range(undefined, 12.7).least).toBe(3.175)
    expect(range(undefined, 50.8).least).toBe(12.7)
    expect(range(undefined, 51).least).toBeUndefined()
  })

  it('finds none for a hole of 4.4 mm through 17.8 mm: 3.175 goes in, 4.45 would bear it', () => {
    const { least = 0, most = 0 } = range(4.4, 17.8)
    expect(least).toBeGreaterThan(most)
  })

  it('looks at each layer by itself: channels, holes, recesses and slots, not at open steps', () => {
    const opening = (file: RouterFile | undefined) =>
      Object.fromEntries((file?.layers ?? []).map((layer) => [layer.work, layer.opening]))
    const part = board(
      dado('upper'),
      dado('upper', { size: 0.002, kind: 'rebate', at: 0 }),
      dado('lower', { size: 0.004, depth: 0.008, kind: 'groove' }),
      hole(0.06, 0.02, 'upper'),
      notch(0.15, 0.003, 0.04, 'far'),
      notch(0.1, 0.009, 0.04, 'far'),
      // taken off a corner: open
      notch(0, 0.001, 0.04, 'far'),
    )
    const [first, second] = routerFiles(part)
    expect(opening(first)).toEqual({
      recess: 12,
      hole: 5,
      dado: 18.3,
      rebate: undefined,
      outline: 3,
    })
    expect(opening(second).groove).toBe(4)
    expect(second?.layers.at(-1)?.opening).toBeUndefined()
  })

  it('has no slot where a notch reaches an end, and one that begins right behind it', () => {
    // 200 mm long
    const opening = (...notches: Feature[]) => routerFiles(board(...notches))[0]?.layers.at(-1)?.opening
    expect(opening(notch(0, 0.006, 0.04, 'near'))).toBeUndefined()
    expect(opening(notch(0.194, 0.006, 0.04, 'near'))).toBeUndefined()
    expect(opening(notch(0.19, 0.04, 0.04, 'near'))).toBeUndefined()
    expect(opening(notch(0.001, 0.006, 0.04, 'near'))).toBe(6)
    expect(opening(notch(0.193, 0.006, 0.04, 'near'))).toBe(6)
  })

  it('lists what is cut first first, however the part was drawn', () => {
    const [file] = routerFiles(
      board(
        dado('upper', { kind: 'rebate', at: 0 }),
        dado('upper', { kind: 'groove', at: 0.06, size: 0.004 }),
        dado('upper'),
        hole(0.05, 0.02),
      ),
    )
    expect(file?.layers.map(({ work }) => work)).toEqual(['dado', 'groove', 'rebate', 'hole', 'outline'])
    // one of 18.3 mm, open at a side
    expect(file?.layers.find(({ work }) => work === 'rebate')?.step).toBe(18.3)
  })

  it('takes the name that it is given, on both files', () => {
    const both = routerFiles(board(dado('upper'), dado('lower')), 'bench-board')
    expect(both.map(({ name }) => name)).toEqual(['bench-board', 'bench-board-turned'])
  })
})
