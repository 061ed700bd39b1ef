/** What is wrong with what is told of a turn, each with the place where it is told. */
import type { Instant } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { TurnProgress } from '../../domain/turn-progress.ts'
import { isTurnWork } from '../decide/index.ts'
import type { NetworkInput } from '../network/index.ts'
import type { World } from '../timeline/world.ts'

export interface ProgressFault {
  /** JSON pointer into what is told. */
  readonly at: string
  readonly message: string
}

/**
 * @param plan   that people carry
 * @param input  of the turn
 * @param laneIds  everybody who is on duty at some time, or is in the plan
 * @returns in order of what is told
 */
export function progressFaults(
  world: World,
  plan: Plan,
  input: NetworkInput,
  laneIds: ReadonlySet<string>,
  progress: TurnProgress,
): ProgressFault[] {
  const { now } = world
  return [
    ...taskFaults(plan, progress),
    ...progress.done.flatMap(({ doneAt }, index) => future(`/done/${index}/doneAt`, doneAt, now)),
    ...handFaults(plan, laneIds, progress),
    ...addedFaults(world, progress),
    ...standsFaults(world, input, progress),
  ]
}

const future = (at: string, moment: Instant | null, now: Instant): ProgressFault[] =>
  moment !== null && moment > now
    ? [{ at, message: 'nothing is done yet that is done later: it must not be after the moment asked about' }]
    : []

function taskFaults({ tasks }: Plan, { done, running }: TurnProgress): ProgressFault[] {
  const known = new Set(tasks.filter(isTurnWork).map(({ key }) => key))
  const seen = new Map<string, string>()
  const told = [
    ...done.map(({ taskKey }, index) => ({ taskKey, at: `/done/${index}/taskKey`, as: 'done' })),
    ...running.map(({ taskKey }, index) => ({ taskKey, at: `/running/${index}/taskKey`, as: 'running' })),
  ]
  return told.flatMap(({ taskKey, at, as }): ProgressFault[] => {
    if (!known.has(taskKey)) return [{ at, message: `the plan of this turn has no task ${taskKey}` }]
    const before = seen.get(taskKey)
    seen.set(taskKey, as)
    if (before === undefined) return []
    return [
      {
        at,
        message:
          before === as
            ? `task ${taskKey} is listed twice; list it once`
            : `task ${taskKey} is told as done and as running; it is one or the other`,
      },
    ]
  })
}

function handFaults(
  { tasks }: Plan,
  known: ReadonlySet<string>,
  { running, missing }: TurnProgress,
): ProgressFault[] {
  const faults: ProgressFault[] = []
  const unknown = (at: string, laneId: string) => {
    if (!known.has(laneId))
      faults.push({ at, message: `${laneId} is neither on duty nor in the plan of this turn` })
  }
  const atWork = new Map<string, string>()
  for (const [index, { taskKey, laneIds }] of running.entries()) {
    const planned = tasks.find(({ key }) => key === taskKey)?.laneIds ?? []
    for (const [hand, laneId] of (laneIds ?? planned).entries()) {
      const at = laneIds === null ? `/running/${index}` : `/running/${index}/laneIds/${hand}`
      unknown(at, laneId)
      const elsewhere = atWork.get(laneId)
      if (elsewhere !== undefined)
        faults.push({ at, message: `${laneId} is at ${elsewhere} already; say who is at which of them` })
      atWork.set(laneId, taskKey)
    }
  }
  for (const [index, { laneId, fromAt, toAt }] of missing.entries()) {
    unknown(`/missing/${index}/laneId`, laneId)
    faults.push(...wrongOrder(`/missing/${index}`, fromAt, toAt))
  }
  return faults
}

const wrongOrder = (at: string, fromAt: Instant | null, toAt: Instant | null): ProgressFault[] =>
  fromAt !== null && toAt !== null && fromAt >= toAt
    ? [{ at: `${at}/toAt`, message: 'it must be after fromAt' }]
    : []

const addedFaults = ({ setup }: World, { added }: TurnProgress): ProgressFault[] =>
  added.flatMap(({ personId, fromAt, toAt }, index) => [
    ...(personId !== null && !setup.people.some(({ id }) => id === personId)
      ? [{ at: `/added/${index}/personId`, message: `there is no person ${personId} in this site` }]
      : []),
    ...wrongOrder(`/added/${index}`, fromAt, toAt),
  ])

function standsFaults(
  { setup }: World,
  { room, equipmentFrom }: NetworkInput,
  { stands }: TurnProgress,
): ProgressFault[] {
  if (stands === null) return []
  const seen = new Set<string>()
  return [
    ...stands.pieces.flatMap(({ furnishingId, count, inPlace }, index): ProgressFault[] => {
      const at = `/stands/pieces/${index}`
      const furnishing = setup.furnishings.find(({ id }) => id === furnishingId)
      if (!furnishing)
        return [{ at: `${at}/furnishingId`, message: `there is no furnishing ${furnishingId} in this site` }]
      const isTwice = seen.has(furnishingId)
      seen.add(furnishingId)
      return [
        ...(isTwice
          ? [
              {
                at: `${at}/furnishingId`,
                message: `furnishing ${furnishingId} is listed twice; list it once`,
              },
            ]
          : []),
        ...(inPlace !== null && inPlace > count
          ? [{ at: `${at}/inPlace`, message: `${inPlace} of ${count} cannot be in place` }]
          : []),
      ]
    }),
    ...stands.equipment.flatMap(({ equipmentId }, index): ProgressFault[] => {
      if (equipmentFrom.some(({ equipment }) => equipment.id === equipmentId)) return []
      const at = `/stands/equipment/${index}/equipmentId`
      return [{ at, message: `${room.name} has no equipment ${equipmentId}` }]
    }),
  ]
}
