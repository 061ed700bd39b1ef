/**
 * A count with the word for one or for several: `1 hand`, `3 hands`, `0 hands`.
 * @param many   where it is not `one` with an s
 * @param shown  how the number is written
 */
export const counted = (
  count: number,
  one: string,
  many = `${one}s`,
  shown: (count: number) => string = String,
): string => `${shown(count)} ${count === 1 ? one : many}`
