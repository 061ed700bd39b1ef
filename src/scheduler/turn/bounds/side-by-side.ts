/**
 * Pieces of work of which only so many can be done side by side: of the i × k + 1 longest, when k go at once, some i + 1
 * follow each other, so that the i + 1 shortest of them do not take longer. Energy alone would cut the work to fit.
 */

/** The lengths met so far, longest first. */
export interface Lengths {
  readonly ticks: Int32Array
  count: number
}

export function noLengths(most: number): Lengths {
  return { ticks: new Int32Array(most), count: 0 }
}

export function addLength(lengths: Lengths, ticks: number): void {
  let at = lengths.count
  while (at > 0 && lengths.ticks[at - 1]! < ticks) {
    lengths.ticks[at] = lengths.ticks[at - 1]!
    at -= 1
  }
  lengths.ticks[at] = ticks
  lengths.count += 1
}

/**
 * @param atOnce how many can be done side by side, 1 or more
 * @returns the ticks that all of it takes at least; 0 where all of it goes at once
 */
export function ticksSideBySide({ ticks, count }: Lengths, atOnce: number): number {
  let most = 0
  for (let rows = 1; rows * atOnce < count; rows++) {
    const shortest = rows * atOnce
    let sum = 0
    for (let at = shortest; at >= shortest - rows; at--) sum += ticks[at]!
    if (sum > most) most = sum
  }
  return most
}
