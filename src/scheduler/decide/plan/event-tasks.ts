/**
 * What an event itself takes, as tasks at fixed times beside those of its turn: crew that it demands, and quiet in rooms
 * that it hears. So they are held by its plan like everything else.
 */
import type { CrewDemand } from '../../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds, secondsBetween } from '../../../domain/instant.ts'
import type { Task, TaskKind, TaskResource } from '../../../domain/task.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'

export interface EventTask extends HalfOpenInterval {
  readonly task: Task
  /** null: it asks for quiet. */
  readonly demand: CrewDemand | null
}

const isEvent = (kind: TaskKind): boolean => kind === 'duty' || kind === 'event'

/** Whether a task is work of the turn: what its readiness and its window are about. */
export const isTurnWork = ({ kind }: { readonly kind: TaskKind }): boolean => !isEvent(kind)

/** One task lasts a day at most. */
const DAY_SECONDS = 86_400
/** As quiet and dark are counted: all of it. */
const WHOLE = 1000

export function eventTasks({ asks, room }: TurnInput): EventTask[] {
  const quiet = daysOf(asks.quiet).map((span, index): EventTask => {
    const uses = [{ resource: `quiet:${room.id}`, amount: WHOLE }]
    const text = `Quiet for the event in ${room.name}: no noisy work in rooms that it hears.`
    return { ...span, demand: null, task: { ...aTask('event', index, text, span, 0), uses } }
  })
  const duties = asks.crewDemands.map((demand, index): EventTask => {
    const span = { fromAt: demand.fromAt, toAt: demand.toAt }
    const text = `At the event in ${room.name}: ${demand.what}.`
    const task = { ...aTask('duty', index, text, span, demand.hands), skill: demand.skill }
    return { ...span, demand, task }
  })
  return [...quiet, ...duties]
}

/** What those tasks hold, to go with the resources of the network. */
export const eventResources = ({ asks, room }: TurnInput): TaskResource[] =>
  asks.quiet ? [{ key: `quiet:${room.id}`, label: `Quiet in ${room.name}`, capacity: WHOLE }] : []

function daysOf(span: HalfOpenInterval | null): HalfOpenInterval[] {
  const days: HalfOpenInterval[] = []
  let fromAt = span?.fromAt ?? (0 as Instant)
  while (span && fromAt < span.toAt) {
    const toAt = Math.min(instantPlusSeconds(fromAt, DAY_SECONDS), span.toAt) as Instant
    days.push({ fromAt, toAt })
    fromAt = toAt
  }
  return days
}

function aTask(
  kind: 'duty' | 'event',
  index: number,
  text: string,
  { fromAt, toAt }: HalfOpenInterval,
  hands: number,
): Task {
  const seconds = secondsBetween(fromAt, toAt)
  return {
    key: `${kind}/${index + 1}`,
    kind,
    zone: null,
    text,
    count: null,
    furnishingId: null,
    equipmentId: null,
    fromPlace: null,
    toPlace: null,
    workPersonSeconds: seconds * hands,
    modes: [{ hands, seconds }],
    skill: null,
    adultsOnly: false,
    uses: [],
    after: [],
    safetyNotes: [],
  }
}
