/** What is wrong with what is told of a turn, each with the place where it is told. */
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { PersonId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { TURN_LONGEST_SECONDS } from '../../domain/turn.ts'
import type { TurnProgress } from '../../domain/turn-progress.ts'
import { isTurnWork } from '../decide/index.ts'
import { lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import type { ProgressFault } from './progress-fault.ts'
import { standsFaults } from './stands-faults.ts'

/**
 * @param plan   that people carry
 * @param input  of the turn
 * @param laneIds  everybody who is on duty at some time, or is in the plan
 * @returns in order of what is told
 */
export function progressFaults(
  world: World,
  plan: Plan,
  { releaseAt, network: input }: Pick<TurnInput, 'releaseAt' | 'network'>,
  laneIds: ReadonlySet<string>,
  progress: TurnProgress,
): ProgressFault[] {
  const { now } = world
  return [
    ...taskFaults(plan, progress),
    ...tooEarly(world, releaseAt, progress),
    ...progress.done.flatMap(({ doneAt }, index) => future(`/done/${index}/doneAt`, doneAt, now)),
    ...handFaults(plan, laneIds, progress),
    ...nobodyAtIt(plan, progress),
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
    if (missing.findIndex((one) => one.laneId === laneId && one.fromAt === fromAt) < index)
      faults.push({ at: `/missing/${index}/laneId`, message: `${laneId} is listed twice; list it once` })
    faults.push(...wrongOrder(`/missing/${index}`, fromAt, toAt))
  }
  return faults
}

/** Nobody is told to be at what takes hands. */
const nobodyAtIt = ({ tasks }: Plan, { running }: TurnProgress): ProgressFault[] =>
  running.flatMap(({ taskKey, laneIds }, index): ProgressFault[] => {
    const takesHands = tasks.some(({ key, hands }) => key === taskKey && hands > 0)
    if (!takesHands || laneIds === null || laneIds.length > 0) return []
    const message = 'somebody must be at it: name them, or leave laneIds out for those the plan has for it'
    return [{ at: `/running/${index}/laneIds`, message }]
  })

const wrongOrder = (at: string, fromAt: Instant | null, toAt: Instant | null): ProgressFault[] =>
  fromAt !== null && toAt !== null && fromAt >= toAt
    ? [{ at: `${at}/toAt`, message: 'it must be after fromAt' }]
    : []

/** Before a turn can begin nothing of it is done. */
function tooEarly({ now }: World, releaseAt: Instant, { done, running }: TurnProgress): ProgressFault[] {
  if (done.length + running.length === 0) return []
  if (now >= instantPlusSeconds(releaseAt, -TURN_LONGEST_SECONDS)) return []
  const hours = TURN_LONGEST_SECONDS / 3600
  const message = `more than ${hours} h before those before are out nothing of it can be done or running`
  return [{ at: done.length > 0 ? '/done' : '/running', message }]
}

const addedFaults = ({ setup, now }: World, { added, missing }: TurnProgress): ProgressFault[] =>
  added.flatMap(({ personId, skills, fromAt, toAt }, index) => [
    ...(personId !== null && added.findIndex((one) => one.personId === personId) < index
      ? [{ at: `/added/${index}/personId`, message: `${personId} is listed twice; list them once` }]
      : []),
    ...(personId !== null && skills.length > 0
      ? [
          {
            at: `/added/${index}/skills`,
            message: 'the skills of somebody listed are on record; leave them out',
          },
        ]
      : []),
    ...(personId !== null &&
    missing.some((one) => String(one.laneId) === personId && isOverlap(one, { fromAt, toAt }, now))
      ? [{ at: `/added/${index}/personId`, message: `${personId} is told as missing at the same time` }]
      : []),
    ...(personId !== null && fromAt !== null && toAt !== null && isOnDuty(setup, personId, { fromAt, toAt })
      ? [{ at: `/added/${index}/personId`, message: `${personId} is on duty all that time already` }]
      : []),
    ...(personId !== null && !setup.people.some(({ id }) => id === personId)
      ? [{ at: `/added/${index}/personId`, message: `there is no person ${personId} in this site` }]
      : []),
    ...wrongOrder(`/added/${index}`, fromAt, toAt),
  ])

type Span = { readonly fromAt: Instant | null; readonly toAt: Instant | null }

/** From now on and for good, where nothing is said. */
const isOverlap = (a: Span, b: Span, now: Instant): boolean => {
  const isBefore = (one: Span, other: Span) => one.toAt !== null && one.toAt <= (other.fromAt ?? now)
  return !isBefore(a, b) && !isBefore(b, a)
}

const isOnDuty = (setup: SiteSetup, personId: PersonId, span: HalfOpenInterval): boolean =>
  lanesOnDuty(setup, span).some(
    ({ laneId, onDuty }) =>
      String(laneId) === String(personId) &&
      onDuty.some(({ fromAt, toAt }) => fromAt <= span.fromAt && span.toAt <= toAt),
  )
