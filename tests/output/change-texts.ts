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
