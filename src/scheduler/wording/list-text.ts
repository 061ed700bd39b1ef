/** `a`, `a and b`, `a, b and c`; empty for none. */
export const listText = (items: readonly string[], word: 'and' | 'or' = 'and'): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${word} ${items.at(-1)}`

/** The first few, and how many more: `a, b, c and 2 more`. */
export const someText = (items: readonly string[], most = 3): string =>
  items.length <= most
    ? listText(items)
    : `${items.slice(0, most).join(', ')} and ${items.length - most} more`
