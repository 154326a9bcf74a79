/** Everything that a maker's folder says, read and checked: SI numbers, names that exist, places kept beside. */

import type { BatchFile } from './batch.ts'
import type { BuildFile } from './build.ts'
import type { FatEntry } from './fats.ts'
import type { FixtureFile } from './fixture.ts'
import type { LedgerFile } from './ledger.ts'
import type { MarketFile } from './market.ts'
import type {
  AdditiveEntry,
  AlkaliEntry,
  CertificateEntry,
  FragranceEntry,
  HardwareEntry,
  LiquidEntry,
  PanelEntry,
  PremixEntry,
  StockLyeEntry,
} from './materials.ts'
import type { PageFile, Placed } from './placed.ts'
import type { PrintedFile } from './printed.ts'
import type { RecipeFile } from './recipe.ts'
import type { ShopFile } from './shop.ts'
import type { SourceEntry } from './sources.ts'
import type { PackagingEntry, PackEntry, SupplierEntry } from './supply.ts'

/** What a label says in the maker's words, in the language of the label. */
export interface LabelContent {
  readonly language: string
  readonly shop: ShopFile
  readonly recipes: ReadonlyMap<string, RecipeFile>
}

export interface Content {
  readonly shop: Placed<ShopFile>
  readonly onLabels: LabelContent
  readonly sources: ReadonlyMap<string, Placed<SourceEntry>>
  readonly fats: ReadonlyMap<string, Placed<FatEntry>>
  readonly alkalis: ReadonlyMap<string, Placed<AlkaliEntry>>
  readonly premixes: ReadonlyMap<string, Placed<PremixEntry>>
  readonly stockLyes: ReadonlyMap<string, Placed<StockLyeEntry>>
  /** by the key of the fat that each is for */
  readonly certificates: ReadonlyMap<string, Placed<CertificateEntry>>
  readonly additives: ReadonlyMap<string, Placed<AdditiveEntry>>
  readonly fragrances: ReadonlyMap<string, Placed<FragranceEntry>>
  readonly liquids: ReadonlyMap<string, Placed<LiquidEntry>>
  readonly panels: ReadonlyMap<string, Placed<PanelEntry>>
  /** by its kind */
  readonly hardware: ReadonlyMap<string, Placed<HardwareEntry>>
  readonly suppliers: ReadonlyMap<string, Placed<SupplierEntry>>
  readonly packs: ReadonlyMap<string, Placed<PackEntry>>
  readonly packaging: ReadonlyMap<string, Placed<PackagingEntry>>
  /** in the order of their names */
  readonly ledgers: ReadonlyMap<string, Placed<LedgerFile>>
  readonly recipes: ReadonlyMap<string, Placed<RecipeFile>>
  readonly fixtures: ReadonlyMap<string, Placed<FixtureFile>>
  readonly batches: ReadonlyMap<string, Placed<BatchFile>>
  readonly markets: ReadonlyMap<string, Placed<MarketFile>>
  readonly builds: ReadonlyMap<string, Placed<BuildFile>>
  readonly pages: readonly PageFile[]
  /** papers that were printed, and what became of them */
  readonly printed?: Placed<PrintedFile>
}
