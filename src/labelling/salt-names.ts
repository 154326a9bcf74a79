/** What the soap of a fat is called on a label: "Sodium" or "Potassium" before the stem of its fat. */

export interface SaltNames {
  readonly sodium: string
  readonly potassium: string
  /** false: the stem is one of several in use, and is to be looked up before a label is printed */
  readonly certain: boolean
}

const salts = (stem: string, certain: boolean): SaltNames => ({
  sodium: `Sodium ${stem}`,
  potassium: `Potassium ${stem}`,
  certain,
})

/** By the INCI name of the fat, in small letters. From memory, all of it; so are the doubts. */
const BY_FAT: Readonly<Record<string, SaltNames>> = {
  'olea europaea fruit oil': salts('Olivate', true),
  'cocos nucifera oil': salts('Cocoate', true),
  'elaeis guineensis oil': salts('Palmate', true),
  'elaeis guineensis kernel oil': salts('Palm Kernelate', true),
  'orbignya oleifera seed oil': salts('Babassuate', true),
  'helianthus annuus seed oil': salts('Sunflowerseedate', false),
  'carthamus tinctorius seed oil': salts('Safflowerate', false),
  'glycine soja oil': salts('Soyate', false),
  'canola oil': salts('Canolate', false),
  'zea mays oil': salts('Cornate', false),
  'gossypium herbaceum seed oil': salts('Cottonseedate', false),
  'sesamum indicum seed oil': salts('Sesameseedate', false),
  'arachis hypogaea oil': salts('Peanutate', false),
  'oryza sativa bran oil': salts('Rice Branate', false),
  'vitis vinifera seed oil': salts('Grapeseedate', false),
  'prunus amygdalus dulcis oil': salts('Sweet Almondate', true),
  'persea gratissima oil': salts('Avocadoate', false),
  'prunus armeniaca kernel oil': salts('Apricot Kernelate', false),
  'macadamia ternifolia seed oil': salts('Macadamiaseedate', false),
  'corylus avellana seed oil': salts('Hazelnutseedate', false),
  'cannabis sativa seed oil': salts('Hempseedate', false),
  'linum usitatissimum seed oil': salts('Linseedate', false),
  'ricinus communis seed oil': salts('Castorate', true),
  'butyrospermum parkii butter': salts('Shea Butterate', true),
  'theobroma cacao seed butter': salts('Cocoa Butterate', true),
  'mangifera indica seed butter': salts('Mangoseedate', false),
  'adeps suillus': salts('Lardate', true),
  'adeps bovis': salts('Tallowate', true),
  'stearic acid': salts('Stearate', true),
}

/**
 * Names of the soaps of a fat.
 *
 *     "Sodium" or "Potassium" + stem
 *
 * Valid for the fats of the list; jojoba, beeswax and mutton tallow are not in it.
 *
 * @param inci name of the fat itself, in any capitals
 * @returns both names; undefined for a fat that is not in the list
 * @source inci-names
 * @example saltNamesOf('Cocos Nucifera Oil')?.sodium // 'Sodium Cocoate'
 */
export const saltNamesOf = (inci: string): SaltNames | undefined => {
  const key = inci.trim().replace(/\s+/g, ' ').toLowerCase()
  return Object.hasOwn(BY_FAT, key) ? BY_FAT[key] : undefined
}
