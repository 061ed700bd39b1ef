/** A small seeded generator of whole numbers: the same seed gives the same numbers on every machine. */
export interface SeededRandom {
  /** A whole number from 0 up to, not including, `bound` (1 to 2^31). */
  below(bound: number): number
}

export function seededRandom(seed: number): SeededRandom {
  let state = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) | 0
  return {
    below(bound) {
      state = (state + 0x6d2b79f5) | 0
      let mixed = Math.imul(state ^ (state >>> 15), state | 1)
      mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
      const word = (mixed ^ (mixed >>> 14)) >>> 0
      // Up to 2^21 the product is exact in a double (below 2^53), and so is the division by a power of two.
      return bound <= 2097152 ? Math.floor((word * bound) / 4294967296) : word % bound
    },
  }
}
