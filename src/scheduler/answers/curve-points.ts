/** How soon the turn is ready with one pair of hands more each time; never later, by construction. */
import type { Schedule, TickSpan } from '../turn/index.ts'
import { type CrewMember, crewMembers } from './crew-members.ts'
import { type Hands, handsOf, type InstanceWithHands, lanesBesideCrew, united, withHands } from './hands.ts'
import type { InstanceAround } from './instance-around.ts'
import { boundTickOf, reachesMilestones, readyTickOf } from './ready.ts'
import type { Search } from './search.ts'

export interface CurveSearch {
  /** As crewInOrder has them. */
  readonly crew: readonly CrewMember[]
  readonly window: TickSpan
  /** Plans of the turn as it is, without faults: the stored one, and any other. */
  readonly known: readonly Schedule[]
  readonly search: Search
}

/** A plan, and who works in it. */
export interface PlanOfHands {
  readonly readyTick: number
  /** What was asked for earlier is reached in time. */
  readonly isOnTime: boolean
  readonly hands: Hands
  /** So many it takes. */
  readonly handsLeast: number
  /** For how long each of the crew works. */
  readonly ticks: ReadonlyMap<CrewMember, number>
}

export interface PointFound {
  readonly hands: number
  /** The soonest of so many at most; null: no plan is known. */
  readonly soonest: PlanOfHands | null
  /** The soonest that reaches what was asked for earlier in time; null: none is known. */
  readonly onTime: PlanOfHands | null
  /** No plan of so many, whichever of the crew they are, is ready earlier; null: none is possible. */
  readonly boundTick: number | null
}

/**
 * Three choices are tried for each number: the first of the crew in order, beyond the crew all of it and those added; the
 * first of those who are there for most of the time, and those added instead of who comes late; and those of the best plan
 * of more, without who works least in it. A plan counts for as many as work in it and every larger number, and so do those
 * that are known, whoever works in them. Where what is known is proven to be best, nothing is searched.
 * @returns a point for each number from 1 to `to`
 */
export function curvePoints(around: InstanceAround, curve: CurveSearch, to: number): PointFound[] {
  const plans = curve.known.map((schedule) => planAsThingsAre(around, curve, schedule))
  const bounds = Array.from({ length: to }, (_, index) => ({
    hands: index + 1,
    boundTick: boundOfAny(around, curve, index + 1),
  }))
  for (const { hands, boundTick } of bounds.toReversed())
    if (boundTick !== null) searchFor(around, curve, { hands, boundTick, plans })
  const onTime = plans.filter(({ isOnTime }) => isOnTime)
  return bounds.map(({ hands, boundTick }) => ({
    hands,
    boundTick,
    soonest: soonestOf(plans, hands),
    onTime: soonestOf(onTime, hands),
  }))
}

/** All that is searched for one number; what is found is added to the plans. */
function searchFor(
  around: InstanceAround,
  curve: CurveSearch,
  { hands, boundTick, plans }: { readonly hands: number; readonly boundTick: number; plans: PlanOfHands[] },
): void {
  const { crew, window } = curve
  const tried = new Set<string>()
  const tryOut = (chosen: Hands) => {
    const likeness = likenessOf(chosen)
    if (tried.has(likeness)) return
    tried.add(likeness)
    const known = soonestOf(
      plans.filter(({ isOnTime }) => isOnTime),
      hands,
    )
    if (known !== null && known.readyTick <= boundTick) return
    const made = withHands(around, chosen, window)
    const ownTick = boundTickOf(around, made.instance)
    if (ownTick === null || (known !== null && ownTick >= known.readyTick)) return
    const { schedule } = curve.search.find(made.instance)
    if (schedule) plans.push(planOfHands(around, made, schedule))
  }
  tryOut(firstHands(crew, hands))
  tryOut(firstHands(crew.filter(isThereMostly(window)), hands))
  const best = soonestOf(
    plans.filter(({ hands: of }) => of.added === 0 && of.people.length > hands),
    Number.POSITIVE_INFINITY,
  )
  if (best) tryOut({ people: withoutTheIdlest(best, hands), added: 0 })
}

