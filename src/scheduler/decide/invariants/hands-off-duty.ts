/**
 * Whoever is at work is there for all of it, may do it, and has the skill: the crew on duty, hands that nobody has
 * promised as far as the policy counts on them, and of a group what it has said, at what it may help with.
 */
import { covers } from '../../../domain/half-open-interval.ts'
import type { LaneId } from '../../../domain/ids.ts'
import { earlierOf, laterOf } from '../../../domain/instant.ts'
import type { PlannedTask } from '../../../domain/plan.ts'
import type { TaskKind } from '../../../domain/task.ts'
import type { Turn } from '../../../domain/turn.ts'
import { lanesOnDuty } from '../../timeline/lanes-on-duty.ts'
import type { World } from '../../timeline/world.ts'
import { helperHand } from './helper-hand.ts'
import type { WholeSite } from './whole-site.ts'

export const handsOffDuty = ({ world, toCome }: WholeSite): string[] =>
  toCome.flatMap((turn) => handsOffDutyIn(world, turn))

function handsOffDutyIn(world: World, turn: Turn): string[] {
  const tasks = turn.plan?.tasks ?? []
  if (tasks.length === 0) return []
  const span = {
    fromAt: tasks.map(({ startsAt }) => startsAt).reduce(earlierOf),
    toAt: tasks.map(({ endsAt }) => endsAt).reduce(laterOf),
  }
  const lanes = lanesOnDuty(world.setup, span)
  return tasks.flatMap((task) => {
    const during = { fromAt: task.startsAt, toAt: task.endsAt }
    const crew = task.laneIds.map(
      (laneId) =>
        lanes.find((lane) => lane.laneId === laneId && lane.onDuty.some((duty) => covers(duty, during))) ??
        assumedHand(world, laneId) ??
        helperHand(world, turn, task, laneId),
    )
    const faults = task.laneIds
      .filter((_, index) => !crew[index])
      .map((laneId) => `${turn.id}: ${laneId} is not on duty for all of ${task.key}`)
    const skilled = crew.filter((lane) => lane?.skills.includes(task.skill ?? '')).length
    const skilledNeeded = task.kind === 'duty' ? task.hands : 1
    if (task.skill !== null && task.hands > 0 && skilled < skilledNeeded)
      faults.push(`${turn.id}: nobody at ${task.key} has the skill ${task.skill}`)
    const hasMinor = crew.some((lane) => lane !== null && !lane.adult)
    if (hasMinor && (task.adultsOnly || isTooHeavy(world, task)))
      faults.push(`${turn.id}: a minor at ${task.key}`)
    return faults
  })
}

interface Hand {
  readonly skills: readonly string[]
  readonly adult: boolean
}

/** One that nobody has promised, as far as the policy counts on them. */
function assumedHand({ setup }: World, laneId: LaneId): Hand | null {
  const [owner, number] = laneId.split('#')
  return owner === 'assumed' && Number(number) <= setup.policy.planningHands
    ? { skills: [], adult: true }
    : null
}

const lifting: ReadonlySet<TaskKind> = new Set(['strike', 'restack', 'park', 'set'])

/** For minors, its mass shared among those who must lift one piece together. */
function isTooHeavy({ setup, furnishingsById }: World, { kind, furnishingId }: PlannedTask): boolean {
  const piece = furnishingId === null ? undefined : furnishingsById.get(furnishingId)
  if (!piece || !lifting.has(kind)) return false
  return piece.massKilograms / piece.handsPerPiece > setup.policy.minorMassLimitKilograms
}
