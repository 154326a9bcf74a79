import { describe, expect, test } from 'vitest'
import {
  checkVessel,
  meltingTime,
  potShares,
  type VesselMaterial,
  type VesselUse,
} from '../../src/batch/pots.ts'

const C = 273.15
const PAIL: VesselUse = {
  vessel: { name: 'pail', material: 'polypropylene', brimVolume: 0.01, ratedTemperature: C + 95 },
  duty: 'lye',
  contents: 0.0045,
  peakTemperature: C + 75,
  trayVolume: 0.005,
}
const codes = (use: VesselUse): string[] => checkVessel(use).findings.map((finding) => finding.code)
const pailOf = (change: Partial<VesselUse['vessel']>): VesselUse => ({
  ...PAIL,
  vessel: { ...PAIL.vessel, ...change },
})

describe('by hand: vessels', () => {
  test('a ten-litre pail takes five litres of lye over a tray of 110 %', () => {
    const check = checkVessel(PAIL)
    expect(check.findings).toEqual([])
    expect(check.workingVolume).toBe(0.005)
    expect(check.trayNeeded).toBeCloseTo(0.00495, 12)
    expect(check.fullness).toBeCloseTo(0.45, 12)
    expect(codes({ ...PAIL, contents: 0.005, trayVolume: 0.0055 })).toEqual([])
    expect(codes({ ...PAIL, contents: 0.0051, trayVolume: 0.006 })).toEqual(['vessel-too-full'])
    expect(codes({ ...PAIL, trayVolume: 0.0049 })).toEqual(['tray-too-small'])
    const { trayVolume: _, ...without } = PAIL
    expect(codes(without)).toEqual(['tray-missing'])
  })

  test('hottest: the shop at 80 °C, an unmarked pail at 60, HDPE at 60 whatever is marked', () => {
    expect(checkVessel(PAIL).temperatureAllowed).toBe(C + 80)
    expect(codes({ ...PAIL, peakTemperature: C + 80 })).toEqual([])
    expect(codes({ ...PAIL, peakTemperature: C + 81 })).toEqual(['over-shop-temperature'])
    // marked 95 °C, in a shop that allows it
    expect(codes({ ...PAIL, shopLimit: C + 95, peakTemperature: C + 95 })).toEqual([])
    expect(codes({ ...PAIL, shopLimit: C + 95, peakTemperature: C + 95.1 })).toEqual(['vessel-too-hot'])
    expect(codes({ ...PAIL, peakTemperature: C + 104 })).toEqual(['vessel-too-hot'])
    const { ratedTemperature: _, ...unmarked } = PAIL.vessel
    expect(checkVessel({ ...PAIL, vessel: unmarked }).temperatureAllowed).toBe(C + 60)
    expect(codes({ ...PAIL, vessel: unmarked })).toEqual(['vessel-too-hot'])
    expect(checkVessel(pailOf({ material: 'hdpe' })).temperatureAllowed).toBe(C + 60)
    expect(
      checkVessel({ ...pailOf({ ratedTemperature: C + 300 }), shopLimit: C + 150 }).temperatureAllowed,
    ).toBe(C + 100)
  })

  test.each([
    'aluminium',
    'zinc',
    'galvanised-steel',
    'tin',
    'brass',
    'glass',
    'pet',
    'wood',
  ] as VesselMaterial[])('%s never holds lye or batter', (material) => {
    for (const duty of ['lye', 'batter', 'jug'] as const) {
      const check = checkVessel({ ...pailOf({ material }), duty, peakTemperature: C + 20 })
      expect(check.findings.map((finding) => [finding.code, finding.severity])).toContainEqual([
        'vessel-material-not-allowed',
        'stop',
      ])
      expect(check.temperatureAllowed).toBeUndefined()
    }
    expect(codes({ ...pailOf({ material }), duty: 'oil' })).toEqual([])
  })

  test('unknown material, tight lid, brim', () => {
    expect(codes(pailOf({ material: 'other' }))).toEqual(['vessel-material-unknown'])
    expect(codes(pailOf({ sealed: true }))).toEqual(['sealed-lid-on-hot-lye'])
    const batter: VesselUse = { ...pailOf({}), duty: 'batter', contents: 0.008, peakTemperature: C + 45 }
    expect(checkVessel(batter).findings).toMatchObject([{ code: 'vessel-too-full', severity: 'hold' }])
    expect(checkVessel({ ...batter, contents: 0.0101 }).findings).toMatchObject([{ severity: 'stop' }])
    expect(codes({ ...PAIL, duty: 'oil', peakTemperature: C + 96 })).toEqual(['vessel-too-hot'])
  })

  test('17 litres in pots of 9 litres: two of 8.5', () => {
    const shares = potShares({ volume: 0.017, workingVolume: 0.009, potsAtHand: 2 })
    expect(shares.pots).toEqual([
      { number: 1, volume: 0.0085, share: 0.5 },
      { number: 2, volume: 0.0085, share: 0.5 },
    ])
    expect(shares.findings[0]).toMatchObject({ code: 'several-pots', severity: 'warn' })
    expect(potShares({ volume: 0.018, workingVolume: 0.009, potsAtHand: 1 }).findings[0]?.code).toBe(
      'too-few-pots',
    )
    expect(potShares({ volume: 0.009, workingVolume: 0.009, potsAtHand: 1 })).toMatchObject({ findings: [] })
    expect(potShares({ volume: 0.009, workingVolume: 0, potsAtHand: 3 }).pots).toEqual([])
  })

  test('5 kg of solid fat from 20 to 60 °C on 1 kW at 60 %', () => {
    // ∫ 20..60: 1984.2·40 + 1.4733·(3600 − 400)/2 − 0.0048008·(216000 − 8000)/3
    //   = 79368 + 2357.28 − 332.86 = 81392.4 J/kg; with 110 kJ/kg: 5 · 191392.4 = 956962 J; / 600 W = 1594.9 s
    const result = meltingTime({
      fats: [{ name: 'coconut', mass: 5, temperature: C + 20, heatOfMelting: 110e3, solidShare: 1 }],
      target: C + 60,
      power: 1000,
      efficiency: 0.6,
    })
    expect(result.heat).toBeCloseTo(956962, 0)
    expect(result.time).toBeCloseTo(1594.9, 1)
  })

  test('a fat that is already hotter takes nothing; twice the fat takes twice the time', () => {
    const fat = { name: 'oil', mass: 1, temperature: C + 70, heatOfMelting: 0, solidShare: 0 }
    expect(meltingTime({ fats: [fat], target: C + 60, power: 1000, efficiency: 1 }).heat).toBe(0)
    const cold = { ...fat, temperature: C + 20 }
    const once = meltingTime({ fats: [cold], target: C + 60, power: 1000, efficiency: 1 })
    const twice = meltingTime({ fats: [cold, cold], target: C + 60, power: 1000, efficiency: 1 })
    expect(twice.time).toBeCloseTo(2 * once.time, 9)
  })

  test('everything about lye stops', () => {
    const { trayVolume: _, ...without } = PAIL
    for (const use of [
      { ...PAIL, contents: 0.0051, trayVolume: 0.006 },
      { ...PAIL, trayVolume: 0.0049 },
      without,
      { ...PAIL, peakTemperature: C + 81 },
      { ...PAIL, peakTemperature: C + 104 },
      pailOf({ material: 'other' }),
      pailOf({ sealed: true }),
    ]) {
      expect(checkVessel(use).findings.map((finding) => finding.severity)).toEqual(['stop'])
    }
    const hotOil = checkVessel({ ...PAIL, duty: 'oil', peakTemperature: C + 96 })
    expect(hotOil.findings[0]?.severity).toBe('stop')
    expect(potShares({ volume: 0.018, workingVolume: 0.009, potsAtHand: 1 }).findings[0]?.severity).toBe(
      'stop',
    )
  })

  test('fullness of each duty, and the volume that would do', () => {
    const allowed = (duty: VesselUse['duty']) =>
      checkVessel({ ...PAIL, duty, contents: 0.001 }).fullnessAllowed
    expect([allowed('oil'), allowed('lye'), allowed('batter'), allowed('jug')]).toEqual([
      0.85, 0.5, 0.75, 0.8,
    ])
    const full = checkVessel({ ...PAIL, contents: 0.006, trayVolume: 0.01 })
    expect(full.findings[0]?.values.volumeNeeded).toBeCloseTo(0.012, 12)
  })

  test.each(['stainless-304', 'stainless-316', 'polypropylene'] as VesselMaterial[])(
    '%s is believed to 100 °C if it is marked',
    (material) =>
      expect(
        checkVessel({ ...pailOf({ material, ratedTemperature: C + 300 }), shopLimit: C + 300 })
          .temperatureAllowed,
      ).toBe(C + 100),
  )
})

