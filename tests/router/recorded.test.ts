/**
 * Recorded on 27 November 2026: what a router cuts of boards as each of their numbers became another, so that nobody changes
 * unseen what a machine is told. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import type { Feature, Part } from '../../src/geometry/part.ts'
import {
  cuttersFor,
  edgesOf,
  MOST_SLENDER,
  type RouterFile,
  type RouterPoint,
  type RouterShape,
  routerFiles,
} from '../../src/router/router-file.ts'
import { plainBoard } from '../geometry/plain-board.ts'
import { expectRecorded } from '../recorded.ts'
import { expectChangesRecorded, once } from '../recorded-changes.ts'

const board = (features: readonly Feature[], length = 0.2, width = 0.1): Part => ({
  ...plainBoard,
  length,
  width,
  features,
})
const notch = (at: number, size: number, depth: number, edge: 'near' | 'far'): Feature => ({
  kind: 'notch',
  name: 'notch',
  at,
  size,
  depth,
  edge,
})
const hole = (u: number, v: number, more: object = {}): Feature => ({
  kind: 'hole',
  name: 'h',
  u,
  v,
  diameter: 0.005,
  ...more,
})

const point = ({ x, y }: RouterPoint): string => `${x},${y}`
const shape = (one: RouterShape): string =>
  one.kind === 'circle'
    ? `${point(one.centre)} r${one.radius}`
    : one.kind === 'line'
      ? `${point(one.from)} to ${point(one.to)}`
      : one.points.map(point).join(' ')
const told = (files: readonly RouterFile[]) =>
  files.map(({ layers, ...file }) => [
    Object.values(file).join(' '),
    ...layers.map(
      ({ shapes, name, work, depth, opening, step }) =>
        `${name} ${work} ${depth} ${opening} ${step}: ${shapes.map(shape).join('; ')}`,
    ),
  ])

describe('recorded: files', () => {
  test('as sizes change', () => {
    const features: readonly Feature[] = [
      { kind: 'dado', name: 'd', face: 'upper', runs: 'width', at: 0.03, size: 0.018, depth: 0.006 },
      { kind: 'groove', name: 'g', face: 'lower', runs: 'length', at: 0.06, size: 0.004, depth: 0.005 },
      { kind: 'rebate', name: 'r', face: 'upper', runs: 'length', at: 0.09, size: 0.01, depth: 0.009 },
      hole(0.05, 0.02),
      hole(0.15, 0.02, { counterbore: { diameter: 0.012, depth: 0.0025, face: 'lower' } }),
      hole(0.1, 0.075, { counterbore: { diameter: 0.02, depth: 0.003, face: 'upper' } }),
      notch(0.12, 0.006, 0.03, 'near'),
      notch(0.18, 0.02, 0.02, 'far'),
      { kind: 'scribe', name: 's', at: 0.05 },
      { kind: 'fold', name: 'f', at: 0.08 },
    ]
    const all = once((part: Part) => told(routerFiles(part, 'named')))
    const at = (layer: number) => (part: Part) => all(part).map((file) => file[layer])
    expectChangesRecorded(
      { name: 'router-files', test: import.meta.url },
      board(features),
      Object.fromEntries(Array.from({ length: 12 }, (_, layer) => [`layer ${layer}`, at(layer)])),
      [0.6, 1.2],
      new Set(['count', 'density']),
    )
  })

  test('faces and cutters', () => {
    const faces = [
      [],
      [hole(0.1, 0.05)],
      [hole(0.1, 0.05, { counterbore: { diameter: 0.012, depth: 0.003, face: 'lower' } })],
      [notch(0, 0.01, 0.02, 'near'), notch(0.05, 0.01, 0.1, 'far')],
    ] as const
    const sizes = [1, 2, 3, 4, 6, 8, 12]
    const cutters = [undefined, 0.5, 3, 3.0000005, 5, 20].flatMap((opening) =>
      [0, 3.9, 4, 4.1, 12, 20, 60].map((depth) => [
        opening ?? 'open',
        depth,
        cuttersFor({ opening, depth }, sizes),
      ]),
    )
    expectRecorded(
      { MOST_SLENDER, files: faces.map((own) => told(routerFiles(board(own)))), cutters },
      'faces-and-cutters',
      import.meta.url,
    )
  })

  test('outlines of all ways that four cuts meet in the middle', () => {
    // three columns of a board, each cut in from near, from far, from both up to the middle, from both beyond it, or not at all
    const cuts = (column: number, how: number): readonly Feature[] => {
      const at = 0.05 * (column + 1)
      const near = notch(at, 0.05, how === 3 ? 0.04 : 0.05, 'near')
      const far = notch(at, 0.05, how === 3 ? 0.03 : 0.05, 'far')
      return how === 0 ? [] : how === 1 ? [near] : how === 2 ? [far] : [near, far]
    }
    const outlines = Array.from({ length: 64 }, (_, all) => {
      const ways = [all % 4, Math.floor(all / 4) % 4, Math.floor(all / 16)]
      const part = board(
        ways.flatMap((how, column) => cuts(column, how)),
        0.25,
      )
      return `${ways.join(' ')}: ${edgesOf(part)
        .map((chain) => chain.map(({ x, y }) => `${Math.round(x * 1000)},${Math.round(y * 1000)}`).join(' '))
        .join(' / ')}`
    })
    expectRecorded(outlines, 'outlines', import.meta.url)
  })
})
