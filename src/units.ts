/** Quantities as people write them, and the units they may use. */
export type { Money, MoneyRead } from './units/money.ts'
export { decimalsOf, moneyText, parseMoney } from './units/money.ts'
export type { QuantityRead, QuantityRefused } from './units/parse.ts'
export { parseQuantity, quantityInUnit } from './units/parse.ts'
export type { Kind, QuantityKind, Unit } from './units/tables.ts'
export { KINDS, spellingsOf, symbolsOf } from './units/tables.ts'
