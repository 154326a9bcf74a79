/** Files in memory composed as a command does it, which loads far more than reading them. */
import { type Composed, composeFiles } from '../../src/commands/compose.ts'
import { asFolderFiles } from '../../src/schema/read-folder.ts'

/** What becomes of them. @throws Error with every message when they cannot be read */
export const composedOf = async (
  files: ReadonlyMap<string, string>,
): Promise<NonNullable<Composed['binder']>> => {
  const { binder, diagnostics } = await composeFiles({ files: asFolderFiles(files), diagnostics: [] }, 'shop')
  if (!binder) throw new Error(diagnostics.map(({ file, message }) => `${file}: ${message}`).join('\n'))
  return binder
}
