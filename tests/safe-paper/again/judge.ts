/**
 * One batch, judged by what stands on its sheet and in the maker's files, and by nothing that the program reckoned.
 *
 * Weights, temperatures, volumes and heights are read back from the sheet as they are shown; ranges, vessels, limits and the
 * room from the files. What the rules are is what the sheets say of them: see `RULES`.
 */
import { allAtOnce, lyeVolume, type Pail, portionPeaks, thinnedPeak } from './lye.ts'
import { shownNumber, typed } from './read.ts'
import { type Amount, plannedSuperfat, superfatAt, type Weighings, worstSuperfat } from './superfat.ts'
import {
  ACIDS,
  fatHeat,
  fattyAcid,
  GLYCERYL,
  lyeCapacity,
  lyeDensity,
  MOLAR,
  saturated,
  waterDensity,
} from './works.ts'

/** biome-ignore lint/suspicious/noExplicitAny: files of a maker, read as plain data */
export type Plain = any

export interface Folder {
  readonly shop: Plain
  readonly materials: Plain
  readonly fixture: Plain
}

export interface Judged {
  readonly folder: Folder
  readonly recipe: Plain
  readonly batch: Plain
  /** what the sheet shows, by the name of the value */
  readonly shown: ReadonlyMap<string, string>
  /** scale and number of weighings of each thing, by its key: how it is weighed, not how much */
  readonly weighed: ReadonlyMap<string, { readonly scale: string; readonly draws: number }>
  readonly state: 'go' | 'hold' | 'stop'
  /** of which the program takes the ends of the interval */
  readonly draws?: number
}

export interface Verdict {
  /** rules that it breaks */
  readonly unsafe: readonly string[]
  /** numbers that the sheet shows otherwise than they come out here */
  readonly differs: readonly string[]
}

/** What sheets and cautions say must hold. */
export const RULES = {
  fill: { lye: 0.5, batter: 0.75, oil: 0.85, jug: 0.8 },
  tray: 1.1,
  /** °C with lye */
  materials: { polypropylene: 100, hdpe: 60, 'stainless-304': 100, 'stainless-316': 100 } as Readonly<
    Record<string, number>
  >,
  leastPurity: { NaOH: 0.9, KOH: 0.8 },
  mostByHand: 10,
  strong: 0.45,
  iceOfStrong: 0.25,
  hottestFats: 80,
  hottestBatter: 80,
} as const

const KELVIN = 273.15
const percent = (share: number): string => `${(100 * share).toFixed(3)} %`

