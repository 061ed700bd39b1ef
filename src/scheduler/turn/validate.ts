/**
 * Whether a schedule is true to its instance. Written from the model alone, with nothing of the solver in it: what it
 * lets pass may be promised.
 */
import type { Lane, Mode, Schedule, ScheduledActivity, TickSpan, TurnInstance } from './instance.ts'

/**
 * @param instance without problems (`instanceProblems`)
 * @returns one sentence a fault; empty when the schedule can be carried out as it stands
 */
export function scheduleFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults = listFaults(instance, schedule)
  // Without every activity once, and in a mode that exists, the rest cannot be asked.
  if (faults.length > 0) return faults
  return [
    ...timeFaults(instance, schedule),
    ...handsFaults(instance, schedule),
    ...laneFaults(instance, schedule),
    ...resourceFaults(instance, schedule),
    ...budgetFaults(instance, schedule),
    ...consumableFaults(instance, schedule),
    ...readyFaults(instance, schedule),
  ]
}

function listFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  const timesPlanned = new Map<number, number>()
  for (const { activity } of schedule.activities)
    timesPlanned.set(activity, (timesPlanned.get(activity) ?? 0) + 1)
  for (const [index, activity] of instance.activities.entries()) {
    const times = timesPlanned.get(index) ?? 0
    if (times !== 1) faults.push(`${activity.key} is planned ${times} times`)
  }
  for (const [position, planned] of schedule.activities.entries()) {
    const activity = instance.activities[planned.activity]
    if (!activity) faults.push(`there is no activity ${planned.activity}`)
    else if (planned.activity !== position) faults.push(`${activity.key} is out of order`)
    else if (!activity.modes[planned.mode]) faults.push(`${activity.key} has no mode ${planned.mode}`)
  }
  return faults
}

function timeFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  for (const planned of schedule.activities) {
    const { key, turn, after, pinned } = instance.activities[planned.activity]!
    const { startTick, endTick } = planned
    if (!Number.isInteger(startTick) || !Number.isInteger(endTick))
      faults.push(`${key} is not at whole ticks`)
    const duration = modeOf(instance, planned).durationTicks
    if (endTick - startTick !== duration) faults.push(`${key} takes ${endTick - startTick}, not ${duration}`)
    const { releaseTick } = instance.turns[turn]!
    if (!(startTick >= releaseTick))
      faults.push(`${key} starts at ${startTick}, before its release ${releaseTick}`)
    if (pinned && startTick !== releaseTick)
      faults.push(`${key} starts at ${startTick}, though it is pinned to ${releaseTick}`)
    if (!(endTick <= instance.horizonTick)) faults.push(`${key} ends at ${endTick}, after the horizon`)
    for (const predecessor of after) {
      const before = schedule.activities[predecessor]!
      if (!(before.endTick <= startTick)) {
        faults.push(
          `${key} starts at ${startTick}, before ${nameOf(instance, before)} ends at ${before.endTick}`,
        )
      }
    }
  }
  return faults
}

/** As many hands as the mode asks for, all different, each with the skills of its group. */
function handsFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  for (const planned of schedule.activities) {
    const key = nameOf(instance, planned)
    const { hands } = modeOf(instance, planned)
    const count = hands.reduce((sum, need) => sum + need.count, 0)
    if (planned.lanes.length !== count) {
      faults.push(`${key} has ${planned.lanes.length} hands, not ${count}`)
    }
    if (planned.lanes.some((lane, slot) => planned.lanes.indexOf(lane) !== slot)) {
      faults.push(`${key} has the same hand twice`)
    }
    let need = 0
    let slotsBefore = 0
    for (const [slot, laneIndex] of planned.lanes.entries()) {
      while (hands[need] && slot >= slotsBefore + hands[need]!.count) {
        slotsBefore += hands[need]!.count
        need += 1
      }
      const lane = instance.lanes[laneIndex]
      const skillMask = hands[need]?.skillMask ?? 0
      if (!lane) faults.push(`${key}: there is no lane ${laneIndex}`)
      else if ((lane.skillMask & skillMask) !== skillMask) faults.push(`${key}: ${lane.key} lacks a skill`)
    }
  }
  return faults
}

interface Held extends TickSpan {
  readonly place: number
  readonly key: string
  readonly isOwn: boolean
}

/** On duty from start to end; one thing at a time; time to walk between one place and the next. */
function laneFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  const walkMost = Math.max(0, ...instance.walkTicks.flat())
  const workByLane = workOfLanes(instance, schedule)
  for (const [laneIndex, lane] of instance.lanes.entries()) {
    const own = workByLane.get(laneIndex)
    if (!own) continue
    for (const work of own) {
      if (!isOnDuty(lane, work)) faults.push(`${work.key}: ${lane.key} is off duty`)
    }
    // What is further away than the longest walk cannot be in the way.
    const nearFrom =
      own.reduce((least, work) => Math.min(least, work.from), Number.POSITIVE_INFINITY) - walkMost
    const nearTo = own.reduce((most, work) => Math.max(most, work.to), Number.NEGATIVE_INFINITY) + walkMost
    const inOrder: Held[] = [...own]
    for (const { from, to, place } of lane.busy) {
      if (to > nearFrom && from < nearTo) inOrder.push({ from, to, place, key: 'what stands', isOwn: false })
    }
    inOrder.sort((a, b) => a.from - b.from || a.to - b.to)
    for (let position = 1; position < inOrder.length; position++) {
      const previous = inOrder[position - 1]!
      const next = inOrder[position]!
      if (!(previous.isOwn || next.isOwn)) continue
      const walk = instance.walkTicks[previous.place]![next.place]!
      if (!(previous.to + walk <= next.from)) {
        faults.push(
          `${lane.key} cannot be at ${next.key} at ${next.from}: ${previous.key} holds it until ${previous.to}`,
        )
      }
    }
  }
  return faults
}

