/** What `one-change.ts` writes. */
export const NEW: ReadonlyMap<string, string> = new Map([
  ['shop.yaml', 'name: Alder Yard\n'.repeat(50)],
  ['recipes/a.yaml', 'title: A\n'],
  ['help/shop.md', '# shop\n'],
])

export const CHANGED: ReadonlyMap<string, string> = new Map([
  ['shop.yaml', 'format: 2\n'],
  ['help/shop.md', '# new\n'],
])

/** What its list of records names. */
export const RECORDED: ReadonlyMap<string, string> = new Map([
  ['as-printed/sheet-1.yaml', 'shows: much\n'.repeat(100)],
  ['as-printed/inputs/a.yaml', 'name: Alder Yard\n'],
])
