/** The hands there really are: without those who are missing, with those who have come. */
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import { LaneId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { Turn } from '../../domain/turn.ts'
import type { TurnProgress } from '../../domain/turn-progress.ts'
import { ADULT, CREW, maskIn } from '../decide/plan/activities-of.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { isAssumed } from '../decide/plan/lanes-for.ts'
import { type HeldLane, reservationsOf } from '../decide/plan/reservations.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import type { LaneOnDuty } from '../timeline/lanes-on-duty.ts'
import type { World } from '../timeline/world.ts'
import type { Lane, TickSpan } from '../turn/index.ts'

export interface HandsNow {
  readonly missing: readonly (HalfOpenInterval & { readonly laneId: LaneId })[]
  readonly added: readonly LaneOnDuty[]
}

/** Hands that the plan counts on and nobody has promised: they are there until somebody says that they are not. */
export const assumedIn = ({ tasks }: Plan): number =>
  new Set(tasks.flatMap(({ laneIds }) => laneIds.filter(isAssumed))).size

/**
 * Somebody who is listed is known by the person, others are counted on from the hands that the plan assumes.
 * @param untilAt  as late as anything is planned
 */
export function handsNow(world: World, plan: Plan, progress: TurnProgress, untilAt: Instant): HandsNow {
  let unnamed = highestAssumed(plan)
  const spanOf = (one: { readonly fromAt: Instant | null; readonly toAt: Instant | null }) => ({
    fromAt: one.fromAt ?? world.now,
    toAt: one.toAt ?? untilAt,
  })
  return {
    missing: progress.missing.map((one) => ({ laneId: one.laneId, ...spanOf(one) })),
    added: progress.added.map((one): LaneOnDuty => {
      const person = world.setup.people.find(({ id }) => id === one.personId)
      return {
        laneId: LaneId.parse(person ? person.id : `assumed#${++unnamed}`),
        skills: person?.skills ?? one.skills,
        adult: person?.adult ?? one.adult,
        paid: false,
        crew: true,
        onDuty: [spanOf(one)],
      }
    }),
  }
}

const highestAssumed = ({ tasks }: Plan): number =>
  Math.max(
    0,
    ...tasks.flatMap(({ laneIds }) => laneIds.filter(isAssumed).map((id) => Number(id.split('#')[1]))),
  )

/**
 * The same question with those hands, and with hands of the plan who are not on duty any more as hands without time, so
 * that its tasks still name somebody. Where somebody is held twice, the first hold goes on and the second begins after it.
 * @param holding  turns whose plans hold hands
 */
export function withHandsNow(
  world: World,
  built: BuiltInstance,
  { missing, added }: HandsNow,
  named: readonly LaneId[],
  holding: readonly Turn[],
): BuiltInstance {
  const { instance, originAt, skills } = built
  const maskOf = maskIn(skills)
  const floor = (at: Instant) => Math.floor((at - originAt) / TICK_MS)
  const ceil = (at: Instant) => Math.ceil((at - originAt) / TICK_MS)
  const onDutyTicks = ({ onDuty }: LaneOnDuty): TickSpan[] =>
    onDuty
      .map(({ fromAt, toAt }) => ({
        from: Math.max(0, ceil(fromAt)),
        to: Math.min(instance.horizonTick, floor(toAt)),
      }))
      .filter(({ from, to }) => from < to)
  const missingTicks = (laneId: LaneId): TickSpan[] =>
    missing
      .filter((one) => one.laneId === laneId)
      .map(({ fromAt, toAt }) => ({ from: floor(fromAt), to: ceil(toAt) }))
  const known = new Set<string>(built.lanes.map(({ laneId }) => laneId))
  const lanes: LaneOnDuty[] = [...built.lanes]
  const places: Lane[] = instance.lanes.map((lane, index): Lane => {
    const { laneId } = built.lanes[index]!
    const more = built.lanes[index - 1]?.laneId === laneId ? [] : added.filter((one) => one.laneId === laneId)
    const there = unionOfTicks([...lane.available, ...more.flatMap(onDutyTicks)])
    return { ...lane, available: without(there, missingTicks(laneId)), busy: oneAfterTheOther(lane.busy) }
  })
  const span = { fromAt: originAt, toAt: (originAt + instance.horizonTick * TICK_MS) as Instant }
  const held = reservationsOf(holding, span)
  const room = built.parts[0]?.input.room.id
  const walkMs = world.setup.policy.walkBetweenRoomsSeconds * 1000
  /** All of it counts as here: who is elsewhere is held from when to set out until back. */
  const busyHere = (one: HeldLane) => {
    const walk = one.roomId === room ? 0 : walkMs
    return { from: floor((one.fromAt - walk) as Instant), to: ceil((one.toAt + walk) as Instant), place: 0 }
  }
  for (const one of [...added, ...named.map(nobody)]) {
    if (known.has(one.laneId)) continue
    known.add(one.laneId)
    const all = added.filter(({ laneId }) => laneId === one.laneId)
    lanes.push(one)
    places.push({
      key: one.laneId,
      skillMask: maskOf([...one.skills, ...(one.adult ? [ADULT] : []), ...(one.crew ? [CREW] : [])]),
      available: without(unionOfTicks(all.flatMap(onDutyTicks)), missingTicks(one.laneId)),
      busy: oneAfterTheOther(held.ofLane(one.laneId).map(busyHere)),
    })
  }
  return { ...built, lanes, instance: { ...instance, lanes: places } }
}

const nobody = (laneId: LaneId): LaneOnDuty => ({
  laneId,
  skills: [],
  adult: false,
  paid: false,
  crew: true,
  onDuty: [],
})

/** Disjoint and in order; those that meet become one. */
function unionOfTicks(spans: readonly TickSpan[]): TickSpan[] {
  const union: TickSpan[] = []
  for (const span of spans.toSorted((a, b) => a.from - b.from)) {
    const last = union.at(-1)
    if (last && span.from <= last.to) {
      union[union.length - 1] = { from: last.from, to: Math.max(last.to, span.to) }
    } else union.push(span)
  }
  return union
}

const without = (spans: readonly TickSpan[], gone: readonly TickSpan[]): TickSpan[] =>
  gone
    .reduce<readonly TickSpan[]>(
      (left, one) =>
        left.flatMap((span) =>
          [
            { from: span.from, to: Math.min(span.to, one.from) },
            { from: Math.max(span.from, one.to), to: span.to },
          ].filter(({ from, to }) => from < to),
        ),
      spans,
    )
    .slice()

/** In order; where two meet, the later one begins when the earlier one is over. */
function oneAfterTheOther(busy: Lane['busy']): Lane['busy'] {
  let until = Number.NEGATIVE_INFINITY
  return busy
    .toSorted((a, b) => a.from - b.from || a.to - b.to)
    .flatMap((span) => {
      const from = Math.max(span.from, until)
      if (from >= span.to) return []
      until = span.to
      return [{ ...span, from }]
    })
}
