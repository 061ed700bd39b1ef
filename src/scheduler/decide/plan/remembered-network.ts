/**
 * The task network of a turn, remembered. The same changes of layout come again every week, and a network follows from
 * its inputs alone: finding it here or making it anew gives the same answer.
 */
import type { Policy } from '../../../domain/policy.ts'
import type { Rates } from '../../../domain/rate-set.ts'
import type { TaskNetwork } from '../../../domain/task.ts'
import { taskNetwork } from '../../network/index.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'

/** By policy and rates, then by the whole text of the inputs: a hash could, once in a long while, be that of something else. */
const remembered = new WeakMap<Policy, WeakMap<Rates, Map<string, TaskNetwork>>>()
/** Some tens of kilobytes each; when there are more, it begins anew. */
const REMEMBERED_MOST = 200

export function rememberedNetwork(input: TurnInput): TaskNetwork {
  const { policy, rates } = input.network
  const byRates = remembered.get(policy) ?? new WeakMap<Rates, Map<string, TaskNetwork>>()
  remembered.set(policy, byRates)
  const networks = byRates.get(rates) ?? new Map<string, TaskNetwork>()
  byRates.set(rates, networks)
  const known = networks.get(input.inputText)
  if (known) return known
  if (networks.size >= REMEMBERED_MOST) networks.clear()
  const network = taskNetwork(input.network)
  networks.set(input.inputText, network)
  return network
}
