/** How hot the middle of a block gets: heat of reaction and conduction, step by step in plain cubes, from the pour for a day, or as long as it gets warmer. */
import type { Judged } from './judge.ts'
import { shownNumber, typed } from './read.ts'
import { MOLAR } from './works.ts'

interface Block {
  /** m */
  readonly length: number
  readonly width: number
  readonly height: number
  /** kg/m3 */
  readonly density: number
  /** J/kg of batter, and how fast at 40 °C [1/s] */
  readonly heat: number
  readonly rate: number
  /** °C */
  readonly pour: number
  readonly room: number
  /** m2 K/W of what covers each face */
  readonly walls: number
  readonly lid: number
  readonly base: number
}

/** As the sheets have it: J/(kg K), W/(m K), J/mol, share that has reacted at trace. */
const SOAP = { warmth: 2550, conducts: 0.3, energy: 55e3, started: 0.03 } as const
const CELLS = { x: 5, y: 5, z: 10 } as const
const STEP = 60 // s, a fraction of what the cubes allow
const DAY = 24 * 3600
const LONGEST = 5 * DAY

/** Highest temperature of the middle [°C]. */
export const hottest = (block: Block): number => {
  const { x: nx, y: ny, z: nz } = CELLS
  const [dx, dy, dz] = [block.length / 2 / nx, block.width / 2 / ny, block.height / nz]
  const stores = block.density * SOAP.warmth
  const inner = (d: number): number => (STEP * SOAP.conducts) / (stores * d * d)
  const outer = (d: number, cover: number): number => STEP / (stores * d * (d / 2 / SOAP.conducts + cover))
  const [kx, ky, kz] = [inner(dx), inner(dy), inner(dz)]
  const [ex, ey, top, bottom] = [
    outer(dx, block.walls),
    outer(dy, block.walls),
    outer(dz, block.lid),
    outer(dz, block.base),
  ]
  const at = (i: number, j: number, k: number): number => i + nx * (j + ny * k)
  let now = new Float64Array(nx * ny * nz).fill(block.pour)
  let next = new Float64Array(now.length)
  const reacted = new Float64Array(now.length)
  const rise = (block.heat * (1 - SOAP.started)) / SOAP.warmth
  let most = block.pour
  let [before, isWarmer] = [block.pour, true]
  for (let time = 0; time < (isWarmer ? LONGEST : DAY); time += STEP) {
    for (let k = 0; k < nz; k += 1)
      for (let j = 0; j < ny; j += 1)
        for (let i = 0; i < nx; i += 1) {
          const here = at(i, j, k)
          const t = now[here] ?? 0
          const towards = (there: number, share: number): number => share * ((now[there] ?? 0) - t)
          let change = 0
          if (i > 0) change += towards(here - 1, kx)
          change += i < nx - 1 ? towards(here + 1, kx) : ex * (block.room - t)
          if (j > 0) change += towards(here - nx, ky)
          change += j < ny - 1 ? towards(here + nx, ky) : ey * (block.room - t)
          change += k > 0 ? towards(here - nx * ny, kz) : bottom * (block.room - t)
          change += k < nz - 1 ? towards(here + nx * ny, kz) : top * (block.room - t)
          const x = reacted[here] ?? 0
          const speed = block.rate * Math.exp((SOAP.energy / 8.314462618) * (1 / 313.15 - 1 / (t + 273.15)))
          const more = Math.min(1 - x, STEP * speed * (SOAP.started + x) * (1 - x))
          reacted[here] = x + more
          next[here] = t + change + more * rise
        }
    ;[now, next] = [next, now]
    // the middle lies on two planes of symmetry: a parabola through the first two cells of each
    const layer = (k: number): number => {
      const t = now[at(0, 0, k)] ?? 0
      return t + (t - (now[at(1, 0, k)] ?? 0)) / 8 + (t - (now[at(0, 1, k)] ?? 0)) / 8
    }
    const middle = (9 * (layer(nz / 2) + layer(nz / 2 - 1)) - layer(nz / 2 + 1) - layer(nz / 2 - 2)) / 16
    most = Math.max(most, middle)
    // one that was poured colder than its room comes to it in days
    isWarmer = middle > before
    before = middle
  }
  return most
}

