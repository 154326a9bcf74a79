// The process of a preview that works out the folder. Plain, since it makes TypeScript readable first.
import { register } from 'tsx/esm/api'

register()
const { answerAsMaker } = await import('../preview/child-maker.ts')
const { previewMaker } = await import('./preview-maker.ts')
const [folder, shown, colour] = process.argv.slice(2)
answerAsMaker(previewMaker({ folder, shown, colour: colour === 'colour' }))