export const judge = ({ folder, recipe, batch, shown, weighed, state, draws = 100_000 }: Judged): Verdict => {
  const unsafe: string[] = []
  const differs: string[] = []
  const { shop, materials, fixture } = folder
  const has = (name: string): boolean => shown.has(name)
  const read = (name: string): number => {
    const text = shown.get(name)
    if (text === undefined) throw new Error(`The sheet does not show ${name}`)
    return shownNumber(text)
  }
  const or0 = (name: string): number => (has(name) ? read(name) : 0)
  const degrees = (name: string): number => read(name) - KELVIN
  const near = (name: string, here: number, there: number, slack: number): void => {
    if (!(Math.abs(here - there) <= slack)) differs.push(`${name}: ${here} here, ${there} on the sheet`)
  }
  const must = (isKept: boolean, rule: string): void => {
    if (!isKept) unsafe.push(rule)
  }
  const usual = (value: unknown, otherwise: number): number =>
    value === undefined ? otherwise : typed(value)
  const celsius = (value: unknown): number => typed(value) - KELVIN
  const room = celsius(shop.room['usual-temperature'])
  const scaleOf = (name: string): Plain => shop.scales[name]

  // What is weighed
  const fats = Object.entries<string>(recipe.fats).map(([key, share]) => {
    const entry = materials.fats[key]
    const certificate = materials.certificates?.[key]
    return {
      key,
      share: typed(share),
      mass: read(`fat.${key}.mass`),
      entry,
      ...saponification(entry, certificate),
    }
  })
  const oils = fats.reduce((sum, { mass }) => sum + mass, 0)
  const alkaliKeys = recipe.alkalis ? Object.keys(recipe.alkalis) : [recipe.alkali]
  const stock = batch.lye?.stock === undefined ? undefined : materials['stock-lyes'][batch.lye.stock]
  const alkalis = (stock ? [batch.lye.stock] : alkaliKeys).map((key: string) => {
    const entry = stock ?? materials.alkalis[key]
    const kind = entry.kind as 'NaOH' | 'KOH'
    const planned = typed(stock ? entry.strength : entry.purity)
    const range = stock ? entry['strength-range'] : entry['purity-range']
    const [under, over] = stock ? [0.01, 0.01] : kind === 'NaOH' ? [0.01, 0.01] : [0.02, 0.05]
    const low = (range ? typed(range.from) : planned - under) * (1 - (stock ? 0 : usual(entry.damp, 0)))
    const high = range ? typed(range.to) : stock ? planned + over : Math.min(1, planned + over)
    return { key, kind, planned, low, high, mass: or0(`${kind.toLowerCase()}.mass`) }
  })
  // two of a kind are one row: the recipe names one of each
  const later = Object.entries<Plain>(recipe.colours ?? {}).flatMap(([colour, part]) =>
    Object.entries<string>(part.with ?? {}).map(([key]) => ({ key: `${colour}.${key}`, material: key })),
  )
  const additions = [
    ...Object.keys(recipe.additions ?? {}).map((key) => ({ key, material: key })),
    ...later,
  ].map(({ key, material }) => {
    const entry = materials.additives[material] ?? materials.fragrances[material]
    const acid = ACIDS[entry.acid as string]
    return { key, entry, acid, mass: read(`addition.${key}.mass`), strength: usual(entry.strength, 1) }
  })
  const acids = additions.filter(({ acid }) => acid !== undefined)

  const portions: { soda: number; potash: number; salts: number; masses: number[] }[] = []
  for (let n = 1; !stock && (has(`naoh.portion.${n}.mass`) || has(`koh.portion.${n}.mass`)); n += 1) {
    const part = (kind: 'NaOH' | 'KOH') => {
      const alkali = alkalis.find((one) => one.kind === kind)
      const mass = or0(`${kind.toLowerCase()}.portion.${n}.mass`)
      return { mass, pure: mass * (alkali?.planned ?? 1) }
    }
    const [soda, potash] = [part('NaOH'), part('KOH')]
    portions.push({
      soda: soda.pure,
      potash: potash.pure,
      salts: soda.mass + potash.mass - soda.pure - potash.pure,
      masses: [soda.mass, potash.mass],
    })
  }

  // Superfat
  const amount = (key: string, mass: number, low: number, high: number, planned: number): Amount => {
    const { scale = '', draws = 1 } = weighed.get(key) ?? {}
    return { mass, low, high, planned, scale, draws }
  }
  const weighings: Weighings = {
    fats: fats.map(({ key, mass, low, high, planned }) =>
      amount(
        `fat.${key}`,
        mass,
        (1000 * low) / MOLAR.KOH,
        (1000 * high) / MOLAR.KOH,
        (1000 * planned) / MOLAR.KOH,
      ),
    ),
    acids: acids.map(({ key, mass, strength, acid }) => {
      const moles = ((acid?.groups ?? 0) * strength * 1000) / (acid?.molar ?? 1)
      return amount(`addition.${key}`, mass, moles, moles, moles)
    }),
    alkalis: alkalis.map(({ key, kind, mass, low, high, planned }) => {
      const one = amount(
        key,
        mass,
        (1000 * low) / MOLAR[kind],
        (1000 * high) / MOLAR[kind],
        (1000 * planned) / MOLAR[kind],
      )
      return { ...one, draws: Math.max(one.draws, portions.length) }
    }),
    scales: Object.fromEntries(
      Object.entries<Plain>(shop.scales).map(([key, scale]) => [
        key,
        {
          division: typed(scale.division),
          repeatability: usual(scale.repeatability, typed(scale.division) / 2),
          span: usual(scale['span-error'], 0.001),
        },
      ]),
    ),
  }
  const superfat = plannedSuperfat(weighings)
  const worst = worstSuperfat(weighings)
  const low = Math.max(worst.low, superfatAt(weighings, 0.025, worst))
  const high = Math.min(worst.high, superfatAt(weighings, 0.975, worst))
  // the standard error of such a quantile of a normal spread is √(0.025 · 0.975 / n) / 0.0584 deviations (the normal
  // density there), and 3.92 deviations lie between both; of a hundred thousand batches some are four off, none six
  const noise = (((6 * Math.sqrt(0.025 * 0.975)) / 0.0584) * (high - low)) / 3.92 / Math.sqrt(draws)
  const floor = typed(shop.limits['least-superfat'])
  // fats of a blend are shown to a step of the scale each
  const ofBlend =
    batch.premix === undefined
      ? 0
      : (2 * Math.max(...fats.map(({ key }) => stepOf(scaleOf(weighed.get(`fat.${key}`)?.scale ?? ''))))) /
        oils
  must(
    superfat >= floor - 1e-6 - ofBlend,
    `superfat ${percent(superfat)} under the floor of ${percent(floor)}`,
  )
  must(low >= -noise - ofBlend, `in one of forty batches the superfat is below ${percent(low)}`)
  if (state === 'go')
    must(worst.low >= -1e-6 - ofBlend, `at worst the superfat is ${percent(worst.low)}, and nothing holds it`)
  for (const [name, here] of [
    ['superfat.nominal', superfat],
    ['superfat.low', low],
    ['superfat.worstCase', worst.low],
  ] as const)
    if (has(name)) near(name, here, read(name), 0.0005 + noise + ofBlend)
  if (has('superfat.high') && state !== 'stop')
    near('superfat.high', high, read('superfat.high'), 0.0005 + noise + ofBlend)
  // what the recipe asks for, but for half a step of the scale in each weighing
  const roundings = [...weighings.fats, ...weighings.acids, ...weighings.alkalis].reduce((sum, one) => {
    const step = stepOf(scaleOf(one.scale)) * Math.max(1, has('kettles') ? read('kettles') : 1)
    return sum + (step / 2) * one.planned
  }, 0)
  const demand = weighings.fats.reduce((sum, { mass, planned }) => sum + mass * planned, 0)
  near('superfat of the recipe', superfat, typed(recipe.superfat), 1e-4 + (1.1 * roundings) / demand)
  must(typed(recipe.superfat) >= 0, 'a superfat below nought was asked for')
  for (const { key, planned, low: least, high: most, entry } of fats) {
    const published = entry['saponification-value']
    must(planned > 0 && planned <= 0.557, `${key} cannot have such a saponification value`)
    must(
      planned >= (published.from / 1000) * 0.97 && planned <= (published.to / 1000) * 1.03,
      `the certificate of ${key} is of another fat`,
    )
    must(least <= planned && planned <= most, `${key} is reckoned outside of its own range`)
  }

  // Alkali
  const wanted = alkaliKeys.map((key: string) => materials.alkalis[key].kind)
  if (stock)
    must(
      wanted.every((kind: string) => kind === stock.kind),
      'the stock lye is of another alkali',
    )
  else
    for (const { key, kind, planned } of alkalis)
      must(planned >= RULES.leastPurity[kind], `${key} is no such alkali`)
  const alkali = alkalis.reduce((sum, { mass }) => sum + mass, 0)
  const sodaPure = alkalis.reduce(
    (sum, { kind, mass, planned }) => sum + (kind === 'NaOH' ? mass * planned : 0),
    0,
  )
  const potashPure = alkalis.reduce(
    (sum, { kind, mass, planned }) => sum + (kind === 'KOH' ? mass * planned : 0),
    0,
  )
  const salts = stock ? 0 : alkali - sodaPure - potashPure
  const [water, ice, kept] = [read('water.mass'), or0('ice.mass'), or0('later.mass')]
  // solvent and crystal water of the acids that wait in the pail
  const acidWater = acids.reduce(
    (sum, { mass, strength, acid }) =>
      sum +
      mass * (1 - strength) +
      (mass * strength * (acid?.waters ?? 0) * MOLAR.water) / (acid?.molar ?? 1),
    0,
  )
  const acidMass = acids.reduce((sum, { mass }) => sum + mass, 0)
  const stockWater = stock ? alkali - sodaPure - potashPure : 0
  if (!stock) {
    must(alkali <= RULES.mostByHand + 1e-9, 'more alkali than is stirred in by hand')
    if (portions.length > 0)
      for (const [index, kind] of (['naoh', 'koh'] as const).entries())
        near(
          `${kind} in portions`,
          portions.reduce((sum, { masses }) => sum + (masses[index] ?? 0), 0),
          or0(`${kind}.mass`),
          1e-9,
        )
  }

  // Lye
  const acidGroups = acids.reduce(
    (sum, { mass, strength, acid }) =>
      sum + ((acid?.groups ?? 0) * mass * strength * 1000) / (acid?.molar ?? 1),
    0,
  )
  const pail: Pail = {
    soda: sodaPure,
    potash: potashPure,
    salts,
    water: water + acidWater + stockWater,
    ice,
    acids: acidGroups,
    waterAt:
      batch.lye?.['water-temperature'] === undefined
        ? Math.max(0, room)
        : celsius(batch.lye['water-temperature']),
    room,
  }
  const inPail = alkali + water + acidWater + ice
  const vessels = Object.fromEntries(Object.values<Plain>(shop.vessels).map((vessel) => [vessel.use, vessel]))
  const bears = (vessel: Plain): number =>
    Math.min(celsius(vessel.rated), RULES.materials[vessel.material] ?? Number.NEGATIVE_INFINITY)
  const limit = Math.min(bears(vessels.lye), celsius(shop.limits['hottest-lye']))
  const peaks = stock
    ? [thinnedPeak(pail, stockWater)]
    : portionPeaks(pail, portions, celsius(shop.limits['next-portion-below']))
  const shownPeaks = stock
    ? ['lye.thinned.peak']
    : portions.map((_, index) => `lye.portion.${index + 1}.peak`)
  must(peaks.length > 0, 'no portions hold the limit')
  for (const [index, peak] of peaks.entries()) {
    must(peak <= limit + 0.1, `portion ${index + 1} comes to ${peak.toFixed(2)} °C, the limit is ${limit} °C`)
    const name = shownPeaks[index] ?? ''
    if (has(name)) near(name, peak, degrees(name), 0.6)
  }
  if (has('lye.limit') && limit > 0) near('lye.limit', limit, degrees('lye.limit'), 0.51)
  if (has('lye.atOnce.high') && !stock) {
    const here = allAtOnce(pail)
    // above its boiling point a lye gets no hotter
    if (here < 100) near('lye.atOnce.high', here, degrees('lye.atOnce.high'), 0.6)
  }
  must(water > 0 || stock !== undefined, 'no water for the lye')
  const strength = (sodaPure + potashPure) / inPail
  const clear =
    (sodaPure * saturated('NaOH', room) + potashPure * saturated('KOH', room)) / (sodaPure + potashPure)
  must(strength <= clear + 1e-4, `lye of ${percent(strength)} throws crystals in this room`)
  const ofStock = (sodaPure + potashPure) / (sodaPure + potashPure + stockWater)
  if (stock) must(ofStock <= saturated(stock.kind, room) + 1e-9, 'the stock lye throws crystals in this room')
  else {
    const strong = (sodaPure + potashPure) / (sodaPure + potashPure + pail.water + ice)
    must(
      strong < RULES.strong + 1e-4 || ice >= RULES.iceOfStrong * (pail.water + ice) - 1e-4,
      'strong lye without ice',
    )
  }
  if (has('lye.concentration'))
    near(
      'lye.concentration',
      (stock ? sodaPure + potashPure : alkali) / inPail,
      read('lye.concentration'),
      0.0006,
    )

  // Vessels
  // all that is weighed into the pail; what becomes of acids is counted as if it were lye
  const lyeLitres =
    (lyeVolume(inPail, sodaPure, potashPure, Math.max(...peaks, pail.waterAt)) *
      (inPail + acidMass - acidWater)) /
    inPail
  const kettles = has('kettles') ? Number(shown.get('kettles')) : 1
  const pour = celsius(recipe['pour-temperature'])
  const lyeParts = alkali + water + ice + kept
  const composition = [sodaPure / (lyeParts + acidWater), potashPure / (lyeParts + acidWater)] as const
  const batter =
    fats.reduce(
      (sum, { entry, mass, key }) => sum + mass / fatDensity(entry, materials.certificates?.[key], pour),
      0,
    ) +
    lyeParts / lyeDensity(...composition, pour) +
    additions.reduce((sum, { mass, entry }) => sum + mass / usual(entry.density, 1000), 0)
  // a coarse scale makes 200 g of 143: volumes and heights on the sheet are those of the shares, here those of the weights
  const stepped = fats.reduce((sum, { share, mass }) => sum + Math.abs(mass - share * oils), 0) / 890
  const drawsOf = (pattern: RegExp): number[] =>
    [...shown.keys()].filter((name) => pattern.test(name)).map(read)
  const oilDraws = drawsOf(/^fat\..*\.draw\.\d+\.target$/)
  const alkaliDraws = stock
    ? drawsOf(/^(naoh|koh)\.draw\.\d+\.target$/)
    : portions.flatMap(({ masses }) => masses)
  const density = (oils + lyeParts + additions.reduce((sum, { mass }) => sum + mass, 0)) / batter
  const jug = Math.min(3 / density, 0.004, RULES.fill.jug * typed(vessels.pouring.volume))
  const uses: readonly (readonly [string, number, number, number, boolean])[] = [
    ['weighing', Math.max(...oilDraws) / 890, RULES.fill.oil, room, false],
    ['alkali', Math.max(...alkaliDraws) / (stock ? 1500 : 1250), RULES.fill.jug, room, true],
    ['lye', lyeLitres, RULES.fill.lye, Math.max(...peaks, pail.waterAt), true],
    ['mixing', batter / kettles, RULES.fill.batter, pour, true],
    ['pouring', jug, RULES.fill.jug, pour, true],
  ]
  for (const [role, contents, share, peak, isCaustic] of uses) {
    const vessel = vessels[role]
    const brim = typed(vessel.volume)
    // a thousandth for weights that are shown to a step of the scale; a vessel that is just too full is held, one that runs over stops
    const over = contents / brim
    const holds = state !== 'go' && role !== 'lye' && over <= 1
    must(
      over <= share * 1.002 || holds,
      `${role}: ${(contents * 1000).toFixed(3)} L in a vessel of ${(brim * 1000).toFixed(3)} L`,
    )
    if (isCaustic) {
      must(RULES.materials[vessel.material] !== undefined, `${role}: ${vessel.material} and lye`)
      const most = Math.min(bears(vessel), role === 'lye' ? limit : RULES.hottestBatter)
      must(peak <= most + 0.1, `${role}: ${peak.toFixed(1)} °C where ${most} °C is the most`)
    } else must(peak <= celsius(vessel.rated), `${role}: too hot`)
    const name = `vessel.${role}`
    if (has(`${name}.contents`))
      near(
        `${name}.contents`,
        contents,
        read(`${name}.contents`),
        0.000051 + contents * 0.004 + (role === 'mixing' ? stepped / kettles : 0),
      )
    if (has(`${name}.working`)) near(`${name}.working`, share * brim, read(`${name}.working`), 0.000051)
    if (has(`${name}.allowed`) && isCaustic)
      near(
        `${name}.allowed`,
        Math.min(bears(vessel), role === 'lye' ? celsius(shop.limits['hottest-lye']) : RULES.hottestBatter),
        degrees(`${name}.allowed`),
        0.51,
      )
  }
  must(
    vessels.lye.tray !== undefined && typed(vessels.lye.tray) >= RULES.tray * lyeLitres * 0.998,
    'the tub under the pail is too small',
  )
  must(vessels.lye['tight-lid'] !== 'yes' && vessels.lye['tight-lid'] !== true, 'a tight lid on hot lye')
  must(kettles <= (vessels.mixing['how-many'] ?? 1), 'more kettles than there are')
  if (has('batter.volume'))
    near('batter.volume', batter, read('batter.volume'), 0.000051 + batter * 0.004 + stepped)
  must(
    kept <= (water + ice + kept + acidWater + stockWater) * usual(recipe['later-liquid'], 0) * 1.01 + 0.002,
    'more kept back than the recipe says',
  )

  // Weighing
  for (const [name, text] of shown) {
    const match = /^(fat\..*|naoh|koh|water|ice|addition\..*)\.draw\.\d+\.target$/.exec(name)
    if (!match) continue
    const key = (match[1] ?? '').replace(/^naoh$|^koh$/, batch.lye?.stock ?? '')
    const { scale } = weighed.get(key) ?? { scale: undefined }
    if (scale === undefined) continue
    const isAlkali = key === batch.lye?.stock
    const container = vessels[isAlkali ? 'alkali' : 'weighing']
    must(
      shownNumber(text) + typed(container['empty-mass']) <= typed(scaleOf(scale).capacity) + 1e-9,
      `${name} is too heavy for the ${scale} scale`,
    )
  }
  for (const { key, kind, mass } of alkalis) {
    const { scale = '' } = weighed.get(key) ?? {}
    const step = stepOf(scaleOf(scale))
    must(
      mass >= usual(scaleOf(scale)?.['smallest-weighing'], 20 * step) - 1e-9,
      `${kind}: too little for its scale`,
    )
  }

  // Mould
  const fill = shop.fill ?? {}
  const leaves = usual(fill['left-in-kettle'], 0.01)
  const air = usual(fill.air, 0.01)
  const area =
    typed(fixture.bar['along-length']) *
    fixture.grid.columns *
    typed(fixture.bar['along-width']) *
    fixture.grid.rows
  const height = (batter * (1 - leaves) * (1 + air)) / area
  const spread = Math.hypot(
    fill['left-in-kettle'] === undefined ? 0.005 / 0.99 : 0,
    fill.air === undefined ? 0.02 / 1.01 : 0,
  )
  const rise = usual(fill['rises-while-hot'], 0.03)
  if (has('fill.pourHeight')) {
    near('fill.pourHeight', height, read('fill.pourHeight'), 0.00081 + height * 0.005 + stepped / area)
    const rim = read('fill.pourHeight') + read('fill.belowRim')
    must(
      height * (1 + spread) <= rim + 0.0016,
      `poured ${(1000 * height).toFixed(1)} mm high, the rim is at ${(1000 * rim).toFixed(1)} mm`,
    )
    must(height * (1 + spread) * (1 + rise) <= rim + 0.0016, 'it rises over the rim')
    must(read('fill.belowRim') >= -0.001, 'poured over the rim')
  }

  // Fats and kettle
  if (has('heat.fats')) {
    const heatTo = degrees('heat.fats')
    const lyeAt = recipe['lye-temperature'] === undefined ? pour : celsius(recipe['lye-temperature'])
    near('heat.lye', lyeAt, degrees('heat.lye'), 0.51)
    must(heatTo <= RULES.hottestFats + 0.51, `fats at ${heatTo} °C`)
    const lyeWarmth =
      (lyeParts - kept + acidMass) * lyeCapacity(sodaPure / inPail, potashPure / inPail, lyeAt)
    const balance = (t: number): number => oils * fatHeat(heatTo, t) + lyeWarmth * (t - lyeAt)
    let [under, over] = [Math.min(heatTo, lyeAt), Math.max(heatTo, lyeAt)]
    for (let step = 0; step < 30; step += 1) {
      const middle = (under + over) / 2
      if (balance(middle) < 0) under = middle
      else over = middle
    }
    // fats are shown to a whole degree, and are three quarters of the pot
    near('heat.pot', under, degrees('heat.pot'), 1.1)
    const kettle = vessels.mixing
    must(
      under <= bears(kettle) + 1,
      `the pot comes to ${under.toFixed(1)} °C, the kettle bears ${bears(kettle)} °C`,
    )
    const melting = Math.max(heatTo, has('heat.clearAt') ? degrees('heat.clearAt') : heatTo)
    must(
      melting <= celsius(kettle.rated) + 0.6,
      `fats are melted at ${melting} °C, the kettle bears ${celsius(kettle.rated)} °C`,
    )
    const hard = fats.map(({ entry }) =>
      entry.melting && celsius(entry.melting.to) > room
        ? celsius(entry.melting.to) + 5
        : Number.NEGATIVE_INFINITY,
    )
    const clear5 = Math.max(...hard)
    if (clear5 > Number.NEGATIVE_INFINITY) {
      if (has('heat.clearAt')) near('heat.clearAt', clear5, degrees('heat.clearAt'), 0.51)
      else differs.push('hard fats, and no word of melting them')
    }
  }
  return { unsafe, differs }
}

