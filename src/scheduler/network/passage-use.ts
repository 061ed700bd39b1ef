/**
 * How much of a doorway or lift a lot of pieces takes. A lot lasts minutes, and its trolley is in the doorway for
 * seconds of them: were the lot to hold the doorway whole, only one team could fetch anything at a time, which is not
 * what people in a hall see. So a passage has a capacity of 100 for each trolley it lets through at once, and a lot
 * holds, for each of its hands, the percentage of its time that its trolley is in the passage: time in the passage ÷
 * work. With h hands the lot is done in work ÷ (what h hands are worth), and they are never worth more than h: the sum
 * is never too small. Lots that would together be in the passage for more than all of the time wait for each other. The
 * queue of two trolleys that happen to meet is not in it; that is seconds. What matters is a slow lift: with a ride of a
 * minute each way, a trolley of chairs is in it for a third of the lot, and three lots fill it.
 */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Passage, PassageKind } from '../../domain/passage.ts'
import type { Rates } from '../../domain/rate-set.ts'
import type { Task, TaskResource } from '../../domain/task.ts'
import { type StoreWay, speedOfLoad } from './travel.ts'

/** A trolley and the length of the passage together. Common practice, no source. */
const PASS_METRES: Readonly<Record<PassageKind, number>> = {
  doorway: 4,
  corridor: 10,
  ramp: 10,
  lift: 4,
  stairs: 10,
}

const WHOLE_PERCENT = 100

export const passageKey = (passage: Passage): string => `passage:${passage.id}`

export const passageResource = (passage: Passage): TaskResource => ({
  key: passageKey(passage),
  label: passage.name,
  capacity: WHOLE_PERCENT * passage.trolleysAtOnce,
})

/**
 * @param loadsPerPersonSecond  loads of the lot over its work
 * @param workFactor            of this crew: who walks slowly is in the doorway for longer
 * @returns one use for each passage on the way, for each hand; at least 1, so that a closed passage stops the lot; no
 *   more than leaves the lot possible
 */
export function passageUses(
  furnishing: Furnishing,
  way: StoreWay,
  loadsPerPersonSecond: number,
  workFactor: number,
  rates: Rates,
): Task['uses'] {
  return way.passages.map((passage) => {
    const metres = PASS_METRES[passage.kind]
    const walkedSeconds =
      metres / rates[speedOfLoad({ furnishing, way })] + metres / rates.walkingMetresPerSecond
    const inPassageSeconds = walkedSeconds * workFactor + 2 * passage.rideSeconds
    const percent = Math.ceil(WHOLE_PERCENT * loadsPerPersonSecond * inPassageSeconds)
    const most = Math.floor((WHOLE_PERCENT * passage.trolleysAtOnce) / furnishing.handsPerPiece)
    return {
      resource: passageKey(passage),
      amount: Math.max(1, Math.min(percent, most)),
      perHand: true,
    }
  })
}