/** °C, above which batter rises and cracks */
const TOO_HOT = 85
/** °C: by the middle of what is known no block that is poured comes to it */
const BOILING = 100

/** K; nobody knows the block better, and the sheet shows whole degrees */
const SLACK = 1.5
/** What heights and volumes are shown to [m, m3]. */
const HEIGHT_STEP = 0.001
const VOLUME_STEP = 1e-4

/** @param isTold whether the sheet has somebody tick that it may get too hot */
export const judgeBlock = (
  { folder: { shop, materials, fixture }, recipe, batch, shown }: Judged,
  isTold: boolean,
): string[] => {
  const read = (name: string): number => shownNumber(shown.get(name) ?? '')
  const or0 = (name: string): number => (shown.has(name) ? read(name) : 0)
  const stock = batch.lye?.stock === undefined ? undefined : materials['stock-lyes'][batch.lye.stock]
  const keys: string[] = stock
    ? [batch.lye.stock]
    : recipe.alkalis
      ? Object.keys(recipe.alkalis)
      : [recipe.alkali]
  const moles = keys.reduce((sum, key) => {
    const entry = stock ?? materials.alkalis[key]
    const kind = entry.kind as 'NaOH' | 'KOH'
    return (
      sum +
      (or0(`${kind.toLowerCase()}.mass`) * typed(stock ? entry.strength : entry.purity) * 1000) / MOLAR[kind]
    )
  }, 0)
  const mass = read('batter.mass')
  const volume = read('batter.volume')
  const board = typed(materials.panels[fixture.panels.side].thickness) / 0.135
  const foam = shop.block?.insulation === undefined ? 0 : typed(shop.block.insulation) / 0.0315
  /** @param more of what is shown rounded: litres, and metres of the height */
  const at = (perMole: number, rate: number, more = { volume: 0, height: 0 }): number =>
    hottest({
      length: typed(fixture.bar['along-length']) * fixture.grid.columns,
      width: typed(fixture.bar['along-width']) * fixture.grid.rows,
      height: read('fill.pourHeight') + more.height,
      density: mass / (volume + more.volume),
      heat: (moles / mass) * perMole,
      rate,
      pour: typed(recipe['pour-temperature']) - 273.15,
      room: typed(shop.room['usual-temperature']) - 273.15,
      walls: 1 / 7.5 + board + foam,
      lid: 1 / 7.5 + 0.15 + board + foam,
      base: 1 / 5 + board,
    })
  const faults: string[] = []
  /** @returns the least that it comes to by any digits that are shown like these [°C] */
  const agreed = (name: string, perMole: number, rate: number): number => {
    const there = read(name) - 273.15
    const here = at(perMole, rate)
    if (Math.abs(here - there) <= SLACK) return here
    // a thin block in a cold room gets warm or does not by a hair
    const open = [-1, 1].map((way) =>
      at(perMole, rate, { volume: (-way * VOLUME_STEP) / 2, height: (way * HEIGHT_STEP) / 2 }),
    )
    const least = Math.min(here, ...open)
    if (there < least - SLACK || there > Math.max(here, ...open) + SLACK)
      faults.push(`${name}: ${here.toFixed(1)} °C here, ${there} °C on the sheet`)
    return least
  }
  const usual = agreed('block.peak', 60e3, 1.8e-4)
  const most = agreed('block.peak.high', 80e3, 3.6e-4)
  if (usual > BOILING + SLACK) faults.push(`the block comes to ${usual.toFixed(1)} °C: it boils`)
  if (most > TOO_HOT + SLACK && !isTold)
    faults.push(`the block may come to ${most.toFixed(1)} °C, and nobody is told`)
  return faults
}
