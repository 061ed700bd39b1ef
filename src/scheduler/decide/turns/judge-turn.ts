/** One turn: is it ready by doors with the hands that are left? The answer carries the plan, or says what is short. */
import type { Closure } from '../../../domain/closure.ts'
import { overlaps } from '../../../domain/half-open-interval.ts'
import type { TurnSide } from '../../../domain/reason.ts'
import type { TaskNetwork } from '../../../domain/task.ts'
import type { Turn } from '../../../domain/turn.ts'
import { StateUnreachable } from '../../network/index.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { builtInstance, type TurnPart, turnPart, workFromAt, workUntilAt } from '../plan/built-instance.ts'
import { findPlan, planThatHolds } from '../plan/find-plan.ts'
import { rememberedNetwork } from '../plan/remembered-network.ts'
import { dueTicks, isReadyBy, readyOrLate } from '../plan/turn-search.ts'
import { judgedFrom } from './judged-from.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'
import { unreachableTurn } from './unreachable-turn.ts'

/**
 * @param before  the turn as stored, or null; a plan of it that still holds is kept
 * @param others  all other turns: what their plans hold is not there for this one
 */
export function judgeTurn(
  world: World,
  input: TurnInput,
  before: Turn | null,
  side: TurnSide | null,
  others: readonly Turn[],
  options: JudgeOptions,
): JudgedTurn {
  const network = networkOrUnreachable(input)
  if (network instanceof StateUnreachable) return unreachableTurn(world, input, before, side, network)
  const part = turnPart(input, network)
  const found = findPlan(world, part, before, others, options)
  const isReady = isReadyBy(found.findings, dueTicks(found.findings.built))
  const closedWay = isReady || options.isTrial ? null : wayThatBinds(world, part, others)
  const [builtPart] = found.findings.built.parts
  return judgedFrom(world, { part: builtPart!, before, side, closedWay, others, options, ...found })
}

/** The same where the plan that stands still holds; null: it has to be judged whole. */
export function keptTurn(
  world: World,
  input: TurnInput,
  before: Turn,
  side: TurnSide | null,
  others: readonly Turn[],
  options: JudgeOptions,
): JudgedTurn | null {
  const network = networkOrUnreachable(input)
  if (network instanceof StateUnreachable || before.status !== 'ready') return null
  const found = planThatHolds(world, turnPart(input, network), before, others)
  const part = found?.findings.built.parts[0]
  return found && part
    ? judgedFrom(world, { part, before, side, closedWay: null, others, options, ...found })
    : null
}

/** What a layout asks of a device may be out of reach of how it is left; any other error is a bug. */
export function networkOrUnreachable(input: TurnInput): TaskNetwork | StateUnreachable {
  try {
    return rememberedNetwork(input)
  } catch (error) {
    if (error instanceof StateUnreachable) return error
    throw error
  }
}

/** The first closure of a store or passage in the gap, when the turn would be ready if all of them were open. */
function wayThatBinds(world: World, part: TurnPart, others: readonly Turn[]): Closure | null {
  const { input } = part
  const span = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  const ofWays = world.closures.filter(
    (closure) => closure.storagePlaceIds.length + closure.passageIds.length > 0 && overlaps(closure, span),
  )
  const [first] = ofWays
  if (!first) return null
  const open = { ...world, closures: world.closures.filter((closure) => !ofWays.includes(closure)) }
  const untilAt = workUntilAt(world, input)
  const built = builtInstance(open, [{ ...part, events: [] }], others, { untilAt })
  return readyOrLate(open, built, world.setup.policy.workMost).schedule === null ? null : first
}
