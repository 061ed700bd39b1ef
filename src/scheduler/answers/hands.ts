/** A turn with some of the crew and some added, and nobody else of the crew. */
import { HELPERS_PER_LEAD } from '../../domain/booking-terms.ts'
import { ADULT, CREW } from '../decide/plan/activities-of.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import type { Lane, Schedule, TickSpan, TurnInstance } from '../turn/index.ts'
import { type CrewMember, overlapTicks } from './crew-members.ts'
import type { InstanceAround } from './instance-around.ts'

export interface Hands {
  readonly people: readonly CrewMember[]
  /** Adults without special skills, there whenever any of the crew is. */
  readonly added: number
}

/** One that is added has a number, from 0; of a group that helps each is null. */
type Owner = CrewMember | number | null

export interface InstanceWithHands {
  readonly instance: TurnInstance
  /** By lane of the instance. */
  readonly owners: readonly Owner[]
  /** By lane of the instance: which it is of all that there are; null: it is added. */
  readonly laneOf: readonly (number | null)[]
}

/**
 * Of a group that helps there are as many as those who are there can lead.
 * @param window  where none of the crew is on duty in it, those added are there all the time
 */
export function withHands(around: InstanceAround, hands: Hands, window: TickSpan): InstanceWithHands {
  const { built } = around
  const kept = [...lanesKept(around, hands.people)]
  const ownerOf = new Map(hands.people.flatMap((member) => member.lanes.map((lane) => [lane, member])))
  const added = Array.from({ length: hands.added }, (_, index) => addedLane(around, index, window))
  return {
    instance: {
      ...built.instance,
      lanes: [...kept.map((lane) => built.instance.lanes[lane]!), ...added],
    },
    owners: [...kept.map((lane) => ownerOf.get(lane) ?? null), ...added.keys()],
    laneOf: [...kept, ...added.map(() => null)],
  }
}

/** Of each of them its lanes in the instance. */
export function lanesByHand({ people, added }: Hands, owners: readonly Owner[]): (readonly number[])[] {
  const lanesOf = (owner: Owner) => [...owners.keys()].filter((lane) => owners[lane] === owner)
  return [...people.map(lanesOf), ...Array.from({ length: added }, (_, index) => lanesOf(index))]
}

/**
 * Those who do something, and whoever of the rest must be there to lead a group that helps.
 * @returns with for how long each of the crew works
 */
export function handsOf(
  around: InstanceAround,
  { instance, owners, laneOf }: InstanceWithHands,
  schedule: Schedule,
): { readonly hands: Hands; readonly ticks: ReadonlyMap<CrewMember, number> } {
  const ticks = new Map<Owner, number>()
  const helping = new Set<number>()
  for (const [index, { lanes, mode }] of schedule.activities.entries()) {
    const { durationTicks } = instance.activities[index]!.modes[mode]!
    for (const lane of lanes) {
      const owner = owners[lane]!
      if (owner === null) helping.add(laneOf[lane]!)
      else ticks.set(owner, (ticks.get(owner) ?? 0) + durationTicks)
    }
  }
  const members = [...new Set(owners)].filter((owner) => owner !== null && typeof owner !== 'number')
  const people = members.filter((member) => ticks.has(member))
  for (const member of members.filter((one) => !ticks.has(one))) {
    const kept = lanesKept(around, people)
    if ([...helping].every((lane) => kept.has(lane))) break
    people.push(member)
  }
  return {
    hands: { people, added: [...ticks.keys()].filter((owner) => typeof owner === 'number').length },
    ticks: new Map(people.map((member) => [member, ticks.get(member) ?? 0])),
  }
}

/** Indices of the lanes that are there with no more of the crew than these, ascending. */
export function lanesKept({ built, part }: InstanceAround, people: readonly CrewMember[]): Set<number> {
  const there = new Set(people.flatMap(({ lanes }) => lanes))
  const kept = new Set(
    [...built.lanes.keys()].filter((index) => !built.lanes[index]!.crew || there.has(index)),
  )
  for (const { bookingId, fromAt } of part.input.asks.helpers) {
    const tick = (fromAt - built.originAt) / TICK_MS
    const isThere = (lane: Lane) => lane.available.some(({ from, to }) => from <= tick && tick < to)
    const leads = [...there].filter((index) => isThere(built.instance.lanes[index]!)).length
    for (const [index, { laneId }] of built.lanes.entries()) {
      const [owner, hand] = laneId.split('#')
      if (owner === bookingId && Number(hand) > leads * HELPERS_PER_LEAD) kept.delete(index)
    }
  }
  return kept
}

/** Without anybody of the crew: a group that helps, all of it. */
export const lanesBesideCrew = ({ built }: InstanceAround): Lane[] =>
  built.instance.lanes.filter((_, index) => !built.lanes[index]!.crew)

function addedLane({ built }: InstanceAround, index: number, window: TickSpan): Lane {
  const { instance } = built
  const crewTimes = instance.lanes.filter((_, lane) => built.lanes[lane]!.crew)
  const isStaffed = crewTimes.some(({ available }) =>
    available.some((span) => overlapTicks(span, window) > 0),
  )
  const available = isStaffed
    ? united(crewTimes.flatMap((lane) => lane.available))
    : [{ from: 0, to: instance.horizonTick }]
  const skillMask = built.skills.reduce(
    (mask, name, bit) => (name === ADULT || name === CREW ? mask | (1 << bit) : mask),
    0,
  )
  return { key: `added-${index + 1}`, skillMask, available, busy: [] }
}

export function united(spans: readonly TickSpan[]): TickSpan[] {
  const union: { from: number; to: number }[] = []
  for (const { from, to } of [...spans].sort((a, b) => a.from - b.from)) {
    const last = union.at(-1)
    if (last && from <= last.to) last.to = Math.max(last.to, to)
    else union.push({ from, to })
  }
  return union
}
