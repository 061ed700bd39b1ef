/** A wish a little different from one that went well, drawn by chance; the same chance gives the same wish. */
import type { Schedule } from './instance.ts'
import { inOrderOfTime } from './plan-smoothness.ts'
import { type CarriedGround, type CarriedWish, modeWithHands } from './plan-smoothness-wish.ts'

const CHANGES_MOST = 3
const CREWS_MOST = 2

interface OpenWish {
  readonly order: number[]
  readonly modes: number[]
  readonly crews: Map<number, number>
}

/** @param schedule  what came of the wish, with its lanes */
export function variedWish(
  ground: CarriedGround,
  wish: CarriedWish,
  schedule: Schedule,
  random: () => number,
): CarriedWish {
  const open = { order: [...wish.order], modes: [...wish.modes], crews: new Map(wish.crews) }
  const groups = [...ground.members.keys()]
  const changes = 1 + Math.floor(random() * CHANGES_MOST)
  for (let change = 0; change < changes; change++) {
    const members = ground.members.get(oneOf(groups, random))!
    const kind = random()
    if (kind < 0.4) bringTogether(ground, open, schedule, random)
    else if (kind < 0.6)
      changeHands(ground, open, random() < 0.7 ? members : [oneOf(members, random)], random)
    else if (kind < 0.7) changeCrews(open, ground.groups[members[0]!]!, random)
    else {
      // All of a group, or one alone, right before or behind some other activity.
      const moved = random() < 0.6 ? members : [oneOf(members, random)]
      moveTo(open, moved, oneOf(ground.members.get(oneOf(groups, random))!, random), random() < 0.5)
    }
  }
  return open
}

const oneOf = <Item>(list: readonly Item[], random: () => number): Item =>
  list[Math.floor(random() * list.length)]!

/**
 * Where somebody changes from one group to another, more of one of the two is offered to them at that moment, for as
 * many hands; often for one crew alone.
 */
function bringTogether(
  { instance, problem, groups, members }: CarriedGround,
  { order, modes, crews }: OpenWish,
  schedule: Schedule,
  random: () => number,
): void {
  const own: number[][] = instance.lanes.map(() => [])
  for (const { activity, lanes } of inOrderOfTime(schedule)) {
    for (const lane of lanes) own[lane]!.push(activity)
  }
  const offers: { readonly of: number; readonly at: number; readonly more: number }[] = []
  for (const list of own) {
    for (const [position, next] of list.entries()) {
      const before = list[position - 1]
      if (before === undefined || groups[before] === groups[next]) continue
      for (const like of [before, next]) {
        for (const more of members.get(groups[like]!)!) {
          if (!list.includes(more)) offers.push({ of: like, at: next, more })
        }
      }
    }
  }
  if (offers.length === 0) return
  const { of, at, more } = oneOf(offers, random)
  if (random() < 0.5) crews.set(groups[of]!, 1)
  moveTo({ order }, [more], at, random() < 0.5)
  modes[more] = modeWithHands(problem, more, schedule.activities[of]!.lanes.length) ?? modes[more]!
}

/** A pair, or as it was in the schedule given, or more hands than a pair. */
function changeHands(
  { problem, givenModes, pairModes }: CarriedGround,
  { modes }: OpenWish,
  activities: readonly number[],
  random: () => number,
): void {
  const kind = random()
  const share = random()
  for (const activity of activities) {
    const pair = pairModes[activity]!
    const more: number[] = []
    for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
      if (problem.modeHands[mode]! > Math.max(2, problem.modeHands[pair]!)) more.push(mode)
    }
    if (kind < 0.5) modes[activity] = pair
    else if (kind < 0.75) modes[activity] = givenModes[activity]!
    else modes[activity] = more[Math.floor(share * more.length)] ?? pair
  }
}

function changeCrews({ crews }: OpenWish, group: number, random: () => number): void {
  const count = Math.floor(random() * (CREWS_MOST + 1))
  if (count === 0) crews.delete(group)
  else crews.set(group, count)
}

/** The order is numbered anew, with those right before or behind another one, in their own order. */
function moveTo(
  { order }: Pick<OpenWish, 'order'>,
  activities: readonly number[],
  to: number,
  isBefore: boolean,
): void {
  const inOrder = (list: readonly number[]) => [...list].sort((a, b) => order[a]! - order[b]! || a - b)
  const moved = inOrder(activities.filter((activity) => activity !== to))
  const list = inOrder(order.map((_, activity) => activity)).filter((activity) => !moved.includes(activity))
  list.splice(list.indexOf(to) + (isBefore ? 0 : 1), 0, ...moved)
  for (const [position, activity] of list.entries()) order[activity] = position
}
