/** Which schedule to breed from: nothing overdrawn, then the makespan, then how little work lies late. */
import type { Side } from './side.ts'
import type { Work } from './work.ts'

const overdrawnWeight = 2 ** 40
/** What one tick of makespan weighs. */
export const fitnessPerTick = 1024

/** `excess` is what the budgets are overdrawn. Exact whole numbers below 2^53. */
export function fitnessOf(work: Work, side: Side, place: number, excess: number): number {
  const { taskCount, modeDurationTicks, modeDensity } = work.problem
  const base = place * taskCount
  const makespan = side.makespanTicks[place]!
  const lateFrom = Math.floor((makespan * 7) / 10)
  let late = 0
  let all = 1
  for (let task = 0; task < taskCount; task++) {
    const mode = side.modes[base + task]!
    const start = side.starts[base + task]!
    const end = start + modeDurationTicks[mode]!
    all += modeDensity[mode]! * (end - start)
    if (end > lateFrom) late += modeDensity[mode]! * (end - Math.max(start, lateFrom))
  }
  return (
    excess * overdrawnWeight + makespan * fitnessPerTick + Math.floor((late * (fitnessPerTick - 1)) / all)
  )
}