/** The first of the crew, and beyond it those who are added. */
export const firstHands = (crew: readonly CrewMember[], hands: number): Hands => ({
  people: crew.slice(0, hands),
  added: Math.max(0, hands - crew.length),
})

/** For half of the time or more. */
const isThereMostly =
  ({ from, to }: TickSpan) =>
  ({ freeTicks }: CrewMember): boolean =>
    2 * freeTicks >= to - from

/** Of those as soon, that of the fewest. */
function soonestOf(plans: readonly PlanOfHands[], handsMost: number): PlanOfHands | null {
  let soonest: PlanOfHands | null = null
  for (const plan of plans) {
    if (plan.handsLeast > handsMost) continue
    const earlier = soonest === null ? -1 : plan.readyTick - soonest.readyTick
    if (earlier < 0 || (earlier === 0 && plan.handsLeast < soonest!.handsLeast)) soonest = plan
  }
  return soonest
}

/** Whoever is alone in having a skill that is asked for goes last. */
function withoutTheIdlest({ hands, ticks }: PlanOfHands, left: number): CrewMember[] {
  const people = [...hands.people]
  while (people.length > left) {
    const skillsLost = (member: CrewMember) => {
      const others = people.reduce((mask, one) => (one === member ? mask : mask | one.askedMask), 0)
      return member.askedMask & ~others ? 1 : 0
    }
    const [idlest] = [...people].sort(
      (a, b) =>
        skillsLost(a) - skillsLost(b) || ticks.get(a)! - ticks.get(b)! || (a.laneId < b.laneId ? -1 : 1),
    )
    people.splice(people.indexOf(idlest!), 1)
  }
  return people
}

function planAsThingsAre(around: InstanceAround, curve: CurveSearch, schedule: Schedule): PlanOfHands {
  const people = crewMembers(around, curve.window)
  const ownerOf = new Map(people.flatMap((member) => member.lanes.map((lane) => [lane, member])))
  const { instance } = around.built
  const owners = instance.lanes.map((_, lane) => ownerOf.get(lane) ?? null)
  return planOfHands(around, { instance, owners, laneOf: [...owners.keys()] }, schedule)
}

function planOfHands(around: InstanceAround, made: InstanceWithHands, schedule: Schedule): PlanOfHands {
  const { hands, ticks } = handsOf(around, made, schedule)
  return {
    readyTick: readyTickOf(around, schedule),
    isOnTime: reachesMilestones(around, schedule),
    hands,
    handsLeast: hands.people.length + hands.added,
    ticks,
  }
}

/**
 * Whoever they are, they are among all of the crew and as many added; and each of them is no better than one who has
 * every skill that any of those has, and is there whenever any of them is.
 */
function boundOfAny(around: InstanceAround, { crew, window }: CurveSearch, hands: number): number | null {
  const { instance, owners } = withHands(around, { people: crew, added: hands }, window)
  const ofAll = boundTickOf(around, instance)
  if (ofAll === null) return null
  const lanes = instance.lanes.filter((_, lane) => owners[lane] !== null)
  const anybody = {
    skillMask: lanes.reduce((mask, lane) => mask | lane.skillMask, 0),
    available: united(lanes.flatMap(({ available }) => available)),
    busy: [],
  }
  const some = Array.from({ length: hands }, (_, index) => ({ key: `anybody-${index + 1}`, ...anybody }))
  const ofSome = boundTickOf(around, { ...instance, lanes: [...lanesBesideCrew(around), ...some] })
  return ofSome === null ? null : Math.max(ofAll, ofSome)
}

/** Whoever has the same time and skills can take the other's place. */
const likenessOf = ({ people, added }: Hands): string =>
  [...people.map(({ likeness }) => likeness).sort(), String(added)].join('|')
