/** How warm the fats are made, so that with lye and cold liquid the pot is right; what melts, and how long that takes. */
import { HEAT_OF_MELTING } from '../batch/fat-heat.ts'
import { heatHardFatsTo, type Melting, mixTemperature, type Stream } from '../batch/mixing.ts'
import { meltingTime } from '../batch/pots.ts'
import { seedingTemperature } from '../batch/seeding.ts'
import { MOLAR_MASS } from '../chemistry/atomic-weights.ts'
import { lyeHeatCapacity, waterHeatCapacity } from '../chemistry/lye-heat-capacity.ts'
import type { LyeComposition } from '../chemistry/solution-density.ts'
import type { Finding } from '../findings.ts'
import type { FormulaFat } from './formula.ts'

/** kg, K and W; masses of one kettle. */
export interface HeatRequest {
  readonly fats: readonly { readonly fat: FormulaFat; readonly mass: number }[]
  readonly lye: { readonly mass: number; readonly composition: LyeComposition; readonly temperature: number }
  /** water that goes in at the first trace, as cold as the room */
  readonly later: number
  /** scents and other things that go in then */
  readonly additions: number
  readonly pourTemperature: number
  readonly room: number
  readonly heater?: { readonly power: number; readonly efficiency?: number | undefined } | undefined
}

export interface HeatPlan {
  /** fats that are solid in this room */
  readonly hard: readonly FormulaFat[]
  /** at which nothing of them is solid any more [K]; undefined without hard fats */
  readonly clearAt: number | undefined
  /** of all fats when the lye goes in [K] */
  readonly fats: number
  /** of the lye then [K] */
  readonly lye: number
  /** of the pot when both are together [K] */
  readonly pot: number
  /** below which a hard fat begins to set, and which [K] */
  readonly seeding: { readonly temperature: number; readonly fat: FormulaFat } | undefined
  /** from the room until all is clear [J] */
  readonly heat: number
  /** on the shop's heater, or on one of a kilowatt [s, W] */
  readonly time: number
  readonly power: number
  readonly findings: readonly Finding[]
}

/** K above the end of melting, so that no crystal is left to start others (common practice) */
const CLEAR_MARGIN = 5
/** Share of a heater's power that ends in the fats (estimate: an open hob under a wide kettle) */
const EFFICIENCY = 0.55
/** W, a hob plate of middle size, where the shop does not say (estimate) */
const USUAL_POWER = 1000
/** J/(kg K), scents and powders (estimate) */
const ADDITION_HEAT = 2000
/** J/kg, fatty acids and waxes; handbook values for stearic acid and beeswax lie near it (recalled) */
const HEAT_OF_MELTING_ACID = 190e3

export const planHeat = (request: HeatRequest): HeatPlan => {
  const { lye, room, pourTemperature } = request
  const meltings = meltingsOf(request.fats)
  const hard = request.fats.filter(({ fat }) => isSolidAt(fat, room))
  const clearAt =
    hard.length === 0
      ? undefined
      : Math.max(...hard.map(({ fat }) => fat.entry.melting?.to ?? room)) + CLEAR_MARGIN
  const stream = ({ fat, mass }: HeatRequest['fats'][number], temperature: number): Stream => ({
    name: fat.name,
    mass,
    temperature,
    specificHeat: 'fat',
  })
  const lyeStream: Stream = {
    name: 'lye',
    mass: lye.mass,
    temperature: lye.temperature,
    specificHeat: lyeHeatCapacity(lye.composition, lye.temperature),
  }
  const cold: Stream[] = [
    { name: 'later', mass: request.later, temperature: room, specificHeat: waterHeatCapacity(room) },
    { name: 'additions', mass: request.additions, temperature: room, specificHeat: ADDITION_HEAT },
  ].filter(({ mass }) => mass > 0)
  const all = request.fats.map((one) => stream(one, room))
  const warm = heatHardFatsTo({
    hardFats: [all[0] as Stream, ...all.slice(1)],
    others: [lyeStream, ...cold],
    wanted: pourTemperature,
  })
  const together = mixTemperature([
    lyeStream,
    ...request.fats.map((one): Stream => {
      const melting = meltings.get(one.fat.key)
      return { ...stream(one, warm.heatTo), ...(melting && { melting: { ...melting, solidShare: 0 } }) }
    }),
  ])
  const seeding = request.fats
    .flatMap(({ fat }) => {
      const temperature = meltings.get(fat.key)?.seedingPoint
      return temperature === undefined ? [] : [{ temperature, fat }]
    })
    .sort((a, b) => b.temperature - a.temperature)[0]
  const power = request.heater?.power ?? USUAL_POWER
  const melt = meltingTime({
    fats: request.fats.map(({ fat, mass }) => ({
      name: fat.name,
      mass,
      temperature: room,
      heatOfMelting: meltings.get(fat.key)?.heat ?? 0,
      solidShare: isSolidAt(fat, room) ? (fat.entry.melting?.['solid-at-room'] ?? 1) : 0,
    })),
    target: Math.max(clearAt ?? 0, warm.heatTo),
    power,
    efficiency: request.heater?.efficiency ?? EFFICIENCY,
  })
  return {
    hard: hard.map(({ fat }) => fat),
    clearAt,
    fats: warm.heatTo,
    lye: lye.temperature,
    pot: together.temperature,
    seeding,
    heat: melt.heat,
    time: melt.time,
    power,
    findings: [...warm.findings, ...together.findings],
  }
}

export const isSolidAt = ({ entry }: FormulaFat, temperature: number): boolean =>
  entry.melting !== undefined && entry.melting.to > temperature

/** Melting of each fat of a blend, with the temperature at which it comes out of the others again. */
const meltingsOf = (fats: HeatRequest['fats']): ReadonlyMap<string, Melting> => {
  const molecules = fats.map(({ fat, mass }) => mass / molarMass(fat))
  const sum = molecules.reduce((total, one) => total + one, 0)
  return new Map(
    fats.flatMap(({ fat }, index): (readonly [string, Melting])[] => {
      const { melting } = fat.entry
      if (!melting) return []
      const heat = heatOfMelting(fat)
      const seedingPoint = seedingTemperature({
        moleShare: (molecules[index] ?? 0) / sum,
        meltingPoint: melting.to,
        heatOfMelting: heat * molarMass(fat),
      })
      return [[fat.key, { point: melting.to, heat, solidShare: 1, seedingPoint }]]
    }),
  )
}

/** Mean molar mass from the saponification value: three acids a molecule in a fat, one elsewhere [kg/mol]. */
const molarMass = ({ entry, value }: FormulaFat): number =>
  ((entry.kind === 'triglyceride' ? 3 : 1) * MOLAR_MASS.KOH) / value.nominal

const heatOfMelting = ({ key, entry }: FormulaFat): number => {
  if (entry.kind !== 'triglyceride') return HEAT_OF_MELTING_ACID
  const known = HEAT_OF_MELTING as Readonly<Record<string, { readonly nominal: number }>>
  return (Object.hasOwn(known, key) ? known[key] : HEAT_OF_MELTING.other)?.nominal ?? 0
}
