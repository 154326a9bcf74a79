/** Days of a recipe's bars by what recipe and shop say: turned, tested, labelled at the earliest, sold at the latest. */
import type { Content } from '../schema/content.ts'

/** s */
const DAY = 86400
/** d after the pour, where nobody says (common practice) */
const USUAL = { turn: [7, 14, 21, 28], test: 28, label: 42, sellBy: 365 } as const

/** d after the pour */
export interface CureDays {
  readonly turns: readonly number[]
  readonly releaseTest: number
  readonly label: number
  readonly sellBy: number
}

/** What a recipe says goes before what its shop says. */
export const cureDays = (content: Content, recipeKey: string): CureDays => {
  const cure = { ...content.shop.value.cure, ...content.recipes.get(recipeKey)?.value.cure }
  const days = (duration: number | undefined, otherwise: number): number =>
    duration === undefined ? otherwise : Math.round(duration / DAY)
  return {
    turns: [...new Set(cure.turn?.map((after) => days(after, 0)) ?? USUAL.turn)].sort((a, b) => a - b),
    releaseTest: days(cure['test-after'], USUAL.test),
    label: days(cure['label-after'], USUAL.label),
    sellBy: days(cure['sell-by'], USUAL.sellBy),
  }
}
