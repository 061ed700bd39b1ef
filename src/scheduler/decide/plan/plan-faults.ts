/**
 * What is wrong with a plan by itself: asked of every plan before it is written and after it is read. It shares no
 * code with what makes plans. Whether its hands are on duty and free is asked by `brokenInvariants`.
 */
import type { Plan, PlannedTask } from '../../../domain/plan.ts'
import { amountUsed } from '../../../domain/task.ts'
import type { Turn } from '../../../domain/turn.ts'

/** @returns one sentence a fault; empty: the plan holds, or the turn has none and is not said to be ready */
export function planFaults(turn: Turn): string[] {
  const { plan } = turn
  if (plan === null) return turn.status === 'ready' ? [`${turn.id} is said to be ready and has no plan`] : []
  // One that fails keeps the best plan there is, late as it may be.
  if (turn.status === 'dropped') return [`${turn.id} is dropped and still holds a plan`]
  return [
    ...plan.tasks.flatMap((task) => taskFaults(turn, task)),
    ...orderFaults(plan),
    ...laneFaults(plan),
    ...resourceFaults(plan),
    ...endFaults(turn, plan),
  ].map((fault) => `${turn.id}: ${fault}`)
}

function taskFaults(turn: Turn, task: PlannedTask): string[] {
  const faults: string[] = []
  const seconds = (task.endsAt - task.startsAt) / 1000
  const mode = task.modes.find((one) => one.hands === task.hands)
  if (!mode) faults.push(`${task.key} cannot be done by ${task.hands} hands`)
  else if (seconds < mode.seconds) faults.push(`${task.key} has ${seconds} s and needs ${mode.seconds}`)
  if (task.laneIds.length !== task.hands)
    faults.push(`${task.key} has ${task.laneIds.length} of ${task.hands} hands`)
  if (new Set(task.laneIds).size !== task.laneIds.length) faults.push(`${task.key} counts one hand twice`)
  // What the event itself takes is at the time of the event.
  if (!isWork(task)) return faults
  if (task.startsAt < turn.releaseAt) faults.push(`${task.key} starts before the room is clear`)
  if (task.endsAt > turn.dueAt && turn.status === 'ready') faults.push(`${task.key} ends after doors`)
  return faults
}

function orderFaults(plan: Plan): string[] {
  const byKey = new Map(plan.tasks.map((task) => [task.key, task]))
  const faults = byKey.size === plan.tasks.length ? [] : ['a task is planned twice']
  for (const task of plan.tasks) {
    for (const key of task.after) {
      const earlier = byKey.get(key)
      if (!earlier) faults.push(`${task.key} waits for ${key}, which is not planned`)
      else if (earlier.endsAt > task.startsAt) faults.push(`${task.key} starts before ${key} has ended`)
    }
  }
  return faults
}

function laneFaults(plan: Plan): string[] {
  const faults: string[] = []
  for (const [index, task] of plan.tasks.entries()) {
    for (const other of plan.tasks.slice(index + 1)) {
      if (task.startsAt >= other.endsAt || other.startsAt >= task.endsAt) continue
      const both = task.laneIds.find((laneId) => other.laneIds.includes(laneId))
      if (both) faults.push(`${both} does ${task.key} and ${other.key} at once`)
    }
  }
  return faults
}

function resourceFaults(plan: Plan): string[] {
  return plan.resources.flatMap((resource) =>
    plan.tasks.flatMap((task) => {
      // A load can only be at its highest where some task begins.
      const held = plan.tasks
        .filter((other) => other.startsAt <= task.startsAt && task.startsAt < other.endsAt)
        .flatMap((other) =>
          other.uses
            .filter((use) => use.resource === resource.key)
            .map((use) => amountUsed(use, other.hands)),
        )
        .reduce((sum, amount) => sum + amount, 0)
      return held > resource.capacity
        ? [`${held} of ${resource.capacity} ${resource.label} in use at ${task.key}`]
        : []
    }),
  )
}

function endFaults(turn: Turn, plan: Plan): string[] {
  const work = plan.tasks.filter(isWork)
  const lastAt = Math.max(turn.releaseAt, ...work.map((task) => task.endsAt))
  return plan.readyAt === lastAt || work.length === 0 ? [] : ['it is not ready when its last task ends']
}

const isWork = ({ kind }: PlannedTask): boolean => kind !== 'duty' && kind !== 'event'