/** By index of lane, each activity once; lanes without work are left out. */
function workOfLanes(instance: TurnInstance, schedule: Schedule): Map<number, Held[]> {
  const workByLane = new Map<number, Held[]>()
  for (const planned of schedule.activities) {
    const { key, place } = instance.activities[planned.activity]!
    const work = { from: planned.startTick, to: planned.endTick, place, key, isOwn: true }
    for (const [slot, lane] of planned.lanes.entries()) {
      if (planned.lanes.indexOf(lane) !== slot) continue
      const known = workByLane.get(lane)
      if (known) known.push(work)
      else workByLane.set(lane, [work])
    }
  }
  return workByLane
}

function isOnDuty(lane: Lane, work: TickSpan): boolean {
  let coveredTo = work.from
  for (const span of lane.available) {
    if (span.from <= coveredTo && coveredTo < span.to) coveredTo = span.to
  }
  return coveredTo >= work.to
}

/** Use only grows where something starts, what is there only shrinks at its steps: those ticks are enough. */
function resourceFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  const usesByResource = usesOfResources(instance, schedule)
  for (const [resourceIndex, resource] of instance.resources.entries()) {
    const uses = usesByResource.get(resourceIndex)
    if (!uses) continue
    const usedFrom = uses.reduce((least, use) => Math.min(least, use.from), Number.POSITIVE_INFINITY)
    const usedTo = uses.reduce((most, use) => Math.max(most, use.to), Number.NEGATIVE_INFINITY)
    const shrinks = resource.capacity.map((step) => step.fromTick).filter((t) => t > usedFrom && t < usedTo)
    const ticks = [...new Set([...uses.map((use) => use.from), ...shrinks])].sort((a, b) => a - b)
    let stepsPassed = 0
    for (const tick of ticks) {
      while (resource.capacity[stepsPassed] && resource.capacity[stepsPassed]!.fromTick <= tick)
        stepsPassed += 1
      const there = resource.capacity[stepsPassed - 1]?.amount ?? 0
      let used = 0
      for (const use of uses) if (use.from <= tick && tick < use.to) used += use.amount
      if (used > there) faults.push(`${resource.key}: ${used} used at ${tick}, ${there} there`)
    }
  }
  return faults
}

/** By index of resource, in order of activities; resources that nothing uses are left out. */
function usesOfResources(
  instance: TurnInstance,
  schedule: Schedule,
): Map<number, (TickSpan & { readonly amount: number })[]> {
  const usesByResource = new Map<number, (TickSpan & { readonly amount: number })[]>()
  for (const planned of schedule.activities) {
    for (const { resource, amount } of modeOf(instance, planned).uses) {
      if (!(amount > 0)) continue
      const use = { from: planned.startTick, to: planned.endTick, amount }
      const known = usesByResource.get(resource)
      if (known) known.push(use)
      else usesByResource.set(resource, [use])
    }
  }
  return usesByResource
}

/** All lanes of a budget together, each for as long as it is held. */
function budgetFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  for (const [budgetIndex, budget] of (instance.budgets ?? []).entries()) {
    let laneTicks = 0
    for (const planned of schedule.activities) {
      const paid = planned.lanes.filter((laneIndex) => instance.lanes[laneIndex]?.budget === budgetIndex)
      laneTicks += paid.length * (planned.endTick - planned.startTick)
    }
    if (laneTicks > budget.laneTicksMost) {
      faults.push(`${budget.key}: ${laneTicks} lane-ticks used, ${budget.laneTicksMost} there`)
    }
  }
  return faults
}

/** What the modes take, whenever that is. */
function consumableFaults(instance: TurnInstance, schedule: Schedule): string[] {
  return (instance.consumables ?? []).flatMap(({ key, amountMost }, index) => {
    let taken = 0
    for (const planned of schedule.activities) {
      for (const { consumable, amount } of modeOf(instance, planned).consumes ?? [])
        if (consumable === index) taken += amount
    }
    return taken > amountMost ? [`${key}: ${taken} used up, ${amountMost} there`] : []
  })
}

function readyFaults(instance: TurnInstance, schedule: Schedule): string[] {
  const faults: string[] = []
  if (schedule.readyTicks.length !== instance.turns.length) faults.push('not one ready tick a turn')
  for (const [turnIndex, turn] of instance.turns.entries()) {
    const ends = schedule.activities
      .filter((planned) => instance.activities[planned.activity]!.turn === turnIndex)
      .map((planned) => planned.endTick)
    const readyTick = ends.length > 0 ? Math.max(...ends) : turn.releaseTick
    if (schedule.readyTicks[turnIndex] !== readyTick) {
      faults.push(`turn ${turnIndex} is ready at ${readyTick}, not ${schedule.readyTicks[turnIndex]}`)
    }
  }
  return faults
}

const modeOf = (instance: TurnInstance, planned: ScheduledActivity): Mode =>
  instance.activities[planned.activity]!.modes[planned.mode]!

const nameOf = (instance: TurnInstance, planned: ScheduledActivity): string =>
  instance.activities[planned.activity]!.key
