/**
 * Several resources in one 32-bit word, a guard bit above each: one subtraction asks them all.
 * free - need keeps every guard bit exactly when no resource is short. Lamport, Multiple byte processing with
 * full-word instructions, Communications of the ACM 18 (1975) 471-475 (the technique).
 */
export interface Packing {
  readonly laneBits: number
  readonly lanesPerWord: number
  readonly wordCount: number
  readonly guard: number
  /** What is free when nothing runs, guard bits set; one entry a word. */
  readonly empty: Int32Array
}

/** Capacities from 0 to 2^30. Without resources: one word that always fits. */
export function packingFor(capacities: readonly number[]): Packing {
  let largest = 1
  for (const capacity of capacities) largest = Math.max(largest, capacity)
  const laneBits = 32 - Math.clz32(largest)
  const lanesPerWord = Math.max(1, Math.floor(32 / (laneBits + 1)))
  const wordCount = Math.max(1, Math.ceil(capacities.length / lanesPerWord))
  let guard = 0
  for (let lane = 0; lane < lanesPerWord; lane++) guard |= 1 << (lane * (laneBits + 1) + laneBits)
  const packing = { laneBits, lanesPerWord, wordCount, guard, empty: new Int32Array(wordCount) }
  packInto(packing, capacities, packing.empty, 0)
  for (let word = 0; word < wordCount; word++) packing.empty[word]! |= guard
  return packing
}

/** Amounts must not exceed the capacities the packing was made for. */
export function packInto(packing: Packing, amounts: readonly number[], into: Int32Array, at: number): void {
  into.fill(0, at, at + packing.wordCount)
  for (let resource = 0; resource < amounts.length; resource++) {
    const word = Math.floor(resource / packing.lanesPerWord)
    const lane = resource % packing.lanesPerWord
    into[at + word]! |= amounts[resource]! << (lane * (packing.laneBits + 1))
  }
}