const stepOf = (scale: Plain): number => (scale === undefined ? 0.001 : typed(scale.division))

/** What is known of a lot: certificate before analysis before what is published; kg KOH for 1 kg. */
const saponification = (fat: Plain, certificate: Plain): { planned: number; low: number; high: number } => {
  const published = fat['saponification-value']
  const inert = { from: (fat.unsaponifiable?.from ?? 0) / 1000, to: (fat.unsaponifiable?.to ?? 0) / 1000 }
  const ofAcids = (parts: readonly (readonly [string, number])[]): number => {
    const mass = parts.reduce((sum, [, part]) => sum + part, 0)
    const mean = mass / parts.reduce((sum, [name, part]) => sum + part / fattyAcid(name), 0)
    return fat.kind === 'fatty-acid' ? MOLAR.KOH / mean : (3 * MOLAR.KOH) / (3 * mean + GLYCERYL)
  }
  const value = certificate?.['saponification-value']
  if (value !== undefined) {
    const off = certificate.tolerance ?? 1
    return { planned: value / 1000, low: Math.max(0, value - off) / 1000, high: (value + off) / 1000 }
  }
  const analysis = Object.entries<number>(certificate?.['fatty-acids'] ?? {})
  if (analysis.length > 0 && fat.kind !== 'wax') {
    const whole = ofAcids(analysis)
    const least = whole * (1 - inert.to) * 0.99
    return {
      planned: whole * (1 - (inert.from + inert.to) / 2),
      low: fat.unsaponifiable === undefined ? Math.min(published.from / 1000, least) : least,
      high: whole * (1 - inert.from) * 1.01,
    }
  }
  const [low, high] = [published.from / 1000, published.to / 1000]
  const made = Object.entries<[number, number]>(fat['fatty-acids']?.percent ?? {})
    .map(([name, [least, most]]) => [name, (least + most) / 2] as const)
    .filter(([, middle]) => middle > 0)
  if (made.length > 0 && fat.kind !== 'wax') {
    const planned = ofAcids(made) * (fat.kind === 'fatty-acid' ? 1 : 1 - (inert.from + inert.to) / 2)
    if (planned >= low && planned <= high) return { planned, low, high }
  }
  return { planned: (low + high) / 2, low, high }
}

/** kg/m3 of a melted fat: falls by 0.66 a kelvin from where it was measured against water; food fat in general of a solid. */
const fatDensity = (fat: Plain, certificate: Plain, t: number): number => {
  const density = certificate?.density
    ? { from: certificate.density.value, to: certificate.density.value, at: certificate.density.at }
    : fat.density
  if (density.state === 'solid') return 925.59 - 0.41757 * t
  const against = density['against-water-at'] === undefined ? 20 : typed(density['against-water-at']) - KELVIN
  return ((density.from + density.to) / 2) * waterDensity(against) - 0.66 * (t - (typed(density.at) - KELVIN))
}
