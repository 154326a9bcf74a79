/** The demo's router files read by Debian's ezdxf: written by other people than either library of this project. */
import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import type { RouterPart } from '../../src/binder/bind-router-files.ts'
import { dxfText } from '../../src/dxf/dxf-text.ts'
import { isChannel, isHole, isNotch } from '../../src/geometry/part.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { demo } from '../sites/edited-demo.ts'

interface Read {
  readonly version: string
  readonly units: number
  readonly errors: readonly string[]
  readonly fixes: readonly string[]
  readonly layers: readonly string[]
  readonly closed: boolean
  /** mm2 */
  readonly area: number
  /** layer, and area [mm2] */
  readonly pockets: readonly (readonly [string, number])[]
  /** x, y, diameter [mm] */
  readonly holes: readonly (readonly [number, number, number])[]
  readonly circles: number
  readonly high: number
}

const base = mkdtempSync(join(tmpdir(), 'soak-router-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

/** Debian's own Python: another one on the path does not see Debian's packages. */
const PYTHON = '/usr/bin/python3'
const SCRIPT = fileURLToPath(new URL('read-router-files.py', import.meta.url))

/** @throws Error when the reader is not there or ends with a fault */
const readAll = (paths: readonly string[]): Readonly<Record<string, Read>> => {
  const { error, status, stdout, stderr } = spawnSync(PYTHON, [SCRIPT, ...paths], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  })
  if (error || stderr.includes('ModuleNotFoundError'))
    throw new Error("ezdxf is not on this machine: install Debian's python3-ezdxf.")
  if (status !== 0) throw new Error(`${PYTHON}: ${status}, ${stderr}${stdout}`)
  return JSON.parse(stdout) as Record<string, Read>
}

const MM = 1000
const rows = (all: readonly (readonly number[])[]) =>
  all.map((row) => row.map((one) => one.toFixed(5)).join(' ')).sort()

let parts: readonly { readonly routed: RouterPart; readonly read: readonly Read[] }[] = []
beforeAll(async () => {
  const { content } = loadContent((await readFolder(demo, 'demo', FILE_KINDS)).files, 'demo')
  if (!content) throw new Error('The demo has mistakes.')
  const routed = bind(content).binder.routerSets.flatMap(({ key, groups }) =>
    groups.flatMap((group) =>
      group.parts.map((part) => ({
        routed: part,
        paths: part.files.map((file) => {
          const path = join(base, key, `${file.name}.dxf`)
          mkdirSync(dirname(path), { recursive: true })
          writeFileSync(path, dxfText(file, ['A note – with a dash']))
          return path
        }),
      })),
    ),
  )
  const read = readAll(routed.flatMap(({ paths }) => paths))
  parts = routed.map((one) => ({ routed: one.routed, read: one.paths.map((path) => read[path] as Read) }))
})

describe('by hand: router files, read by ezdxf of Debian', () => {
  it('are sound: nothing wrong, nothing to mend, millimetres, all chains closed, all flat', () => {
    expect(parts.length).toBeGreaterThan(30)
    for (const { routed, read } of parts)
      for (const { errors, fixes, units, closed, high, version } of read) {
        expect(errors, routed.part.key).toEqual([])
        expect(fixes, routed.part.key).toEqual([])
        expect([units, closed, high, version]).toEqual([4, true, 0, 'AC1021'])
      }
  })

  it('enclose the panel less its notches', () => {
    for (const { routed, read } of parts) {
      const { length, width, features } = routed.part
      const notches = features.filter(isNotch).reduce((sum, { size, depth }) => sum + size * depth, 0)
      for (const { area } of read)
        expect(area / MM ** 2, routed.part.key).toBeCloseTo(length * width - notches, 9)
    }
  })

  it('have the holes of the part, each in its place', () => {
    for (const { routed, read } of parts) {
      const { part, files } = routed
      const isFar = files[0]?.face === 'lower'
      const wanted = part.features
        .filter(isHole)
        .map(({ u, v, diameter }) => [(isFar ? part.length - u : u) * MM, v * MM, diameter * MM])
      const found = read.flatMap(({ holes }) => holes)
      expect(found.length, part.key).toBe(wanted.length)
      for (const [index, row] of rows(found).entries()) {
        const [x = 0, y = 0, d = 0] = row.split(' ').map(Number)
        const [wx = 0, wy = 0, wd = 0] = (rows(wanted)[index] ?? '').split(' ').map(Number)
        expect(Math.max(Math.abs(x - wx), Math.abs(y - wy), Math.abs(d - wd)), part.key).toBeLessThan(2e-5)
      }
    }
  })

  it('have the channels of the part, right across it', () => {
    for (const { routed, read } of parts) {
      const { part } = routed
      const wanted = part.features
        .filter(isChannel)
        .map(({ runs, at, size }) => {
          const across = Math.min(at + size, runs === 'width' ? part.length : part.width) - at
          return across * (runs === 'width' ? part.width : part.length) * MM ** 2
        })
        .sort((a, b) => a - b)
      const found = read.flatMap(({ pockets }) => pockets.map(([, area]) => area)).sort((a, b) => a - b)
      expect(found.length, part.key).toBe(wanted.length)
      for (const [index, area] of found.entries()) expect(area, part.key).toBeCloseTo(wanted[index] ?? 0, 2)
    }
  })
})
