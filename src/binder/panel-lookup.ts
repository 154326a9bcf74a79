/** Boards of a fixture by the names that its file gives them. */
import { inch } from '../fixtures/mould-types.ts'
import type { Panel } from '../geometry/part.ts'
import type { Content } from '../schema/content.ts'

export interface PanelLookup {
  /** @throws Error when content lacks the panel: a bug, since load.ts has looked it up */
  readonly panel: (key: string) => Panel
  /** by the key that the fixture names them with, of those that were asked for */
  readonly panelNames: ReadonlyMap<string, string>
}

/** @returns a lookup that keeps the names of what was asked for */
export const panelLookup = ({ panels }: Content): PanelLookup => {
  const panelNames = new Map<string, string>()
  const panel = (key: string): Panel => {
    const found = panels.get(key)?.value
    if (!found) throw new Error(`No panel "${key}".`)
    panelNames.set(key, found.name)
    return { material: key, thickness: found.thickness, density: found.density }
  }
  return { panel, panelNames }
}

/** Panels are asked for in whole inches or whole centimetres [m]. */
export const panelStep = ({ shop }: Content): number => (shop.value.units.length === 'in' ? inch : 0.01)
