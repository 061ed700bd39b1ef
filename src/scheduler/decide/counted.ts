/** `1 hand`, `3 hands`, `0 hands`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`
