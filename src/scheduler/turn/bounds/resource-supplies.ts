/** The resources that the needed work uses, as supplies. */
import { amountUsed, freeResource } from '../free-units.ts'
import type { PreparedInstance } from '../prepared-instance.ts'
import type { NeededWork } from './needed-work.ts'
import { type Supply, supplyOf } from './supply.ts'

export function resourceSupplies(problem: PreparedInstance, work: NeededWork): Supply[] {
  const list: Supply[] = []
  for (let resource = 0; resource < problem.resourceCount; resource++) {
    const units = Float64Array.from(work.modeOf, (mode) => amountUsed(problem, mode, resource))
    if (units.every((amount) => amount === 0)) continue
    const { ticks, units: free } = freeResource(problem, resource)
    const levels = new Float64Array(work.spanTicks)
    for (const [index, tick] of ticks.entries()) {
      const from = Math.max(0, tick - work.originTick)
      const to = Math.max(0, (ticks[index + 1] ?? tick) - work.originTick)
      if (from < work.spanTicks) levels.fill(free[index]!, from, Math.min(to, work.spanTicks))
    }
    list.push(supplyOf(work, units, levels))
  }
  return list
}
