/** Strips for the spine of the ring: title, shop and edition, to be cut out. */
import { STRIP_HEIGHT, STRIP_WIDTHS, spineStrips } from '../../drawing/front/spine-strips.ts'
import { finishSheet, inlineNumbers, inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Sheet } from '../model.ts'
import { PLACES } from '../places.ts'

const MM = 0.001

export const spineSheet = (frame: Frame): Sheet => {
  const { say, show, shopName, issued } = frame
  const strips = spineStrips({
    title: inlineWords(say('cover.title')),
    shop: shopName,
    edition: issued.shown,
    label: inlineWords(say('spine.label')),
  })
  const widths = inlineNumbers(
    show,
    STRIP_WIDTHS.map(
      (width): Inline => ({
        text: '[[width]]',
        fill: { width: show.length(`spine.width.${width}`, width * MM) },
      }),
    ),
  )
  return finishSheet({
    ...frame.sheet('front', PLACES.spine.id, say('section.front'), PLACES.spine.number, say('spine.title')),
    template: frame.template('spine'),
    fill: { how: say('spine.how') },
    blocks: {
      strips: {
        kind: 'figure',
        svg: strips.svg,
        caption: say('spine.caption', { height: show.length('spine.height', STRIP_HEIGHT * MM), widths }),
        values: [],
      },
    },
    sources: [],
  })
}
