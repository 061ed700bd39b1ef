/** A turn that is part done, planned from now: what is left, by whom, when the room is ready, and what could be left out. */

import type { LaneId, TurnId } from '../../domain/ids.ts'
import { earlierOf, type Instant, instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Plan, PlannedTask } from '../../domain/plan.ts'
import type { SiteSnapshot } from '../../domain/snapshot.ts'
import { TURN_LATE_MOST_SECONDS, type Turn } from '../../domain/turn.ts'
import type { TurnProgress } from '../../domain/turn-progress.ts'
import { isTurnWork, smoothnessOf } from '../decide/index.ts'
import { type BuiltInstance, lateUntilAt, workFromAt } from '../decide/plan/built-instance.ts'
import { planOf } from '../decide/plan/plan-of.ts'
import { StateUnreachable } from '../network/index.ts'
import { lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../timeline/turn-input.ts'
import { type World, worldOf } from '../timeline/world.ts'
import { type DropList, dropList } from './drop-list.ts'
import { groundFor } from './ground.ts'
import { handsNow } from './hands-now.ts'
import { type LaneChange, laneChanges } from './lane-changes.ts'
import { milestonesLate } from './milestones-late.ts'
import { networkLeft } from './network-left.ts'
import type { ProgressFault } from './progress-fault.ts'
import { progressFaults } from './progress-faults.ts'
import { readyOf, readyWithout } from './ready-without.ts'
import {
  handsAssumed,
  missingAtEvent,
  missingAtWork,
  outOfOrder,
  type ReplanWarning,
  wantedElsewhere,
} from './replan-warnings.ts'
import { readySentence, secondsToSpare } from './replan-words.ts'
import { type RunningNow, runningNow } from './running-now.ts'
import { type FromNow, type ReplanWay, scheduleFromNow } from './schedule-from-now.ts'
import { whyNotSentence } from './why-not.ts'

export interface ReplannedTurn {
  readonly turnId: TurnId
  readonly askedAt: Instant
  readonly dueAt: Instant
  /** What is left, with what is running; null: those who are there cannot do it within a day after doors. */
  readonly plan: Plan | null
  /** null: no plan. */
  readonly way: ReplanWay | null
  readonly readyAt: Instant | null
  /** Negative: so much late. */
  readonly slackSeconds: number | null
  readonly sentence: string
  readonly changes: readonly LaneChange[]
  readonly dropList: DropList
  readonly warnings: readonly ReplanWarning[]
  /** Those who have come, in the order in which they are told. */
  readonly addedLaneIds: readonly LaneId[]
}

export type ReplanAnswer =
  | { readonly kind: 'replanned'; readonly replanned: ReplannedTurn }
  /** What is told cannot be taken. */
  | { readonly kind: 'faults'; readonly faults: readonly ProgressFault[] }
  /** There is nothing to plan any more: it was given up, or the room is in use. */
  | { readonly kind: 'turn-is-over'; readonly message: string }
  | { readonly kind: 'no-plan'; readonly message: string }

const NOTHING: DropList = { items: [], all: null, notListed: 0 }

/**
 * Same snapshot and progress, same answer; nothing is written by it.
 * @param snapshot  complete from 48 h before the turn is due until a day after; `now` is the moment asked about
 */
export function replannedTurn(snapshot: SiteSnapshot, turn: Turn, progress: TurnProgress): ReplanAnswer {
  const world = worldOf(snapshot)
  const { now } = world
  const booking = world.bookings.find(({ id }) => id === turn.bookingId)
  if (turn.status === 'dropped' || !booking)
    return over('The turn was given up: its room is not turned any more.')
  const input = turn.purpose === 'prepare' ? turnInputOf(world, booking) : homeTurnInputOf(world, booking)
  if (input === null) return over('The room is not put back any more.')
  const lateUntil = instantPlusSeconds(turn.dueAt, TURN_LATE_MOST_SECONDS)
  const overAt = turn.purpose === 'prepare' ? earlierOf(booking.clearAt, lateUntil) : lateUntil
  if (now >= overAt) return over('What the room was turned for is over.')
  const { plan } = turn
  if (plan === null) {
    return { kind: 'no-plan', message: 'The turn has no plan to go on from: it was found to be impossible.' }
  }
  const known = laneIdsKnown(world, plan, input, now)
  const faults = progressFaults(world, plan, input, known, progress)
  if (faults.length > 0) return { kind: 'faults', faults }
  try {
    return replannedFrom({ world, turn, plan, input, progress })
  } catch (error) {
    if (!(error instanceof StateUnreachable)) throw error
    return { kind: 'faults', faults: [{ at: '/stands/equipment', message: error.message }] }
  }
}

const over = (message: string): ReplanAnswer => ({ kind: 'turn-is-over', message })

interface Asked {
  readonly world: World
  readonly turn: Turn
  /** That people carry. */
  readonly plan: Plan
  readonly input: TurnInput
  /** Without faults. */
  readonly progress: TurnProgress
}

function replannedFrom(asked: Asked): ReplanAnswer {
  const { world, turn, plan, input, progress } = asked
  const { now } = world
  const others = [...world.turnsById.values()].filter(({ id }) => id !== turn.id)
  const done = new Set(progress.done.map(({ taskKey }) => taskKey))
  const running = runningNow(plan, progress.running, { now, fromAt: workFromAt(world, input) })
  const runningKeys = new Set(running.map(({ task }) => task.key))
  const network = networkLeft(world, plan, input, done, running, progress.stands)
  if (network.tasks.length + running.length === 0) return allDone(asked)
  const hands = handsNow(world, plan, progress, lateUntilAt(world, input))
  const ground = groundFor({ world, turn, plan, input, others, done: progress.done, running, hands })
  const built = ground(network)
  const left = plan.tasks.filter(
    (task) => isTurnWork(task) && !done.has(task.key) && !runningKeys.has(task.key),
  )
  const carried = [...left, ...running.map(({ task }) => task)]
  const hasBegun = done.size + running.length > 0
  const found = scheduleFromNow(world, built, plan, carried, hasBegun)
  const made = found && planFrom(built, found, running)
  const warnings = [
    ...outOfOrder(plan, done, runningKeys),
    ...(found ? milestonesLate(built, found.schedule, world.setup.site.zone) : []),
    ...wantedElsewhere(running, others),
    ...missingAtWork(running, hands),
    ...missingAtEvent(plan, hands),
    ...(made ? handsAssumed(made, hands) : []),
  ]
  const readyAt = made?.readyAt ?? null
  return {
    kind: 'replanned',
    replanned: {
      turnId: turn.id,
      askedAt: now,
      dueAt: turn.dueAt,
      plan: made,
      way: found?.way ?? null,
      readyAt,
      slackSeconds: secondsToSpare(readyAt, turn.dueAt),
      sentence:
        readyAt === null
          ? whyNotSentence(built, network)
          : readySentence(readyAt, turn.dueAt, world.setup.site.zone),
      changes: made
        ? laneChanges(
            left,
            made.tasks.filter(({ key }) => !runningKeys.has(key)),
          )
        : [],
      dropList:
        found && made
          ? dropList({
              network,
              readyAt: made.readyAt,
              startsAt: new Map(made.tasks.map((task) => [task.key, task.startsAt])),
              isRunning: (key) => runningKeys.has(key),
              readyWith: (rest) =>
                laterOfRunning(readyWithout(world, ground(rest), { built, found }), running),
              zone: world.setup.site.zone,
            })
          : NOTHING,
      warnings,
      addedLaneIds: hands.added.map(({ laneId }) => laneId),
    },
  }
}

/** Ready since the last of it was done, as far as anybody knows when; else now. */
function allDone({ world, turn, plan, progress }: Asked): ReplanAnswer {
  const { now } = world
  const moments = progress.done.flatMap(({ doneAt }) => doneAt ?? [])
  const isKnown = moments.length > 0 && moments.length === progress.done.length
  const readyAt = isKnown ? moments.reduce(laterOf) : now
  return {
    kind: 'replanned',
    replanned: {
      turnId: turn.id,
      askedAt: now,
      dueAt: turn.dueAt,
      plan: {
        tasks: [],
        resources: [],
        startsAt: readyAt,
        readyAt,
        criticalTaskKeys: [],
        chain: [],
        smoothness: smoothnessOf([], null),
        solverVersion: plan.solverVersion,
        workDone: 0,
      },
      way: 'as-planned',
      readyAt,
      slackSeconds: secondsToSpare(readyAt, turn.dueAt),
      sentence: `Everything of it is done. ${readySentence(readyAt, turn.dueAt, world.setup.site.zone)}`,
      changes: [],
      dropList: NOTHING,
      warnings: [],
      addedLaneIds: handsNow(world, plan, progress, turn.dueAt).added.map(({ laneId }) => laneId),
    },
  }
}

/** Everybody who may be told of: on duty within two days, in the plan, or at the event. */
function laneIdsKnown(world: World, plan: Plan, input: TurnInput, now: Instant): Set<string> {
  const span = { fromAt: input.releaseAt, toAt: laterOf(lateUntilAt(world, input), now) }
  return new Set<string>([
    ...lanesOnDuty(world.setup, span).map(({ laneId }) => laneId),
    ...plan.tasks.flatMap(({ laneIds }) => laneIds),
    ...world.setup.people.map(({ id }) => id),
  ])
}

/** What is running stands in it as it is: by whom, from now on, until it is over. */
function planFrom(
  built: BuiltInstance,
  { schedule, workDone }: FromNow,
  running: readonly RunningNow[],
): Plan {
  const made = planOf(built, built.parts[0]!, schedule, workDone, null)
  const byKey = new Map(running.map(({ task }) => [task.key, task]))
  const tasks: PlannedTask[] = [...made.tasks.filter(({ key }) => !byKey.has(key)), ...byKey.values()].sort(
    (a, b) => a.startsAt - b.startsAt || (a.key < b.key ? -1 : 1),
  )
  const readyAt = laterOfRunning(readyOf(built, schedule), running)
  return {
    ...made,
    tasks,
    readyAt,
    startsAt: tasks[0]?.startsAt ?? readyAt,
    smoothness: smoothnessOf(tasks, null),
  }
}

const laterOfRunning = (readyAt: Instant, running: readonly RunningNow[]): Instant =>
  running.map(({ task }) => task.endsAt).reduce(laterOf, readyAt)