describe('by hand: vessels that are just full, or just as hot as they may be', () => {
  test('batter just to the brim is too full but not over it', () => {
    const batter: VesselUse = { ...PAIL, duty: 'batter', contents: 0.01, peakTemperature: C + 45 }
    expect(checkVessel(batter).findings).toMatchObject([{ code: 'vessel-too-full', severity: 'hold' }])
    expect(codes({ ...batter, contents: 0.0075 })).toEqual([])
    expect(codes({ ...batter, contents: 0.00751 })).toEqual(['vessel-too-full'])
  })

  test('as hot as the vessel bears but more than the shop wants is the shop’s limit', () => {
    expect(codes({ ...PAIL, peakTemperature: C + 95 })).toEqual(['over-shop-temperature'])
    expect(codes({ ...PAIL, peakTemperature: C + 95.01 })).toEqual(['vessel-too-hot'])
  })

  test('hot oil up to what is marked', () => {
    const oil: VesselUse = { ...PAIL, duty: 'oil' }
    expect(codes({ ...oil, peakTemperature: C + 95 })).toEqual([])
    expect(codes({ ...oil, peakTemperature: C + 95.01 })).toEqual(['vessel-too-hot'])
    const { ratedTemperature: _, ...unmarked } = PAIL.vessel
    expect(codes({ ...oil, vessel: unmarked, peakTemperature: C + 100 })).toEqual([])
    expect(codes({ ...oil, vessel: unmarked, peakTemperature: C + 100.01 })).toEqual(['vessel-too-hot'])
    expect(codes({ ...oil, vessel: { ...unmarked, material: 'wood' }, peakTemperature: C + 300 })).toEqual([])
  })

  test('shares that are sums fill a vessel just to its mark whatever their last bit is', () => {
    for (const [duty, share] of [
      ['oil', 0.85],
      ['lye', 0.5],
      ['batter', 0.75],
      ['jug', 0.8],
    ] as const)
      for (let litres = 1; litres <= 30; litres += 1) {
        const vessel = { ...PAIL.vessel, brimVolume: litres / 1000 }
        const contents = (litres * share) / 1000
        expect(codes({ ...PAIL, vessel, duty, contents, trayVolume: (1.1 * litres * share) / 1000 })).toEqual(
          [],
        )
      }
  })

  test('batter that just fills its pots takes no pot more', () => {
    for (let pots = 1; pots <= 9; pots += 1) {
      const shares = potShares({ volume: (pots * 0.9) / 100, workingVolume: 0.009, potsAtHand: pots })
      expect(shares.pots).toHaveLength(pots)
      expect(shares.findings.map(({ severity }) => severity)).toEqual(pots === 1 ? [] : ['warn'])
    }
    expect(potShares({ volume: 0, workingVolume: 0.009, potsAtHand: 1 }).pots).toEqual([
      { number: 1, volume: 0, share: 1 },
    ])
  })
})
