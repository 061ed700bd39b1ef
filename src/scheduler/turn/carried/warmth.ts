/**
 * How much worse than what it came from a line-up may be: by chance, and the less the longer the search goes on. Tables of
 * whole numbers, so that every machine decides alike.
 */

/** In hundredths of the unit of costs: what is worse by so much is followed about one time in three. */
const WARMTH_FIRST = 15_000
const WARMTH_LAST = 1_000
const STAGES = 100
const warmths = Array.from({ length: STAGES }, (_, stage) =>
  Math.round(WARMTH_FIRST * (WARMTH_LAST / WARMTH_FIRST) ** (stage / (STAGES - 1))),
)

const DRAWS = 512
/** By draw, all alike likely: in hundredths, how often its warmth. Negative logarithms, as Kirkpatrick et al. have it. */
const shares = Array.from({ length: DRAWS }, (_, draw) => Math.round(-100 * Math.log((draw + 0.5) / DRAWS)))

/**
 * @param done  schedules of a round that were tried, of so many
 * @returns what a line-up may cost more, in whole units of cost
 */
export function costAllowed(done: number, schedules: number, random: () => number): number {
  const warmth = warmths[Math.floor((done * STAGES) / schedules)]!
  return Math.floor((warmth * shares[Math.floor(random() * DRAWS)]!) / 10_000)
}
