/** One turn: the plan that people have read if it still holds, else one made anew; with hands assumed if it must be. */

import type { Plan } from '../../../domain/plan.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { World } from '../../timeline/world.ts'
import {
  boundOfPlanTick,
  lowerBoundTicks,
  retimed,
  type Schedule,
  scheduleFaults,
  solve,
} from '../../turn/index.ts'
import type { JudgeOptions } from '../turns/judged-turn.ts'
import {
  type BuiltInstance,
  builtInstance,
  lateUntilAt,
  type TurnPart,
  workUntilAt,
} from './built-instance.ts'
import type { EventTask } from './event-tasks.ts'
import { scheduleOf } from './plan-of.ts'
import { acceptableAtOnce, dueTicks, type Findings, isReadyBy, readyOrLate } from './turn-search.ts'

type Witness = Pick<FoundTurn, 'findings' | 'kept'>

export interface FoundTurn {
  readonly findings: Findings
  readonly handsAssumed: number
  /** What the event asks for and cannot have; the plan is one without it. */
  readonly eventsImpossible: readonly EventTask[]
  /** The plan as it stands is the answer, to the letter. */
  readonly kept: Plan | null
  /** No plan that stood would do, not even with its times moved. */
  readonly wasSearched: boolean
}

/**
 * @param before  the turn as stored, or null
 * @param others  all other turns: what their plans hold is not there for this one
 */
export function findPlan(
  world: World,
  part: TurnPart,
  before: Turn | null,
  others: readonly Turn[],
  options: JudgeOptions,
): FoundTurn {
  const { planningHands } = world.setup.policy
  const promised = withHands(world, part, before, others, 0, options)
  if (isGood(promised)) return promised
  for (let hands = 1; hands <= planningHands; hands += 1) {
    const found = withHands(world, part, before, others, hands, options)
    if (isGood(found)) return found
  }
  return promised
}

/**
 * The plan that people have read, where it still holds with promised hands alone, if need be at other times.
 * @returns null: it does not
 */
export function planThatHolds(
  world: World,
  part: TurnPart,
  before: Turn,
  others: readonly Turn[],
): FoundTurn | null {
  const built = builtInstance(world, [part], others, { untilAt: workUntilAt(world, part.input) })
  const witness = witnessThatHolds(world, part, built, before)
  return witness && asItStands(witness, 0)
}

const asItStands = ({ findings, kept }: Witness, handsAssumed: number): FoundTurn => ({
  findings,
  handsAssumed,
  eventsImpossible: [],
  kept,
  wasSearched: false,
})

const isGood = ({ findings, eventsImpossible }: FoundTurn): boolean =>
  eventsImpossible.length === 0 && isReadyBy(findings, dueTicks(findings.built))

function withHands(
  world: World,
  part: TurnPart,
  before: Turn | null,
  others: readonly Turn[],
  handsAssumed: number,
  options: JudgeOptions,
): FoundTurn {
  const { input } = part
  const byDoors = builtInstance(world, [part], others, { untilAt: workUntilAt(world, input), handsAssumed })
  const witness = witnessThatHolds(world, part, byDoors, before)
  if (witness) return asItStands(witness, handsAssumed)
  const eventsImpossible = impossibleEvents(world, part, others, handsAssumed)
  const possible =
    eventsImpossible.length === 0
      ? part
      : { ...part, events: part.events.filter((event) => !eventsImpossible.includes(event)) }
  const built =
    possible === part
      ? byDoors
      : builtInstance(world, [possible], others, { untilAt: workUntilAt(world, input), handsAssumed })
  // Most requests fit at once. Only where they do not is it asked how late they would be: that takes a longer look.
  const found = acceptableAtOnce(world, built)
  const searched = { handsAssumed, eventsImpossible, kept: null, wasSearched: true }
  if (found) return { findings: found, ...searched }
  const isLateAsked = handsAssumed === 0
  const longer = isLateAsked
    ? builtInstance(world, [possible], others, { untilAt: lateUntilAt(world, input), handsAssumed })
    : built
  const workMost = options.workMost ?? world.setup.policy.workMost
  return { findings: readyOrLate(world, longer, workMost), ...searched }
}

/** Events whose crew or quiet cannot be had at their time, whatever the turn does; one after the other. */
export function impossibleEvents(
  world: World,
  part: TurnPart,
  others: readonly Turn[],
  handsAssumed: number,
): EventTask[] {
  const { input, network } = part
  const nothing = { ...network, tasks: [], milestones: [] }
  const possible: EventTask[] = []
  const impossible: EventTask[] = []
  for (const event of part.events) {
    const events = [...possible, event]
    const built = builtInstance(world, [{ input, network: nothing, events }], others, {
      untilAt: workUntilAt(world, input),
      handsAssumed,
    })
    const { schedule } = solve(built.instance, { workMost: 1, seed: 1 })
    if (schedule) possible.push(event)
    else impossible.push(event)
  }
  return impossible
}

/**
 * A plan is only made anew when it must be: people have read it. Where the work takes longer than it did, or somebody
 * is elsewhere, its order is kept and its times are moved, if that is enough.
 */
function witnessThatHolds(
  world: World,
  { input }: TurnPart,
  built: BuiltInstance,
  before: Turn | null,
): Witness | null {
  // What has begun is not what was planned any more.
  if (!before?.plan || before.plan.startsAt < world.now) return null
  const stored = scheduleOf(built, [before.plan])
  if (!stored) return null
  const { policyId, rateSetId } = before.judgement
  const isSame =
    before.inputHash === input.inputHash &&
    policyId === world.setup.policy.id &&
    rateSetId === (world.setup.rateSet?.id ?? null)
  if (isSame && holds(built, stored)) {
    return { findings: foundAs(built, stored, before, boundOfPlanTick), kept: before.plan }
  }
  const moved = retimed(built.instance, stored)
  return moved && holds(built, moved)
    ? { findings: foundAs(built, moved, before, quickBoundTick), kept: null }
    : null
}

const holds = (built: BuiltInstance, schedule: Schedule): boolean =>
  schedule.readyTicks.every((tick, turn) => tick <= built.instance.turns[turn]!.dueTick) &&
  scheduleFaults(built.instance, schedule).length === 0

/** Many plans move at once: what takes a closer look is left to when they are gone over. */
const quickBoundTick: typeof boundOfPlanTick = (instance, turn, readyTick) =>
  lowerBoundTicks(instance, turn, readyTick).readyTick

/** That no plan is ready earlier is only asked of one of which it was proven; the others are gone over at leisure. */
function foundAs(
  built: BuiltInstance,
  schedule: Schedule,
  { judgement, plan }: Turn,
  boundTick: typeof boundOfPlanTick,
): Findings {
  const { instance } = built
  const wasProven = judgement.proof === 'bound'
  const boundTicks = instance.turns.map((_, turn) =>
    wasProven ? boundTick(instance, turn, schedule.readyTicks[turn]!) : null,
  )
  return { built, schedule, workDone: plan?.workDone ?? 0, boundTicks }
}
