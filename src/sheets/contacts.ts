/** Who is called, as the shop wrote it, and the lines that are left to write on. */
import { CONTACT_KINDS, type ShopFile } from '../schema/shop.ts'
import type { Say } from './compose.ts'
import type { Inline } from './model.ts'

export type ShopContacts = ShopFile['contacts']

/** Labels of what a card of emergency needs and the shop's file does not have: each gets a line to write it on. */
export const missingContacts = (say: Say, contacts: ShopContacts): Inline[] =>
  CONTACT_KINDS.filter((kind) => !contacts.some(({ is }) => is === kind)).map((kind) =>
    say(`contacts.${kind}`),
  )
