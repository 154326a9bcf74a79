/** Limits of the shop that words of caution, trouble, release and training share. */
import { cutBelow } from '../binder/caution-figures.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { Fill } from './compose.ts'
import type { Frame } from './frame.ts'

/** s of running water on skin and eyes; the longer of what is published (nj-right-to-know, read) */
const RINSE = 1800

export const shopLimits = ({ show }: Frame, shop: ShopFile): Fill => ({
  rinse: show.minutes('rinse', RINSE),
  'cut-below': show.temperature('block.cutBelow', cutBelow(shop)),
  'hottest-lye': show.temperature('lye.hottest', shop.limits['hottest-lye']),
  'hot-lift': show.heavy('hotLift', shop.limits['hot-lift']),
})
