/** What tells batches of one day apart in the codes on their labels. */
import type { BatchFile } from '../schema/batch.ts'
import type { RecipeFile } from '../schema/recipe.ts'

/** Its own key, or that of its recipe. */
export const batchKeyOf = (
  { code }: Pick<BatchFile, 'code'>,
  recipe: Pick<RecipeFile, 'code'> | undefined,
): string | undefined => code ?? recipe?.code
